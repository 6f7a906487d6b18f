#include "work.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>

using namespace endband::testing;
using endband::FaultCode;
using endband::OperationKind;
using endband::Part;
using endband::Ratio;
using endband::Read;
using endband::StepLibrary;
using endband::Structure;
using endband::Work;
using endband::WorkRules;

namespace {

constexpr std::int64_t minute = 60;
constexpr std::int64_t hour = 3600;

Work worked(Structure const& structure, StepLibrary const& library, WorkRules const& rules = {}) {
  return endband::work_for(structure, {}, library, rules).value();
}

}  // namespace

// (low + 4 x likely + high) / 6: PERT; Malcolm, Roseboom, Clark and Fazar 1959, from memory.
TEST_CASE("six, eight or sixteen hours are nine on average, not eight") {
  CHECK(endband::mean_of(spread(6 * hour, 8 * hour, 16 * hour)) == Ratio(9 * hour));
}

// US GAO, Cost Estimating and Assessment Guide (GAO-20-195G), table 12; the mean of each range recomputed.
TEST_CASE("the mean of published ranges is exact") {
  CHECK(endband::mean_of(spread(17'955, 19'645, 21'785)) == Ratio(19'720));
  CHECK(endband::mean_of(spread(8'500, 10'553, 13'000)) == Ratio(31'856, 3));
  CHECK(endband::mean_of(spread(4'000, 4'306, 5'100)) == Ratio(13'162, 3));
  CHECK(endband::mean_of(spread(4'100, 4'305, 4'650)) == Ratio(12'985, 3));
  CHECK(endband::mean_of(spread(550, 600, 650)) == Ratio(600));
  CHECK(endband::mean_of(spread(32'300, 35'547, 52'500)) == Ratio(113'494, 3));
  CHECK(endband::mean_of(spread(1'950, 2'136, 2'600)) == Ratio(6'547, 3));
}

TEST_CASE("a step takes its set-up once and its time for each of its driver") {
  StepLibrary const library{{step(OperationKind::sew_sections, spread(5 * minute, 10 * minute, 15 * minute),
                                  spread(2 * minute, 3 * minute, 4 * minute))}};
  Work const work = worked(structure_of({operation(OperationKind::sew_sections, 24'000)}), library);
  REQUIRE(work.lines.size() == 1);
  CHECK(work.lines[0].step_version == 7);
  CHECK(work.lines[0].low_seconds == Ratio((5 + 24 * 2) * minute));
  CHECK(work.lines[0].mean_seconds == Ratio((10 + 24 * 3) * minute));
  CHECK(work.lines[0].high_seconds == Ratio((15 + 24 * 4) * minute));
}

TEST_CASE("a part of a driver takes a part of the time, exactly") {
  StepLibrary const library{{step(OperationKind::pare_edges, spread(0, 0, 0), spread(10, 20, 35))}};
  Work const work = worked(structure_of({operation(OperationKind::pare_edges, 1'337)}), library);
  CHECK(work.lines[0].mean_seconds == Ratio(1'337, 48));
  CHECK(work.lines[0].low_seconds == Ratio(1'337, 100));
}

TEST_CASE("an operation done in two places is set up once") {
  StepLibrary const library{{step(OperationKind::blind_lines, spread(600, 600, 600), spread(60, 60, 60))}};
  Work const work = worked(structure_of({operation(OperationKind::blind_lines, 2'000, Part::lines),
                                         operation(OperationKind::blind_lines, 3'000, Part::cover)}),
                           library);
  CHECK(work.lines[0].mean_seconds == Ratio(720));
  CHECK(work.lines[1].mean_seconds == Ratio(180));
  CHECK(work.mean_seconds() == Ratio(900));
}

TEST_CASE("the enquiries that came to nothing are paid by those that did not") {
  StepLibrary const library{{step(OperationKind::answer_enquiry, spread(60, 60, 60), spread(600, 900, 1800)),
                             step(OperationKind::sew_sections, spread(0, 0, 0), spread(60, 60, 60))}};
  auto const book = structure_of({operation(OperationKind::answer_enquiry, 1'000, Part::office),
                                  operation(OperationKind::sew_sections, 1'000)});
  Work const one = worked(book, library);
  Work const of_seven_three = worked(book, library, {.enquiries_an_order = {7, 3}});
  CHECK(one.lines[0].mean_seconds == Ratio(1060));
  CHECK(of_seven_three.lines[0].mean_seconds == Ratio(1060) * Ratio(7, 3));
  CHECK(of_seven_three.lines[0].high_seconds == Ratio(1860) * Ratio(7, 3));
  CHECK(of_seven_three.lines[0].count.n == 2'333);
  CHECK(of_seven_three.lines[1].mean_seconds == one.lines[1].mean_seconds);
}

TEST_CASE("the wait of a step comes with its line") {
  StepLibrary library{{step(OperationKind::glue_spine, spread(0, 0, 0), spread(60, 60, 60))}};
  library.steps[0].wait_low = {8 * hour};
  library.steps[0].wait_high = {12 * hour};
  Work const work = worked(structure_of({operation(OperationKind::glue_spine, 1'000)}), library);
  CHECK(work.lines[0].wait_low.n == 8 * hour);
  CHECK(work.lines[0].wait_high.n == 12 * hour);
}

TEST_CASE("work that a description adds has its own times and words") {
  endband::BookSpec spec;
  spec.extra_work = {{"burn the edges", {0}, {0}, {0}, {}},
                     {"age the leather", {10 * minute}, {20 * minute}, {40 * minute}, {}}};
  auto extra = operation(OperationKind::extra_work, 1'000, Part::extras);
  extra.extra = 1;
  Work const work = endband::work_for(structure_of({extra}), spec, {}, {}).value();
  REQUIRE(work.lines.size() == 1);
  CHECK(work.lines[0].words == "age the leather");
  CHECK(work.lines[0].step_version == 0);
  CHECK(work.lines[0].mean_seconds == Ratio(130 * minute, 6));
  extra.extra = 2;
  CHECK_THROWS_AS(endband::work_for(structure_of({extra}), spec, {}, {}), std::logic_error);
}

TEST_CASE("a repair without a step of its own takes the times of its row, for each of its pieces") {
  endband::BookSpec spec;
  spec.repairs.resize(2);
  spec.repairs[1] = {.kind = endband::RepairKind::other,
                     .count = 3,
                     .words = "wash a map",
                     .low = {60},
                     .likely = {120},
                     .high = {240},
                     .where = {}};
  auto other = operation(OperationKind::other_repair, 3'000, Part::repairs);
  other.extra = 1;
  Work const work = endband::work_for(structure_of({other}), spec, {}, {}).value();
  CHECK(work.lines.front().words == "wash a map");
  CHECK(work.lines.front().part == Part::repairs);
  CHECK(work.lines.front().low_seconds == Ratio(180));
  CHECK(work.lines.front().mean_seconds == Ratio(3 * (60 + 4 * 120 + 240), 6));
}

TEST_CASE("all steps without times are named at once, each once") {
  StepLibrary const library{{step(OperationKind::sew_sections, spread(0, 0, 0), spread(60, 60, 60))}};
  Read<Work> const work = endband::work_for(
      structure_of({operation(OperationKind::round_spine, 1'000),
                    operation(OperationKind::sew_sections, 1'000), operation(OperationKind::set_stone, 1'000),
                    operation(OperationKind::round_spine, 1'000)}),
      {}, library, {});
  REQUIRE_FALSE(work.has_value());
  REQUIRE(work.error().size() == 2);
  CHECK(work.error()[0].code == FaultCode::missing_step);
  CHECK(work.error()[0].where.field == "round-spine");
  CHECK(work.error()[1].where.field == "set-stone");
}

TEST_CASE("a library finds a step by its kind, wherever it stands") {
  StepLibrary const library{
      {step(OperationKind::set_stone, {}, {}), step(OperationKind::cut_sheets, {}, {})}};
  CHECK(library.find(OperationKind::cut_sheets) == &library.steps[1]);
  CHECK(library.find(OperationKind::set_stone) == &library.steps[0]);
  CHECK(library.find(OperationKind::fit_clasps) == nullptr);
}

TEST_CASE("times out of range overflow") {
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  StepLibrary const library{{step(OperationKind::cut_sheets, {}, spread(most, most, most))}};
  CHECK_THROWS_AS(worked(structure_of({operation(OperationKind::cut_sheets, 1'000)}), library),
                  endband::Overflow);
}
