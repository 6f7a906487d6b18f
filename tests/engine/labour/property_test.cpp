// Times against rationals of any size.
#include "engine/labour/seconds.h"
#include "tests/cases.h"
#include "work.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <limits>

using namespace endband::testing;
using boost::multiprecision::cpp_int;
using boost::multiprecision::cpp_rational;
using endband::OperationKind;
using endband::Ratio;
using endband::Spread3;
using endband::Work;

namespace {

cpp_rational exact(Ratio value) { return {cpp_int(value.num()), cpp_int(value.den())}; }

Spread3 any_spread() {
  std::int64_t const low = *rc::gen::inRange<std::int64_t>(0, 10'000);
  std::int64_t const likely = low + *rc::gen::inRange<std::int64_t>(0, 10'000);
  return spread(low, likely, likely + *rc::gen::inRange<std::int64_t>(0, 10'000));
}

cpp_rational mean(Spread3 const& times) {
  return cpp_rational(times.low.n + 4 * times.likely.n + times.high.n) / 6;
}

}  // namespace

TEST_CASE("a line is set-up and count times each, and the work is the sum of its lines") {
  CHECK(endband::testing::check_one_in(10, [] {
    auto const kinds = *rc::gen::unique<std::vector<int>>(
        rc::gen::suchThat(rc::gen::inRange(0, static_cast<int>(endband::operation_count) - 1), [](int kind) {
          return static_cast<OperationKind>(kind) != OperationKind::other_repair;  // has times of its own
        }));
    Ratio const enquiries(*rc::gen::inRange<std::int64_t>(1, 20),
                          *rc::gen::element<std::int64_t>(1, 3, 7, 1000));
    endband::StepLibrary library;
    std::vector<endband::Operation> operations;
    for (int const kind : kinds) {
      auto const of = static_cast<OperationKind>(kind);
      library.steps.push_back(step(of, any_spread(), any_spread()));
      operations.push_back(operation(of, *rc::gen::inRange<std::int64_t>(0, 500'000)));
    }
    Work const work = endband::work_for(structure_of(operations), {}, library, {enquiries}).value();
    cpp_rational total = 0;
    for (std::size_t i = 0; i < work.lines.size(); ++i) {
      auto const& of = library.steps[i];
      cpp_rational expected = mean(of.set_up) + mean(of.each) * operations[i].count.n / 1000;
      if (of.kind == OperationKind::answer_enquiry) expected *= exact(enquiries);
      RC_ASSERT(exact(work.lines[i].mean_seconds) == expected);
      RC_ASSERT(work.lines[i].low_seconds <= work.lines[i].mean_seconds);
      RC_ASSERT(work.lines[i].mean_seconds <= work.lines[i].high_seconds);
      total += expected;
    }
    RC_ASSERT(exact(work.mean_seconds()) == total);
  }));
}

TEST_CASE("times over any denominator are summed exactly, or refused where they leave 64 bits") {
  CHECK(rc::check([] {
    endband::SecondsSum sum;
    cpp_rational expected = 0;
    cpp_int common = endband::SecondsSum::denominator;
    bool left_range = false;
    for (int i = *rc::gen::inRange(0, 8); i > 0; --i) {
      Ratio const time(*rc::gen::inRange<std::int64_t>(-1'000'000, 1'000'000),
                       *rc::gen::inRange<std::int64_t>(1, 200));
      common = lcm(common, cpp_int(time.den()));
      expected += exact(time);
      try {
        if (!left_range) sum.add(time);
      } catch (endband::Overflow const&) {
        left_range = true;
      }
    }
    try {
      if (!left_range) RC_ASSERT(exact(sum.total()) == expected);
    } catch (endband::Overflow const&) {
      left_range = true;
    }
    if (left_range) RC_ASSERT(common * 8'000'000 > std::numeric_limits<std::int64_t>::max());
  }));
}

TEST_CASE("a slower step or more of its driver never takes less") {
  CHECK(rc::check([] {
    auto const kind = OperationKind::sew_sections;
    auto const times = [](Spread3 const& set_up, Spread3 const& each, std::int64_t count) {
      return endband::work_for(structure_of({operation(kind, count)}), {}, {{step(kind, set_up, each)}}, {})
          .value()
          .mean_seconds();
    };
    Spread3 const set_up = any_spread();
    Spread3 each = any_spread();
    std::int64_t const count = *rc::gen::inRange<std::int64_t>(0, 100'000);
    Ratio const before = times(set_up, each, count);
    RC_ASSERT(times(set_up, each, count + *rc::gen::inRange<std::int64_t>(0, 1000)) >= before);
    each.high.n += *rc::gen::inRange<std::int64_t>(0, 1000);
    RC_ASSERT(times(set_up, each, count) >= before);
  }));
}
