// Endbands, edges, lettering, insets and furniture as they are made, worked by hand.
#include "engine/book/making.h"
#include "tests/engine/book/by_rule.h"
#include "tests/engine/book/made.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace endband;
using namespace endband::tests;
using endband::fixtures::choose;
using endband::fixtures::include;
using endband::fixtures::mm;
using endband::fixtures::say;
using enum FigureId;
using doctest::Approx;

namespace {

struct Book {
  Catalogue catalogue = fixtures::sample_catalogue();
  BookSpec spec = fixtures::sample_spec(catalogue);
  Structure made() const { return structure(spec, catalogue); }
  void way(Way way) { spec.ways = spec.ways.replaced_by({way}); }
  MaterialId id(std::string_view code) const { return catalogue.find(code)->id; }
};

double of(Run const& run) { return static_cast<double>(run.each.n) / 1000; }

}  // namespace

TEST_CASE("silk on two cores goes round each of them") {
  auto const path = [](Way cores) {
    return by_rule(wrap_path, {{core_thickness, 2}, {second_core_thickness, 1}, {silk_thickness, 0.3}},
                   {cores});
  };
  CHECK(path(Way::one_core) == Approx(7.2257));    // 2.3 x pi
  CHECK(path(Way::two_cores) == Approx(11.3097));  // 3.6 x pi
}

TEST_CASE("tie-downs are one, and one more for every eighth section") {  // J. W. Zaehnsdorf, 1890, p. 85
  CHECK(by_rule(tie_downs, {{sections, 7}}) == 1);
  CHECK(by_rule(tie_downs, {{sections, 8}}) == 2);
  CHECK(by_rule(tie_downs, {{sections, 31}}) == 4);
}

TEST_CASE(
    "a register over the diagonal of an A5 leaf and an inch is 282.3 mm") {  // E&R, 'register' (1), dt2816
  auto const length = [](double h, double w) {
    return by_rule(register_length, {{register_anchor, 0},
                                     {leaf_height, h},
                                     {leaf_width, w},
                                     {register_diagonal, 1},
                                     {register_tail, 25.4}});
  };
  CHECK(length(210, 148) == Approx(282.3).epsilon(0.0002));
  CHECK(length(8 * 25.4, 5 * 25.4) == Approx(10.434 * 25.4).epsilon(0.0001));
}

TEST_CASE_FIXTURE(Book, "two cores are cut, and a silk that wraps twice as often takes twice the length") {
  way(Way::two_cores);
  choose(spec, Role::second_core, catalogue, "core-2");
  spec.silk_pattern = {id("silk-red"), id("silk-red"), id("silk-white")};
  Structure const book = made();
  CHECK(all(book.runs, Item::endband_cores).size() == 2);
  auto const silks = all(book.runs, Item::endband_silk);
  REQUIRE(silks.size() == 2);
  CHECK(of(silks[0]) == Approx(2 * of(silks[1])).epsilon(1e-6));
  CHECK(of(silks[0]) + of(silks[1]) == Approx(book.figures.value(silk_length)).epsilon(1e-6));
  CHECK(book.figures.value(endband_colours) == 2);
  // 1.2 m needles that waste 130 mm: each colour has needlefuls of its own for head and for tail.
  double const half = of(silks[0]) / 2;
  CHECK((silks[0].taken - silks[0].each).n == 2 * 130'000 * std::llround(std::ceil(half / 1070)));
}

TEST_CASE_FIXTURE(Book, "one silk on two needles is one colour") {
  choose(spec, Role::endband_silk_2, catalogue, "silk-red");
  CHECK(only(made().runs, Item::endband_silk).each == length_of(made().figures.value(silk_length)));
  CHECK(made().figures.value(endband_colours) == 1);
}

TEST_CASE_FIXTURE(Book, "a made endband is stuck on as long as the round, without core or silk") {
  way(Way::stuck_on);
  choose(spec, Role::made_endband, catalogue, "ribbon");
  Structure const book = made();
  Run const run = only(book.runs, Item::made_endbands);
  CHECK(run.count == 2);
  CHECK(of(run) == Approx(book.figures.value(arc)).epsilon(1e-5));
  CHECK(run.taken == run.each);
  CHECK(all(book.runs, Item::endband_silk).empty());
  CHECK(all(book.runs, Item::endband_cores).empty());
  CHECK(times(book, OperationKind::stick_endbands) == 2);
  CHECK(times(book, OperationKind::sew_endbands) == 0);
  // The ribbon of the sample catalogue stands for it, 6 mm wide.
  CHECK(mm2(only(book.spreads, Item::endband_glue).area) == Approx(2 * book.figures.value(arc) * 6));
  CHECK_FALSE(book.figures.has(silk_length));
}

TEST_CASE_FIXTURE(Book, "an endband higher than the square is warned of") {
  // D. Cockerell, 1901, ch. XI: the covered core is slightly lower than the square.
  say(spec, {{core_thickness, 3}});
  CHECK(warning(made(), WarningCode::endband_too_high) == nullptr);
  say(spec, {{core_thickness, 4}});
  Structure const book = made();
  Warning const* const high = warning(book, WarningCode::endband_too_high);
  REQUIRE(high != nullptr);
  CHECK(high->is == Approx(4 + 2 * book.figures.value(silk_thickness)));
  CHECK(high->most == 4);
}

TEST_CASE("the head is done first, then the fore-edge, then the tail") {
  auto const length = [](double n) {
    return by_rule(edge_length, {{edges_done, n}, {leaf_height, 210}, {leaf_width, 148}}, {Way::gilt});
  };
  CHECK(length(1) == 148);
  CHECK(length(2) == 148 + 210);
  CHECK(length(3) == 148 + 210 + 148);
}

TEST_CASE_FIXTURE(Book, "a fore-edge of 210 x 40 mm takes three leaves of 80 mm, a strip from each") {
  include(spec, {Part::edges});
  way(Way::gilt);
  choose(spec, Role::metal_leaf, catalogue, "leaf-gold");
  choose(spec, Role::leaf_size, catalogue, "size");
  say(spec, {{leaf_height, 210}, {leaf_width, 148}, {block_thickness, 40}});
  Structure const book = made();
  auto const strips = all(book.strips, Item::leaf_edges);
  REQUIRE(strips.size() == 2);
  for (Strips const& of_edge : strips) CHECK(of_edge.width == mm(46));
  CHECK(strips[0].strips == 4);  // head and tail: 148 mm are 77 and 71 each
  CHECK(strips[1].strips == 3);  // 210 mm are 77, 77 and 56
  CHECK(mm2(only(book.spreads, Item::leaf_size).area) == Approx((210 + 2 * 148) * 40));
  CHECK(times(book, OperationKind::gild_edges) == 3);
  say(spec, {{edges_done, 1}});
  CHECK(only(made().strips, Item::leaf_edges).strips == 2);

  OutsideWork gilder;
  gilder.kind = OutsideKind::edge_gilding;
  spec.outside = {gilder};
  Structure const elsewhere = made();
  CHECK(all(elsewhere.strips, Item::leaf_edges).empty());
  CHECK(times(elsewhere, OperationKind::gild_edges) == 0);
  CHECK(elsewhere.figures.value(edges_area) == Approx(148 * 40));
}

TEST_CASE_FIXTURE(Book, "sprinkled edges take colour on their area, and cut ones nothing") {
  include(spec, {Part::edges});
  choose(spec, Role::edge_colour, catalogue, "dye");
  CHECK(all(made().spreads, Item::edge_colour).empty());
  way(Way::sprinkled);
  Structure const book = made();
  CHECK(mm2(only(book.spreads, Item::edge_colour).area) ==
        Approx((250 + 2 * 180) * book.figures.value(block_thickness)));
  CHECK(times(book, OperationKind::sprinkle_edges) == 3);
}

TEST_CASE_FIXTURE(Book, "a title is pressed letter by letter, line by line, or with a die") {
  include(spec, {Part::lettering});
  spec.letters = "MOTH NOTES";
  say(spec, {{letters, 9}, {letter_lines, 2}, {letter_height, 7}, {letter_pitch, 6}, {letter_layers, 0}});
  struct Done {
    Way way;
    double letter_title, set_type, press;
  };
  for (Done const& done :
       {Done{Way::by_letter, 9, 0, 0}, Done{Way::by_line, 0, 9, 2}, Done{Way::by_die, 0, 0, 2}}) {
    way(done.way);
    Structure const book = made();
    CHECK(times(book, OperationKind::letter_title) == done.letter_title);
    CHECK(times(book, OperationKind::set_type) == done.set_type);
    CHECK(times(book, OperationKind::press_impressions) == done.press);
  }
}

TEST_CASE_FIXTURE(Book, "the letters that a fount lacks are named, each with what is owned and needed") {
  include(spec, {Part::lettering});
  spec.letters = "MOTH NOTES";
  spec.fount = "MOTHENS";
  say(spec, {{letters, 9}, {letter_lines, 1}, {letter_height, 7}, {letter_pitch, 6}, {letter_layers, 0}});
  CHECK(warning(made(), WarningCode::letter_missing) == nullptr);  // one after another
  way(Way::by_line);
  Structure const one_line = made();
  Warning const* const missing = warning(one_line, WarningCode::letter_missing);
  REQUIRE(missing != nullptr);
  CHECK(missing->is == 1);
  CHECK(missing->least == 2);
  CHECK(missing->most == 'O');
  say(spec, {{letter_lines, 2}});  // MOTH, and NOTES: no line has a letter twice
  CHECK(warning(made(), WarningCode::letter_missing) == nullptr);
  spec.fount = "";  // nobody said
  spec.letters = "Q";
  CHECK(warning(made(), WarningCode::letter_missing) == nullptr);
}

TEST_CASE_FIXTURE(Book, "onlays and panels are cut and glued, and what comes by the piece is counted") {
  include(spec, {Part::insets});
  choose(spec, Role::inset_adhesive, catalogue, "pva");
  spec.insets = {
      {.kind = InsetKind::onlay,
       .material = id("goat"),
       .height_mm = 40,
       .width_mm = 30,
       .count = 3,
       .where = {}},
      {.kind = InsetKind::panel,
       .material = id("card"),
       .height_mm = 80,
       .width_mm = 60,
       .count = 1,
       .where = {}},
      {.kind = InsetKind::panel,
       .material = id("stone"),
       .height_mm = 30,
       .width_mm = 22,
       .count = 2,
       .where = {}},
  };
  Structure const book = made();
  Piece const onlays = only(book.pieces, Item::onlays);
  CHECK(onlays.count == 3);
  CHECK(onlays.skin_group == 1);  // of the cover's own skin
  CHECK(only(book.pieces, Item::inset_panels).height == mm(80));
  CHECK(only(book.things, Item::inset_panels).net == amount(Count{2000}));
  CHECK(mm2(only(book.spreads, Item::inset_glue).area) == Approx(3 * 1200 + 4800 + 2 * 660));
  CHECK(times(book, OperationKind::lay_onlays) == 3);
  CHECK(times(book, OperationKind::let_in_panels) == 3);
}

TEST_CASE_FIXTURE(Book, "furniture is counted as listed, with its rivets and its mass") {
  include(spec, {Part::furniture});
  choose(spec, Role::rivet, catalogue, "rivet");
  double const before = made().figures.value(fittings_mass);
  spec.furniture = {{.material = id("clasp"), .count = 3, .rivets_each = 2, .where = {}},
                    {.material = id("corner"), .count = 8, .rivets_each = 1, .where = {}}};
  Structure const book = made();
  CHECK(all(book.things, Item::furniture).size() == 2);
  CHECK(times(book, OperationKind::fit_furniture) == 11);
  CHECK(times(book, OperationKind::set_rivets) == 14);
  CHECK(book.figures.value(fittings_mass) - before == Approx(3 * 38 + 8 * 9 + 14 * 1));
}

TEST_CASE("a strap on a wrapper crosses the edge of the block alone") {
  auto const strap = [](double round_the_book) {
    return by_rule(strap_length,
                   {{strap_wraps_round, round_the_book},
                    {strap_fixing, 50},
                    {block_thickness, 30},
                    {strap_reach, 40},
                    {strap_tail, 60},
                    {leaf_width, 150},
                    {arc, 30},
                    {strap_overlap, 80}},
                   {Way::no_boards});
  };
  CHECK(strap(0) == 50 + 30 + 40 + 60);
  CHECK(strap(1) == 2 * 150 + 30 + 30 + 80);
}
