// The check's own predicates: by hand, by counting cells, and against those of the geometry module.
#include "engine/cutting/check/sides.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband::cutting;

namespace {

Polygon box(std::int64_t left, std::int64_t bottom, std::int64_t right, std::int64_t top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}
Polygon reversed(Polygon polygon) {
  std::reverse(polygon.begin(), polygon.end());
  return polygon;
}
class Chance {  // the same numbers every time
 public:
  std::int64_t from(std::int64_t least, std::int64_t most) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return least + static_cast<std::int64_t>((state_ >> 33) % static_cast<std::uint64_t>(most - least + 1));
  }

 private:
  std::uint64_t state_ = 7;
};
Polygon any_box(Chance& chance) {
  std::int64_t const left = chance.from(0, 8);
  std::int64_t const bottom = chance.from(0, 8);
  Polygon const polygon = box(left, bottom, left + chance.from(1, 6), bottom + chance.from(1, 6));
  return chance.from(0, 1) == 1 ? reversed(polygon) : polygon;
}
// Simple, seldom convex; many share corners and run along each other's edges.
Polygon any_polygon(Chance& chance) {
  for (;;) {
    Polygon polygon;
    std::int64_t const corners = chance.from(3, 6);
    for (std::int64_t i = 0; i < corners; ++i) polygon.push_back({chance.from(0, 12), chance.from(0, 12)});
    if (!crossing(polygon) && twice_area(polygon) > 0) return polygon;
  }
}
bool holds(Polygon const& box, std::int64_t x, std::int64_t y) {  // the cell with that lower left corner
  auto const [least, most] = std::minmax_element(box.begin(), box.end());
  return x >= least->x && x < most->x && y >= least->y && y < most->y;
}

}  // namespace

TEST_CASE("interiors meet or only touch") {
  Polygon const one = box(0, 0, 10, 10);
  CHECK(meet(one, box(9, 9, 20, 20)));
  CHECK(meet(one, one));
  CHECK(meet(one, reversed(one)));
  CHECK(meet(one, box(4, 4, 5, 5)));
  CHECK(meet(box(4, 4, 5, 5), one));
  CHECK(meet(box(0, 4, 10, 5), box(4, 0, 5, 10)));
  CHECK(meet(one, box(0, 0, 10, 5)));
  CHECK_FALSE(meet(one, box(10, 0, 20, 10)));
  CHECK_FALSE(meet(one, box(10, 10, 20, 20)));
  Polygon const notched{{0, 0}, {10, 0}, {10, 10}, {7, 10}, {7, 3}, {3, 3}, {3, 10}, {0, 10}};
  CHECK_FALSE(meet(notched, box(3, 3, 7, 12)));
  CHECK(meet(notched, box(3, 2, 7, 12)));
  CHECK(meet(notched, {{3, 3}, {7, 3}, {8, 20}}));
}

TEST_CASE("one lies within another, edges touching or not") {
  Polygon const outer{{0, 0}, {10, 0}, {10, 10}, {7, 10}, {7, 3}, {3, 3}, {3, 10}, {0, 10}};
  CHECK(lies_within(outer, outer));
  CHECK(lies_within(box(0, 0, 3, 10), outer));
  CHECK(lies_within(box(0, 0, 10, 3), outer));
  CHECK_FALSE(lies_within(box(0, 0, 10, 4), outer));
  CHECK_FALSE(lies_within(box(2, 2, 8, 10), outer));  // all its corners lie within
  CHECK_FALSE(lies_within(outer, box(0, 0, 10, 9)));
  CHECK_FALSE(lies_within(box(20, 20, 21, 21), outer));
}

TEST_CASE("distances are counted to the micrometre, at corners and along edges") {
  Polygon const one = box(0, 0, 10, 10);
  CHECK_FALSE(closer(one, box(15, 0, 20, 10), 5));
  CHECK(closer(one, box(15, 0, 20, 10), 6));
  CHECK_FALSE(closer(one, box(13, 14, 20, 20), 5));  // 3, 4, 5 from corner to corner
  CHECK(closer(one, box(13, 13, 20, 20), 5));
  CHECK_FALSE(closer(box(5, 5, 6, 6), box(0, 0, 11, 11), 5));
  CHECK(closer(box(5, 5, 7, 6), box(0, 0, 11, 11), 5));
  Polygon const slope{{20, 0}, {20, 20}, {0, 20}};  // x + y = 20; (10, 10) lies on it
  CHECK(closer(one, slope, 1));
  CHECK_FALSE(closer(box(0, 0, 5, 5), slope, 7));  // 10 / sqrt 2 = 7.07
  CHECK(closer(box(0, 0, 5, 5), slope, 8));
}

TEST_CASE("the usable area: crossing flaws worked by hand") {
  // x / 3 + y = 1 and x + y / 3 = 1 cross at (3/4, 3/4): the union of the triangles is 9/4.
  std::vector<Polygon> const flaws{{{0, 0}, {3, 0}, {0, 1}}, {{0, 0}, {0, 3}, {1, 0}}};
  CHECK(twice_area_usable(box(0, 0, 3, 3), flaws) == 13);  // 2 x 6.75
  // x / 2 + y = 1 and x + y / 2 = 1 cross at (2/3, 2/3): twice the union is 8/3; three of them are a whole 8.
  std::vector<Polygon> thirds;
  for (std::int64_t i : {0, 10, 20}) {
    thirds.push_back({{i, 0}, {i + 2, 0}, {i, 1}});
    thirds.push_back({{i, 0}, {i + 1, 0}, {i, 2}});
  }
  CHECK(twice_area_usable(box(0, 0, 30, 5), thirds) == 300 - 8);
  CHECK(twice_area_usable(box(0, 0, 3, 3), std::vector<Polygon>{box(-5, -5, 5, 5)}) == 0);
  Polygon const large = box(-10'000'000, -10'000'000, 10'000'000, 10'000'000);
  CHECK(twice_area_usable(large, {}) == 800'000'000'000'000);
  CHECK(twice_area_usable(large, std::vector<Polygon>{large}) == 0);
  CHECK(twice_area_usable(large, std::vector<Polygon>{{{-10'000'000, -10'000'000},
                                                       {10'000'000, -10'000'000},
                                                       {10'000'000, 10'000'000}}}) == 400'000'000'000'000);
}

TEST_CASE("property: boxes, however they share edges, have the area that counting cells gives") {
  Chance chance;
  for (int i = 0; i < 1000; ++i) {
    Polygon const outline = any_box(chance);
    std::vector<Polygon> flaws;
    for (std::int64_t n = chance.from(0, 4); n > 0; --n) flaws.push_back(any_box(chance));
    std::int64_t cells = 0;
    for (std::int64_t x = 0; x < 16; ++x)
      for (std::int64_t y = 0; y < 16; ++y) {
        auto const over = [&](Polygon const& flaw) { return holds(flaw, x, y); };
        if (holds(outline, x, y) && std::none_of(flaws.begin(), flaws.end(), over)) ++cells;
      }
    REQUIRE(twice_area_usable(outline, flaws) == 2 * cells);
  }
}

TEST_CASE("property: the check and the geometry module agree on overlap and on lying within") {
  Chance chance;
  for (int i = 0; i < 1000; ++i) {
    Polygon const one = any_polygon(chance);
    Polygon const other = any_polygon(chance);
    REQUIRE(meet(one, other) == overlap(one, other));
    REQUIRE(meet(other, one) == overlap(one, other));
    REQUIRE(lies_within(one, other) == within(one, other));
    REQUIRE(twice_area_usable(one, {}) == twice_area(one));
  }
}

TEST_CASE("property: union and overlap together have the area of both") {
  Chance chance;
  for (int i = 0; i < 1000; ++i) {
    Polygon const one = any_polygon(chance);
    Polygon const other = any_polygon(chance);
    Polygons const both{&one, &other};
    std::int64_t const either = twice_area_where(both, [](Inside const& in) { return in[0] || in[1]; });
    std::int64_t const shared = twice_area_where(both, [](Inside const& in) { return in[0] && in[1]; });
    std::int64_t const sum = twice_area(one) + twice_area(other);
    REQUIRE(either + shared <= sum);
    REQUIRE(either + shared >= sum - 1);  // each is rounded down
  }
}
