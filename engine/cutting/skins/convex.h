// Convex polygons and their Minkowski sums: where one convex part, sliding, meets another. All in whole
// micrometres, anticlockwise.
#pragma once

#include "engine/cutting/geometry/geometry.h"

namespace endband::cutting::skins {

// What one part may not do: the mover's corner strictly within `area` means that the interiors meet.
struct Barrier {
  Polygon area;      // convex, anticlockwise
  Polygon mirrored;  // the same with x and y changed, anticlockwise
  Box box;
};
struct Span {
  std::int64_t low = 0, high = 0;
};

Polygon anticlockwise(Polygon polygon);
// A simple polygon that covers it with fewer hollows, so that few parts tile it: hollows that add little are
// filled, and the least ones until at most `hollows` are left.
Polygon filled_out(Polygon const& polygon, std::size_t hollows);
// Of convex polygons; a segment is one of two corners.
Polygon minkowski_sum(Polygon const& one, Polygon const& other);
// By a square of that half side: all within the margin, and a little more off the corners.
Polygon grown(Polygon const& convex, std::int64_t margin);
Polygon negated(Polygon polygon);

Barrier barrier(Polygon area);
// Where the upright line at x = at is strictly within `convex`: the whole numbers from low + 1 to high - 1.
// False: it misses.
bool across(Polygon const& convex, std::int64_t at, Span& span);

inline std::int64_t floor_div(std::int64_t a, std::int64_t b) {  // b > 0
  std::int64_t const q = a / b;
  return q * b > a ? q - 1 : q;
}
inline std::int64_t ceil_div(std::int64_t a, std::int64_t b) {  // b > 0
  std::int64_t const q = a / b;
  return q * b < a ? q + 1 : q;
}

}  // namespace endband::cutting::skins
