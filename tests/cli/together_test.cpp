// What runs in threads: the solvers' tasks and the simulation's, with the same result as one after another.
// The thread sanitizer watches this program (tests/long.sh threads).
#include "cli/process/together.h"

#include "engine/cutting/sheets/sheets.h"
#include "engine/risk/risk.h"

#include <doctest/doctest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

using namespace endband;
using cli::run_together;

namespace {

std::vector<std::function<void()>> counting(std::atomic<int>& count, int tasks, int throws_at = -1) {
  std::vector<std::function<void()>> all;
  for (int i = 0; i < tasks; ++i)
    all.emplace_back([&count, i, throws_at] {
      ++count;
      if (throws_at >= 0 && i >= throws_at) throw std::runtime_error(std::to_string(i));
    });
  return all;
}

Work work_of(int lines) {
  Work work;
  for (int i = 0; i < lines; ++i) {
    WorkLine line;
    line.kind = OperationKind::sew_sections;
    line.part = Part::sewing;
    line.count = {1000};
    line.low_seconds = Ratio(600 + i);
    line.mean_seconds = Ratio(1200 + 7 * i);
    line.high_seconds = Ratio(2400 + 31 * i);
    work.lines.push_back(line);
  }
  return work;
}

cutting::SheetRequest pieces() {
  cutting::SheetRequest request;
  request.sheets = {{700'000, 1'000'000, 1'000'000, std::nullopt, false}};
  for (int i = 0; i < 12; ++i)
    request.pieces.push_back(
        {90'000 + 7'300 * (i * 5 % 17), 120'000 + 9'100 * (i * 7 % 19), 1 + i % 3, true});
  return request;
}

}  // namespace

TEST_CASE("every task is run once") {
  std::atomic<int> count{0};
  auto const tasks = counting(count, 57);
  run_together(tasks);
  CHECK(count == 57);
}

TEST_CASE("what the first of them threw is thrown once all have ended") {
  std::atomic<int> count{0};
  auto const tasks = counting(count, 20, 7);
  CHECK_THROWS_WITH_AS(run_together(tasks), "7", std::runtime_error);
  CHECK(count == 20);
}

TEST_CASE("hours simulated at once are those simulated one after another") {
  Work const work = work_of(12);
  RiskRules const rules{.seed = 3, .runs = 20'000, .confidence = {80, 100}};
  auto const alone = simulate_hours(work, rules), at_once = simulate_hours(work, rules, run_together);
  REQUIRE(alone);
  REQUIRE(at_once);
  CHECK(alone->mean == at_once->mean);
  REQUIRE(alone->quantiles.size() == at_once->quantiles.size());
  for (std::size_t i = 0; i < alone->quantiles.size(); ++i)
    CHECK(alone->quantiles[i].work == at_once->quantiles[i].work);
}

TEST_CASE("sheets planned at once are those planned one after another") {
  auto const alone = plan_sheets(pieces(), {.work = 100'000, .run_all = {}}),
             at_once = plan_sheets(pieces(), {.work = 100'000, .run_all = run_together});
  CHECK(alone.proof.cost == at_once.proof.cost);
  CHECK(alone.proof.bound == at_once.proof.bound);
  CHECK(alone.proof.work == at_once.proof.work);
  CHECK(alone.used.size() == at_once.used.size());
}
