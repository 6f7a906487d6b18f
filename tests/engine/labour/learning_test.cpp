#include "engine/labour/learning.h"

#include "work.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <stdexcept>

using namespace endband::testing;
using endband::is_valid;
using endband::learned_total;
using endband::LearningCurve;
using endband::LearningModel;
using endband::OperationKind;
using endband::Ratio;
using endband::Work;

namespace {

constexpr LearningModel models[] = {LearningModel::crawford, LearningModel::wright};

// 24 sections a copy, one frame, and a parcel for each.
Work copies_of(int copies, LearningCurve const& curve, endband::Bench const& bench = {}) {
  endband::StepLibrary library{
      {step(OperationKind::sew_sections, spread(600, 900, 1200), spread(60, 90, 180)),
       step(OperationKind::set_up_frame, spread(0, 0, 0), spread(600, 900, 1200)),
       step(OperationKind::mix_paste, spread(0, 0, 0), spread(300, 300, 300)),
       step(OperationKind::pack_parcel, spread(0, 0, 0), spread(900, 900, 900))}};
  library.steps[0].who = {"nobody-known", "anna", "bela", "carl"};
  auto const book = structure_of(
      {operation(OperationKind::sew_sections, 24'000 * copies), operation(OperationKind::set_up_frame, 1'000),
       operation(OperationKind::mix_paste, 1'000), operation(OperationKind::pack_parcel, 1'000 * copies)});
  return endband::work_for(book, {}, library, {.learning = curve}, bench, copies).value();
}

}  // namespace

TEST_CASE("copies are learned by in what is done for each, and in nothing else") {
  LearningCurve const curve{LearningModel::crawford, {80, 100}, 0};
  Work const one = copies_of(1, curve);
  Work const four = copies_of(4, curve);
  CHECK(one.lines[0].mean_seconds == Ratio(900 + 24 * 100));
  // 1 + 0.8 + 0.702104 + 0.64 = 3.142104 (the exhibit of tests/outside/learning_test.cpp)
  CHECK(four.lines[0].mean_seconds ==
        Ratio(900) + Ratio(45'246'298, 6000));         // 24 x 100 s x 3.142104, to 1/6000 s
  auto const milliseconds = [](std::int64_t of_one) {  // x 3.142104, to the nearest
    return Ratio((of_one * 3'142'104 + 500) / 1000, 1000);
  };
  CHECK(four.lines[0].low_seconds == Ratio(600) + milliseconds(24 * 60));
  CHECK(four.lines[0].high_seconds == Ratio(1200) + milliseconds(24 * 180));
  for (std::size_t shared : {1U, 2U})
    CHECK(four.lines[shared].mean_seconds == one.lines[shared].mean_seconds);
  CHECK(four.lines[3].mean_seconds == Ratio(4 * 900));
}

TEST_CASE("without a curve four copies take four times the work of one") {
  CHECK(copies_of(4, {}).lines[0].mean_seconds == Ratio(900 + 4 * 24 * 100));
}

TEST_CASE("no unit is faster than the one at the plateau") {
  for (LearningModel const model : models) {
    LearningCurve const curve{model, {80, 100}, 4};
    LearningCurve const endless{model, {80, 100}, 0};
    CHECK(unit_factor(curve, 3) == unit_factor(endless, 3));
    CHECK(unit_factor(curve, 4) == unit_factor(endless, 4));
    CHECK(unit_factor(curve, 90) == unit_factor(endless, 4));
    CHECK(total_factor(curve, 10) ==
          doctest::Approx(total_factor(endless, 4) + 6 * unit_factor(endless, 4)).epsilon(1e-12));
  }
}

TEST_CASE("a factor is a whole number of millionths, and n where nothing is learned") {
  CHECK(learned_total({LearningModel::crawford, {80, 100}, 0}, 3) == Ratio(2'502'104, 1'000'000));
  CHECK(learned_total({LearningModel::wright, {80, 100}, 0}, 3) == Ratio(2'106'311, 1'000'000));
  CHECK(learned_total({LearningModel::wright, 1, 20}, 7) == Ratio(7));
}

TEST_CASE("a rate of no model, and less than one unit, are errors of ours") {
  CHECK_FALSE(is_valid({LearningModel::crawford, 0, 0}));
  CHECK_FALSE(is_valid({LearningModel::crawford, {101, 100}, 0}));
  CHECK_FALSE(is_valid({LearningModel::crawford, 1, -1}));
  CHECK_FALSE(is_valid({LearningModel::wright, {49, 100}, 0}));  // a second unit of less than no time
  CHECK(is_valid({LearningModel::wright, {1, 2}, 0}));
  CHECK(is_valid({LearningModel::crawford, {49, 100}, 0}));
  CHECK_THROWS_AS(endband::total_factor({LearningModel::wright, {49, 100}, 0}, 2), std::logic_error);
  CHECK_THROWS_AS(learned_total({}, 0), std::logic_error);
  CHECK_THROWS_AS(endband::wright_rate(6, 40, 1), std::logic_error);
}

TEST_CASE("one copy more never takes less, and its unit never more than the one before") {
  CHECK(rc::check([] {
    auto const model = *rc::gen::element(LearningModel::crawford, LearningModel::wright);
    auto const least = model == LearningModel::wright ? 500 : 1;
    LearningCurve const curve{
        model, {*rc::gen::inRange<std::int64_t>(least, 1001), 1000}, *rc::gen::inRange<std::int64_t>(0, 30)};
    int const copies = *rc::gen::inRange(1, 60);
    RC_ASSERT(unit_factor(curve, copies + 1) <= unit_factor(curve, copies) + 1e-12);
    RC_ASSERT(learned_total(curve, copies + 1) >= learned_total(curve, copies));
    Work const fewer = copies_of(copies, curve);
    Work const more = copies_of(copies + 1, curve);
    for (std::size_t i = 0; i < more.lines.size(); ++i) {
      RC_ASSERT(more.lines[i].low_seconds >= fewer.lines[i].low_seconds);
      RC_ASSERT(more.lines[i].mean_seconds >= fewer.lines[i].mean_seconds);
      RC_ASSERT(more.lines[i].high_seconds >= fewer.lines[i].high_seconds);
    }
  }));
}

TEST_CASE("a line is paid at the rate of the first of its people who is here") {
  endband::Money const anna{30'00, endband::read_currency("EUR").value()};
  endband::Bench bench;
  bench.people.resize(3);
  bench.people[0].code = "anna";
  bench.people[1].code = "bela";
  bench.people[2].code = "carl";
  CHECK_FALSE(copies_of(1, {}, bench).lines[0].rate);
  bench.people[1].rate = anna;  // who does it only when the first cannot
  CHECK_FALSE(copies_of(1, {}, bench).lines[0].rate);
  std::string const first = bench.people[0].code;
  bench.people[0].code = "dora";
  CHECK(copies_of(1, {}, bench).lines[0].rate == anna);
  bench.people[0].code = first;
  bench.people[0].rate = anna;
  CHECK(copies_of(1, {}, bench).lines[0].rate == anna);
  CHECK_FALSE(copies_of(1, {}, bench).lines[1].rate);  // anyone does it, at the workshop's
  CHECK_FALSE(copies_of(1, {}).lines[0].rate);
}
