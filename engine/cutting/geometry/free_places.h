// The places that convex polygons leave free, in whole micrometres.
#pragma once

#include "engine/cutting/geometry/geometry.h"

#include <functional>
#include <optional>
#include <vector>

namespace endband::cutting::exact {

// The lowest, then leftmost whole point of `range` that is inside none of the convex polygons (anticlockwise)
// and that `accept` takes. `accept` must say the same all over a connected free stretch; what is unbounded is
// not taken.
std::optional<Point> lowest_free(std::vector<Polygon> const& forbidden, Box const& range,
                                 std::function<bool(Point)> const& accept);

}  // namespace endband::cutting::exact
