#include "engine/cutting/geometry/convex.h"

#include "engine/cutting/geometry/exact.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

namespace endband::cutting::exact {

namespace {

void drop_straight_corners(Polygon& polygon) {
  for (std::size_t i = 0; polygon.size() > 3 && i < polygon.size();) {
    std::size_t const before = (i + polygon.size() - 1) % polygon.size();
    if (cross(polygon[before], polygon[i], corner_after(polygon, i)) != 0) {
      ++i;
      continue;
    }
    polygon.erase(polygon.begin() + static_cast<std::ptrdiff_t>(i));
    i = i == 0 ? 0 : i - 1;
  }
}

bool is_ear(Polygon const& polygon, std::size_t i) {
  std::size_t const count = polygon.size();
  Point const a = polygon[(i + count - 1) % count], b = polygon[i], c = corner_after(polygon, i);
  if (cross(a, b, c) <= 0) return false;
  for (Point p : polygon)
    if (p != a && p != b && p != c && cross(a, b, p) >= 0 && cross(b, c, p) >= 0 && cross(c, a, p) >= 0)
      return false;
  return true;
}

bool is_convex(Polygon const& polygon) {
  for (std::size_t i = 0; i < polygon.size(); ++i)
    if (cross(polygon[i], corner_after(polygon, i), polygon[(i + 2) % polygon.size()]) < 0) return false;
  return true;
}

// The two joined over an edge that they share, where that is convex.
std::optional<Polygon> joined(Polygon one, Polygon other) {
  for (std::size_t i = 0; i < one.size(); ++i)
    for (std::size_t k = 0; k < other.size(); ++k) {
      if (one[i] != corner_after(other, k) || corner_after(one, i) != other[k]) continue;
      // one: b ... a, other: a ... b; each from the far end of the shared edge.
      std::rotate(one.begin(), one.begin() + static_cast<std::ptrdiff_t>((i + 1) % one.size()), one.end());
      std::rotate(other.begin(), other.begin() + static_cast<std::ptrdiff_t>((k + 1) % other.size()),
                  other.end());
      one.insert(one.end(), std::next(other.begin()), std::prev(other.end()));
      if (!is_convex(one)) return std::nullopt;
      drop_straight_corners(one);
      return one;
    }
  return std::nullopt;
}

bool join_once(std::vector<Polygon>& parts) {
  for (std::size_t i = 0; i < parts.size(); ++i)
    for (std::size_t k = i + 1; k < parts.size(); ++k)
      if (std::optional<Polygon> both = joined(parts[i], parts[k])) {
        parts[i] = std::move(*both);
        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(k));
        return true;
      }
  return false;
}

}  // namespace

Polygon hull_of(Polygon points) {
  std::sort(points.begin(), points.end());
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return points;
  Polygon hull;
  for (int chain = 0; chain < 2; ++chain) {
    std::size_t const first = hull.size();
    for (Point p : points) {
      while (hull.size() >= first + 2 && cross(hull[hull.size() - 2], hull.back(), p) <= 0) hull.pop_back();
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

Polygon hull_of_sums(std::span<Point const> one, std::span<Point const> other) {
  Polygon sums;
  sums.reserve(one.size() * other.size());
  for (Point a : one)
    for (Point b : other) sums.push_back({a.x + b.x, a.y + b.y});
  return hull_of(std::move(sums));
}

std::vector<Polygon> convex_parts(Polygon const& polygon) {
  Polygon left = polygon;
  if (twice_signed_area(left) < 0) std::reverse(left.begin(), left.end());
  drop_straight_corners(left);
  if (is_convex(left)) return {left};
  std::vector<Polygon> parts;
  for (std::size_t i = 0; left.size() > 3 && i < left.size();) {
    if (!is_ear(left, i)) {
      ++i;
      continue;
    }
    parts.push_back({left[(i + left.size() - 1) % left.size()], left[i], corner_after(left, i)});
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
    drop_straight_corners(left);
    i = 0;
  }
  parts.push_back(std::move(left));
  while (join_once(parts)) continue;
  return parts;
}

}  // namespace endband::cutting::exact
