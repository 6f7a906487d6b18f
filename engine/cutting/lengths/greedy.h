// Plans at once: roll by roll, the largest pieces first.
#pragma once

#include "engine/cutting/lengths/problem.h"

#include <optional>

namespace endband::cutting::lengths {

enum class Fill : std::uint8_t {
  largest_first,  // first fit decreasing, as it comes out roll by roll
  fullest,  // the largest, then what fills the roll best (minimum bin slack; Gupta & Ho 1999, Fleszar & Hindi
            // 2002)
};
enum class Open : std::uint8_t { least_cost_of_length, shortest, longest };

// A plan of what is left, or none where stock runs out.
std::optional<Plan> greedy(Problem const& problem, Rest rest, Fill fill, Open open, Meter& meter);

// The same cuts out of cheaper stock where there is such.
void exchange_stock(Problem const& problem, Rest const& rest, Plan& plan);

}  // namespace endband::cutting::lengths
