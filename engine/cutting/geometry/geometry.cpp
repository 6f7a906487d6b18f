#include "engine/cutting/geometry/geometry.h"

#include "engine/cutting/geometry/exact.h"

#include <algorithm>

namespace endband::cutting {

namespace {

using exact::corner_after;

bool apart(Box const& one, Box const& other) {
  return one.right < other.left || other.right < one.left || one.top < other.bottom || other.top < one.bottom;
}

Box box_of(Point a, Point b) {
  return {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
}

// a - b - c: an edge without length, or the second runs back over the first.
bool folds_back(Point a, Point b, Point c) {
  if (a == b || b == c) return true;
  return exact::cross(a, b, c) == 0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0;
}

bool edges_clash(Polygon const& polygon, std::size_t i, std::size_t k) {
  std::size_t const count = polygon.size();
  if (k == i + 1) return folds_back(polygon[i], polygon[k], corner_after(polygon, k));
  if (i == 0 && k == count - 1) return folds_back(polygon[k], polygon[0], polygon[1]);
  return exact::meet(polygon[i], polygon[i + 1], polygon[k], corner_after(polygon, k));
}

bool cross_properly(Polygon const& one, Polygon const& other) {
  for (std::size_t i = 0; i < one.size(); ++i) {
    Point const a = one[i], b = corner_after(one, i);
    Box const edge = box_of(a, b);
    for (std::size_t k = 0; k < other.size(); ++k) {
      Point const c = other[k], d = corner_after(other, k);
      if (!apart(edge, box_of(c, d)) && exact::cross_properly(a, b, c, d)) return true;
    }
  }
  return false;
}

Polygon doubled(Polygon polygon) {
  for (Point& corner : polygon) corner = {2 * corner.x, 2 * corner.y};
  return polygon;
}

// Where no edges cross properly, an edge of `path` can pass between the inside, the outside and the edge of
// `region` only at a corner of either. So it is in one place all the way between two such corners, and the
// middle of that way tells. Calls visit(place) for each such stretch until it returns true; true: it did.
template <class Visit>
bool any_stretch(Polygon const& path, Polygon const& region, Visit visit) {
  Polygon const twice = doubled(region);
  std::vector<Point> stops;
  for (std::size_t i = 0; i < path.size(); ++i) {
    Point const a = path[i], b = corner_after(path, i);
    stops.assign({a, b});
    for (Point corner : region)
      if (exact::on_segment(a, b, corner)) stops.push_back(corner);
    std::sort(stops.begin(), stops.end());
    for (std::size_t k = 1; k < stops.size(); ++k) {
      if (stops[k - 1] == stops[k]) continue;
      Point const middle{stops[k - 1].x + stops[k].x, stops[k - 1].y + stops[k].y};
      if (visit(place_of(middle, twice))) return true;
    }
  }
  return false;
}

}  // namespace

std::int64_t twice_area(Polygon const& polygon) {
  std::int64_t sum = 0;
  for (std::size_t i = 2; i < polygon.size(); ++i)
    sum += exact::cross(polygon[0], polygon[i - 1], polygon[i]);
  return sum < 0 ? -sum : sum;
}

Box box_of(Polygon const& polygon) {
  if (polygon.empty()) return {};
  Box box{polygon[0].x, polygon[0].y, polygon[0].x, polygon[0].y};
  for (Point corner : polygon) {
    box.left = std::min(box.left, corner.x);
    box.bottom = std::min(box.bottom, corner.y);
    box.right = std::max(box.right, corner.x);
    box.top = std::max(box.top, corner.y);
  }
  return box;
}

std::optional<Crossing> crossing(Polygon const& polygon) {
  if (polygon.size() < 3) return Crossing{0, polygon.size() == 2 ? 1 : 0};
  for (std::size_t i = 0; i < polygon.size(); ++i)
    for (std::size_t k = i + 1; k < polygon.size(); ++k)
      if (edges_clash(polygon, i, k)) return Crossing{static_cast<int>(i), static_cast<int>(k)};
  return std::nullopt;
}

Place place_of(Point point, Polygon const& polygon) {
  bool inside = false;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    Point const a = polygon[i], b = corner_after(polygon, i);
    if (exact::on_segment(a, b, point)) return Place::on_edge;
    // A ray to the right meets the edge; the upper end counts, the lower one does not.
    if ((a.y > point.y) != (b.y > point.y) && (exact::side_of(a, b, point) > 0) == (b.y > a.y))
      inside = !inside;
  }
  return inside ? Place::inside : Place::outside;
}

bool within(Polygon const& inner, Polygon const& outer) {
  if (inner.empty()) return true;
  Box const part = box_of(inner), whole = box_of(outer);
  if (part.left < whole.left || part.bottom < whole.bottom || part.right > whole.right ||
      part.top > whole.top)
    return false;
  if (cross_properly(inner, outer)) return false;
  return !any_stretch(inner, outer, [](Place place) { return place == Place::outside; });
}

bool overlap(Polygon const& one, Polygon const& other) {
  if (one.empty() || other.empty() || apart(box_of(one), box_of(other))) return false;
  if (cross_properly(one, other)) return true;
  bool same_edge = true;  // all of one's edge lies on the other's: then they are the same, as both are simple
  auto const enters = [&](Place place) {
    same_edge = same_edge && place == Place::on_edge;
    return place == Place::inside;
  };
  if (any_stretch(one, other, enters)) return true;
  return same_edge || any_stretch(other, one, [](Place place) { return place == Place::inside; });
}

Polygon moved(Polygon polygon, Point by) {
  for (Point& corner : polygon) corner = {corner.x + by.x, corner.y + by.y};
  return polygon;
}

Polygon rectangle(std::int64_t width, std::int64_t height) {
  return {{0, 0}, {width, 0}, {width, height}, {0, height}};
}

}  // namespace endband::cutting
