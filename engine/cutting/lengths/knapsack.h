// The most that one roll can be worth: the bounded knapsack, for every capacity of the stocks at once.
#pragma once

#include "engine/cutting/lengths/problem.h"

namespace endband::cutting::lengths {

struct Filling {
  std::int64_t bound = 0;  // no filling is worth more
  std::int64_t value = 0;  // of this one
  std::vector<Part> parts;
  std::vector<std::vector<Part>>
      others;  // fillings worth less that were met on the way: of larger pieces only
};

// One for each stock; of a stock that is used up, empty. Values are not negative; the sum over all pieces is
// below 2^56. A table over the capacities where that is small (Bellman 1957), else a depth-first search that
// the meter cuts short, whose bound is then that of the continuous knapsack (Dantzig 1957).
std::vector<Filling> best_fillings(Problem const& problem, Rest const& rest,
                                   std::vector<std::int64_t> const& values, Meter& meter);

}  // namespace endband::cutting::lengths
