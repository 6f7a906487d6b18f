#include "engine/cutting/geometry/fit.h"

#include "engine/cutting/geometry/convex.h"
#include "engine/cutting/geometry/exact.h"
#include "engine/cutting/geometry/free_places.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace endband::cutting {

namespace {

using exact::corner_after;
using exact::Wide;

// p is nearer than `margin` to the segment a b.
bool nearer(Point p, Point a, Point b, std::int64_t margin) {
  auto const squared = [](Point v, Point w) {
    return static_cast<Wide>(w.x - v.x) * (w.x - v.x) + static_cast<Wide>(w.y - v.y) * (w.y - v.y);
  };
  Wide const limit = static_cast<Wide>(margin) * margin;
  if (squared(p, a) < limit || squared(p, b) < limit) return true;
  Wide const along = static_cast<Wide>(p.x - a.x) * (b.x - a.x) + static_cast<Wide>(p.y - a.y) * (b.y - a.y);
  if (along <= 0 || along >= squared(a, b)) return false;
  Wide const across = exact::cross(a, b, p);
  return across * across < limit * squared(a, b);
}

// For edges that do not cross: then a corner of one is nearest.
bool edges_nearer(Polygon const& one, Polygon const& other, std::int64_t margin) {
  auto const corners_nearer = [&](Polygon const& corners, Polygon const& edges) {
    for (Point p : corners)
      for (std::size_t i = 0; i < edges.size(); ++i)
        if (nearer(p, edges[i], corner_after(edges, i), margin)) return true;
    return false;
  };
  return corners_nearer(one, other) || corners_nearer(other, one);
}

// A 16-gon of corners that all lie within `radius`, or one that holds the whole disc. Factors: cos(22.5 k
// degrees) in 1e-9 rounded down; the same divided by cos(11.25 degrees) rounded up (mpmath).
Polygon disc(std::int64_t radius, bool whole) {
  constexpr std::array<std::int64_t, 5> inner{1'000'000'000, 923'879'532, 707'106'781, 382'683'432, 0};
  constexpr std::array<std::int64_t, 5> outer{1'019'591'159, 941'979'403, 720'959'823, 390'180'645, 1};
  if (radius == 0) return {{0, 0}};
  Polygon points;
  for (std::size_t k = 0; k < inner.size(); ++k) {
    auto const scaled = [&](std::size_t at) {
      Wide const product = static_cast<Wide>(radius) * (whole ? outer.at(at) : inner.at(at));
      return static_cast<std::int64_t>((product + (whole ? 999'999'999 : 0)) / 1'000'000'000);
    };
    std::int64_t const x = scaled(k), y = scaled(4 - k);
    for (Point p : {Point{x, y}, Point{-x, y}, Point{x, -y}, Point{-x, -y}}) points.push_back(p);
  }
  return exact::hull_of(std::move(points));
}

void forbid(Polygon const& edges, std::vector<Polygon> const& mirrored, std::vector<Polygon>& forbidden) {
  for (std::size_t i = 0; i < edges.size(); ++i) {
    std::array<Point, 2> const edge{edges[i], corner_after(edges, i)};
    for (Polygon const& part : mirrored) forbidden.push_back(exact::hull_of_sums(edge, part));
  }
}

// Where the shape's lower left corner may not be, by the edges of the ground.
std::vector<Polygon> forbidden_places(Ground const& ground, std::vector<Polygon> parts,
                                      Polygon const& around) {
  for (Polygon& part : parts)
    for (Point& corner : part) corner = {-corner.x, -corner.y};
  std::vector<Polygon> grown;
  grown.reserve(parts.size());
  for (Polygon const& part : parts) grown.push_back(exact::hull_of_sums(part, around));
  std::vector<Polygon> forbidden;
  forbid(ground.outline, grown, forbidden);
  for (Polygon const& flaw : ground.flaws) forbid(flaw, grown, forbidden);
  for (Polygon const& zone : ground.poor) forbid(zone, parts, forbidden);
  return forbidden;
}

}  // namespace

bool within_but_for(Polygon const& shape, Ground const& ground) {
  auto const over = [&](Polygon const& other) { return overlap(shape, other); };
  return within(shape, ground.outline) && std::none_of(ground.flaws.begin(), ground.flaws.end(), over) &&
         std::none_of(ground.poor.begin(), ground.poor.end(), over);
}

bool within_but_for(Polygon const& shape, Ground const& ground, std::int64_t margin) {
  if (!within_but_for(shape, ground)) return false;
  if (margin == 0) return true;
  auto const near = [&](Polygon const& other) { return edges_nearer(shape, other, margin); };
  return !near(ground.outline) && std::none_of(ground.flaws.begin(), ground.flaws.end(), near);
}

Fit fits_somewhere(Ground const& ground, Polygon const& shape, std::int64_t margin) {
  if (shape.size() < 3 || ground.outline.size() < 3 || margin < 0)
    throw std::logic_error("fits_somewhere: no polygon, or a negative margin");
  Box const box = box_of(shape), around = box_of(ground.outline);
  Polygon const laid = moved(shape, {-box.left, -box.bottom});
  std::vector<Polygon> const parts = exact::convex_parts(laid);
  Box const range{around.left + margin, around.bottom + margin,
                  around.right - margin - (box.right - box.left),
                  around.top - margin - (box.top - box.bottom)};
  // Whether the edges of shape and ground are apart is settled by the free places; this tells inside from
  // outside.
  auto const inside = [&](Point at) { return within_but_for(moved(laid, at), ground); };
  auto const lowest = [&](bool whole) {
    return exact::lowest_free(forbidden_places(ground, parts, disc(margin, whole)), range, inside);
  };
  std::optional<Point> const loosely = lowest(false);
  if (!loosely) return {Fits::nowhere, {}};
  if (within_but_for(moved(laid, *loosely), ground, margin)) return {Fits::somewhere, *loosely};
  std::optional<Point> const surely = lowest(true);
  if (surely && within_but_for(moved(laid, *surely), ground, margin)) return {Fits::somewhere, *surely};
  return {Fits::unsure, {}};
}

Fit fits_somewhere(Ground const& ground, std::int64_t width, std::int64_t height, std::int64_t margin) {
  if (width <= 0 || height <= 0) throw std::logic_error("fits_somewhere: a side that is not positive");
  return fits_somewhere(ground, rectangle(width, height), margin);
}

}  // namespace endband::cutting
