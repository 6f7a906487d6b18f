#include "engine/cutting/lengths/remnant.h"

#include "engine/cutting/lengths/knapsack.h"

#include <algorithm>

namespace endband::cutting::lengths {
namespace {

constexpr std::size_t most_rolls = 200;
constexpr std::size_t most_targets = 5;

Rest contents(Problem const& problem, Pattern const& a, Pattern const& b) {
  Rest rest;
  rest.demand.assign(problem.types.size(), 0);
  rest.stock.assign(problem.stocks.size(), 0);
  for (auto const* pattern : {&a, &b}) {
    for (auto const& part : pattern->parts) {
      rest.demand[part.type] += part.count;
      rest.pieces += part.count;
    }
  }
  return rest;
}

std::int64_t slack(Problem const& problem, Pattern const& pattern) {
  return problem.stocks[pattern.stock].length - used_size(problem, pattern) * problem.unit;
}

// Moves from `from` to `to` what fits best there. False: nothing gained.
bool repack(Problem const& problem, Pattern& from, Pattern& to, Meter& meter) {
  Rest rest = contents(problem, from, to);
  rest.stock[to.stock] = 1;
  std::vector<std::int64_t> sizes;
  for (auto const& type : problem.types) sizes.push_back(type.size);
  auto const filling = best_fillings(problem, rest, sizes, meter)[to.stock];
  if (filling.value <= used_size(problem, to)) return false;
  to.parts = filling.parts;
  rest.stock[to.stock] = 1;
  rest.take(to, 1);
  from.parts.clear();
  for (std::size_t t = 0; t < rest.demand.size(); ++t) {
    if (rest.demand[t] > 0) from.parts.push_back({t, rest.demand[t]});
  }
  return true;
}

Plan gathered(Problem const& problem, std::vector<Pattern> rolls, std::size_t target, Meter& meter) {
  for (bool again = true; again;) {
    again = false;
    for (std::size_t other = 0; other < rolls.size(); ++other) {
      if (other == target || meter.empty() || slack(problem, rolls[other]) == 0) continue;
      again = repack(problem, rolls[target], rolls[other], meter) || again;
    }
  }
  Plan plan;
  for (auto& roll : rolls) {
    if (!roll.parts.empty()) plan.push_back({std::move(roll), 1});
  }
  return plan;
}

}  // namespace

void lengthen_remnant(Problem const& problem, Plan& plan, Meter& meter) {
  std::int64_t count = 0;
  for (auto const& cut : plan) {
    count += std::min<std::int64_t>(cut.times, most_rolls + 1);
    if (count > static_cast<std::int64_t>(most_rolls)) return;
  }
  std::vector<Pattern> rolls;
  for (auto const& cut : plan) rolls.insert(rolls.end(), static_cast<std::size_t>(cut.times), cut.pattern);
  std::stable_sort(rolls.begin(), rolls.end(),
                   [&](Pattern const& a, Pattern const& b) { return slack(problem, a) > slack(problem, b); });
  for (std::size_t target = 0; target < std::min(most_targets, rolls.size()); ++target) {
    Plan trial = gathered(problem, rolls, target, meter);
    std::int64_t const less = cost_of(problem, plan) - cost_of(problem, trial);
    if (less > 0 || (less == 0 && longest_slack(problem, trial) > longest_slack(problem, plan)))
      plan = std::move(trial);
  }
}

}  // namespace endband::cutting::lengths
