// Path data. The examples are those of SVG 1.1 (Second Edition), chapter 8, from memory; areas by formula.
#include "engine/cutting/geometry/outline.h"

#include <doctest/doctest.h>

#include <numbers>
#include <string>

using namespace endband::cutting;

namespace {

tl::expected<DrawnSkin, OutlineFault> read(std::string_view data) { return svg_path(data, {1000, 1}); }
double area_of(Polygon const& polygon) {
  return static_cast<double>(twice_area(polygon)) / 2e6;
}  // square units

// The outline drawn has nearly this area: chords may lie 0.2 units inside or outside of `curved` units of
// curves.
bool has_area(std::string_view data, double area, double curved) {
  auto const skin = read(data);
  return skin && area_of(skin->outline) >= area - 0.2 * curved - 0.01 &&
         area_of(skin->outline) <= area + 0.2 * curved + 0.01;
}
bool draws(std::string_view data, Polygon const& outline) {
  auto const skin = read(data);
  return skin && skin->outline == outline && skin->flaws.empty();
}
bool fails(std::string_view data, OutlineWrong wrong, int at, int flaw = -1) {
  auto const skin = read(data);
  return !skin && skin.error().wrong == wrong && skin.error().first == at && skin.error().flaw == flaw;
}

constexpr double pi = std::numbers::pi;

}  // namespace

TEST_CASE("the triangle of 8.3.2, upside up") {
  CHECK(draws("M 100 100 L 300 100 L 200 300 z", {{0, 200'000}, {200'000, 200'000}, {100'000, 0}}));
}

TEST_CASE("letters and spaces that may be left out may be left out (8.3.1)") {
  Polygon const outline{{0, 400'000}, {100'000, 300'000}, {-100'000 + 200'000, 100'000}, {0, 0}};
  CHECK(draws("M 100 200 L 200 300 L 200 500 L 100 600 z",
              {{0, 400'000}, {100'000, 300'000}, {100'000, 100'000}, {0, 0}}));
  CHECK(draws("M100,200L200,300L200,500L100,600z", outline));
  CHECK(draws("M 100 200 200 300 200 500 100 600 z", outline));
  CHECK(draws("m100+200 100 100 0 2e2-1.0E+2.1e3Z", outline));
}

TEST_CASE("a number ends where it cannot go on: 100-200 and 0.6.5 are two (8.3.9)") {
  CHECK(draws("M100-200l.5.5-1 0z", {{500, 500}, {1000, 0}, {0, 0}}));
  CHECK(draws("M0.6.5l.4.5 0-1z", {{0, 500}, {400, 0}, {400, 1000}}));
}

TEST_CASE("upright and level lines, absolute and relative") {
  CHECK(draws("M10 10H30V40h-20z", {{0, 30'000}, {20'000, 30'000}, {20'000, 0}, {0, 0}}));
  CHECK(draws("M10 10h20v30H10 10z", {{0, 30'000}, {20'000, 30'000}, {20'000, 0}, {0, 0}}));
}

TEST_CASE("cubic curves of 8.3.6") {
  // The first bump alone: 0.6 w h for controls straight above the ends.
  CHECK(has_area("M100,200 C100,100 250,100 250,200 Z", 0.6 * 150 * 100, 250));
  CHECK(has_area("m100,200 c0-100 150-100 150 0 z", 0.6 * 150 * 100, 250));
  // Smooth: the second bump hangs below, the line back crosses the curve between them.
  auto const both = read("M100,200 C100,100 250,100 250,200 S400,300 400,200 Z");
  REQUIRE(both);
  CHECK(box_of(both->outline).right == 300'000);
  CHECK(box_of(both->outline).top == doctest::Approx(150'000).epsilon(0.003));
  auto const faults = validate(both->outline, {});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].wrong == OutlineWrong::crosses);
  CHECK(has_area("M100,200 C100,100 250,100 250,200 S400,300 400,200 V400 H100 Z", 300 * 200, 500));
  // No curve before: the first control is the point itself, and x = 100 t^3.
  CHECK(has_area("M0 0 S 0 100 100 100 H 0 z", 2000, 200));
}

TEST_CASE("quadratic curves of 8.3.7") {
  CHECK(has_area("M200,300 Q400,50 600,300 Z", 2.0 / 3 * 400 * 125, 500));  // two thirds of base and height
  CHECK(has_area("M200,300 Q400,50 600,300 T1000,300 V700 H200 Z", 800 * 400, 1000));
  CHECK(has_area("M200,300 q200-250 400 0 t400 0 v400 h-800z", 800 * 400, 1000));
  CHECK(has_area("M0 0 T 10 0 L 10 10 z", 50, 0));  // no curve before: a line
}

TEST_CASE("arcs of 8.3.8: three quarters of a pie and the fourth") {
  CHECK(has_area("M300,200 h-150 a150,150 0 1,0 150,-150 z", 0.75 * pi * 150 * 150, 0.75 * pi * 300));
  CHECK(has_area("M275,175 v-150 a150,150 0 0,0 -150,150 z", 0.25 * pi * 150 * 150, 0.25 * pi * 300));
}

TEST_CASE("arcs of every kind: sweep, size, turned axes, flags run together, radii too small or none") {
  CHECK(has_area("M0 0 A50 50 0 0 1 100 0z", pi * 1250, 160));
  auto const over = read("M0 0 A50 50 0 0 1 100 0z"), under = read("M0 0 A50 50 0 0 0 100 0z");
  REQUIRE(over);
  REQUIRE(under);
  CHECK(over->outline.front() ==
        Point{0, 0});  // positive angles go down the page from the left: over the top
  CHECK(under->outline.front().y == box_of(under->outline).top);
  CHECK(has_area("M0 0 a50 50 0 0150 50L0 50z", 0.25 * pi * 2500, 80));
  CHECK(has_area("M0 0 A50 50 0 1 1 50 50z", 0.75 * pi * 2500 + 1250, 240));
  CHECK(has_area("M0 0 A50 50 0 0 1 50 50z", 0.25 * pi * 2500 - 1250, 80));
  CHECK(has_area("M0 0 A100 50 30 1 1 1 1 z", pi * 5000, 490));
  CHECK(has_area("M0 0 A100 50 -400.5 1 0 1 1 z", pi * 5000, 490));
  CHECK(has_area("M0 0 A1 1 0 0 1 100 0z", pi * 1250, 160));
  CHECK(draws("M0 0 A0 7 0 0 1 10 0 L 10 10z", {{0, 10'000}, {10'000, 10'000}, {10'000, 0}}));
  CHECK(draws("M0 0 A5 7 0 0 1 0 0 L 10 0 10 10z", {{0, 10'000}, {10'000, 10'000}, {10'000, 0}}));
}

TEST_CASE("no chord is further than 0.2 mm from a circle") {
  auto const skin = read("M-50 0 a50 50 0 1 0 100 0 a50 50 0 1 0 -100 0");
  REQUIRE(skin);
  CHECK(validate(skin->outline, {}).empty());
  Polygon const& circle = skin->outline;
  Box const box = box_of(circle);
  for (std::size_t i = 0; i < circle.size(); ++i) {
    Point const a = circle[i], b = circle[(i + 1) % circle.size()];
    double const x = static_cast<double>(a.x + b.x - box.right) / 2,
                 y = static_cast<double>(a.y + b.y - box.top) / 2;
    CHECK(x * x + y * y >= 49'799.0 * 49'799.0);
    CHECK(x * x + y * y <= 50'001.0 * 50'001.0);
  }
}

TEST_CASE("further subpaths are flaws, moved with the outline, drawing goes on after z from where it began") {
  auto const skin = read("M10 10h50v50h-50z m5 5h10v10h-10z M30 30 h9 v9 z");
  REQUIRE(skin);
  CHECK(skin->outline == Polygon{{0, 50'000}, {50'000, 50'000}, {50'000, 0}, {0, 0}});
  REQUIRE(skin->flaws.size() == 2);
  CHECK(skin->flaws[0] == Polygon{{5'000, 45'000}, {15'000, 45'000}, {15'000, 35'000}, {5'000, 35'000}});
  CHECK(skin->flaws[1] == Polygon{{20'000, 30'000}, {29'000, 30'000}, {29'000, 21'000}});
  auto const on = read("M0 0H50V50z L10 5 20 20z");
  REQUIRE(on);
  REQUIRE(on->flaws.size() == 1);
  CHECK(on->flaws[0].size() == 3);
}

TEST_CASE("a scale is a ratio: 96 to the inch") {
  auto const inch = svg_path("M0 0H96V96H0z", {25'400, 96});
  REQUIRE(inch);
  CHECK(inch->outline == Polygon{{0, 25'400}, {25'400, 25'400}, {25'400, 0}, {0, 0}});
  auto const half_up = svg_path("M0 0H.0005V-2.0004L0-1z", {1000, 1});
  REQUIRE(half_up);
  CHECK(box_of(half_up->outline).right == 1);
  CHECK(box_of(half_up->outline).top == 2000);
}

TEST_CASE("what is wrong with a path is told with its character") {
  CHECK(fails("", OutlineWrong::path_empty, 0));
  CHECK(fails("  ", OutlineWrong::path_empty, 2));
  CHECK(fails("L 1 1", OutlineWrong::path_start, 0));
  CHECK(fails(" z", OutlineWrong::path_start, 1));
  CHECK(fails("M 0 0 L 5 x", OutlineWrong::path_syntax, 10));
  CHECK(fails("M 0 0 L 5", OutlineWrong::path_syntax, 9));
  CHECK(fails("M0,0 L,5 5z", OutlineWrong::path_syntax, 6));
  CHECK(fails("M 0 0 L 10 0,", OutlineWrong::path_syntax, 12));
  CHECK(fails("M 0 0 L 10,,0", OutlineWrong::path_syntax, 11));
  CHECK(fails("M0 0 5 0 5 5 B", OutlineWrong::path_syntax, 13));
  CHECK(fails("M0 0 A 1 1 0 2 0 5 5z", OutlineWrong::path_syntax, 13));
  CHECK(fails("M0 0 L - 5", OutlineWrong::path_number, 7));
  CHECK(fails("M0 0 L . 5", OutlineWrong::path_number, 7));
  CHECK(fails("M0 0 L 1e400 5", OutlineWrong::path_number, 7));
  CHECK(fails("M0 0 L nan 5", OutlineWrong::path_syntax, 7));
  CHECK(fails("M0 0 L 0x10 5z", OutlineWrong::path_syntax, 8));
  CHECK(fails("M0 0 L 1e9 0 5 5z", OutlineWrong::too_large, 7));
  CHECK(fails("M 0 0 L 5 5 10 0", OutlineWrong::path_open, 0));
  CHECK(fails("M 0 0 5 5 10 0z M 2 2 3 3 3 2", OutlineWrong::path_open, 16, 0));
  CHECK(fails("M 0 0 5 5z", OutlineWrong::few_corners, 0));
}

TEST_CASE("a path of endless corners ends") {
  std::string many = "M0 0";
  for (int i = 0; i < 11'000; ++i) many += "h1v1";
  CHECK(read(many).error().wrong == OutlineWrong::path_corners);
  std::string arcs = "M0 0";
  for (int i = 0; i < 1000; ++i) arcs += "a900 900 0 1 1 1 1";
  CHECK(svg_path(arcs, {1000, 1}).error().wrong == OutlineWrong::path_corners);
}
