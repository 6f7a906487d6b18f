// Hours told of steps beside what they are timed at now.
#include "engine/review/step_times.h"

#include <doctest/doctest.h>

using doctest::Approx;
using namespace endband;

namespace {

constexpr OperationKind folding = OperationKind::fold_sheets;
constexpr OperationKind sew = OperationKind::sew_sections;

Step step_of(OperationKind kind, std::int64_t set_up, std::int64_t each) {
  Step step;
  step.kind = kind;
  step.set_up = {{set_up}, {set_up}, {set_up}};
  step.each = {{each}, {each}, {each}};
  return step;
}

// Folding at 1 min + 30 s a sheet, sewing at 10 min + 5 min a section; the versions that quotes were made
// with say the same.
StepLibrary const library{{step_of(folding, 60, 30), step_of(sew, 600, 300)}};
std::vector<StepTimes> const as_quoted{{1, Ratio(60), Ratio(30)}, {2, Ratio(600), Ratio(300)}};

QuotedStep sewn(std::size_t job, std::int64_t sections) {
  return {job, sew, Part::sewing, 2, Count{sections * 1000}, Ratio(600 + 300 * sections)};
}
ToldStep hours(std::size_t job, OperationKind kind, std::int64_t seconds) {
  return {job, kind, {}, {seconds}};
}
ToldStep hours_of(std::size_t job, Part part, std::int64_t seconds) { return {job, {}, part, {seconds}}; }

}  // namespace

TEST_CASE("what was told stands beside what was quoted, told in several goes and quoted in several lines") {
  std::vector const told{hours(0, sew, 1800), hours(0, sew, 900), hours(1, sew, 4000)};
  std::vector const quoted{sewn(0, 4), QuotedStep{0, sew, Part::sewing, 2, Count{2000}, Ratio(600)},
                           sewn(1, 10)};
  StepsSeen const seen = steps_seen(told, quoted, as_quoted, library);
  REQUIRE(seen.steps.size() == 1);
  StepSeen const& sewing = seen.steps.front();
  CHECK(sewing.operation == sew);
  CHECK(sewing.jobs == std::vector<std::size_t>{0, 1});
  CHECK(sewing.times.at(0).believed == Approx(600 + 300 * 6));
  CHECK(sewing.times.at(0).was == Approx(2700));
  CHECK(sewing.times.at(1).believed == Approx(3600));
}

TEST_CASE("a step that was learned is not learned again: what was quoted counts at the times of now") {
  StepLibrary const slower{{step_of(sew, 900, 450)}};  // half as long again
  StepsSeen const seen =
      steps_seen(std::vector{hours(0, sew, 3600)}, std::vector{sewn(0, 6)}, as_quoted, slower);
  REQUIRE(seen.steps.size() == 1);
  CHECK(seen.steps.front().times.front().believed == Approx(2400 * 1.5));
}

TEST_CASE("hours of a whole part teach no step, nor does a step of it that was told beside them") {
  std::vector const told{hours_of(0, Part::sewing, 7200), hours(0, sew, 600), hours(1, sew, 3000),
                         hours_of(1, Part::boards, 900)};
  StepsSeen const seen = steps_seen(told, std::vector{sewn(0, 6), sewn(1, 6)}, as_quoted, library);
  CHECK(seen.jobs_by_part == 2);
  REQUIRE(seen.steps.size() == 1);
  CHECK(seen.steps.front().jobs == std::vector<std::size_t>{1});
}

TEST_CASE("what was not quoted, or is not timed now, teaches nothing") {
  StepLibrary const without{{step_of(folding, 60, 30)}};
  CHECK(steps_seen(std::vector{hours(0, folding, 500)}, std::vector{sewn(0, 6)}, as_quoted, library)
            .steps.empty());
  CHECK(
      steps_seen(std::vector{hours(0, sew, 500)}, std::vector{sewn(0, 6)}, as_quoted, without).steps.empty());
  StepsSeen const nothing = steps_seen({}, {}, {}, library);
  CHECK(nothing.steps.empty());
  CHECK(nothing.jobs_by_part == 0);
}
