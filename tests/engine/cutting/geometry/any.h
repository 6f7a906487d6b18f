// Any polygons, for properties.
#pragma once

#include "engine/cutting/geometry/geometry.h"

#include <rapidcheck.h>

#include <algorithm>
#include <utility>

namespace endband::cutting::any {

inline std::int64_t number(std::int64_t from, std::int64_t to) {
  return *rc::gen::inRange<std::int64_t>(from, to + 1);
}

inline Polygon triangle(std::int64_t size) {
  Polygon corners(3);
  for (Point& corner : corners) corner = {number(0, size), number(0, size)};
  if (twice_area(corners) == 0) corners = {{0, 0}, {size, 0}, {0, size}};
  return corners;
}

// A rectangle, or one with a corner cut out, either way round.
inline Polygon rectilinear(std::int64_t size) {
  std::int64_t const width = number(1, size), height = number(1, size);
  Polygon polygon = rectangle(width, height);
  if (width > 1 && height > 1 && number(0, 1) == 1) {
    std::int64_t const x = number(1, width - 1), y = number(1, height - 1);
    polygon = {{0, 0}, {width, 0}, {width, y}, {x, y}, {x, height}, {0, height}};
  }
  polygon = turned(polygon, 90 * static_cast<int>(number(0, 3)));
  if (number(0, 1) == 1) std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

inline Polygon somewhere(Polygon polygon, std::int64_t size) {
  return moved(std::move(polygon), {number(0, size), number(0, size)});
}

// Whether the unit cell with this lower left corner is in a rectilinear polygon: a ray through cell centres
// meets an odd number of upright edges.
inline bool has_cell(Polygon const& polygon, std::int64_t x, std::int64_t y) {
  bool in = false;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    Point const a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    if (a.x == b.x && a.x > x && std::min(a.y, b.y) <= y && y < std::max(a.y, b.y)) in = !in;
  }
  return in;
}

}  // namespace endband::cutting::any
