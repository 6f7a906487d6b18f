#include "engine/cutting/lengths/remnant.h"

#include "engine/cutting/lengths/knapsack.h"

#include <algorithm>

namespace endband::cutting::lengths {
namespace {

constexpr std::size_t most_rolls = 200;
constexpr std::size_t most_targets = 5;
constexpr std::int64_t steps_of_pair = 20'000;

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
bool repack(Problem const& problem, Pattern& from, Pattern& to) {
  Rest rest = contents(problem, from, to);
  rest.stock[to.stock] = 1;
  std::vector<std::int64_t> sizes;
  for (auto const& type : problem.types) sizes.push_back(type.size);
  Meter meter(steps_of_pair);
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

std::vector<Pattern> gathered(Problem const& problem, std::vector<Pattern> rolls, std::size_t target) {
  for (bool again = true; again;) {
    again = false;
    for (std::size_t other = 0; other < rolls.size(); ++other) {
      if (other != target && slack(problem, rolls[other]) > 0)
        again = repack(problem, rolls[target], rolls[other]) || again;
    }
  }
  return rolls;
}

}  // namespace

void lengthen_remnant(Problem const& problem, Plan& plan) {
  std::int64_t count = 0;
  for (auto const& cut : plan) {
    count += std::min<std::int64_t>(cut.times, most_rolls);
    if (count > static_cast<std::int64_t>(most_rolls)) return;
  }
  std::vector<Pattern> rolls;
  for (auto const& cut : plan) rolls.insert(rolls.end(), static_cast<std::size_t>(cut.times), cut.pattern);
  std::stable_sort(rolls.begin(), rolls.end(),
                   [&](Pattern const& a, Pattern const& b) { return slack(problem, a) > slack(problem, b); });
  std::int64_t longest = longest_slack(problem, plan);
  std::vector<Pattern> best = rolls;
  for (std::size_t target = 0; target < std::min(most_targets, rolls.size()); ++target) {
    auto trial = gathered(problem, rolls, target);
    if (slack(problem, trial[target]) <= longest) continue;
    longest = slack(problem, trial[target]);
    best = std::move(trial);
  }
  plan.clear();
  for (auto& roll : best) plan.push_back({std::move(roll), 1});
}

}  // namespace endband::cutting::lengths
