// Convex polygons: hulls, sums, and what a simple polygon is made of.
#pragma once

#include "engine/cutting/geometry/geometry.h"

#include <span>
#include <vector>

namespace endband::cutting::exact {

// Anticlockwise, no straight corners. Andrew 1979.
Polygon hull_of(Polygon points);
// Of all sums of a point of each.
Polygon hull_of_sums(std::span<Point const> one, std::span<Point const> other);
// Convex polygons that share no inside and cover the simple polygon: ears cut off (Meisters 1975), then
// joined again while they stay convex (Hertel & Mehlhorn 1983).
std::vector<Polygon> convex_parts(Polygon const& polygon);

}  // namespace endband::cutting::exact
