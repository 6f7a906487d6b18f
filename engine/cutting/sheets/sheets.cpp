#include "engine/cutting/sheets/sheets.h"

#include "engine/cutting/sheets/bound.h"
#include "engine/cutting/sheets/equal_pieces.h"
#include "engine/cutting/sheets/finish.h"
#include "engine/cutting/sheets/roll.h"
#include "engine/cutting/sheets/search.h"

#include <algorithm>
#include <memory>
#include <optional>

namespace endband::cutting {
namespace {

constexpr int strands = 2;

void run_all(Budget const& budget, std::vector<std::function<void()>> const& tasks) {
  if (budget.run_all) return budget.run_all(tasks);
  for (auto const& task : tasks) task();
}

// Where one roll is all there is, and is long enough: its own plan, which proves more. What was torn off is
// charged whole.
std::optional<Answer<CutSheet>> off_one_roll(SheetRequest request, Budget const& budget) {
  if (request.sheets.size() != 1 || !request.sheets.front().by_length) return std::nullopt;
  request.least_kept = 0;
  Answer<CutSheet> answer = plan_roll(request.sheets.front(), request, budget);
  if (answer.outcome != Outcome::planned) return std::nullopt;
  return answer;
}

std::vector<int> pieces_of(CutSheet const& cut) {
  std::vector<int> pieces;
  for (Laid const& laid : cut.laid) pieces.push_back(laid.piece);
  std::sort(pieces.begin(), pieces.end());
  return pieces;
}

// Sheets of one kind that give the same pieces are cut alike, as the one of them that keeps the most.
void cut_alike(SheetRequest const& request, Answer<CutSheet>& answer) {
  std::vector<CutSheet> patterns;
  for (CutSheet& cut : answer.used) {
    auto const same = std::find_if(patterns.begin(), patterns.end(), [&](CutSheet const& other) {
      return other.sheet == cut.sheet && other.length == cut.length && pieces_of(other) == pieces_of(cut) &&
             worth_kept(request, other) >= worth_kept(request, cut);
    });
    if (same == patterns.end()) {
      patterns.push_back(cut);
      continue;
    }
    answer.proof.cost -= worth_kept(request, *same) - worth_kept(request, cut);
    cut = *same;
  }
}

void cut_equal_pieces_anew(SheetRequest const& request, Answer<CutSheet>& answer) {
  for (CutSheet& cut : answer.used) {
    CutSheet anew = keep_most(request, cut);
    answer.proof.cost -= worth_kept(request, anew) - worth_kept(request, cut);
    cut = std::move(anew);
  }
}

using Strands = std::vector<std::unique_ptr<many::Strand>>;

// Each takes the step, all of them at once where the budget runs them so; `best` is the best of all after it.
void take_step(Strands const& lines, Budget const& budget, std::function<void(many::Strand&)> const& step,
               std::optional<many::Plan>& best) {
  std::vector<std::function<void()>> tasks;
  tasks.reserve(lines.size());
  for (auto const& line : lines) tasks.emplace_back([&line, &step] { step(*line); });
  run_all(budget, tasks);
  for (auto const& line : lines)
    if (line->best() && (!best || line->best()->better_than(*best))) best = line->best();
}

// Rolls alone are planned by one strand at once; else two search in two rounds, and finish what is kept or
// torn off.
std::optional<many::Plan> searched(many::Job const& job, Budget const& budget, Proof& proof) {
  auto const is_roll = [](many::Kind const& kind) { return kind.roll; };
  bool const rolls = std::any_of(job.kinds.begin(), job.kinds.end(), is_roll);
  bool const only_rolls = std::all_of(job.kinds.begin(), job.kinds.end(), is_roll);
  std::int64_t const share = budget.work / strands / (job.request->least_kept > 0 || rolls ? 3 : 2);
  Strands lines;
  for (int i = 0; i < (only_rolls ? 1 : strands); ++i)
    lines.push_back(std::make_unique<many::Strand>(job, proof.bound, i));
  auto const search = [&](many::Strand& line) { line.run(only_rolls ? 0 : share); };
  std::optional<many::Plan> best;
  for (int round = 0; round < 2; ++round) {
    take_step(lines, budget, search, best);
    if (best)
      for (auto const& line : lines) line->adopt(*best);
  }
  auto const finish = [&](many::Strand& line) {
    line.shorten_rolls(only_rolls ? 5 * share : share);
    line.shape_best(share);
  };
  take_step(lines, budget, finish, best);
  for (auto const& line : lines) proof.work += line->work();
  return best;
}

}  // namespace

Answer<CutSheet> plan_sheets(SheetRequest const& request, Budget const& budget) {
  many::Job const job = many::job_of(request);
  Answer<CutSheet> answer;
  if (job.pieces == 0) {
    answer.outcome = Outcome::planned;
    return answer;
  }
  if (auto alone = off_one_roll(request, budget)) return *std::move(alone);
  answer.obstacles = many::misfits(request);
  auto const bound = answer.obstacles.empty() ? many::bound_of(job) : std::nullopt;
  if (!bound) {
    answer.outcome = Outcome::impossible;
    if (answer.obstacles.empty())
      answer.obstacles.push_back({job.types.front().pieces.front(), Why::not_enough, Side::none, 0});
    return answer;
  }
  answer.proof.bound = *bound;
  std::optional<many::Plan> const best = searched(job, budget, answer.proof);
  if (!best) {
    answer.obstacles.push_back({job.types.front().pieces.front(), Why::not_enough, Side::none, 0});
    return answer;
  }
  answer.outcome = Outcome::planned;
  answer.proof.cost = best->cost;
  many::Dealer dealer(job);
  for (many::Planned const& planned : best->patterns)
    for (std::int64_t n = 0; n < planned.times; ++n) answer.used.push_back(dealer.cut_sheet(planned.pattern));
  if (job.worth_counts()) cut_equal_pieces_anew(request, answer);
  cut_alike(request, answer);
  return answer;
}

}  // namespace endband::cutting
