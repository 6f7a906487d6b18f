#include "engine/cutting/lengths/search.h"

#include <algorithm>
#include <utility>

namespace endband::cutting::lengths {
namespace {

constexpr int deepest = 2000;
constexpr std::size_t most_rows = 1000;  // of a linear program
constexpr std::size_t most_choices = 2000;
constexpr std::size_t seen_numbers = 4'000'000;  // of all states that are kept

std::int64_t above_all(Problem const& problem) {
  std::int64_t dearest = 0;
  for (auto const& stock : problem.stocks) dearest = std::max(dearest, stock.cost);
  std::int64_t const all = dearest * problem.pieces;
  return all < INT64_MAX ? all + 1 : all;
}

Pattern trimmed(Pattern pattern, Rest const& rest) {
  for (auto& part : pattern.parts) part.count = std::min(part.count, rest.demand[part.type]);
  std::erase_if(pattern.parts, [](Part const& part) { return part.count == 0; });
  return pattern;
}

std::int64_t times_possible(Rest const& rest, Pattern const& pattern) {
  std::int64_t times = rest.stock[pattern.stock];
  for (auto const& part : pattern.parts) times = std::min(times, rest.demand[part.type] / part.count);
  return times;
}

}  // namespace

Search::Search(Problem const& problem, Meter& meter)
    : problem_(problem), meter_(meter), cost_(above_all(problem)), relaxation_(problem, meter) {}

void Search::offer(Plan plan) {
  std::int64_t const cost = cost_of(problem_, plan);
  if (plan_ && cost > cost_) return;
  std::int64_t const slack = longest_slack(problem_, plan);
  if (plan_ && cost == cost_ && slack <= slack_) return;
  cost_ = cost;
  slack_ = slack;
  plan_ = std::move(plan);
}

void Search::offer_greedy(Rest const& rest, Fill fill, Open open) {
  auto rest_plan = greedy(problem_, rest, fill, open, meter_);
  if (!rest_plan) return;
  for (auto const& cut : *rest_plan) {
    if (fixed_.empty()) relaxation_.remember(cut.pattern);
  }
  rest_plan->insert(rest_plan->end(), fixed_.begin(), fixed_.end());
  offer(std::move(*rest_plan));
}

// All that is worth a try before any search.
void Search::at_once(Rest const& rest) {
  auto const each_stock = [&](Fill fill) {
    for (auto const open : {Open::least_cost_of_length, Open::shortest, Open::longest}) {
      if (closed() || (open != Open::least_cost_of_length && problem_.stocks.size() == 1)) continue;
      offer_greedy(rest, fill, open);
    }
  };
  each_stock(Fill::largest_first);
  Dual const dual = quick_dual(problem_, rest);
  impossible_ = dual.impossible;
  bound_ = costs(rest).at_least(dual.scaled, dual.den, size_of(problem_, rest));
  if (!meter_.empty()) each_stock(Fill::fullest);
}

void Search::root(Rest const& rest) {
  Relaxed const relaxed = relaxation_.solve(rest, costs(rest), cost_, false);
  impossible_ = impossible_ || relaxed.impossible || (!plan_ && relaxed.bound >= cost_);
  bound_ = std::max(bound_, relaxed.bound);
}

bool Search::fix(Rest& rest, Pattern const& pattern, std::int64_t times) {
  Pattern cut = trimmed(pattern, rest);
  if (cut.parts.empty() || rest.stock[cut.stock] == 0) return false;
  times = std::min(times, times_possible(rest, cut));
  rest.take(cut, times);
  fixed_cost_ += problem_.stocks[cut.stock].cost * times;
  fixed_.push_back({std::move(cut), times});
  return true;
}

// Takes what the linear program takes whole, and where there is none, what it takes most; `turns` times the
// next instead (limited discrepancy; Harvey & Ginsberg 1995). True: the plan is closed.
bool Search::dive(Rest const& rest, int turns, bool guide) {
  if (rest.pieces == 0) {
    offer(fixed_);
    return closed();
  }
  if (meter_.empty()) return false;
  Relaxed const relaxed = relaxation_.solve(rest, costs(rest), cost_ - fixed_cost_, guide);
  if (relaxed.impossible || relaxed.bound + fixed_cost_ >= cost_ || relaxed.taken.empty()) return closed();
  auto const mark = fixed_.size();
  auto const cost = fixed_cost_;
  auto const undo = [&] {
    fixed_.resize(mark);
    fixed_cost_ = cost;
  };
  Rest next = rest;
  for (auto const& taken : relaxed.taken) {
    auto const times = static_cast<std::int64_t>(taken.times + 1e-3);
    if (times >= 1) fix(next, taken.pattern, times);
  }
  if (fixed_.size() > mark) {
    offer_greedy(next, Fill::fullest, Open::least_cost_of_length);
    bool const done = closed() || dive(next, turns, guide);
    undo();
    return done;
  }
  for (std::size_t turn = 0; turn < relaxed.taken.size() && std::cmp_less_equal(turn, turns); ++turn) {
    next = rest;
    fix(next, relaxed.taken[turn].pattern, 1);
    bool const done = dive(next, turns - static_cast<int>(turn), guide);
    undo();
    if (done) return true;
  }
  return false;
}

bool Search::seen(Rest const& rest) {
  State state = rest.demand;
  state.insert(state.end(), rest.stock.begin(), rest.stock.end());
  std::size_t const numbers = state.size() + 8;
  auto const at = seen_.find(state);
  if (at == seen_.end()) {
    if (seen_.size() * numbers < seen_numbers) seen_.emplace(std::move(state), fixed_cost_);
    return false;
  }
  if (at->second <= fixed_cost_) return true;
  at->second = fixed_cost_;
  return false;
}

// Those of endless stock alone change little with what was used of it, so it counts as whole.
Costs const& Search::costs(Rest const& rest) {
  State stock = rest.stock;
  for (std::size_t s = 0; s < stock.size(); ++s) {
    if (problem_.stocks[s].unlimited) stock[s] = problem_.stocks[s].limit;
  }
  auto const at = costs_.find(stock);
  if (at != costs_.end()) return at->second;
  if (costs_.empty()) costs_up_to_ = cost_;
  std::int64_t const steps = std::min(costs_up_to_, Costs::largest_table);
  bool const many = static_cast<std::int64_t>(costs_.size() + 1) * steps > 16 * Costs::largest_table;
  if (many && !costs_.empty()) return costs_.rbegin()->second;
  meter_.spend(steps * static_cast<std::int64_t>(stock.size()) / 8);
  Costs made(problem_, stock, costs_up_to_);
  return costs_.emplace(std::move(stock), std::move(made)).first->second;
}

bool Search::explore(Rest const& rest, int depth) {
  meter_.spend(1);
  if (rest.pieces == 0) {
    offer(fixed_);
    return true;
  }
  if (meter_.empty() || depth == deepest) return false;
  if (fixed_cost_ >= cost_ || seen(rest)) return true;
  Relaxed const relaxed = relaxation_.solve(rest, costs(rest), cost_ - fixed_cost_, false);
  if (relaxed.impossible || relaxed.bound + fixed_cost_ >= cost_) return true;
  if (meter_.empty() || relaxed.dual.values.empty()) return false;
  offer_greedy(rest, Fill::largest_first, Open::least_cost_of_length);
  return branch(rest, relaxed, depth);
}

bool Search::branch(Rest const& rest, Relaxed const& relaxed, int depth) {
  Dual const& dual = relaxed.dual;
  Wide const room = Wide{cost_ - 1 - fixed_cost_} * dual.den - dual.scaled;
  if (room < 0) return true;
  auto listed = choices(problem_, rest, dual, room, most_choices, meter_);
  auto const times = [&](Pattern const& pattern) {
    for (auto const& taken : relaxed.taken) {
      bool const same =
          taken.pattern.stock == pattern.stock &&
          std::equal(taken.pattern.parts.begin(), taken.pattern.parts.end(), pattern.parts.begin(),
                     pattern.parts.end(),
                     [](Part const& a, Part const& b) { return a.type == b.type && a.count == b.count; });
      if (same) return taken.times;
    }
    return 0.0;
  };
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t c = 0; c < listed.all.size(); ++c) order.emplace_back(-times(listed.all[c].pattern), c);
  std::stable_sort(order.begin(), order.end(), [&](auto const& a, auto const& b) {
    if (a.first != b.first) return a.first < b.first;
    return listed.all[a.second].reduced_cost < listed.all[b.second].reduced_cost;
  });
  bool complete = listed.complete;
  Costs const& all = costs(rest);
  std::int64_t const need = size_of(problem_, rest);
  for (auto const& [taken, c] : order) {
    auto const& choice = listed.all[c];
    if (closed()) return true;
    if (meter_.empty()) return false;
    std::int64_t const bound = all.at_least(dual.scaled + choice.reduced_cost, dual.den, need);
    if (bound >= cost_ - fixed_cost_) continue;
    Rest next = rest;
    auto const cost = fixed_cost_;
    fix(next, choice.pattern, 1);
    complete = explore(next, depth + 1) && complete;
    fixed_.pop_back();
    fixed_cost_ = cost;
  }
  return complete;
}

void Search::deepen(Rest const& rest) {
  if (!closed() && !meter_.empty()) root(rest);
  for (int turns = 0; turns < 3; ++turns) {
    for (bool const guide : {true, false}) {
      if (!closed() && !meter_.empty()) dive(rest, turns, guide);
    }
  }
  if (!closed() && !meter_.empty() && explore(rest, 0)) {
    bound_ = std::max(bound_, cost_);
    impossible_ = !plan_;
  }
}

Found Search::run() {
  Rest const rest = whole(problem_);
  at_once(rest);
  bool const exact_counts = problem_.stocks.front().capacity < std::int64_t{1} << 50;  // as floating point
  if (exact_counts && problem_.types.size() + problem_.stocks.size() <= most_rows) deepen(rest);
  return {std::move(plan_), impossible_ ? 0 : bound_, impossible_};
}

}  // namespace endband::cutting::lengths
