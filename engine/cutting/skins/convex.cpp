#include "engine/cutting/skins/convex.h"

#include "engine/cutting/geometry/exact.h"

#include <algorithm>

namespace endband::cutting::skins {
namespace {

// Its corners begin at the lowest, of these the leftmost.
void begin_lowest(Polygon& polygon) {
  std::rotate(
      polygon.begin(),
      std::ranges::min_element(polygon, [](Point a, Point b) { return a.y != b.y ? a.y < b.y : a.x < b.x; }),
      polygon.end());
}

}  // namespace

Polygon anticlockwise(Polygon polygon) {
  if (exact::twice_signed_area(polygon) < 0) std::ranges::reverse(polygon);
  return polygon;
}

Polygon filled_out(Polygon const& polygon, std::size_t hollows) {
  Polygon rest = anticlockwise(polygon);
  std::int64_t spare = exact::twice_signed_area(rest) / 50;
  while (rest.size() > 4) {
    std::size_t const n = rest.size();
    std::size_t hollow = 0, best = n;
    std::int64_t least = 0;
    for (std::size_t i = 0; i < n; ++i) {
      Point const a = rest[(i + n - 1) % n], b = rest[i], c = rest[(i + 1) % n];
      std::int64_t const adds = -exact::cross(a, b, c);
      if (adds <= 0) continue;
      ++hollow;
      if (best < n && adds >= least) continue;
      // Nothing of the polygon lies in the hollow's triangle.
      if (std::ranges::any_of(rest, [&](Point p) {
            return p != a && p != b && p != c && exact::cross(a, b, p) <= 0 && exact::cross(b, c, p) <= 0 &&
                   exact::cross(c, a, p) <= 0;
          }))
        continue;
      best = i;
      least = adds;
    }
    if (best == n || (least > spare && hollow <= hollows)) return rest;
    spare -= least;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(best));
  }
  return rest;
}

Polygon minkowski_sum(Polygon const& one, Polygon const& other) {
  Polygon a = one, b = other;
  begin_lowest(a);
  begin_lowest(b);
  Polygon sum;
  sum.reserve(a.size() + b.size());
  std::size_t i = 0, j = 0;
  while (i < a.size() || j < b.size()) {
    Point const p = a[i % a.size()], q = b[j % b.size()];
    sum.push_back({p.x + q.x, p.y + q.y});
    Point const u{a[(i + 1) % a.size()].x - p.x, a[(i + 1) % a.size()].y - p.y};
    Point const v{b[(j + 1) % b.size()].x - q.x, b[(j + 1) % b.size()].y - q.y};
    std::int64_t const turn = u.x * v.y - u.y * v.x;
    bool const first = j == b.size() || (i < a.size() && turn >= 0);
    bool const second = i == a.size() || (j < b.size() && turn <= 0);
    i += first ? 1U : 0U;
    j += second ? 1U : 0U;
  }
  return sum;
}

Polygon grown(Polygon const& convex, std::int64_t margin) {
  if (margin == 0) return convex;
  return minkowski_sum(convex, {{-margin, -margin}, {margin, -margin}, {margin, margin}, {-margin, margin}});
}

Polygon negated(Polygon polygon) {
  for (Point& p : polygon) p = {-p.x, -p.y};
  return polygon;
}

Barrier barrier(Polygon area) {
  Barrier made;
  made.box = box_of(area);
  made.mirrored = area;
  for (Point& p : made.mirrored) std::swap(p.x, p.y);
  std::ranges::reverse(made.mirrored);
  made.area = std::move(area);
  return made;
}

bool across(Polygon const& convex, std::int64_t at, Span& span) {
  bool low = false, high = false;
  Point a = convex.back();
  for (Point const b : convex) {
    if (a.x < b.x && a.x <= at && at < b.x) {
      span.low = a.y + floor_div((at - a.x) * (b.y - a.y), b.x - a.x);
      low = true;
    } else if (b.x < a.x && b.x < at && at <= a.x) {
      span.high = a.y + ceil_div((at - a.x) * (a.y - b.y), a.x - b.x);
      high = true;
    }
    a = b;
  }
  return low && high && span.low < span.high;
}

}  // namespace endband::cutting::skins
