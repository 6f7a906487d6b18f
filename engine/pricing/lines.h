// How a price is shared over what a buyer pays for.
#pragma once

#include "engine/costing/costing.h"
#include "engine/pricing/component.h"

#include <array>
#include <cstdint>

namespace endband {

using Weights = std::array<std::int64_t, component_count>;
inline std::size_t index_of(Component component) { return static_cast<std::size_t>(component); }

// What each component costs by itself. Overhead, allowances, packing and office belong to none: sharing the
// price by these weights spreads them in the same proportions.
Weights own_costs(CostSheet const& sheet);
// The same, but that of a price for hours beside the bench alone, or for a least charge, all is binding's.
Weights weights_of(Weights own);

// Minor units of each component: of `whole`, `at_cost` is the outside work's own (all, when it is more), the
// rest by weight and largest remainder.
std::array<std::int64_t, component_count> share_over(std::int64_t whole, std::int64_t at_cost,
                                                     Weights const& weights);

}  // namespace endband
