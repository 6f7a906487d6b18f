// What no plan can go below, in whole numbers: any value of the pieces gives a bound through the most that
// each stock can hold of it, wherever the values come from (Farley 1990), so a linear program in floating
// point may guess them.
#pragma once

#include "engine/cutting/lengths/problem.h"

#include <optional>

namespace endband::cutting::lengths {

// Pieces are worth num/den * values. A stock s of which a roll is worth more than it costs is bounded by its
// copies: surplus[s] <= 0 is what each of them gives back, times den. scaled = den * the bound.
struct Dual {
  std::vector<std::int64_t> values;
  std::int64_t num = 0;
  std::int64_t den = 1;
  std::vector<Wide> surplus;
  Wide scaled = 0;
  bool impossible = false;  // all stock together is too little

  // What the pattern of this worth costs more than it brings, times den: not negative.
  Wide reduced_cost(Problem const& problem, std::size_t stock, std::int64_t worth) const {
    return Wide{problem.stocks[stock].cost} * den - Wide{num} * worth - surplus[stock];
  }
};

// most[s]: no pattern of stock s is worth more. The best factor for these values is chosen.
Dual dual_of(Problem const& problem, Rest const& rest, std::vector<std::int64_t> values,
             std::vector<std::int64_t> const& most);

// Bounds that need no search: total length and, where there is one stock, dual feasible functions (Martello &
// Toth 1990; Fekete & Schepers 2001). Of several, the best.
Dual quick_dual(Problem const& problem, Rest const& rest);

// Which costs there are at all: of whole rolls, and long enough together. A bound is raised to the next one.
class Costs {
 public:
  // For costs up to about `up_to`; above, and where there would be too many, every multiple of what costs
  // have in common.
  Costs(Problem const& problem, std::vector<std::int64_t> const& stock, std::int64_t up_to);
  // The least that is >= num / den and buys `need` of size; saturates.
  std::int64_t at_least(Wide num, std::int64_t den, std::int64_t need) const;

  static constexpr std::int64_t largest_table = 1 << 16;

 private:
  void allow(std::int64_t cost, std::int64_t size);

  std::int64_t unit_ = 1;
  std::int64_t most_ = 0;            // more size than this is never needed
  std::vector<std::int64_t> sizes_;  // most size for exactly this cost, in units; -1: there is no such cost
};

}  // namespace endband::cutting::lengths
