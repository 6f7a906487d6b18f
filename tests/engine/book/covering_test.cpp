// Backs, boards, coverings and wrappers, each worked by hand.
#include "tests/engine/book/by_rule.h"
#include "tests/engine/book/every_covering.h"
#include "tests/engine/book/made.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace endband;
using namespace endband::tests;
using endband::fixtures::mm;
using enum FigureId;
using doctest::Approx;

namespace {

constexpr double inch = 25.4;

bool has(Structure const& book, Item item) { return !all(book.pieces, item).empty(); }

}  // namespace

// S. J. Vaughn, Printing and Bookbinding for Schools, 1914 (pages 39 and 40 online): a cased book of
// 8 x 5 x 1 in. He leaves the boards' own thickness out of it.
TEST_CASE("the cloth of a flat case of 8 x 5 x 1 in is 9 3/4 x 12 3/4 in") {
  Figures const figures = figures_from({{leaf_height, 8 * inch},
                                        {leaf_width, 5 * inch},
                                        {spine_width, 1 * inch},
                                        {square, inch / 8},
                                        {setback, inch / 8},
                                        {turn_in, inch * 3 / 4},
                                        {board_thickness, 0},
                                        {false_bands, 0},
                                        {false_band_width, 0},
                                        {leather_stretch, 0},
                                        {underlay_growth, 0},
                                        {underlay_growth_across, 0}},
                                       {Way::tapes, Way::cased, Way::loose, Way::groove, Way::flat});
  CHECK(figures.value(arc) == Approx(1 * inch));
  CHECK(figures.value(board_width) == Approx(5 * inch));
  CHECK(figures.value(cover_height) == Approx(9.75 * inch));
  CHECK(figures.value(cover_width) == Approx(12.75 * inch));
}

// E&R, "rounding", dt2916: a third of a circle; only rounded, the back has the block's own width as its
// chord.
TEST_CASE("a back that is rounded and not backed has no shoulders") {
  Figures const figures =
      figures_from({{block_thickness, 30}, {board_thickness, 3}, {round_angle, 120}}, {Way::rounded});
  CHECK(figures.value(shoulder) == 0);
  CHECK(figures.value(chord) == 30);
  CHECK(figures.value(arc) == Approx(36.28).epsilon(0.0003));
}

// P. Adam, Practical Bookbinding, 1903, ch. VI: as wide as the board is thick, and what it stands off:
// 6 + 2.5 mm.
TEST_CASE("a grooved joint of boards of 2.5 mm set back by 6 mm takes 8.5 mm of covering") {
  CHECK(by_rule(joint, {{setback, 6}, {board_thickness, 2.5}}, {Way::cased, Way::groove}) == 8.5);
  CHECK(by_rule(joint, {{board_thickness, 2.5}}, {Way::cased, Way::tight_joint}) == 2.5);
  CHECK(by_rule(joint, {{board_thickness, 2.5}}, {Way::laced, Way::tight_joint}) == 0);
}

// Common practice: a corner of 35 mm along the edge, turned in by 15 mm over a board of 3 mm, is half a
// square of 71 mm: 2,520 mm2.
TEST_CASE("a leather corner of 35 mm takes 2,520 mm2") {
  Figures const figures = figures_from(
      {{boards, 2}, {corner_leather, 35}, {turn_in, 15}, {board_thickness, 3}}, {Way::half, Way::hollow});
  CHECK(figures.value(corner_cut) == 71);
  CHECK(figures.value(corners_area) / figures.value(covering_corners) == Approx(2520).epsilon(0.0005));
}

TEST_CASE("corners reach along the edge, or across, as far as the leather of the spine") {
  CHECK(by_rule(corner_leather, {{spine_reach, 40}}, {Way::half, Way::corner_by_leg}) == 40);
  CHECK(by_rule(corner_leather, {{spine_reach, 40}}, {Way::half, Way::corner_by_diagonal}) ==
        Approx(56.5685));
}

// A corner of 35 mm, turned in by 15 mm over a board of 3 mm, has legs of 71 mm. The side laps its slant by 4
// mm, measured across: its own trimmed corner has legs shorter by 4 x root 2, 65.3431 mm, and two of them are
// a square of 4,269.73 mm2.
TEST_CASE("the sides are trimmed across the corners, a lap within the edge of their covering") {
  Figures const figures = figures_from({{boards, 2},
                                        {board_height, 248},
                                        {board_width, 158},
                                        {spine_reach, 39.5},
                                        {corner_leather, 35},
                                        {side_lap, 4},
                                        {turn_in, 15},
                                        {board_thickness, 3},
                                        {underlay_growth, 0},
                                        {underlay_growth_across, 0}},
                                       {Way::half, Way::hollow});
  CHECK(figures.value(side_height) == 284);
  CHECK(figures.value(side_width) == 140.5);
  CHECK(figures.value(sides_area) == Approx(2 * (284 * 140.5 - 4269.73)).epsilon(1e-6));
}

TEST_CASE_FIXTURE(Described, "half leather is a spine, two sides and four corners, two to a square") {
  Structure const book = made("case", "[cover]\nextent = \"half\"\n[spine]\nshape = \"flat\"\n");
  Figures const& of = book.figures;
  // Boards: 240 + 2 x 4 by 160 - 6 + 4; a quarter of the width is leather; turn-ins of 20 over 3.
  CHECK(of.value(board_height) == 248);
  CHECK(of.value(board_width) == 158);
  CHECK(of.value(spine_reach) == Approx(39.5));
  Piece const spine = only(book.pieces, Item::cover_leather);
  CHECK(spine.height == mm(248 + 46));
  double const stiff = of.value(spine_width) + 6;
  CHECK(spine.width.n == Approx(1000 * (stiff + 2 * 9 + 2 * 39.5)).epsilon(1e-4));
  CHECK(spine.lay == Lay{Lie::backbone_along_height, 10});
  CHECK(spine.grade == Grade::back);
  Piece const sides = only(book.pieces, Item::cover_sides);
  CHECK(sides.count == 2);
  CHECK(sides.height == mm(294));
  CHECK(sides.width == mm(158 - 39.5 + 4 + 23));
  CHECK(is_material(catalogue, sides.material, "marbled"));
  Piece const corners_cut = only(book.pieces, Item::cover_corners);
  CHECK(corners_cut.count == 2);
  CHECK(corners_cut.outline == Outline::two_corners);
  CHECK(corners_cut.height == mm(39.5 + 46));
  CHECK(corners_cut.grade == Grade::flank);
  CHECK(corners_cut.lay == Lay{});
  CHECK(corners_cut.skin_group == spine.skin_group);
  CHECK(times(book, OperationKind::put_on_corners) == 4);
  CHECK(times(book, OperationKind::put_on_sides) == 2);
  CHECK(times(book, OperationKind::make_case) == 1);
  CHECK(times(book, OperationKind::case_in) == 1);
  CHECK(times(book, OperationKind::cover_book) == 0);
  CHECK(times(book, OperationKind::lace_boards) == 0);
  CHECK(times(book, OperationKind::cut_leather) == 3);
  CHECK(times(book, OperationKind::cut_cloth) == 2);
  double const edges = 2 * (294 + stiff + 18 + 79) + 4 * (2 + std::sqrt(2.0)) * 85.5;
  CHECK(times(book, OperationKind::pare_edges) == Approx(edges / 1000).epsilon(0.001));
}

TEST_CASE_FIXTURE(Described, "a quarter cover has no corners, and cloth is neither pared nor thinned") {
  Structure const book = made("case", "[cover]\nextent = \"quarter\"\n", "buckram");
  CHECK_FALSE(has(book, Item::cover_corners));
  CHECK(times(book, OperationKind::put_on_corners) == 0);
  CHECK(times(book, OperationKind::turn_corners) == 4);
  CHECK(times(book, OperationKind::pare_edges) == 0);
  CHECK(times(book, OperationKind::thin_leather) == 0);
  CHECK(times(book, OperationKind::dress_leather) == 0);
  CHECK(times(book, OperationKind::cut_leather) == 0);
  CHECK(times(book, OperationKind::cut_cloth) == 3);
  CHECK(only(book.pieces, Item::cover_leather).grade == Grade::belly);
  CHECK(only(book.pieces, Item::cover_leather).skin_group == 0);
  CHECK(only(book.spreads, Item::cover_paste).coats == 1);
}

TEST_CASE_FIXTURE(Described, "cloth without a density weighs by its grammage") {
  Structure const book = made("case", "", "buckram");
  CHECK(book.figures.value(cover_mass) == Approx(book.figures.value(cover_area) * 280e-6));
}

TEST_CASE_FIXTURE(Described, "corners may be of other stuff than the spine") {
  Structure const book = made("case", "[cover]\nextent = \"half\"\ncorners = \"goat\"\n", "buckram");
  Piece const corners_cut = only(book.pieces, Item::cover_corners);
  CHECK(is_material(catalogue, corners_cut.material, "goat"));
  CHECK(corners_cut.skin_group == 0);
  CHECK(times(book, OperationKind::pare_edges) ==
        Approx(book.figures.value(corner_edges) / 1000).epsilon(1e-3));
  CHECK(book.figures.value(corners_mass) ==
        Approx(book.figures.value(corners_area) * 1.0 * 750e-6).epsilon(1e-4));
}

TEST_CASE_FIXTURE(Described, "a tight back on recessed cords is lined over the whole spine") {
  Structure const book = made("recessed-cords", "[spine]\nback = \"tight\"\n");
  CHECK(only(book.pieces, Item::spine_linings).height == mm(240));
  CHECK(only(book.pieces, Item::spine_papers).height == mm(240));
  CHECK_FALSE(has(book, Item::panel_linings));
  CHECK_FALSE(has(book, Item::mull));
  CHECK_FALSE(has(book, Item::hollow));
  CHECK(times(book, OperationKind::line_spine) == 1);
  CHECK(times(book, OperationKind::line_panels) == 0);
  CHECK(times(book, OperationKind::set_bands) == 0);
  CHECK(times(book, OperationKind::drill_lacing) == 2 * 2 * book.figures.value(supports));
}

TEST_CASE_FIXTURE(Described, "under a hollow back lie mull that reaches on to the boards, paper and a tube") {
  Structure const book = made("tapes", "");
  double const round = book.figures.value(arc);
  Piece const mull_cut = only(book.pieces, Item::mull);
  CHECK(mull_cut.height == mm(240 - 24));
  CHECK(mull_cut.width.n == Approx(1000 * (round + 60)).epsilon(1e-4));
  CHECK(only(book.pieces, Item::hollow).width.n == Approx(3000 * round).epsilon(1e-4));
  CHECK(times(book, OperationKind::make_hollow) == 1);
  CHECK(times(book, OperationKind::cover_book) == 1);
  CHECK(times(book, OperationKind::drill_lacing) == 0);  // split boards
  CHECK(times(book, OperationKind::lace_boards) == book.figures.value(supports));
}

TEST_CASE_FIXTURE(Described, "false bands show on a hollow back, and lengthen the covering") {
  Structure const plain = made("tapes", "[cover]\nstretch = \"0 %\"\n");
  Structure const book =
      made("tapes", "[false_bands]\ncount = 5\nwidth = \"6 mm\"\n[cover]\nstretch = \"0 %\"\n");
  Piece const strips = only(book.pieces, Item::false_bands);
  CHECK(strips.count == 5);
  CHECK(strips.height == mm(6));
  CHECK(book.figures.value(panels) == 6);
  CHECK(times(book, OperationKind::set_false_bands) == 5);
  CHECK(times(book, OperationKind::set_bands) == 5);
  double const grown = book.figures.value(cover_height) - plain.figures.value(cover_height);
  CHECK(grown == Approx(5 * (M_PI / 2 - 1) * 6));
  CHECK(book.closed_width.n - plain.closed_width.n == Approx(3000).epsilon(0.001));
}

TEST_CASE_FIXTURE(Described, "a link-stitched book has its boards covered one by one and its spine bare") {
  Structure const book = made("link-stitch", "[boards]\nlining = \"marbled\"\n");
  Piece const covers = only(book.pieces, Item::cover_leather);
  CHECK(covers.count == 2);
  CHECK(covers.height == mm(248 + 46));
  CHECK(covers.width == mm(164 + 46));
  Piece const linings = only(book.pieces, Item::board_linings);
  CHECK(linings.count == 2);
  CHECK(linings.height == mm(240));
  CHECK(linings.width == mm(160));
  CHECK(times(book, OperationKind::sew_boards) == 2);
  CHECK(times(book, OperationKind::cover_boards) == 2);
  CHECK(times(book, OperationKind::line_boards) == 2);
  CHECK(times(book, OperationKind::turn_corners) == 8);
  for (auto const never : {OperationKind::glue_spine, OperationKind::round_spine, OperationKind::line_spine,
                           OperationKind::cover_book, OperationKind::make_case, OperationKind::lace_boards})
    CHECK(times(book, never) == 0);
  CHECK_FALSE(has(book, Item::mull));
}

TEST_CASE_FIXTURE(Described,
                  "a wrapper goes round the leaves, with its flap over the fore-edge, and is tied") {
  Structure const book = made("long-stitch", "[tie]\nturns = 2\n");
  Figures const& of = book.figures;
  Piece const wrapper = only(book.pieces, Item::cover_leather);
  CHECK(wrapper.count == 1);
  CHECK(wrapper.height == mm(240 + 6));
  double const wide = 2 * 163 + of.value(arc) + of.value(block_thickness) + 60;
  CHECK(wrapper.width.n == Approx(1000 * wide).epsilon(1e-4));
  CHECK_FALSE(has(book, Item::boards));
  CHECK(times(book, OperationKind::cut_wrapper) == 1);
  CHECK(times(book, OperationKind::pierce_wrapper) == of.value(sewn_sections) * of.value(stations));
  CHECK(times(book, OperationKind::cover_book) == 0);
  CHECK(times(book, OperationKind::pare_edges) == 0);
  CHECK(of.value(closed_height) == 246);
  CHECK(of.value(closed_width) == Approx(163 + 2 * 1.0));
  CHECK(of.value(closed_thickness) == Approx(of.value(spine_width) + 3 * 1.0));
  double const round = 2 * (of.value(closed_width) + of.value(closed_thickness));
  Piece const thong = only(book.pieces, Item::tie);
  CHECK(thong.height.n == Approx(1000 * (2 * round + 150)).epsilon(1e-4));
  CHECK(thong.width == mm(8));
  CHECK(thong.lay == Lay{Lie::backbone_along_height, 5});
  CHECK(thong.skin_group == wrapper.skin_group);
  CHECK(times(book, OperationKind::make_ties) == 1);
}

TEST_CASE_FIXTURE(Described, "one section goes into a wrapper cut flush, or into a case") {
  std::string_view const size = "height = \"210 mm\"\nwidth = \"148 mm\"\npages = 32\n";
  Structure const limp = structure(spec("single-section", "", "card", size), catalogue);
  CHECK(only(limp.pieces, Item::cover_leather).height == mm(210));
  CHECK(times(limp, OperationKind::pierce_wrapper) == limp.figures.value(stations));
  Structure const cased = structure(
      spec("single-section", "[boards]\nattached = \"cased\"\nsquare = \"3 mm\"\n", "buckram", size),
      catalogue);
  CHECK(has(cased, Item::boards));
  CHECK(has(cased, Item::mull));
  CHECK(has(cased, Item::stiffener));
  CHECK(times(cased, OperationKind::glue_spine) == 0);
  CHECK(times(cased, OperationKind::case_in) == 1);
  CHECK(times(cased, OperationKind::pierce_wrapper) == 0);
}

TEST_CASE_FIXTURE(Described, "a flat back in a case has a stiffener as wide as block and boards") {
  Structure const flat_back = made("case", "[spine]\nshape = \"flat\"\n");
  Piece const stiff = only(flat_back.pieces, Item::stiffener);
  CHECK(stiff.height == mm(248));
  CHECK(stiff.width.n == Approx(1000 * (flat_back.figures.value(spine_width) + 6)).epsilon(1e-4));
  CHECK(times(flat_back, OperationKind::round_spine) == 0);
  Structure const round_back = made("case", "");
  CHECK(only(round_back.pieces, Item::stiffener).width.n ==
        Approx(1000 * round_back.figures.value(arc)).epsilon(1e-4));
  CHECK(times(round_back, OperationKind::round_spine) == 1);
  CHECK(times(round_back, OperationKind::back_spine) == 0);
}

TEST_CASE_FIXTURE(Described, "nothing is warned of in parts that a book does not have") {
  Structure const book = made("long-stitch", "");
  for (auto const code :
       {WarningCode::square_unusual, WarningCode::turn_in_unusual, WarningCode::bands_unusual,
        WarningCode::swell_too_small, WarningCode::will_not_back, WarningCode::thin_leather})
    CHECK(warning(book, code) == nullptr);
}
