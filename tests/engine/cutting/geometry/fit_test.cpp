// Where shapes fit, against worked cases, every place of a small grid, and GEOS.
#include "engine/cutting/geometry/fit.h"

#include "tests/engine/cutting/geometry/any.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <optional>

using namespace endband::cutting;

namespace {

bool at(Fit const& fit, std::int64_t x, std::int64_t y) {
  return fit.fits == Fits::somewhere && fit.at == Point{x, y};
}
bool nowhere(Fit const& fit) { return fit.fits == Fits::nowhere; }

template <class Fits>
std::optional<Point> lowest_of_grid(std::int64_t size, Fits fits) {
  for (std::int64_t y = 0; y <= size; ++y)
    for (std::int64_t x = 0; x <= size; ++x)
      if (fits(Point{x, y})) return Point{x, y};
  return std::nullopt;
}

// A skin of twelve corners and two flaws, millimetres.
Polygon in_millimetres(Polygon polygon) {
  for (Point& corner : polygon) corner = {1000 * corner.x, 1000 * corner.y};
  return polygon;
}
Polygon const skin = in_millimetres({{0, 300},
                                     {60, 120},
                                     {210, 20},
                                     {400, 0},
                                     {590, 60},
                                     {700, 210},
                                     {720, 400},
                                     {640, 560},
                                     {500, 650},
                                     {300, 670},
                                     {120, 590},
                                     {30, 460}});
std::vector<Polygon> const holes{in_millimetres({{300, 300}, {340, 310}, {320, 350}}),
                                 in_millimetres({{600, 500}, {700, 480}, {680, 620}, {610, 600}})};

}  // namespace

TEST_CASE("a rectangle of the outline's size fits at its corner, a micrometre more nowhere") {
  Polygon const outline = moved(rectangle(5000, 3000), {70, 20});
  Ground const ground{outline, {}};
  CHECK(at(fits_somewhere(ground, 5000, 3000, 0), 70, 20));
  CHECK(nowhere(fits_somewhere(ground, 5001, 3000, 0)));
  CHECK(nowhere(fits_somewhere(ground, 5000, 3001, 0)));
}

TEST_CASE("in a right triangle a rectangle fits when its far corner reaches the long side") {
  Polygon const outline{{0, 0}, {1'000'000, 0}, {0, 1'000'000}};
  Ground const ground{outline, {}};
  CHECK(at(fits_somewhere(ground, 400'000, 600'000, 0), 0, 0));
  CHECK(nowhere(fits_somewhere(ground, 400'000, 600'001, 0)));
}

TEST_CASE("a place between micrometres is none") {
  // Where 6 x 2 would fit, x = 3 * 2 / 14.
  Polygon const outline{{0, 0}, {7, 0}, {3, 14}};
  Ground const ground{outline, {}};
  CHECK(nowhere(fits_somewhere(ground, 6, 2, 0)));
  CHECK(at(fits_somewhere(ground, 5, 2, 0), 1, 0));
}

TEST_CASE("in a slanted channel just as wide as the shape only the whole places on its line count") {
  // Both run along (4, 3); the second channel begins with a slanting cut, so that its lower wall is one step
  // shorter.
  Polygon const shape{{0, 0}, {40, 30}, {33, 40}, {-7, 10}};
  Polygon const straight{{0, 0}, {400, 300}, {393, 310}, {-7, 10}};
  CHECK(at(fits_somewhere({straight, {}}, shape, 0), -7, 0));
  Polygon const cut{{4, 3}, {400, 300}, {393, 310}, {-7, 10}};
  CHECK(at(fits_somewhere({cut, {}}, shape, 0), -3, 3));
  Polygon const narrow{{0, 0}, {400, 300}, {394, 309}, {-6, 9}};
  CHECK(nowhere(fits_somewhere({narrow, {}}, shape, 0)));
}

TEST_CASE("the lowest places that GEOS finds, rounded up to whole micrometres") {
  // shapely 1.8.5 (GEOS 3.11.1): the box of places less unary_union of convex_hull(edge - rectangle) for each
  // edge; its lowest corner.
  Ground const ground{skin, holes};
  CHECK(at(fits_somewhere(ground, 200'000, 300'000, 0), 340'000, 44'211));  // 44210.526
  CHECK(at(fits_somewhere(ground, 300'000, 250'000, 0), 195'000, 30'000));
  CHECK(at(fits_somewhere(ground, 420'000, 250'000, 0), 142'500, 350'000));
  CHECK(at(fits_somewhere(ground, 600'000, 150'000, 0), 51'875, 144'375));
  CHECK(at(fits_somewhere(ground, 320'000, 300'000, 0), 340'000, 155'455));  // 155454.545
  CHECK(nowhere(fits_somewhere(ground, 500'000, 250'000, 0)));
  CHECK(nowhere(fits_somewhere(ground, 560'000, 200'000, 0)));
}

TEST_CASE("a flaw inside the shape's outline forbids, one of the shape's own size too") {
  Polygon const outline = rectangle(100, 100);
  std::vector<Polygon> const speck{moved(rectangle(2, 2), {49, 49})};
  CHECK(nowhere(fits_somewhere({outline, speck}, 60, 60, 0)));
  CHECK(at(fits_somewhere({outline, speck}, 49, 100, 0), 0, 0));
  std::vector<Polygon> const whole{outline};
  CHECK(nowhere(fits_somewhere({outline, whole}, 100, 100, 0)));
  CHECK(nowhere(fits_somewhere({outline, {}, whole}, 3, 3, 0)));
}

TEST_CASE("a hook fits around a flaw where its box does not") {
  Polygon const hook{{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 60}, {0, 60}};
  Polygon const outline = rectangle(60, 60);
  std::vector<Polygon> const flaw{moved(rectangle(40, 40), {20, 20})};
  CHECK(at(fits_somewhere({outline, flaw}, hook, 0), 0, 0));
  CHECK(nowhere(fits_somewhere({outline, flaw}, turned(hook, 90), 0)));
  CHECK(nowhere(fits_somewhere({outline, flaw}, 60, 60, 0)));
}

TEST_CASE("a flaw that is just a convex part of the shape forbids") {
  // No edge of the flaw passes through the inside of a part, only along where the parts meet.
  Polygon const hook{{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 60}, {0, 60}};
  Polygon const outline = rectangle(60, 60);
  for (Polygon const& part :
       {rectangle(60, 20), rectangle(20, 60), moved(rectangle(40, 20), {20, 0}),
        moved(rectangle(20, 40), {0, 20}), rectangle(20, 20), Polygon{{0, 0}, {20, 20}, {0, 60}}}) {
    std::vector<Polygon> const flaw{part};
    CHECK(nowhere(fits_somewhere({outline, flaw}, hook, 0)));
  }
}

TEST_CASE("the margin is kept to the edge and to flaws, straight across, but not to zones") {
  Polygon const outline = rectangle(110, 110);
  Ground const plain{outline, {}};
  CHECK(at(fits_somewhere(plain, 100, 100, 5), 5, 5));
  CHECK(nowhere(fits_somewhere(plain, 100, 100, 6)));
  std::vector<Polygon> const corner{moved(rectangle(10, 10), {30, 40})};
  Polygon const room{{-300, -300}, {300, -300}, {300, 300}, {-300, 300}};
  CHECK(within_but_for(moved(rectangle(10, 10), {-10, -10}), {room, corner}, 50));  // 30, 40, 50
  CHECK_FALSE(within_but_for(moved(rectangle(10, 10), {-10, -10}), {room, corner}, 51));
  std::vector<Polygon> const poor{moved(rectangle(110, 50), {0, 0})};
  CHECK(at(fits_somewhere({outline, {}, poor}, 20, 20, 5), 5, 50));
  CHECK(at(fits_somewhere({outline, poor}, 20, 20, 5), 5, 55));
}

TEST_CASE("with a margin a place is true, a refusal is proved, and few are left unsure") {
  int unsure = 0, all = 0;
  CHECK(rc::check([&] {
    std::int64_t const margin = any::number(1, 4);
    Polygon const outline = rectangle(24, 24), shape = any::rectilinear(9);
    std::vector<Polygon> const flaws{any::somewhere(any::triangle(9), 15),
                                     any::somewhere(any::triangle(9), 15)};
    Ground const ground{outline, flaws};
    Fit const fit = fits_somewhere(ground, shape, margin);
    auto const fits = [&](Point place) { return within_but_for(moved(shape, place), ground, margin); };
    std::optional<Point> const first = lowest_of_grid(24, fits);
    RC_ASSERT(fit.fits != Fits::nowhere || !first);
    RC_ASSERT(fit.fits != Fits::somewhere || fits(fit.at));
    unsure += fit.fits == Fits::unsure ? 1 : 0;
    ++all;
  }));
  CHECK(20 * unsure <= all);
}

TEST_CASE("on a grid the place is the first that the cells allow") {
  CHECK(rc::check([] {
    Polygon const outline = any::somewhere(any::rectilinear(10), 2), shape = any::rectilinear(5);
    std::vector<Polygon> flaws{any::somewhere(any::rectilinear(4), 9),
                               any::somewhere(any::rectilinear(4), 9)};
    std::vector<Polygon> const poor{any::somewhere(any::rectilinear(3), 9)};
    std::optional<Point> const first = lowest_of_grid(14, [&](Point place) {
      for (std::int64_t x = 0; x < 5; ++x)
        for (std::int64_t y = 0; y < 5; ++y) {
          if (!any::has_cell(shape, x, y)) continue;
          auto const has = [&](Polygon const& p) { return any::has_cell(p, x + place.x, y + place.y); };
          if (!has(outline) || has(flaws[0]) || has(flaws[1]) || has(poor[0])) return false;
        }
      return true;
    });
    Fit const fit = fits_somewhere({outline, flaws, poor}, shape, 0);
    RC_ASSERT(fit.fits == (first ? Fits::somewhere : Fits::nowhere));
    if (first) RC_ASSERT(fit.at == *first);
  }));
}

TEST_CASE("among slanting edges the place is the first that the predicates allow") {
  CHECK(rc::check([] {
    Polygon const outline = any::triangle(25), shape = any::triangle(6);
    std::vector<Polygon> const flaws{any::somewhere(any::triangle(8), 16),
                                     any::somewhere(any::triangle(8), 16)};
    Box const box = box_of(shape);
    Polygon const laid = moved(shape, {-box.left, -box.bottom});
    std::optional<Point> const first = lowest_of_grid(25, [&](Point place) {
      Polygon const there = moved(laid, place);
      return within(there, outline) && !overlap(there, flaws[0]) && !overlap(there, flaws[1]);
    });
    Fit const fit = fits_somewhere({outline, flaws}, shape, 0);
    RC_ASSERT(fit.fits == (first ? Fits::somewhere : Fits::nowhere));
    if (first) RC_ASSERT(fit.at == *first);
  }));
}

TEST_CASE("a broken request is refused") {
  Polygon const outline = rectangle(10, 10);
  CHECK_THROWS_AS(fits_somewhere({outline, {}}, 0, 5, 0), std::logic_error);
  CHECK_THROWS_AS(fits_somewhere({outline, {}}, 5, 5, -1), std::logic_error);
  CHECK_THROWS_AS(fits_somewhere({outline, {}}, Polygon{{0, 0}, {1, 1}}, 0), std::logic_error);
}
