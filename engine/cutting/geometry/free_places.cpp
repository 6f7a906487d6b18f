#include "engine/cutting/geometry/free_places.h"

#include "engine/cutting/geometry/exact.h"

#include <algorithm>

namespace endband::cutting::exact {

namespace {

struct Blocked {
  Polygon polygon;
  Box box;
};

// The open part of a side from a (0) to b (1) that lies inside a convex polygon; below 0 or above 1: the end
// is inside too.
struct Covered {
  Ratio from{-1, 1}, to{2, 1};
};
std::optional<Covered> covered(Point a, Point b, Polygon const& polygon) {
  Covered part;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    Point const c = polygon[i], d = corner_after(polygon, i);
    std::int64_t const at_a = cross(c, d, a), at_b = cross(c, d, b);
    if (at_a <= 0 && at_b <= 0) return std::nullopt;
    if (at_a > 0 && at_b > 0) continue;
    if (at_a <= 0)
      part.from = std::max(part.from, Ratio{-at_a, at_b - at_a});
    else
      part.to = std::min(part.to, Ratio{at_a, at_a - at_b});
  }
  if (!(part.from < part.to)) return std::nullopt;
  return part;
}

// y of the point at `t` from a to b, rounded down and up.
void add_rows(Point a, Point b, Ratio t, std::vector<std::int64_t>& rows) {
  Wide const product = static_cast<Wide>(b.y - a.y) * t.num;
  Wide floor = product / t.den;
  if (product % t.den < 0) --floor;
  std::int64_t const row = a.y + static_cast<std::int64_t>(floor);
  rows.push_back(row);
  if (product % t.den != 0) rows.push_back(row + 1);
}

// The rows beside the ends of every free stretch of one side.
void add_rows_of_side(Point a, Point b, std::vector<Blocked> const& all, std::vector<Covered>& parts,
                      std::vector<std::int64_t>& rows) {
  parts.clear();
  for (Blocked const& other : all) {
    Box const& box = other.box;
    if (std::max(a.x, b.x) <= box.left || std::min(a.x, b.x) >= box.right ||
        std::max(a.y, b.y) <= box.bottom || std::min(a.y, b.y) >= box.top)
      continue;
    std::optional<Covered> const part = covered(a, b, other.polygon);
    if (!part) continue;
    if (part->from.num < 0 && Ratio{1, 1} < part->to) return;
    parts.push_back(*part);
  }
  std::sort(parts.begin(), parts.end(), [](Covered const& x, Covered const& y) { return x.from < y.from; });
  Ratio reached{0, 1};
  for (Covered const& part : parts) {
    if (!(part.from < reached)) {
      add_rows(a, b, reached, rows);
      add_rows(a, b, part.from, rows);
    }
    reached = std::max(reached, part.to);
  }
  if (!(Ratio{1, 1} < reached)) {
    add_rows(a, b, reached, rows);
    add_rows(a, b, {1, 1}, rows);
  }
}

struct Line {
  Point a, b;                         // b.y > a.y
  Ratio at(std::int64_t row) const {  // x
    std::int64_t const den = b.y - a.y;
    return {a.x * den + (b.x - a.x) * (row - a.y), den};
  }
};
// A free stretch of a row, closed; also of the rows above as long as its lines bound it.
struct Gap {
  Line left, right;
  bool refused = false;
};
struct Span {
  Line left, right;
  Ratio from, to;
};

std::optional<Span> span_of(Blocked const& one, std::int64_t row) {
  if (row <= one.box.bottom || row >= one.box.top) return std::nullopt;
  Span span;
  for (std::size_t i = 0; i < one.polygon.size(); ++i) {
    Point const a = one.polygon[i], b = corner_after(one.polygon, i);
    if (a.y <= row && row < b.y) span.right = {a, b};
    if (b.y <= row && row < a.y) span.left = {b, a};
  }
  span.from = span.left.at(row);
  span.to = span.right.at(row);
  return span;
}

std::vector<Gap> gaps_of(std::vector<Blocked> const& all, std::int64_t row) {
  std::vector<Span> spans;
  for (Blocked const& one : all)
    if (std::optional<Span> const span = span_of(one, row)) spans.push_back(*span);
  std::sort(spans.begin(), spans.end(), [](Span const& x, Span const& y) { return x.from < y.from; });
  std::vector<Gap> gaps;
  for (std::size_t i = 0, last = 0; i < spans.size(); ++i) {
    if (i > 0 && !(spans[i].from < spans[last].to)) gaps.push_back({spans[last].right, spans[i].left});
    if (i > 0 && spans[last].to < spans[i].to) last = i;
  }
  return gaps;
}

// The leftmost place in the gaps of a row. A gap that is refused once is refused as long as it goes on.
std::optional<Point> place_in(std::vector<Gap>& gaps, std::int64_t row,
                              std::function<bool(Point)> const& accept) {
  for (Gap& gap : gaps) {
    if (gap.refused) continue;
    Point const place{ceil_of(gap.left.at(row)), row};
    if (place.x > floor_of(gap.right.at(row))) continue;
    if (accept(place)) return place;
    gap.refused = true;
  }
  return std::nullopt;
}

bool all_refused(std::vector<Gap> const& gaps) {
  return std::all_of(gaps.begin(), gaps.end(), [](Gap const& gap) { return gap.refused; });
}

}  // namespace

std::optional<Point> lowest_free(std::vector<Polygon> const& forbidden, Box const& range,
                                 std::function<bool(Point)> const& accept) {
  if (range.left > range.right || range.bottom > range.top) return std::nullopt;
  std::vector<Blocked> all;
  for (Polygon const& polygon : forbidden) {
    Box const box = box_of(polygon);
    if (box.left <= range.right && box.right >= range.left && box.bottom <= range.top &&
        box.top >= range.bottom)
      all.push_back({polygon, box});
  }
  std::vector<std::int64_t> rows;
  std::vector<Covered> parts;
  for (Blocked const& one : all)
    for (std::size_t i = 0; i < one.polygon.size(); ++i)
      add_rows_of_side(one.polygon[i], corner_after(one.polygon, i), all, parts, rows);
  std::erase_if(rows, [&](std::int64_t row) { return row < range.bottom || row > range.top; });
  std::sort(rows.begin(), rows.end());
  rows.erase(std::unique(rows.begin(), rows.end()), rows.end());

  for (std::size_t i = 0; i < rows.size(); ++i) {
    std::vector<Gap> gaps = gaps_of(all, rows[i]);
    if (std::optional<Point> const place = place_in(gaps, rows[i], accept)) return place;
    if (i + 1 == rows.size() || rows[i + 1] == rows[i] + 1) continue;
    gaps = gaps_of(all, rows[i] + 1);
    for (std::int64_t row = rows[i] + 1; row < rows[i + 1] && !all_refused(gaps); ++row)
      if (std::optional<Point> const place = place_in(gaps, row, accept)) return place;
  }
  return std::nullopt;
}

}  // namespace endband::cutting::exact
