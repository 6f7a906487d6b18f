// Predicates against worked cases, cells of a grid and separating lines.
#include "engine/cutting/geometry/geometry.h"

#include "tests/engine/cutting/geometry/any.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cstdlib>

using namespace endband::cutting;

namespace {

// Convex polygons' insides are apart when a line along an edge of one has the other wholly on its far side.
bool separated(Polygon const& one, Polygon const& other) {
  auto const side = [](Point a, Point b, Point c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  };
  auto const by_edge_of = [&](Polygon const& edges, Polygon const& corners) {
    for (std::size_t i = 0; i < edges.size(); ++i) {
      Point const a = edges[i], b = edges[(i + 1) % edges.size()];
      bool const left = side(a, b, edges[(i + 2) % edges.size()]) > 0;
      if (std::all_of(corners.begin(), corners.end(),
                      [&](Point c) { return left ? side(a, b, c) <= 0 : side(a, b, c) >= 0; }))
        return true;
    }
    return false;
  };
  return by_edge_of(one, other) || by_edge_of(other, one);
}

bool clashes(Polygon const& polygon, int first, int second) {
  auto const found = crossing(polygon);
  return found && found->first == first && found->second == second;
}

Polygon const bow{{0, 0}, {10, 10}, {10, 0}, {0, 10}};
Polygon const notched{{0, 0}, {10, 0}, {10, 10}, {5, 4}, {0, 10}};

}  // namespace

TEST_CASE("area counts the same either way round and for a notch") {
  CHECK(twice_area(rectangle(30, 20)) == 1200);
  CHECK(twice_area({{0, 0}, {0, 20}, {30, 20}, {30, 0}}) == 1200);
  CHECK(twice_area(notched) == 200 - 60);
  CHECK(twice_area(rectangle(10'000'000, 10'000'000)) == 200'000'000'000'000);
}

TEST_CASE("a simple polygon crosses nothing, also with a straight corner") {
  CHECK_FALSE(crossing(notched));
  CHECK_FALSE(crossing({{0, 0}, {5, 0}, {10, 0}, {10, 10}, {0, 10}}));
}

TEST_CASE("edges that cross, touch, overlap, fold back or have no length are named") {
  CHECK(clashes(bow, 0, 2));
  CHECK(clashes({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}, 0, 2));      // a corner touches an edge
  CHECK(clashes({{0, 0}, {9, 0}, {9, 5}, {6, 0}, {3, 0}, {0, 5}}, 0, 2));  // an edge lies on another
  CHECK(clashes({{0, 0}, {10, 0}, {4, 0}, {4, 8}}, 0, 1));                 // folds back
  CHECK(clashes({{0, 0}, {10, 0}, {10, 0}, {10, 10}}, 0, 1));              // a repeated corner
  CHECK(clashes({{0, 0}, {10, 0}, {10, 10}, {0, 0}}, 0, 2));               // the first repeated as the last
  CHECK(clashes({{0, 0}, {4, 4}, {8, 0}, {8, 8}, {4, 4}, {0, 8}}, 0, 3));  // a corner met twice
  CHECK(clashes({{0, 0}, {5, 5}, {9, 9}}, 0, 2));                          // no area
  CHECK(crossing({{0, 0}, {1, 1}}));
}

TEST_CASE("a point is inside, on the edge or outside, also level with corners") {
  CHECK(place_of({5, 3}, notched) == Place::inside);
  CHECK(place_of({5, 4}, notched) == Place::on_edge);
  CHECK(place_of({5, 5}, notched) == Place::outside);
  CHECK(place_of({1, 4}, notched) == Place::inside);
  CHECK(place_of({-1, 4}, notched) == Place::outside);
  CHECK(place_of({-1, 10}, notched) == Place::outside);
  CHECK(place_of({0, 10}, notched) == Place::on_edge);
  CHECK(place_of({5, 10}, notched) == Place::outside);
  CHECK(place_of({10, 7}, notched) == Place::on_edge);
}

TEST_CASE("a square over the mouth of a notch is not within, though its corners are") {
  Polygon const mouth{{0, 0}, {10, 0}, {10, 10}, {6, 10}, {5, 2}, {4, 10}, {0, 10}};
  Polygon const lid{{2, 10}, {2, 8}, {8, 8}, {8, 10}};
  CHECK_FALSE(within(lid, mouth));
  CHECK(overlap(lid, mouth));
  // Through a corner only: the edge from (4, 10) to (6, 10) has both ends on the outline and its middle
  // outside.
  CHECK_FALSE(within({{4, 10}, {3, 1}, {7, 1}, {6, 10}}, mouth));
  CHECK(within({{2, 10}, {2, 1}, {3, 1}, {3, 10}}, mouth));
}

TEST_CASE("what only touches does not overlap, what is the same does") {
  Polygon const square = rectangle(10, 10);
  CHECK(within(square, square));
  CHECK(overlap(square, square));
  CHECK(overlap(square, {{0, 0}, {0, 10}, {10, 10}, {10, 0}}));
  CHECK_FALSE(overlap(square, moved(square, {10, 0})));
  CHECK_FALSE(overlap(square, moved(square, {10, 10})));
  CHECK_FALSE(overlap(square, moved(square, {10, 4})));
  CHECK(overlap(square, moved(square, {9, 9})));
  CHECK(overlap(square, moved(rectangle(2, 2), {4, 4})));
  CHECK(overlap(moved(rectangle(2, 2), {4, 4}), square));
  CHECK(overlap(square, {{5, -5}, {15, 5}, {5, 15}, {-5, 5}}));  // a diamond through its corners
  CHECK_FALSE(overlap(notched, {{0, 10}, {5, 4}, {10, 10}}));    // the notch itself
}

TEST_CASE("on a grid, within and overlap are those of the cells") {
  CHECK(rc::check([] {
    Polygon const one = any::somewhere(any::rectilinear(5), 4),
                  other = any::somewhere(any::rectilinear(5), 4);
    bool all = true, some = false;
    for (std::int64_t x = 0; x < 10; ++x)
      for (std::int64_t y = 0; y < 10; ++y) {
        if (!any::has_cell(one, x, y)) continue;
        all = all && any::has_cell(other, x, y);
        some = some || any::has_cell(other, x, y);
      }
    RC_ASSERT(within(one, other) == all);
    RC_ASSERT(overlap(one, other) == some);
    RC_ASSERT(overlap(other, one) == some);
  }));
}

TEST_CASE("triangles overlap unless a line separates them") {
  CHECK(rc::check([] {
    Polygon const one = any::triangle(8), other = any::triangle(8);
    RC_ASSERT(overlap(one, other) == !separated(one, other));
    bool const corners_in = std::all_of(
        one.begin(), one.end(), [&](Point corner) { return place_of(corner, other) != Place::outside; });
    RC_ASSERT(within(one, other) == corners_in);
  }));
}

TEST_CASE("quarter turns are exact") {
  Polygon const shape{{0, 0}, {7, 0}, {7, 3}, {2, 5}};
  CHECK(turned(shape, 0) == shape);
  CHECK(turned(shape, 90) == Polygon{{5, 0}, {5, 7}, {2, 7}, {0, 2}});
  CHECK(turned(shape, 180) == Polygon{{7, 5}, {0, 5}, {0, 2}, {5, 0}});
  CHECK(turned(shape, -90) == turned(shape, 270));
  CHECK(turned(shape, 450) == turned(shape, 90));
  CHECK(turned(moved(shape, {-100, 33}), 360) == shape);
}

TEST_CASE("other turns are rounded to the micrometre, half away from zero") {
  // shapely 1.8.5 (GEOS 3.11.1): affinity.rotate(box(0, 0, 1000000, 500000), 30, origin=(0, 0)) gives
  // (866025.40, 500000.00) (616025.40, 933012.70) (-250000.00, 433012.70) (0, 0); here from (1000000, 0) on,
  // moved by 250000.
  CHECK(turned(rectangle(1'000'000, 500'000), 30) ==
        Polygon{{250'000, 0}, {1'116'025, 500'000}, {866'025, 933'013}, {0, 433'013}});
  // box(0, 0, 123457, 765433) by 77: (27771.78, 120292.81) (-718043.22, 292477.77) (-745815.00, 172184.96).
  CHECK(turned(rectangle(123'457, 765'433), 77) ==
        Polygon{{745'815, 0}, {773'587, 120'293}, {27'772, 292'478}, {0, 172'185}});
  // cos(60 degrees) is a half: 1 -> 0.5 -> 1, -1 -> -0.5 -> -1.
  CHECK(turned({{1, 0}, {-1, 0}, {0, 10}}, 60) == Polygon{{10, 2}, {8, 0}, {0, 6}});
}

TEST_CASE("turning keeps the area: exactly by quarters, else within half a micrometre along the edges") {
  CHECK(rc::check([] {
    Polygon const shape = any::somewhere(any::triangle(9'000'000), 900'000);
    RC_ASSERT(twice_area(turned(shape, 90 * static_cast<int>(any::number(-5, 5)))) == twice_area(shape));
    RC_ASSERT(twice_area(moved(shape, {any::number(-9, 9), any::number(-9, 9)})) == twice_area(shape));
    Polygon const at = turned(shape, static_cast<int>(any::number(-720, 720)));
    RC_ASSERT(std::abs(twice_area(at) - twice_area(shape)) <= 156'000'000);
    RC_ASSERT(box_of(at).left == 0);
    RC_ASSERT(box_of(at).bottom == 0);
  }));
}

TEST_CASE("turning there and back comes within three micrometres") {
  CHECK(rc::check([] {
    int const degrees = static_cast<int>(any::number(1, 359));
    Polygon const shape = rectangle(any::number(1, 2'000'000), any::number(1, 2'000'000));
    Polygon const back = turned(turned(shape, degrees), -degrees);
    for (std::size_t i = 0; i < shape.size(); ++i) {
      RC_ASSERT(std::abs(back[i].x - shape[i].x) <= 3);
      RC_ASSERT(std::abs(back[i].y - shape[i].y) <= 3);
    }
  }));
}
