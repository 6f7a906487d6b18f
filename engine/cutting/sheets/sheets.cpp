#include "engine/cutting/sheets/sheets.h"

#include "engine/cutting/sheets/bound.h"
#include "engine/cutting/sheets/finish.h"
#include "engine/cutting/sheets/search.h"

#include <algorithm>
#include <memory>

namespace endband::cutting {
namespace {

using namespace many;  // NOLINT

constexpr int strands = 2;

void run_all(Budget const& budget, std::vector<std::function<void()>> const& tasks) {
  if (budget.run_all) return budget.run_all(tasks);
  for (auto const& task : tasks) task();
}

}  // namespace

Answer<CutSheet> plan_sheets(SheetRequest const& request, Budget const& budget) {
  Job const job = job_of(request);
  Answer<CutSheet> answer;
  if (job.pieces == 0) {
    answer.outcome = Outcome::planned;
    return answer;
  }
  answer.obstacles = misfits(request);
  auto const bound = answer.obstacles.empty() ? bound_of(job) : std::nullopt;
  if (!bound) {
    answer.outcome = Outcome::impossible;
    if (answer.obstacles.empty())
      answer.obstacles.push_back({job.types.front().pieces.front(), Why::not_enough, Side::none, 0});
    return answer;
  }
  answer.proof.bound = *bound;
  std::vector<std::unique_ptr<Strand>> lines;
  for (int i = 0; i < strands; ++i) lines.push_back(std::make_unique<Strand>(job, *bound, i));
  std::optional<Plan> best;
  // Two rounds of search, and where something is kept one of shaping.
  std::int64_t const share = budget.work / strands / (request.least_kept > 0 ? 3 : 2);
  for (int round = 0; round < 2; ++round) {
    std::vector<std::function<void()>> tasks;
    for (auto const& line : lines)
      tasks.emplace_back([&line, &budget] { line->run(budget.work / strands / 2); });
    run_all(budget, tasks);
    for (auto const& line : lines)
      if (line->best() && (!best || line->best()->better_than(*best))) best = line->best();
    if (best)
      for (auto const& line : lines) line->adopt(*best);
  }
  if (request.least_kept > 0) {
    std::vector<std::function<void()>> tasks;
    for (auto const& line : lines) tasks.emplace_back([&line, share] { line->shape_best(share); });
    run_all(budget, tasks);
    for (auto const& line : lines)
      if (line->best() && (!best || line->best()->better_than(*best))) best = line->best();
  }
  for (auto const& line : lines) answer.proof.work += line->work();
  if (!best) {
    answer.obstacles.push_back({job.types.front().pieces.front(), Why::not_enough, Side::none, 0});
    return answer;
  }
  answer.outcome = Outcome::planned;
  answer.proof.cost = best->cost;
  Dealer dealer(job);
  for (Planned const& planned : best->patterns)
    for (std::int64_t n = 0; n < planned.times; ++n) answer.used.push_back(dealer.cut_sheet(planned.pattern));
  return answer;
}

}  // namespace endband::cutting
