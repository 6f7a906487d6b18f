// The box and the parcel: every piece of two boxes worked out on paper, and what resolve asks of a box.
#include "tests/engine/book/boxed.h"
#include "tests/engine/book/layers.h"

#include <array>
#include <cmath>
#include <string>
#include <tuple>

using namespace endband;
using namespace endband::tests;
using doctest::Approx;
using enum FigureId;

namespace {

struct Box {
  Catalogue catalogue = catalogue_with_boxes();
  Structure of(Way way) const { return structure(box_alone(way, catalogue), catalogue); }
};

struct Size {
  std::int64_t count;
  double height, width;
};
void check(Piece const& piece, Size size, Catalogue const& catalogue, std::string_view code) {
  CAPTURE(item_name(piece.item));
  CHECK(piece.part == Part::box);
  CHECK(piece.count == size.count);
  CHECK(mm_of(piece.height) == Approx(size.height));
  CHECK(mm_of(piece.width) == Approx(size.width));
  CHECK(piece.grain == Grain::along_height);
  CHECK(is_material(catalogue, piece.material, code));
}

double glued(Structure const& box, Item item) { return mm2(only(box.spreads, item).area); }

}  // namespace

// Inside 247 x 173 x 39 mm; board 2, covering 0.4, lining 0.15, turn-in 15 mm.
TEST_CASE_FIXTURE(Box, "a slipcase is five boards round the book and its linings") {
  Structure const box = of(Way::slipcase);
  check(only(box.pieces, Item::slipcase_back), {1, 248.1, 40.1}, catalogue, "board-box");
  check(only(box.pieces, Item::slipcase_sides), {2, 252.1, 175.15}, catalogue, "board-box");
  check(only(box.pieces, Item::slipcase_ends), {2, 175.15, 40.1}, catalogue, "board-box");
  check(only(box.pieces, Item::slipcase_strip), {1, 636.4, 74.1}, catalogue, "buckram");
  check(only(box.pieces, Item::slipcase_side_cloths), {2, 252.1, 192.15}, catalogue, "buckram");
  check(only(box.pieces, Item::slipcase_strip_lining), {1, 594.4, 40.1}, catalogue, "lining");
  check(only(box.pieces, Item::slipcase_side_linings), {2, 248.1, 173.15}, catalogue, "lining");
  CHECK(box.pieces.size() == 7);
  CHECK(box.figures.value(box_height) == Approx(252.9));
  CHECK(box.figures.value(box_width) == Approx(175.95));
  CHECK(box.figures.value(box_depth) == Approx(45.7));
}

TEST_CASE_FIXTURE(Box, "a drop-spine box is two trays in a case") {
  Structure const box = of(Way::drop_spine);
  check(only(box.pieces, Item::inner_tray_base), {1, 251.8, 175.4}, catalogue, "board-box");
  auto const inner = all(box.pieces, Item::inner_tray_walls);
  REQUIRE(inner.size() == 2);
  check(inner[0], {1, 251.8, 39.55}, catalogue, "board-box");
  check(inner[1], {2, 173.4, 39.55}, catalogue, "board-box");
  check(only(box.pieces, Item::outer_tray_base), {1, 258.4, 179.6}, catalogue, "board-box");
  auto const outer = all(box.pieces, Item::outer_tray_walls);
  REQUIRE(outer.size() == 2);
  check(outer[0], {1, 258.4, 43.9}, catalogue, "board-box");
  check(outer[1], {2, 177.6, 43.9}, catalogue, "board-box");
  check(only(box.pieces, Item::box_case_boards), {2, 265.2, 183.4}, catalogue, "board-box");
  check(only(box.pieces, Item::box_case_spine), {1, 265.2, 47.8}, catalogue, "board-box");
  check(only(box.pieces, Item::inner_tray_cloth), {1, 636.6, 113.1}, catalogue, "buckram");
  check(only(box.pieces, Item::outer_tray_cloth), {1, 651.6, 121.8}, catalogue, "buckram");
  check(only(box.pieces, Item::box_case_cloth), {1, 299.2, 457.4}, catalogue, "buckram");
  check(only(box.pieces, Item::inner_tray_lining), {1, 247, 190}, catalogue, "lining");
  check(only(box.pieces, Item::outer_tray_lining), {1, 253.6, 194.2}, catalogue, "lining");
  check(only(box.pieces, Item::box_case_lining), {1, 259.2, 417.4}, catalogue, "lining");
  CHECK(box.pieces.size() == 14);
  CHECK(box.figures.value(box_joint) == Approx(4.4));
  CHECK(box.figures.value(box_height) == Approx(266));
  CHECK(box.figures.value(box_width) == Approx(184.2 + std::sqrt(15.36)));
  CHECK(box.figures.value(box_depth) == Approx(52.6));
}

TEST_CASE_FIXTURE(Box, "a box is cut, built, covered and lined piece by piece") {
  for (auto const& [way, boards, built, covering, linings] :
       {std::tuple{Way::slipcase, 5, 5, 3, 3}, std::tuple{Way::drop_spine, 11, 8, 3, 3}}) {
    Structure const box = of(way);
    CHECK(times(box, OperationKind::cut_box_boards) == boards);
    CHECK(times(box, OperationKind::build_box) == built);
    CHECK(times(box, OperationKind::cover_box) == covering);
    CHECK(times(box, OperationKind::line_box) == linings);
    CHECK(times(box, OperationKind::sew_sections) == 0);
    CHECK(times(box, OperationKind::cover_book) == 0);
    CHECK(times(box, OperationKind::final_press) == 0);
  }
}

TEST_CASE_FIXTURE(Box, "the joints, the covering and the linings of a box are glued") {
  Structure const slipcase = of(Way::slipcase);
  // Top and bottom between the sides, the back between all four: 4 x 175.15 + 2 x 248.1 + 2 x 40.1 mm of
  // edge.
  CHECK(glued(slipcase, Item::box_joint_glue) == Approx(2 * 1277));
  CHECK(glued(slipcase, Item::box_cloth_glue) == Approx(636.4 * 74.1 + 2 * 252.1 * 192.15));
  CHECK(glued(slipcase, Item::box_lining_glue) == Approx(594.4 * 40.1 + 2 * 248.1 * 173.15));
  Structure const trays = of(Way::drop_spine);
  double const inner = 2 * (251.8 + 2 * 173.4 + 2 * 39.55) + 251.8 * 175.4;
  double const outer = 2 * (258.4 + 2 * 177.6 + 2 * 43.9) + 258.4 * 179.6;
  CHECK(glued(trays, Item::box_joint_glue) == Approx(inner + outer));
}

TEST_CASE_FIXTURE(Box, "a tight joint leaves a case no narrower than its boards and a thickness") {
  BookSpec spec = box_alone(Way::drop_spine, catalogue);
  fixtures::say(spec, {{box_joint, 1}});
  CHECK(structure(spec, catalogue).figures.value(box_width) == Approx(183.4 + 2 + 0.8));
}

TEST_CASE_FIXTURE(Box, "the lining of a case lies over its turn-in, however wide its square") {
  BookSpec spec = box_alone(Way::drop_spine, catalogue);
  fixtures::say(spec, {{box_square, 18}, {box_turn_in, 10}});
  Figures const figures = structure(spec, catalogue).figures;
  CHECK(figures.value(box_case_lining_height) == Approx(figures.value(box_case_board_height) - 10));
}

TEST_CASE_FIXTURE(Box, "a book's box is made to the book when it is closed, and weighs apart from it") {
  BookSpec spec = fixtures::sample_spec(catalogue);
  Structure const bare = structure(spec, catalogue);
  Structure const boxed = structure(book_in_box(Way::slipcase, catalogue), catalogue);
  CHECK(boxed.figures.value(box_inner_height) == Approx(bare.figures.value(closed_height) + 1));
  CHECK(boxed.figures.value(box_inner_width) == Approx(bare.figures.value(closed_width) + 1));
  CHECK(boxed.figures.value(box_inner_depth) == Approx(bare.figures.value(closed_thickness) + 1));
  CHECK(boxed.figures.value(book_mass) == Approx(bare.figures.value(book_mass)));
  CHECK(boxed.mass == bare.mass);
  CHECK(boxed.figures.value(box_mass) > 100);
  CHECK(bare.figures.value(box_mass) == 0);
  CHECK(boxed.figures.value(packed_mass) ==
        Approx(bare.figures.value(packed_mass) + boxed.figures.value(box_mass) +
               (boxed.figures.value(packing_mass) - bare.figures.value(packing_mass))));
}

TEST_CASE_FIXTURE(Box,
                  "a box alone weighs what it is made of, and leaves with its book when that is weighed") {
  Structure box = of(Way::slipcase);
  CHECK(box.mass.n == std::llround(box.figures.value(box_mass) * 1000));
  CHECK(mm_of(box.closed_height) == Approx(252.9));
  CHECK(mm_of(box.closed_width) == Approx(175.95));
  CHECK(mm_of(box.closed_thickness) == Approx(45.7));
  CHECK_FALSE(box.figures.has(thread_passes));
  CHECK_FALSE(box.figures.has(board_thickness));
  CHECK(box.figures.value(packed_mass) == Approx(900 + box.figures.value(box_mass) + 420));
  BookSpec spec = box_alone(Way::slipcase, catalogue);
  spec.given.set(book_mass, 0, Origin::none);
  Structure const empty = structure(spec, catalogue);
  CHECK(empty.figures.value(packed_mass) == Approx(box.figures.value(box_mass) + 420));
}

TEST_CASE_FIXTURE(Box, "a carton is measured against the box, the book only where there is none") {
  BookSpec spec = box_alone(Way::drop_spine, catalogue);  // 266 x 188.1 x 52.6 mm, padded by 10 mm
  Properties& carton = material(catalogue, "carton").properties;
  carton.height = fixtures::mm(73);
  carton.width = fixtures::mm(286);
  carton.depth = fixtures::mm(209);
  Structure const fits = structure(spec, catalogue);
  CHECK(warning(fits, WarningCode::carton_too_small) == nullptr);
  CHECK(fits.figures.value(packed_height) == 286);
  CHECK(fits.figures.value(packed_width) == 209);
  CHECK(fits.figures.value(packed_thickness) == 73);
  carton.height = fixtures::mm(72);
  Structure const tight = structure(spec, catalogue);
  Warning const* const small = warning(tight, WarningCode::carton_too_small);
  REQUIRE(small != nullptr);
  CHECK(small->is == 72);
  CHECK(small->least == Approx(72.6));
  // The book by itself would do.
  fixtures::leave_out(spec, Part::box);
  CHECK(warning(structure(spec, catalogue), WarningCode::carton_too_small) == nullptr);
}

TEST_CASE_FIXTURE(Box, "a carton whose wall is known is measured outside") {
  material(catalogue, "carton").properties.caliper = fixtures::thick(4);
  Figures const figures = of(Way::slipcase).figures;
  CHECK(figures.value(packed_height) == 428);
  CHECK(figures.value(packed_width) == 328);
  CHECK(figures.value(packed_thickness) == 148);
}

TEST_CASE_FIXTURE(Box, "padding off a roll weighs its length, loose padding its volume") {
  Properties& padding = material(catalogue, "padding").properties;
  padding.grammage_mg = 80'000;  // 400 mm wide
  Structure const rolled = of(Way::slipcase);
  CHECK(rolled.figures.value(packing_mass) == Approx(420 + 4 * (175.95 + 45.7) * 400 * 80e-6));
  material(catalogue, "padding").sold_by = SoldBy::volume;
  padding.density_kg_m3 = 20;
  Structure const loose = of(Way::slipcase);
  double const mm3 = 420.0 * 320 * 140 - 252.9 * 175.95 * 45.7;
  CHECK(loose.figures.value(packing_mass) == Approx(420 + mm3 * 20e-6));
}

TEST_CASE_FIXTURE(Box, "without padding nothing is left round what is sent") {
  BookSpec spec = box_alone(Way::slipcase, catalogue);
  spec.materials[static_cast<std::size_t>(Role::padding)] = {};
  spec.given.set(padding_thickness, 10, Origin::practice);
  CHECK(structure(spec, catalogue).figures.value(padding_thickness) == 0);
}

// --- what resolve asks

namespace {

constexpr std::string_view materials_of_box =
    "board = \"board-3\"\ncloth = \"paper-end\"\nlining = \"paper-spine\"\n";

std::string box_faults(std::string_view said) {
  std::string text =
      "endband = 1\nmodel = \"box\"\nbinding = \"box\"\n[box]\n" + std::string(materials_of_box);
  // By itself: a model brings the sizes of a book.
  auto const whole = layers::text_of(text + std::string(said));
  auto const habits = layers::text_of(layers::habits, "workshop");
  std::array const list{Layer{&whole, Origin::said}, Layer{&habits, Origin::workshop}};
  return layers::faults_of(resolve(list, fixtures::sample_catalogue()));
}
constexpr std::string_view sizes =
    "book_height = \"246 mm\"\nbook_width = \"172 mm\"\nbook_thickness = \"38 mm\"\n";

}  // namespace

TEST_CASE("a box alone asks for the size of the closed book, and for nothing of a book") {
  CHECK(box_faults("") ==
        "missing-key box.book_height\nmissing-key box.book_width\nmissing-key box.book_thickness\n");
  CHECK(box_faults(sizes).empty());
}

TEST_CASE("what is said of a book comes to nothing in a box alone, and is refused") {
  std::string const text = "[text]\nfolds = 2\n[boards]\nsquare = \"3 mm\"\n";
  CHECK(box_faults(std::string(sizes) + text) ==
        "12:9 contradiction text.folds\n14:10 contradiction boards.square\n");
}

TEST_CASE("lines on a box alone are as long as is said: it has neither frames nor bands") {
  std::string const lines = "[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\n";
  CHECK(box_faults(std::string(sizes) + lines + "layout = \"length\"\nlength = \"80 mm\"\n") == "");
  CHECK(box_faults(std::string(sizes) + lines + "layout = \"frame\"\ninset = \"5 mm\"\n")
            .find("contradiction") != std::string::npos);
}

TEST_CASE("a book that is described goes in its box, and no other") {
  std::string const text = "height = \"200 mm\"\nwidth = \"150 mm\"\npages = 200\n[box]\n";
  std::string const box = std::string(materials_of_box);
  CHECK(layers::faults_of(text + box).empty());
  CHECK(layers::faults_of(text + box + "book_width = \"160 mm\"\nbook_mass = \"900 g\"\n") ==
        "9:14 contradiction box.book_width\n10:13 contradiction box.book_mass\n");
}

TEST_CASE("a box takes the boards and the glue of its book unless it has its own") {
  BookSpec const spec = layers::book(
      "height = \"200 mm\"\nwidth = \"150 mm\"\npages = 200\n[box]\ncloth = \"paper-end\"\nlining = "
      "\"paper-spine\"\n");
  CHECK(layers::code_of(spec, Role::box_board) == "board-3");
  CHECK(layers::code_of(spec, Role::box_adhesive) == "pva");
  CHECK(layers::code_of(spec, Role::box_cloth) == "paper-end");
}

TEST_CASE("what covers a box must have a thickness and a size") {
  Catalogue catalogue = catalogue_with_boxes();
  Properties& buckram = material(catalogue, "buckram").properties;
  buckram.caliper.reset();
  buckram.width.reset();
  layers::Four const four(
      "endband = 1\nheight = \"200 mm\"\nwidth = \"150 mm\"\npages = 200\n[box]\ncloth = \"buckram\"\nlining "
      "= \"lining\"\n");
  auto const spec = four.resolve(catalogue);
  REQUIRE_FALSE(spec);
  REQUIRE(spec.error().size() == 2);
  CHECK(spec.error()[0].code == FaultCode::missing_property);
  CHECK(spec.error()[0].expected == "caliper");
  CHECK(spec.error()[1].expected == "width");
}
