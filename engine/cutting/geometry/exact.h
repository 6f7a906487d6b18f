// What the exact predicates of this folder share. Coordinates up to 1 km keep every product here within 64
// bits.
#pragma once

#include "engine/cutting/geometry/geometry.h"

#include <cstddef>
#include <cstdint>

namespace endband::cutting::exact {

__extension__ using Wide = __int128;

struct Ratio {
  std::int64_t num = 0, den = 1;  // den > 0; both below 2^62
  friend bool operator<(Ratio const& a, Ratio const& b) {
    return static_cast<Wide>(a.num) * b.den < static_cast<Wide>(b.num) * a.den;
  }
};
inline std::int64_t floor_of(Ratio ratio) {
  std::int64_t const towards_zero = ratio.num / ratio.den;
  return ratio.num % ratio.den < 0 ? towards_zero - 1 : towards_zero;
}
inline std::int64_t ceil_of(Ratio ratio) { return -floor_of({-ratio.num, ratio.den}); }

// > 0: c lies left of the line from a to b.
inline std::int64_t cross(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}
inline int sign(std::int64_t value) { return value > 0 ? 1 : value < 0 ? -1 : 0; }
inline int side_of(Point a, Point b, Point c) { return sign(cross(a, b, c)); }

// Anticlockwise positive.
inline std::int64_t twice_signed_area(Polygon const& polygon) {
  std::int64_t sum = 0;
  for (std::size_t i = 2; i < polygon.size(); ++i) sum += cross(polygon[0], polygon[i - 1], polygon[i]);
  return sum;
}

// p lies on the line through a and b; is it between them?
inline bool between(Point a, Point b, Point p) {
  return (a.x <= b.x ? a.x <= p.x && p.x <= b.x : b.x <= p.x && p.x <= a.x) &&
         (a.y <= b.y ? a.y <= p.y && p.y <= b.y : b.y <= p.y && p.y <= a.y);
}
inline bool on_segment(Point a, Point b, Point p) { return between(a, b, p) && side_of(a, b, p) == 0; }

inline Point corner_after(Polygon const& polygon, std::size_t at) {
  return polygon[at + 1 == polygon.size() ? 0 : at + 1];
}

// The two segments cross at one point that is an end of neither.
inline bool cross_properly(Point a, Point b, Point c, Point d) {
  return side_of(a, b, c) * side_of(a, b, d) < 0 && side_of(c, d, a) * side_of(c, d, b) < 0;
}
// The two segments have a point in common.
inline bool meet(Point a, Point b, Point c, Point d) {
  return cross_properly(a, b, c, d) || on_segment(a, b, c) || on_segment(a, b, d) || on_segment(c, d, a) ||
         on_segment(c, d, b);
}

}  // namespace endband::cutting::exact
