// Areas by the edges that bound them (Green). Where corners and edges of different polygons coincide, each
// polygon counts as moved by an ever so small step of its own (simulation of simplicity, Edelsbrunner &
// Muecke 1990): then nothing coincides, no boundary counts twice, and the area is the same.
#include "engine/cutting/geometry/exact.h"
#include "engine/cutting/geometry/fit.h"

#include <algorithm>
#include <utility>

namespace endband::cutting {

namespace {

using exact::corner_after;
using exact::Ratio;
using exact::Wide;

struct Stretch {
  Ratio from, to;
};

// > 0: left of the line from a to b. A polygon of a later rank is moved by (e, e^2) more, e > 0 as small as
// need be.
int side(Point a, Point b, int rank, Point c, int rank_of_c) {
  int const exactly = exact::side_of(a, b, c);
  if (exactly != 0) return exactly;
  int const tipped = a.y != b.y ? exact::sign(a.y - b.y) : exact::sign(b.x - a.x);
  return rank_of_c > rank ? tipped : -tipped;
}

// The parts of the line from a (0) to b (1) that lie within a polygon, in order, cut to what lies between a
// and b.
void add_within(Point a, Point b, int rank, Polygon const& polygon, int rank_of_polygon,
                std::vector<Ratio>& crossings, std::vector<Stretch>& stretches) {
  crossings.clear();
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    Point const c = polygon[i], d = corner_after(polygon, i);
    if ((side(a, b, rank, c, rank_of_polygon) > 0) == (side(a, b, rank, d, rank_of_polygon) > 0)) continue;
    // Not parallel: parallel ones lie wholly on one side, also as moved.
    std::int64_t const den = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
    std::int64_t const num = (c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x);
    crossings.push_back(den > 0 ? Ratio{num, den} : Ratio{-num, -den});
  }
  std::sort(crossings.begin(), crossings.end());
  for (std::size_t i = 1; i < crossings.size(); i += 2) {
    Ratio const from = std::max(crossings[i - 1], Ratio{0, 1}), to = std::min(crossings[i], Ratio{1, 1});
    if (from < to) stretches.push_back({from, to});
  }
}

constexpr int fraction_bits = 68;

Wide in_parts(Ratio ratio) {  // 0 <= ratio <= 1, rounded half up, in two steps as num << 68 leaves 128 bits
  Wide const den = ratio.den;
  Wide const first = static_cast<Wide>(ratio.num) << 34;
  Wide const rest = (first % den) << 34;
  return ((first / den) << 34) + (2 * rest + den) / (2 * den);
}

// How much of 0..1 `of` covers, less what `but` covers.
Wide measure(std::vector<Stretch> const& of, std::vector<Stretch>& but) {
  std::sort(but.begin(), but.end(), [](Stretch const& a, Stretch const& b) { return a.from < b.from; });
  Wide sum = 0;
  for (Stretch const& whole : of) {
    Ratio reached = whole.from;
    for (Stretch const& gone : but) {
      if (!(gone.from < whole.to)) break;
      if (reached < gone.from) sum += in_parts(gone.from) - in_parts(reached);
      reached = std::max(reached, gone.to);
    }
    if (reached < whole.to) sum += in_parts(whole.to) - in_parts(reached);
  }
  return sum;
}

Polygon from_corner(Polygon polygon, Point corner) {  // anticlockwise, seen from the corner
  polygon = moved(std::move(polygon), {-corner.x, -corner.y});
  std::int64_t sum = 0;
  for (std::size_t i = 2; i < polygon.size(); ++i)
    sum += exact::cross(polygon[0], polygon[i - 1], polygon[i]);
  if (sum < 0) std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

}  // namespace

std::int64_t twice_usable(Polygon const& outline, std::span<Polygon const> away) {
  Box const box = box_of(outline);
  Point const centre{(box.left + box.right) / 2, (box.bottom + box.top) / 2};
  std::vector<Polygon> polygons{from_corner(outline, centre)};
  for (Polygon const& gone : away) polygons.push_back(from_corner(gone, centre));

  Wide sum = 0;
  std::vector<Ratio> crossings;
  std::vector<Stretch> of, but;
  for (std::size_t own = 0; own < polygons.size(); ++own)
    for (std::size_t i = 0; i < polygons[own].size(); ++i) {
      Point const a = polygons[own][i], b = corner_after(polygons[own], i);
      std::int64_t const swept = a.x * b.y - a.y * b.x;
      if (swept == 0) continue;
      of.clear();
      but.clear();
      int const rank = static_cast<int>(own);
      if (own == 0)
        of.push_back({{0, 1}, {1, 1}});
      else
        add_within(a, b, rank, polygons[0], 0, crossings, of);
      for (std::size_t k = 1; k < polygons.size(); ++k)
        if (k != own) add_within(a, b, rank, polygons[k], static_cast<int>(k), crossings, but);
      sum += (own == 0 ? swept : -swept) * measure(of, but);
    }
  Wide const whole = (sum + (Wide{1} << (fraction_bits - 8))) >> fraction_bits;
  return std::max<std::int64_t>(0, static_cast<std::int64_t>(whole));
}

std::int64_t twice_usable(Polygon const& outline, std::span<Polygon const> flaws, std::span<Zone const> zones,
                          int grade, int least_grade) {
  std::vector<Polygon> away(flaws.begin(), flaws.end());
  for (Zone const& zone : zones)
    if (zone.grade < least_grade) away.push_back(zone.polygon);
  std::int64_t const off_poor = twice_usable(outline, away);
  if (grade >= least_grade) return off_poor;
  for (Zone const& zone : zones)
    if (zone.grade >= least_grade) away.push_back(zone.polygon);
  return off_poor - twice_usable(outline, away);
}

}  // namespace endband::cutting
