// Areas against cells of a grid and against GEOS.
#include "engine/cutting/geometry/fit.h"
#include "tests/engine/cutting/geometry/any.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband::cutting;

namespace {

template <class Has>
std::int64_t twice_cells(Has has) {
  std::int64_t count = 0;
  for (std::int64_t x = 0; x < 16; ++x)
    for (std::int64_t y = 0; y < 16; ++y) count += has(x, y) ? 2 : 0;
  return count;
}

std::vector<Polygon> some_polygons(std::int64_t most) {
  std::vector<Polygon> polygons(static_cast<std::size_t>(any::number(0, most)));
  for (Polygon& polygon : polygons) polygon = any::somewhere(any::rectilinear(6), 8);
  return polygons;
}

bool any_has(std::span<Polygon const> polygons, std::int64_t x, std::int64_t y) {
  return std::any_of(polygons.begin(), polygons.end(),
                     [&](Polygon const& polygon) { return any::has_cell(polygon, x, y); });
}

}  // namespace

TEST_CASE("flaws that overlap, coincide or reach over the outline are taken away once") {
  Polygon const outline = rectangle(10, 10);
  std::vector<Polygon> const flaws{rectangle(4, 4), rectangle(4, 4), moved(rectangle(4, 4), {2, 2}),
                                   moved(rectangle(9, 2), {8, 8})};
  CHECK(twice_usable(outline, flaws) == 2 * (100 - 16 - 12 - 4));
  CHECK(twice_usable(outline, {}) == 200);
  std::vector<Polygon> const all{outline};
  CHECK(twice_usable(outline, all) == 0);
}

TEST_CASE("on a grid the usable area is that of the cells") {
  CHECK(rc::check([] {
    Polygon const outline = any::somewhere(any::rectilinear(9), 4);
    std::vector<Polygon> const flaws = some_polygons(5);
    RC_ASSERT(twice_usable(outline, flaws) == twice_cells([&](std::int64_t x, std::int64_t y) {
                return any::has_cell(outline, x, y) && !any_has(flaws, x, y);
              }));
  }));
}

TEST_CASE("where zones overlap the poorest counts, and the rest has the skin's grade") {
  CHECK(rc::check([] {
    Polygon const outline = any::somewhere(any::rectilinear(9), 4);
    std::vector<Polygon> const flaws = some_polygons(2);
    std::vector<Zone> zones;
    for (Polygon const& polygon : some_polygons(4))
      zones.push_back({polygon, static_cast<int>(any::number(0, 3))});
    int const grade = static_cast<int>(any::number(0, 3)), least = static_cast<int>(any::number(0, 4));
    auto const grade_of = [&](std::int64_t x, std::int64_t y) {
      int poorest = 100;
      for (Zone const& zone : zones)
        if (any::has_cell(zone.polygon, x, y)) poorest = std::min(poorest, zone.grade);
      return poorest == 100 ? grade : poorest;
    };
    RC_ASSERT(twice_usable(outline, flaws, zones, grade, least) ==
              twice_cells([&](std::int64_t x, std::int64_t y) {
                return any::has_cell(outline, x, y) && !any_has(flaws, x, y) && grade_of(x, y) >= least;
              }));
  }));
}

TEST_CASE("slanting edges: twice the area that GEOS finds, rounded down") {
  // shapely 1.8.5 (GEOS 3.11.1): box(0, 0, 1000000, 700000).difference(unary_union(flaws)).area * 2
  Polygon const outline = rectangle(1'000'000, 700'000);
  std::vector<Polygon> const flaws{{{585'677, 862'029}, {165'766, 424'764}, {11'494, 43'059}},
                                   {{496'390, 588'195}, {809'360, 4'426}, {666'501, 971'268}},
                                   {{5'741, 898'918}, {764'600, 833'593}, {895'402, 364'888}}};
  CHECK(twice_usable(outline, flaws) == 1'056'218'765'400);  // .5461
  std::vector<Polygon> const others{{{922'218, 161'257}, {110'702, 949'896}, {368'680, 236'482}},
                                    {{347'768, 117'662}, {435'726, 376'656}, {420'958, 733'577}},
                                    {{517'737, 14'766}, {528'018, 562'212}, {993'517, 597'773}}};
  CHECK(twice_usable(outline, others) == 905'723'011'875);  // .278
}

TEST_CASE("thirds that make a whole count as whole") {
  // Three triangles from the middle of a side to thirds of the opposite side tile the triangle over it.
  Polygon const outline = rectangle(7, 7);
  std::vector<Polygon> const cut{
      {{0, 0}, {3, 7}, {1, 9}}, {{0, 0}, {1, 9}, {-5, 9}}, {{0, 0}, {7, 7}, {3, 7}}};
  CHECK(twice_usable(outline, cut) == 2 * 49 - 49);  // what is left is the half below the diagonal
}

TEST_CASE("the order of flaws and the way round do not matter") {
  CHECK(rc::check([] {
    Polygon const outline = any::triangle(1'000'000);
    std::vector<Polygon> flaws{any::triangle(1'000'000), any::triangle(1'000'000), any::triangle(1'000'000)};
    std::int64_t const area = twice_usable(outline, flaws);
    std::reverse(flaws.begin(), flaws.end());
    std::reverse(flaws[0].begin(), flaws[0].end());
    RC_ASSERT(twice_usable(outline, flaws) == area);
    RC_ASSERT(area <= twice_area(outline));
    std::vector<Polygon> const beside{flaws[0]};
    RC_ASSERT(twice_usable(outline, beside) >= area);
  }));
}
