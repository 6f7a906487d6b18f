#include "engine/cutting/skins/space.h"

#include "engine/cutting/geometry/convex.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>
#include <tuple>

namespace endband::cutting::skins {
namespace {

void require(bool holds, char const* what) {
  if (!holds) throw std::logic_error(what);
}

void check_polygon(Polygon const& polygon, char const* what) {
  require(polygon.size() >= 3 && !crossing(polygon) && twice_area(polygon) > 0, what);
}

void check_request(std::vector<Skin> const& skins, std::vector<SkinPiece> const& pieces,
                   std::int64_t margin) {
  require(margin >= 0, "a negative margin");
  for (Skin const& skin : skins) {
    check_polygon(skin.outline, "an outline that is not simple");
    for (Polygon const& flaw : skin.flaws) check_polygon(flaw, "a flaw that is not simple");
    for (Zone const& zone : skin.zones) check_polygon(zone.polygon, "a zone that is not simple");
    require(skin.cost >= 0, "a skin of negative cost");
    require(!skin.copies || *skin.copies >= 0, "a negative number of skins");
  }
  for (SkinPiece const& piece : pieces) {
    check_polygon(piece.shape, "a piece that is not simple");
    require(piece.copies >= 0, "a negative number of pieces");
    require(!piece.angles.empty(), "a piece without an angle");
  }
}

// The same corners begin at the same one, anticlockwise.
Polygon normal(Polygon polygon) {
  polygon = anticlockwise(std::move(polygon));
  std::rotate(polygon.begin(), std::ranges::min_element(polygon), polygon.end());
  return polygon;
}

bool fills_box(Polygon const& polygon) {
  Box const box = box_of(polygon);
  return twice_area(polygon) == 2 * (box.right - box.left) * (box.top - box.bottom);
}

void add_shapes(Space& space, SkinPiece const& piece, Kind& kind) {
  std::vector<Polygon> seen;
  int const self = static_cast<int>(space.kinds.size());
  kind.first_shape = static_cast<int>(space.shapes.size());
  for (int const angle : piece.angles) {
    Polygon polygon = normal(turned(piece.shape, angle));
    Box const box = box_of(polygon);
    Shape shape;
    shape.kind = self;
    shape.angle = angle;
    shape.width = box.right - box.left;
    shape.height = box.top - box.bottom;
    shape.upright = fills_box(polygon);
    if (shape.upright) polygon = rectangle(shape.width, shape.height);
    if (std::ranges::find(seen, polygon) != seen.end()) continue;
    seen.push_back(polygon);
    shape.twice_area = twice_area(polygon);
    shape.parts = exact::convex_parts(polygon.size() > 8 ? filled_out(polygon, 6) : polygon);
    space.shapes.push_back(std::move(shape));
  }
  kind.last_shape = static_cast<int>(space.shapes.size());
}

// One kind for all pieces that differ in nothing; the kind of each piece.
std::vector<int> add_kinds(Space& space, std::vector<SkinPiece> const& pieces) {
  std::map<std::tuple<Polygon, std::vector<int>, int>, int> known;
  std::vector<int> grades, kind_of;
  for (SkinPiece const& piece : pieces) grades.push_back(piece.least_grade);
  std::ranges::sort(grades);
  grades.erase(std::unique(grades.begin(), grades.end()), grades.end());
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    SkinPiece const& piece = pieces[i];
    auto const [place, fresh] =
        known.try_emplace({normal(turned(piece.shape, 0)), piece.angles, piece.least_grade},
                          static_cast<int>(space.kinds.size()));
    kind_of.push_back(place->second);
    if (fresh) {
      Kind kind;
      kind.least_grade = piece.least_grade;
      kind.level = static_cast<int>(std::ranges::lower_bound(grades, piece.least_grade) - grades.begin());
      kind.twice_area = twice_area(piece.shape);
      add_shapes(space, piece, kind);
      space.kinds.push_back(std::move(kind));
    }
    Kind& kind = space.kinds[static_cast<std::size_t>(place->second)];
    kind.pieces.insert(kind.pieces.end(), static_cast<std::size_t>(piece.copies), static_cast<int>(i));
  }
  return kind_of;
}

void add_units(Space& space, std::vector<SkinPiece> const& pieces, std::vector<int> const& kind_of) {
  std::map<int, Unit> groups;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    int const kind = kind_of[i];
    std::int64_t const area = space.kinds[static_cast<std::size_t>(kind)].twice_area;
    for (std::int64_t copy = 0; copy < pieces[i].copies; ++copy) {
      if (pieces[i].group <= 0) {
        space.units.push_back({{kind}, {static_cast<int>(i)}, Together::one_skin, area});
        continue;
      }
      auto const [place, fresh] = groups.try_emplace(pieces[i].group);
      Unit& unit = place->second;
      if (fresh || pieces[i].together == Together::one_skin) unit.together = pieces[i].together;
      unit.kinds.push_back(kind);
      unit.pieces.push_back(static_cast<int>(i));
      unit.twice_area += area;
    }
  }
  auto const area_of = [&](int piece) {
    return space.kinds[static_cast<std::size_t>(kind_of[static_cast<std::size_t>(piece)])].twice_area;
  };
  for (auto& [group, unit] : groups) {
    std::ranges::stable_sort(unit.pieces, [&](int a, int b) { return area_of(a) > area_of(b); });
    for (std::size_t k = 0; k < unit.pieces.size(); ++k)
      unit.kinds[k] = kind_of[static_cast<std::size_t>(unit.pieces[k])];
    space.units.push_back(std::move(unit));
  }
  std::ranges::stable_sort(space.units,
                           [](Unit const& a, Unit const& b) { return a.twice_area > b.twice_area; });
}

std::int64_t largest_side(std::vector<Skin> const& skins) {
  std::int64_t side = 1;
  for (Skin const& skin : skins) {
    Box const box = box_of(skin.outline);
    side = std::max({side, box.right - box.left, box.top - box.bottom});
  }
  return side;
}

// What all sides share as a measure, when that is a handy step; else fine beside the skin and the least side.
std::int64_t choose_step(Space const& space, std::int64_t side) {
  std::int64_t common = 0, least = side;
  for (Shape const& shape : space.shapes) {
    common = std::gcd(common, std::gcd(shape.width + space.margin, shape.height + space.margin));
    least = std::min({least, shape.width, shape.height});
  }
  std::int64_t const coarsest = std::max<std::int64_t>(1, std::min(side / 256, least / 8));
  std::int64_t const wanted =
      std::max<std::int64_t>(1, std::min({side / 512, least / 8, std::int64_t{1000}}));
  if (common > coarsest)
    for (std::int64_t parts = ceil_div(common, coarsest); parts < 4096 && common / parts > wanted / 4;
         ++parts)
      if (common % parts == 0) return common / parts;
  if (common > wanted / 4 && common <= coarsest) return common;
  return std::max<std::int64_t>(1, std::min({wanted, side / 2048, least / 16}));
}

Site site_of(Space const& space, Skin const& skin) {
  Box const box = box_of(skin.outline);
  Skin moved_skin = skin;
  Point const by{-box.left, -box.bottom};
  moved_skin.outline = moved(skin.outline, by);
  for (Polygon& flaw : moved_skin.flaws) flaw = moved(std::move(flaw), by);
  for (Zone& zone : moved_skin.zones) zone.polygon = moved(std::move(zone.polygon), by);
  Site site;
  site.origin = {box.left, box.bottom};
  site.width = box.right - box.left;
  site.height = box.top - box.bottom;
  site.columns = site.width / space.step;
  site.rows = site.height / space.step;
  site.batch = skin.batch;
  std::vector<int> grades;
  for (Kind const& kind : space.kinds) grades.push_back(kind.least_grade);
  std::ranges::sort(grades);
  grades.erase(std::unique(grades.begin(), grades.end()), grades.end());
  for (int const grade : grades) site.regions.push_back(region_of(moved_skin, grade));
  std::int64_t const cell =
      std::max<std::int64_t>(ceil_div(std::max(site.width, site.height), 240), space.step);
  site.raster = Raster(site.regions, site.width, site.height, ceil_div(cell, space.step) * space.step);
  return site;
}

}  // namespace

Space space_of(std::vector<Skin> const& skins, std::vector<SkinPiece> const& pieces, std::int64_t margin,
               std::int64_t step) {
  check_request(skins, pieces, margin);
  Space space;
  space.margin = margin;
  std::vector<int> const kind_of = add_kinds(space, pieces);
  add_units(space, pieces, kind_of);
  space.step = step > 0 ? step : choose_step(space, largest_side(skins));
  for (Shape& shape : space.shapes) {
    shape.wide = ceil_div(shape.width + margin, space.step);
    shape.high = ceil_div(shape.height + margin, space.step);
  }
  for (Skin const& skin : skins) space.sites.push_back(site_of(space, skin));
  return space;
}

}  // namespace endband::cutting::skins
