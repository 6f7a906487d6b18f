// Text block and thread, against what others have published.
#include "engine/book/structure.h"
#include "tests/engine/book/by_rule.h"

#include <doctest/doctest.h>

#include <cmath>
#include <utility>

using namespace endband;
using endband::tests::by_rule;
using enum FigureId;
using doctest::Approx;

namespace {

SheetSize sheet_mm(double first, double second) {
  return {{std::llround(first * 1000)}, {std::llround(second * 1000)}};
}
SheetSize sheet_in(double first, double second) { return sheet_mm(first * 25.4, second * 25.4); }
std::int64_t whole_mm(Length length) { return length.n / 1000; }  // ISO 216 rounds a half down (from memory)

}  // namespace

TEST_CASE("an A3 folds to an A4, and an A4 to an A5") {  // ISO 216, table of sizes
  Folded const a4 = fold(sheet_mm(297, 420), 1);
  CHECK(whole_mm(a4.height) == 297);
  CHECK(whole_mm(a4.width) == 210);
  Folded const a5 = fold(sheet_mm(210, 297), 1);
  CHECK(whole_mm(a5.height) == 210);
  CHECK(whole_mm(a5.width) == 148);
}

// Arts and Crafts Magazine, "Articles on Book Binding", part 3 (chestofbooks.com): the sheets; three folds of
// the longer side make the octavo, before trimming.
TEST_CASE("crown octavo is 7 1/2 x 5 in, royal octavo 10 x 6 1/4 in") {
  Folded const crown = fold(sheet_in(15, 20), 3);
  CHECK(crown.height.n == 190'500);
  CHECK(crown.width.n == 127'000);
  Folded const royal = fold(sheet_in(20, 25), 3);
  CHECK(royal.height.n == 254'000);
  CHECK(royal.width.n == 158'750);
}

TEST_CASE("a folio has 2 leaves, a quarto 4, an octavo 8, and so on, each leaf two pages") {  // the same
  for (auto const& [f, expected] :
       {std::pair{1.0, 2}, std::pair{2.0, 4}, std::pair{3.0, 8}, std::pair{4.0, 16}, std::pair{5.0, 32}}) {
    CHECK(by_rule(leaves, {{sheets, 1}, {folds, f}}) == expected);
    CHECK(by_rule(pages, {{sheets, 1}, {folds, f}}) == 2 * expected);
  }
}

// By the mills' convention (Fedrigoni, glossary, "grain direction") the second side lies along the grain. To
// fold that side puts the grain across the spine: long-grain A4 makes a wrong A5
// (belfastbound.com/materials).
TEST_CASE("long-grain A4 folds to an A5 with the grain across, short-grain to a right one") {
  CHECK_FALSE(fold(sheet_mm(210, 297), 1).grain_head_to_tail);
  CHECK(fold(sheet_mm(297, 210), 1).grain_head_to_tail);
  CHECK(fold(sheet_mm(210, 297), 2).grain_head_to_tail);
  CHECK(fold(sheet_mm(210, 297), 0).grain_head_to_tail);
}

// DCC Kaestl, print glossary, "Papiervolumen": 80 g/m2 of bulk 1.5 is 0.120 mm; it then prints 4 mm for 100
// pages, which its own formula makes 6.
TEST_CASE("a hundred pages of 0.120 mm are 6 mm thick, not 4") {
  CHECK(by_rule(block_thickness, {{leaves, 50},
                                  {leaf_caliper, 0.120},
                                  {compression, 1},
                                  {guard_thickness, 0},
                                  {endpaper_thickness, 0}}) == Approx(6.0));
}

// WJEC, "Papers and boards: category and standards": copying paper of 80 g/m2 is 100 um, a bulk of 1.25 cm3/g
// (ISO 534).
TEST_CASE("copying paper has a bulk of 1.25") {
  double const kg_m3 = by_rule(block_density, {{leaves, 100},
                                               {leaf_grammage, 80},
                                               {leaf_caliper, 0.100},
                                               {compression, 1},
                                               {guard_thickness, 0},
                                               {endpaper_thickness, 0}});
  CHECK(1000 / kg_m3 == Approx(1.25));
}

// D. W. Jones, Bookbinding: A Tutorial, 1995: 19 sections lay 19 threads in the back, each of 0.5 mm as it is
// pressed.
TEST_CASE("nineteen sections sewn with half a millimetre swell by 9.5 mm") {
  CHECK(by_rule(swell, {{sections, 19}, {thread_thickness, 0.5}, {swell_kept, 1}}) == Approx(9.5));
}

// Linen 18/3 has 275.6 tex (E&R, "sewing thread", dt3050). A blog prints that 18/2 is two thirds of its
// diameter: it is two thirds of its mass, and the root of that, 0.816, of its diameter.
TEST_CASE("two cords of a three-cord thread are 0.816 of its diameter, not two thirds") {
  double const three = by_rule(thread_thickness, {{thread_tex, 275.6}, {thread_density, 900}});
  double const two = by_rule(thread_thickness, {{thread_tex, 275.6 * 2 / 3}, {thread_density, 900}});
  CHECK(two / three == Approx(0.816).epsilon(0.001));
  CHECK(three == Approx(0.62).epsilon(0.01));  // at 900 kg/m3: common practice, no source
  CHECK(by_rule(thread_thickness, {{thread_tex, 198.4}, {thread_density, 900}}) ==
        Approx(0.53).epsilon(0.01));
}

// P. Adam, Practical Bookbinding, 1903 (page 31 online): six volumes of together 25 cm. For ordinary work 6 x
// 6 cm + 25 = 61 cm of each cord, for books laced in 6 x 12 + 25 = 97. The cord goes through all, one after
// another.
TEST_CASE("six volumes on one frame take 61 cm of each cord, laced in 97 cm") {
  auto const of_one_cord = [](double slip) {
    double const volume = 250.0 / 6;
    return 6 * by_rule(cord_length,
                       {{supports, 1}, {spine_width, volume}, {slip_length, slip}, {frame_allowance, 0}});
  };
  CHECK(of_one_cord(30) == Approx(610));
  CHECK(of_one_cord(60) == Approx(970));
}

TEST_CASE("a single volume laced in takes its thickness and 12 cm") {  // the same
  CHECK(by_rule(cord_each, {{spine_width, 40}, {slip_length, 60}}) == 160);
}
