// For the .cpp files of this module only: polygons held against each other without a predicate of the
// geometry module, so that a fault there cannot hide a fault of a plan.
//
// The edges of all polygons are parted where they meet others. Beside such a part, on either hand, a point
// lies in the same polygons everywhere: so two polygons overlap if and only if there is a side that lies in
// both, one lies within another if and only if no side lies in the one alone, and areas are sums over parts.
// Touching edges and corners need no case of their own. Exact for |coordinate| <= 28 m, but for parts shorter
// than 2^-61 of their edge, which are passed over.
#pragma once

#include "engine/cutting/geometry/geometry.h"

#include <functional>
#include <span>
#include <vector>

namespace endband::cutting {

using Polygons = std::vector<Polygon const*>;
using Inside = std::vector<bool>;  // by polygon

// Whether any side of any part of an edge satisfies `wanted`.
bool any_side(Polygons const& polygons, std::function<bool(Inside const&)> const& wanted);
// Twice the area where `wanted` holds, rounded down; a sum within 2^-40 below a whole number counts as that.
std::int64_t twice_area_where(Polygons const& polygons, std::function<bool(Inside const&)> const& wanted);

bool meet(Polygon const& one, Polygon const& other);  // their interiors have a point in common
bool lies_within(Polygon const& inner, Polygon const& outer);
// Interiors apart, or one within the other: whether their edges come closer than `distance`.
bool closer(Polygon const& one, Polygon const& other, std::int64_t distance);
// Twice the area of `outline` less the union of `flaws`, rounded as above.
std::int64_t twice_area_usable(Polygon const& outline, std::span<Polygon const> flaws);

}  // namespace endband::cutting
