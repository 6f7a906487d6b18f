#include "engine/cutting/lengths/bound.h"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <utility>

namespace endband::cutting::lengths {
namespace {

constexpr std::size_t most_raised = 200;

bool runs_out(Problem const& problem, Rest const& rest, std::size_t s) {
  return !problem.stocks[s].unlimited && rest.stock[s] < rest.pieces;
}

// The bound at num / den, times den.
Wide scaled_at(Problem const& problem, Rest const& rest, Wide worth, std::vector<std::int64_t> const& most,
               std::int64_t num, std::int64_t den) {
  Wide scaled = Wide{num} * worth;
  for (std::size_t s = 0; s < most.size(); ++s) {
    if (rest.stock[s] == 0 || !runs_out(problem, rest, s)) continue;
    Wide const surplus = Wide{problem.stocks[s].cost} * den - Wide{num} * most[s];
    if (surplus < 0) scaled += surplus * rest.stock[s];
  }
  return scaled;
}

// a/b < c/d with b, d > 0 and the products within range.
bool less(Wide a, std::int64_t b, Wide c, std::int64_t d) {
  Wide const whole_a = a / b, whole_c = c / d;
  if (whole_a != whole_c) return whole_a < whole_c;
  return (a % b) * d < (c % d) * b;
}

}  // namespace

Dual dual_of(Problem const& problem, Rest const& rest, std::vector<std::int64_t> values,
             std::vector<std::int64_t> const& most) {
  Dual dual;
  Wide worth = 0;
  for (std::size_t t = 0; t < values.size(); ++t) worth += Wide{values[t]} * rest.demand[t];
  dual.values = std::move(values);
  dual.surplus.assign(most.size(), 0);

  // The bound is concave and piecewise linear in the factor, so it is greatest at one of these: where a stock
  // pays for itself.
  Wide held = 0;
  bool endless = false;
  bool set = false;
  for (std::size_t s = 0; s < most.size(); ++s) {
    if (rest.stock[s] == 0 || most[s] == 0) continue;
    bool const limited = runs_out(problem, rest, s);
    if (limited) held += Wide{most[s]} * rest.stock[s];
    endless = endless || !limited;
    std::int64_t const num = problem.stocks[s].cost, den = most[s];
    bool const allowed =
        std::none_of(most.begin(), most.end(), [&, o = std::size_t{0}](std::int64_t other) mutable {
          std::size_t const at = o++;
          return rest.stock[at] > 0 && !runs_out(problem, rest, at) &&
                 Wide{problem.stocks[at].cost} * den < Wide{num} * other;
        });
    if (!allowed) continue;
    Wide const scaled = scaled_at(problem, rest, worth, most, num, den);
    if (!set || less(dual.scaled, dual.den, scaled, den)) {
      dual.num = num;
      dual.den = den;
      dual.scaled = scaled;
      set = true;
    }
  }
  dual.impossible = !endless && worth > held;
  for (std::size_t s = 0; s < most.size(); ++s) {
    if (rest.stock[s] == 0 || !runs_out(problem, rest, s)) continue;
    dual.surplus[s] = std::min<Wide>(0, Wide{problem.stocks[s].cost} * dual.den - Wide{dual.num} * most[s]);
  }
  return dual;
}

namespace {

// Raised to 0, the size or the whole: what no two large pieces leave room for.
std::vector<std::int64_t> raised(Problem const& problem, std::int64_t capacity, std::int64_t small) {
  std::vector<std::int64_t> values;
  for (auto const& type : problem.types) {
    values.push_back(type.size < small ? 0 : type.size > capacity - small ? capacity : type.size);
  }
  return values;
}

// Sizes in k-ths of the roll, rounded down, where (k + 1) of a size are no whole number of rolls. Times k *
// capacity.
std::vector<std::int64_t> rounded(Problem const& problem, std::int64_t capacity, std::int64_t k) {
  std::vector<std::int64_t> values;
  for (auto const& type : problem.types) {
    Wide const times = Wide{type.size} * (k + 1);
    values.push_back(times % capacity == 0 ? type.size * k
                                           : static_cast<std::int64_t>(times / capacity) * capacity);
  }
  return values;
}

// Products of costs and lengths, summed over the stocks, stay within 128 bits.
bool in_range(Problem const& problem) {
  Wide total = 0, cost = 1, longest = 1;
  for (auto const& type : problem.types) total += Wide{type.size} * type.demand;
  for (auto const& stock : problem.stocks) {
    cost = std::max<Wide>(cost, stock.cost);
    longest = std::max<Wide>(longest, stock.capacity);
  }
  Wide const room = (Wide{1} << 120) / static_cast<Wide>(problem.stocks.size() + 1);
  return cost * std::max<std::int64_t>(1, problem.pieces) < room / std::max(total, longest);
}

}  // namespace

Dual quick_dual(Problem const& problem, Rest const& rest) {
  std::vector<std::int64_t> sizes, capacities;
  if (!in_range(problem))
    return dual_of(problem, rest, std::vector<std::int64_t>(problem.types.size(), 0),
                   std::vector<std::int64_t>(problem.stocks.size(), 0));
  for (auto const& type : problem.types) sizes.push_back(type.size);
  for (auto const& stock : problem.stocks) capacities.push_back(stock.capacity);
  Dual best = dual_of(problem, rest, sizes, capacities);
  if (problem.stocks.size() != 1 ||
      problem.stocks[0].capacity >= INT64_MAX / 256 / std::max<std::int64_t>(1, rest.pieces)) {
    return best;
  }
  std::int64_t const capacity = capacities[0];
  auto const better = [&](std::vector<std::int64_t> values, std::int64_t most) {
    Dual dual = dual_of(problem, rest, std::move(values), {most});
    if (dual.impossible || less(best.scaled, best.den, dual.scaled, dual.den)) best = std::move(dual);
  };
  std::size_t const step = problem.types.size() / most_raised + 1;
  for (std::size_t t = 0; t < problem.types.size(); t += step) {
    std::int64_t const small = problem.types[t].size;
    if (2 * small <= capacity) better(raised(problem, capacity, small), capacity);
  }
  for (std::int64_t k = 1; k <= 20; ++k) better(rounded(problem, capacity, k), k * capacity);
  return best;
}

Costs::Costs(Problem const& problem, std::vector<std::int64_t> const& stock, std::int64_t up_to) {
  unit_ = 0;
  for (auto const& kind : problem.stocks) unit_ = std::gcd(unit_, kind.cost);
  unit_ = std::max<std::int64_t>(unit_, 1);
  if (up_to / unit_ >= largest_table) return;
  for (auto const& type : problem.types) most_ += type.size * type.demand;
  sizes_.assign(static_cast<std::size_t>(up_to / unit_) + 1, -1);
  sizes_[0] = 0;
  for (std::size_t s = 0; s < stock.size(); ++s) {
    Stock const& kind = problem.stocks[s];
    std::int64_t const cost = kind.cost / unit_, size = std::min(kind.capacity, most_);
    std::int64_t const useful = cost == 0 ? stock[s] : std::min(stock[s], (up_to / unit_) / cost);
    for (std::int64_t left = useful, lump = 1; left > 0; left -= lump, lump *= 2) {
      lump = std::min(lump, left);
      allow(cost * lump, static_cast<std::int64_t>(std::min<Wide>(most_, Wide{size} * lump)));
    }
  }
}

// One lump more, taken or left.
void Costs::allow(std::int64_t cost, std::int64_t size) {
  auto const step = static_cast<std::size_t>(cost);
  for (std::size_t c = sizes_.size(); c-- > step;) {
    if (sizes_[c - step] < 0) continue;
    std::int64_t const with = size > most_ - sizes_[c - step] ? most_ : sizes_[c - step] + size;
    sizes_[c] = std::max(sizes_[c], with);
  }
}

std::int64_t Costs::at_least(Wide num, std::int64_t den, std::int64_t need) const {
  Wide const unit = Wide{den} * unit_;
  Wide units = num <= 0 ? 0 : (num + unit - 1) / unit;
  while (units < static_cast<Wide>(sizes_.size()) && sizes_[static_cast<std::size_t>(units)] < need) ++units;
  Wide const cost = units * unit_;
  return cost > INT64_MAX ? INT64_MAX : static_cast<std::int64_t>(cost);
}

}  // namespace endband::cutting::lengths
