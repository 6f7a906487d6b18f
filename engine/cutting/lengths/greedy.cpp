#include "engine/cutting/lengths/greedy.h"

#include <algorithm>

namespace endband::cutting::lengths {
namespace {

constexpr std::int64_t nodes_of_roll = 2'000;

std::int64_t times_of(Rest const& rest, Pattern const& pattern) {
  std::int64_t times = rest.stock[pattern.stock];
  for (auto const& part : pattern.parts) times = std::min(times, rest.demand[part.type] / part.count);
  return times;
}

Pattern largest_first(Problem const& problem, Rest const& rest, std::size_t stock) {
  Pattern pattern{stock, {}};
  std::int64_t left = problem.stocks[stock].capacity;
  for (std::size_t t = 0; t < problem.types.size(); ++t) {
    std::int64_t const count = std::min(rest.demand[t], left / problem.types[t].size);
    if (count == 0) continue;
    pattern.parts.push_back({t, count});
    left -= count * problem.types[t].size;
  }
  return pattern;
}

// Depth first, larger pieces first; stops at the first that leaves nothing.
class Fullest {
 public:
  Fullest(Problem const& problem, Rest const& rest, std::int64_t nodes) : problem_(problem), nodes_(nodes) {
    for (std::size_t t = 0; t < rest.demand.size(); ++t) {
      if (rest.demand[t] > 0) types_.push_back({t, rest.demand[t]});
    }
    sums_.assign(types_.size() + 1, 0);
    for (std::size_t i = types_.size(); i-- > 0;) {
      std::int64_t const size = problem.types[types_[i].type].size;
      sums_[i] = sums_[i + 1] + size * types_[i].count;
    }
  }

  Pattern fill(std::size_t stock) {
    std::int64_t const left = problem_.stocks[stock].capacity;
    least_ = left + 1;
    std::size_t const first = first_within(0, left);
    --types_[first].count;
    chosen_.push_back({types_[first].type, 1});
    descend(first, left - size(first));
    Pattern pattern{stock, {}};
    for (auto const& part : best_) {
      if (!pattern.parts.empty() && pattern.parts.back().type == part.type) {
        pattern.parts.back().count += part.count;
      } else {
        pattern.parts.push_back(part);
      }
    }
    return pattern;
  }
  std::int64_t nodes() const { return nodes_; }

 private:
  std::int64_t size(std::size_t i) const { return problem_.types[types_[i].type].size; }

  std::size_t first_within(std::size_t from, std::int64_t left) const {
    auto const begin = types_.begin() + static_cast<std::ptrdiff_t>(from);
    auto const at = std::partition_point(
        begin, types_.end(), [&](Part const& part) { return problem_.types[part.type].size > left; });
    return static_cast<std::size_t>(at - types_.begin());
  }

  void descend(std::size_t from, std::int64_t left) {
    --nodes_;
    if (left < least_) {
      least_ = left;
      best_ = chosen_;
    }
    for (std::size_t i = first_within(from, left); i < types_.size() && least_ > 0 && nodes_ > 0; ++i) {
      if (left - sums_[i] >= least_) return;  // all of them would leave as much
      --nodes_;
      std::int64_t const most = std::min(types_[i].count, left / size(i));
      for (std::int64_t count = most; count > 0 && least_ > 0 && nodes_ > 0; --count) {
        chosen_.push_back({types_[i].type, count});
        descend(i + 1, left - count * size(i));
        chosen_.pop_back();
      }
    }
  }

  Problem const& problem_;
  std::int64_t nodes_;
  std::vector<Part> types_;
  std::vector<std::int64_t> sums_;
  std::vector<Part> chosen_;
  std::vector<Part> best_;
  std::int64_t least_ = 0;
};

Pattern fullest(Problem const& problem, Rest const& rest, std::size_t stock, Meter& meter) {
  Fullest search(problem, rest, std::min(nodes_of_roll, std::max<std::int64_t>(1, meter.left())));
  std::int64_t const before = search.nodes();
  Pattern pattern = search.fill(stock);
  meter.spend(before - search.nodes());
  return pattern;
}

bool better(Problem const& problem, Open open, Pattern const& a, Pattern const& b) {
  Stock const& sa = problem.stocks[a.stock];
  Stock const& sb = problem.stocks[b.stock];
  switch (open) {
    case Open::shortest: return sa.capacity < sb.capacity;
    case Open::longest: return sa.capacity > sb.capacity;
    case Open::least_cost_of_length: break;
  }
  return Wide{sa.cost} * used_size(problem, b) < Wide{sb.cost} * used_size(problem, a);
}

// Of the stocks that hold the largest piece; the cheapest that holds all, where that is no dearer.
std::optional<Pattern> next_cut(Problem const& problem, Rest const& rest, Fill fill, Open open,
                                Meter& meter) {
  std::size_t largest = 0;
  while (rest.demand[largest] == 0) ++largest;
  Wide total = 0;
  for (std::size_t t = 0; t < rest.demand.size(); ++t) total += Wide{rest.demand[t]} * problem.types[t].size;
  std::optional<Pattern> best, all;
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    if (rest.stock[s] == 0 || problem.stocks[s].capacity < problem.types[largest].size) continue;
    bool const holds_all = problem.stocks[s].capacity >= total;
    bool const quick = fill == Fill::largest_first || holds_all || meter.empty();
    Pattern pattern = quick ? largest_first(problem, rest, s) : fullest(problem, rest, s, meter);
    if (holds_all && (!all || problem.stocks[s].cost < problem.stocks[all->stock].cost)) all = pattern;
    if (!best || better(problem, open, pattern, *best)) best = std::move(pattern);
  }
  if (all && problem.stocks[all->stock].cost <= problem.stocks[best->stock].cost) return all;
  return best;
}

}  // namespace

std::optional<Plan> greedy(Problem const& problem, Rest rest, Fill fill, Open open, Meter& meter) {
  Plan plan;
  Rest const before = rest;
  while (rest.pieces > 0) {
    auto pattern = next_cut(problem, rest, fill, open, meter);
    if (!pattern) return std::nullopt;
    std::int64_t const times = times_of(rest, *pattern);
    rest.take(*pattern, times);
    meter.spend(1 + static_cast<std::int64_t>(rest.demand.size()) / 10);
    plan.push_back({std::move(*pattern), times});
  }
  exchange_stock(problem, before, plan);
  return plan;
}

void exchange_stock(Problem const& problem, Rest const& rest, Plan& plan) {
  auto left = rest.stock;
  for (auto const& cut : plan) left[cut.pattern.stock] -= cut.times;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    std::size_t const from = plan[i].pattern.stock;
    std::int64_t const used = used_size(problem, plan[i].pattern);
    std::size_t to = from;
    for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
      if (left[s] > 0 && problem.stocks[s].capacity >= used &&
          problem.stocks[s].cost < problem.stocks[to].cost)
        to = s;
    }
    if (to == from) continue;
    std::int64_t const moved = std::min(left[to], plan[i].times);
    left[to] -= moved;
    left[from] += moved;
    if (moved < plan[i].times)
      plan.push_back({plan[i].pattern, plan[i].times - moved});  // looked at again later
    plan[i].times = moved;
    plan[i].pattern.stock = to;
  }
}

}  // namespace endband::cutting::lengths
