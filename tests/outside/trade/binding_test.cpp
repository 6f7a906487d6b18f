// Spine, boards, leather and register, against what others have published.
#include "engine/book/making.h"
#include "tests/engine/book/by_rule.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace endband;
using endband::tests::by_rule;
using endband::tests::figures_from;
using enum FigureId;
using doctest::Approx;

namespace {
constexpr double inch = 25.4;
}

// E&R, "rounding", dt2916, and J. W. Zaehnsdorf, The Art of Bookbinding, 1890, p. 47: about a third of a
// circle. The width of the flat back is its chord.
TEST_CASE("a back rounded to a third of a circle") {
  struct Case {
    double t, radius, length, height;
  };
  for (auto const& [t, radius, length, height] :
       {Case{30, 17.32, 36.28, 8.66}, Case{40, 23.09, 48.37, 11.55}}) {
    Figures const figures = figures_from({{block_thickness, t}, {shoulder, 0}, {round_angle, 120}});
    CHECK(figures.value(spine_radius) == Approx(radius).epsilon(0.0005));
    CHECK(figures.value(arc) == Approx(length).epsilon(0.0003));
    CHECK(figures.value(rise) == Approx(height).epsilon(0.0005));
    CHECK(figures.value(arc) == Approx(1.20920 * t));
  }
}

// The same circle over shoulders as high as the boards are thick (P. Adam, Practical Bookbinding, 1903, page
// 36 online): the chord is wider by both, and arc and rise keep their shares of it.
TEST_CASE("shoulders widen the chord of the round") {
  Figures const figures = figures_from({{block_thickness, 40}, {board_thickness, 3}, {round_angle, 120}});
  CHECK(figures.value(arc) == Approx(1.20920 * 46));
  CHECK(figures.value(rise) == Approx(0.288675 * 46));
  CHECK(figures.value(spine_radius) == Approx(0.57735 * 46));
}

// E&R, "register" (1), dt2816: from the head of the spine over the diagonal to the outer corner, and an inch.
TEST_CASE("a register over the diagonal of an A5 is 282.3 mm, of 8 x 5 in 10.434 in") {
  auto const length = [](double h, double w) {
    return by_rule(register_length, {{register_anchor, 0},
                                     {leaf_height, h},
                                     {leaf_width, w},
                                     {register_diagonal, 1},
                                     {register_tail, inch}});
  };
  CHECK(length(210, 148) == Approx(282.3).epsilon(0.0002));
  CHECK(length(8 * inch, 5 * inch) / inch == Approx(10.434).epsilon(0.00005));
}

// S. J. Vaughn, Printing and Bookbinding for Schools, 1914 (pages 39 and 40 online), of a book of 8 x 5 x 1
// in: boards a quarter inch taller and as wide as the leaf, joints of an eighth, turn-in of three quarters.
// He leaves the boards' own thickness out of it.
TEST_CASE("boards of 8 1/4 x 5 in, and a cover of 9 3/4 x 12 3/4 in") {
  Figures const figures = figures_from({{leaf_height, 8 * inch},
                                        {leaf_width, 5 * inch},
                                        {square, inch / 8},
                                        {setback, inch / 8},
                                        {joint, inch / 8},
                                        {turn_in, inch * 3 / 4},
                                        {arc, 1 * inch},
                                        {board_thickness, 0},
                                        {band_growth, 0},
                                        {underlay_growth, 0},
                                        {underlay_growth_across, 0}});
  CHECK(figures.value(board_height) == Approx(8.25 * inch));
  CHECK(figures.value(board_width) == Approx(5 * inch));
  CHECK(figures.value(cover_height) == Approx(9.75 * inch));
  CHECK(figures.value(cover_width) == Approx(12.75 * inch));
}

// D. Cockerell, Bookbinding, and the Care of Books, 1901, ch. XII: about an inch all round, turned in.
TEST_CASE("the leather of an A5 of 30 mm, tight at the joint") {
  Figures const figures = figures_from({{leaf_height, 210},
                                        {leaf_width, 148},
                                        {block_thickness, 30},
                                        {shoulder, 0},
                                        {round_angle, 120},
                                        {square, 3},
                                        {setback, 0},
                                        {joint, 0},
                                        {turn_in, inch},
                                        {board_thickness, 0},
                                        {band_growth, 0},
                                        {underlay_growth, 0},
                                        {underlay_growth_across, 0}});
  CHECK(figures.value(cover_height) == Approx(266.8));
  CHECK(figures.value(cover_width) == Approx(389.1).epsilon(0.0002));
  CHECK(figures.value(cover_area) / 92'903.04 == Approx(1.117).epsilon(0.0005));  // in square feet
}

// A supplier's table (deprintedbox.com): greyboard of 1290 g/m2 is 2.0 mm, a density of 645 kg/m3.
TEST_CASE("two grey boards of 216 x 151 mm weigh 84.1 g") {
  CHECK(by_rule(boards_mass,
                {{board_height, 216}, {board_width, 151}, {board_thickness, 2}, {board_density, 645}}) ==
        Approx(84.1).epsilon(0.001));
}

// F. Roth, Timber, USFS Bulletin 10, p. 28, in W. Noyes, Wood and Forest: dry oak is about 700 kg/m3.
TEST_CASE("two oak boards of 216 x 151 x 5 mm weigh 228 g") {
  CHECK(by_rule(boards_mass,
                {{board_height, 216}, {board_width, 151}, {board_thickness, 5}, {board_density, 700}}) ==
        Approx(228).epsilon(0.002));
}

// D. Cockerell, ch. VII: the back is divided into six portions for five bands.
TEST_CASE("five bands divide the back into six panels") { CHECK(by_rule(panels, {{supports, 5}}) == 6); }

// J. W. Zaehnsdorf, p. 85: a tie-down at about every eighth section.
TEST_CASE("an endband is tied down about every eighth section") {
  CHECK(by_rule(tie_downs, {{sections, 7}}) == 1);
  CHECK(by_rule(tie_downs, {{sections, 8}}) == 2);
  CHECK(by_rule(tie_downs, {{sections, 24}}) == 4);
}

// A. S. Handover, "Gold & Metal Leaf", 2021: leaves of 80 mm. Cut to strips of 5 mm without overlap, one
// makes 16 of its own length, 1.28 m of line.
TEST_CASE("a leaf of gold is 1.28 m of line of 5 mm") {
  StripPlan const plan = strips_for(80, 0, 5, 1280, 1);
  CHECK(plan.strips == 16);
  CHECK(std::floor(80 / plan.width) == 16);
}
