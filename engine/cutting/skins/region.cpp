#include "engine/cutting/skins/region.h"

#include <algorithm>

namespace endband::cutting::skins {
namespace {

std::int64_t cross(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

void add_walls(std::vector<Wall>& walls, Polygon const& polygon, bool zone) {
  for (std::size_t i = 0; i < polygon.size(); ++i)
    walls.push_back({polygon[i], polygon[(i + 1) % polygon.size()], zone});
}

bool contains_thrice(Polygon const& polygon, Point p) {
  bool inside = false;
  Point a{polygon.back().x * 3, polygon.back().y * 3};
  for (Point const corner : polygon) {
    Point const b{corner.x * 3, corner.y * 3};
    if ((a.y <= p.y) != (b.y <= p.y)) {
      bool const left = (p.x - a.x) * (b.y - a.y) < (b.x - a.x) * (p.y - a.y);
      if (left == (b.y > a.y)) inside = !inside;
    }
    a = b;
  }
  return inside;
}

// Where along from..to, in parts of its length, it meets the edges of `other`, rounded to whole micrometres
// of its longer coordinate.
void cuts_along(Wall const& wall, Polygon const& other, std::vector<std::int64_t>& cuts) {
  Point const u{wall.to.x - wall.from.x, wall.to.y - wall.from.y};
  std::int64_t const length = std::max(std::abs(u.x), std::abs(u.y));
  for (std::size_t i = 0; i < other.size(); ++i) {
    Point const c = other[i], d = other[(i + 1) % other.size()];
    std::int64_t const sc = cross(wall.from, wall.to, c), sd = cross(wall.from, wall.to, d);
    auto const along = [&](Point p) {
      return std::abs(u.x) >= std::abs(u.y) ? (p.x - wall.from.x) * (u.x > 0 ? 1 : -1)
                                            : (p.y - wall.from.y) * (u.y > 0 ? 1 : -1);
    };
    if (sc == 0) cuts.push_back(along(c));
    if (sd == 0) cuts.push_back(along(d));
    if ((sc < 0 && sd > 0) || (sc > 0 && sd < 0)) {
      __extension__ using Wide = __int128;
      Wide const whole = Wide{sc} - sd;
      std::int64_t const ac = along(c), ad = along(d);
      std::int64_t const at = ac + static_cast<std::int64_t>(Wide{ad - ac} * sc / whole);
      cuts.push_back(at - 1);
      cuts.push_back(at + 1);
    }
  }
  std::erase_if(cuts, [&](std::int64_t at) { return at <= 0 || at >= length; });
}

Point along(Wall const& wall, std::int64_t length, std::int64_t at) {
  Point const u{wall.to.x - wall.from.x, wall.to.y - wall.from.y};
  return {wall.from.x + floor_div(u.x * at * 2 + length, length * 2),
          wall.from.y + floor_div(u.y * at * 2 + length, length * 2)};
}

// Just outside the middle of a part of the wall, three times as large: the zone is anticlockwise, its outside
// lies right.
Point beside(Wall const& wall, Point from, Point to) {
  std::int64_t const dx = wall.to.x - wall.from.x, dy = wall.to.y - wall.from.y;
  auto const sign = [](std::int64_t value) { return value > 0 ? 1 : value < 0 ? -1 : 0; };
  return {(from.x + to.x) * 3 / 2 + sign(dy) * 6, (from.y + to.y) * 3 / 2 - sign(dx) * 6};
}

// A rounded part lies within a micrometre of the edge: four walls stand around it.
void add_rounded(std::vector<Wall>& walls, Point from, Point to) {
  for (std::int64_t const x : {-1, 1})
    for (std::int64_t const y : {-1, 1})
      walls.push_back({{from.x + x, from.y + y}, {to.x + x, to.y + y}, true});
}

// Of a zone's edge the parts that bound the union of the zones: a part within another zone, or along one's
// other side, does not. Where parts meet, a few micrometres go with their neighbours.
void add_walls_of_union(std::vector<Wall>& walls, std::vector<Polygon> const& zones, std::size_t zone,
                        Wall const& wall) {
  std::int64_t const length = std::max(std::abs(wall.to.x - wall.from.x), std::abs(wall.to.y - wall.from.y));
  std::vector<std::int64_t> cuts;
  for (std::size_t other = 0; other < zones.size(); ++other)
    if (other != zone) cuts_along(wall, zones[other], cuts);
  cuts.push_back(0);
  cuts.push_back(length);
  std::ranges::sort(cuts);
  cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
  std::size_t const parts = cuts.size() - 1;
  std::vector<bool> covered(parts), tiny(parts);
  for (std::size_t k = 0; k < parts; ++k) {
    Point const outside = beside(wall, along(wall, length, cuts[k]), along(wall, length, cuts[k + 1]));
    tiny[k] = cuts[k + 1] - cuts[k] <= 6;
    for (std::size_t other = 0; other < zones.size(); ++other)
      if (other != zone && contains_thrice(zones[other], outside)) covered[k] = true;
  }
  for (std::size_t k = 0; k < parts; ++k) {
    if (tiny[k] && parts > 1) {
      std::size_t before = k, after = k;
      while (before > 0 && tiny[before]) --before;
      while (after + 1 < parts && tiny[after]) ++after;
      covered[k] = covered[before] && covered[after];
    }
    if (covered[k]) continue;
    if (parts == 1)
      walls.push_back(wall);
    else
      add_rounded(walls, along(wall, length, cuts[k]), along(wall, length, cuts[k + 1]));
  }
}

void add_walls_of_union(std::vector<Wall>& walls, std::vector<Polygon> const& zones) {
  for (std::size_t zone = 0; zone < zones.size(); ++zone) {
    std::vector<Wall> edges;
    add_walls(edges, zones[zone], true);
    for (Wall const& edge : edges) add_walls_of_union(walls, zones, zone, edge);
  }
}

}  // namespace

Region region_of(Skin const& skin, int least_grade) {
  Region region;
  region.outline = skin.outline;
  region.closed = skin.flaws;
  add_walls(region.walls, region.outline, false);
  for (Polygon const& flaw : skin.flaws) add_walls(region.walls, flaw, false);
  for (Zone const& zone : skin.zones)
    if (zone.grade < least_grade) {
      region.closed.push_back(zone.polygon);
      add_walls(region.walls, zone.polygon, true);
    }
  if (skin.grade >= least_grade) return region;
  for (Zone const& zone : skin.zones)
    if (zone.grade >= least_grade) region.open.push_back(anticlockwise(zone.polygon));
  region.nowhere = region.open.empty();
  add_walls_of_union(region.walls, region.open);
  return region;
}

bool in_region(Region const& region, Point thrice) {
  if (region.nowhere || !contains_thrice(region.outline, thrice)) return false;
  for (Polygon const& closed : region.closed)
    if (contains_thrice(closed, thrice)) return false;
  if (region.open.empty()) return true;
  return std::ranges::any_of(region.open, [&](Polygon const& zone) { return contains_thrice(zone, thrice); });
}

}  // namespace endband::cutting::skins
