#include "engine/cutting/lengths/lengths.h"

#include "engine/cutting/lengths/remnant.h"
#include "engine/cutting/lengths/search.h"

#include <algorithm>

namespace endband::cutting {
namespace {

using lengths::Wide;

constexpr std::int64_t most_for_remnant = 200'000;

std::vector<Obstacle> too_large(LengthRequest const& request) {
  std::vector<Obstacle> obstacles;
  std::int64_t longest = 0;
  for (auto const& roll : request.rolls) {
    if (roll.copies.value_or(1) > 0) longest = std::max(longest, roll.length);
  }
  for (std::size_t p = 0; p < request.pieces.size(); ++p) {
    auto const& piece = request.pieces[p];
    if (piece.copies == 0 || piece.length <= longest) continue;
    if (longest == 0) {
      obstacles.push_back({static_cast<int>(p), Why::not_enough, Side::none, 0});
    } else {
      obstacles.push_back({static_cast<int>(p), Why::too_large, Side::none, piece.length - longest});
    }
  }
  return obstacles;
}

// Pieces that no endless roll holds: only they can lack stock.
std::vector<Obstacle> short_of_stock(LengthRequest const& request) {
  std::int64_t endless = 0;
  for (auto const& roll : request.rolls) {
    if (!roll.copies) endless = std::max(endless, roll.length);
  }
  std::vector<Obstacle> obstacles;
  for (std::size_t p = 0; p < request.pieces.size(); ++p) {
    auto const& piece = request.pieces[p];
    if (piece.copies > 0 && piece.length > endless) {
      obstacles.push_back({static_cast<int>(p), Why::not_enough, Side::none, 0});
    }
  }
  return obstacles;
}

// They are longer, together, than all rolls that hold one of them.
bool too_long_together(lengths::Problem const& problem) {
  std::int64_t endless = 0;
  for (auto const& stock : problem.stocks) {
    if (stock.unlimited) endless = std::max(endless, stock.capacity);
  }
  Wide wanted = 0, held = 0;
  std::int64_t smallest = INT64_MAX;
  for (auto const& type : problem.types) {
    if (type.size <= endless) continue;
    wanted += Wide{type.size} * type.demand;
    smallest = type.size;
  }
  for (auto const& stock : problem.stocks) {
    if (stock.capacity >= smallest) held += Wide{stock.capacity} * stock.limit;
  }
  return wanted > held;
}

}  // namespace

Answer<CutRoll> plan_lengths(LengthRequest const& request, Budget const& budget) {
  lengths::validate(request);
  Answer<CutRoll> answer;
  answer.obstacles = too_large(request);
  if (!answer.obstacles.empty()) {
    answer.outcome = Outcome::impossible;
    return answer;
  }
  lengths::Problem const problem = lengths::problem_of(request);
  if (problem.pieces == 0) {
    answer.outcome = Outcome::planned;
    return answer;
  }
  std::int64_t const work = std::max<std::int64_t>(0, budget.work);
  std::int64_t const for_remnant = std::min(work / 10, most_for_remnant);
  lengths::Meter meter(work - for_remnant);
  lengths::Found found;
  found.impossible = too_long_together(problem);
  if (!found.impossible) found = lengths::Search(problem, meter).run();
  answer.proof.work = meter.spent();
  if (found.impossible) {
    answer.outcome = Outcome::impossible;
    answer.obstacles = short_of_stock(request);
    return answer;
  }
  answer.proof.bound = found.bound;
  if (!found.plan) return answer;
  answer.outcome = Outcome::planned;
  lengths::Meter remnant_meter(for_remnant);
  lengths::lengthen_remnant(problem, *found.plan, remnant_meter);
  answer.proof.work += remnant_meter.spent();
  answer.proof.cost = lengths::cost_of(problem, *found.plan);
  answer.used = lengths::cut_rolls(request, problem, *found.plan);
  return answer;
}

}  // namespace endband::cutting
