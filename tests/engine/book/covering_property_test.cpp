// What holds for every covering of every binding, whatever the size of the book.
#include "tests/engine/book/every_covering.h"
#include "tests/engine/book/made.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <initializer_list>
#include <string>

using namespace endband;
using namespace endband::tests;
using enum FigureId;

namespace {

struct Kind {
  std::string_view binding;
  std::vector<std::string> shapes, backs, joints, extents;
};

std::vector<Kind> const kinds{
    {"raised-cords",
     {"flat", "rounded", "backed"},
     {"tight", "hollow"},
     {"tight", "groove"},
     {"full", "half", "quarter", "three-quarter"}},
    {"recessed-cords",
     {"flat", "rounded", "backed"},
     {"tight", "hollow"},
     {"tight", "groove"},
     {"full", "half", "quarter", "three-quarter"}},
    {"tapes",
     {"flat", "rounded", "backed"},
     {"tight", "hollow"},
     {"tight", "groove"},
     {"full", "half", "quarter", "three-quarter"}},
    {"case",
     {"flat", "rounded", "backed"},
     {"loose"},
     {"tight", "groove"},
     {"full", "half", "quarter", "three-quarter"}},
    {"link-stitch", {"flat"}, {"open"}, {"tight"}, {"each-board"}},
    {"long-stitch", {"flat"}, {"open"}, {"tight"}, {"wrapper"}},
};

std::string pick(std::vector<std::string> const& of) { return *rc::gen::elementOf(of); }

struct AnyBook : Described {
  BookSpec spec;

  // The ways by a description, as a binder would say them; the size by figures.
  void draw() {
    Kind const kind = *rc::gen::elementOf(kinds);
    std::string const extent = pick(kind.extents);
    std::string said = "[spine]\nshape = \"" + pick(kind.shapes) + "\"\nback = \"" + pick(kind.backs) +
                       "\"\n[boards]\njoint = \"" + pick(kind.joints) + "\"\n[cover]\nextent = \"" + extent +
                       "\"\n";
    if (extent == "half" || extent == "three-quarter") {
      said += "corner_rule = \"" + pick({"leg", "diagonal"}) + "\"\n";
      said += "corners = \"" + pick({"goat", "buckram"}) + "\"\n";
    }
    bool const may_have_bands = kind.binding == "recessed-cords" || kind.binding == "tapes";
    if (may_have_bands && *rc::gen::arbitrary<bool>()) said += "[false_bands]\ncount = 5\n";
    if (*rc::gen::arbitrary<bool>()) said += "[tie]\nturns = 2\n";
    spec = Described::spec(kind.binding, said, pick({"goat", "buckram", "marbled", "card"}));
    for (auto const& [id, low, high] : {std::tuple{leaf_height, 100, 500}, std::tuple{leaf_width, 80, 400},
                                        std::tuple{pages_wanted, 80, 1200}})
      spec.given.set(id, *rc::gen::inRange(low, high), Origin::said);
  }
  Structure made() const { return structure(spec, catalogue); }
  bool is(Way way) const { return spec.ways.has(way); }
};

double as_mm(Length length) { return static_cast<double>(length.n) / 1000; }

// How often a point of a board's outside, `x` from its back edge and over the fore-edge to the end of the
// turn-in, is covered in the middle of its height.
int layers_at(double x, Structure const& book) {
  Figures const& of = book.figures;
  double const end = of.value(board_width) + of.value(board_thickness) + of.value(turn_in);
  auto const sides = all(book.pieces, Item::cover_sides);
  double const spine_ends = (as_mm(only(book.pieces, Item::cover_leather).width) -
                             of.value_or(spine_piece_width, of.value(arc)) - 2 * of.value(joint)) /
                            2;
  double const side_starts = sides.empty() ? end + 1 : end - as_mm(sides.front().width);
  return (x < spine_ends ? 1 : 0) + (x >= side_starts ? 1 : 0);
}

double area(Piece const& piece) {
  return static_cast<double>(piece.count) * as_mm(piece.height) * as_mm(piece.width);
}

// Sides are put on without what would lie under the slant of a corner's covering, the lap left on it.
double trimmed_across(Piece const& piece, Figures const& of) {
  if (piece.item != Item::cover_sides || !of.has(covering_corners)) return 0;
  double const legs = of.value(corner_leather) + 2 * (of.value(turn_in) + of.value(board_thickness)) -
                      std::sqrt(2.0) * of.value(side_lap);
  return of.value(covering_corners) * legs * legs / 2;
}

double number(Ratio ratio) { return static_cast<double>(ratio.num()) / static_cast<double>(ratio.den()); }

double diameter(Material const& of) { return static_cast<double>(of.properties.caliper->n) * 1e-6; }

double grams_a_mm2(Material const& of) {
  if (of.properties.grammage_mg) return static_cast<double>(*of.properties.grammage_mg) * 1e-9;
  return diameter(of) * static_cast<double>(*of.properties.density_kg_m3) * 1e-6;
}

double grams_a_mm(Material const& of) {
  Properties const& has = of.properties;
  if (has.thread) return number(tex(*has.thread)) * 1e-6;
  if (has.grammage_mg) return as_mm(*has.width) * grams_a_mm2(of);
  if (!has.caliper) return 0;  // made endbands, of which nobody knows more than the length
  return M_PI / 4 * diameter(of) * diameter(of) * static_cast<double>(*has.density_kg_m3) * 1e-6;
}

double dry_grams_a_mm2(Material const& of) {
  if (!of.properties.solids) return 0;
  return static_cast<double>(*of.properties.spread_mg_m2) * 1e-9 * number(*of.properties.solids);
}

}  // namespace

TEST_CASE_FIXTURE(AnyBook,
                  "every board is covered from its back over its fore-edge, and twice only where sides lap") {
  CHECK(rc::check([this] {
    draw();
    if (!spec.ways.meet({Way::full, Way::three_quarter, Way::half, Way::quarter}))
      RC_DISCARD("another covering");
    Structure const book = made();
    Figures const& of = book.figures;
    double const end = of.value(board_width) + of.value(board_thickness) + of.value(turn_in);
    double twice = 0;
    for (double x = 0.25; x < end; x += 0.5) {
      int const layers = layers_at(x, book);
      RC_ASSERT(layers >= 1);
      if (layers > 1) twice += 0.5;
    }
    RC_ASSERT(twice <= (is(Way::full) ? 0 : of.value(side_lap)) + 1);
    // Head to tail with both turn-ins.
    double const high = of.value(board_height) + 2 * (of.value(board_thickness) + of.value(turn_in));
    for (Piece const& piece : book.pieces)
      if (piece.item == Item::cover_leather || piece.item == Item::cover_sides)
        RC_ASSERT(as_mm(piece.height) >= high - 1e-3);
  }));
}

TEST_CASE_FIXTURE(AnyBook, "single boards and wrappers are covered by no less than they are large") {
  CHECK(rc::check([this] {
    draw();
    Structure const book = made();
    Figures const& of = book.figures;
    Piece const cover = only(book.pieces, Item::cover_leather);
    if (is(Way::each_board)) {
      RC_ASSERT(cover.count == 2);
      RC_ASSERT(as_mm(cover.width) >= of.value(board_width) + 2 * of.value(turn_in));
    }
    if (is(Way::wrapper)) {
      double const round = 2 * of.value(leaf_width) + of.value(spine_width) + of.value(block_thickness);
      RC_ASSERT(as_mm(cover.width) >= round);
      RC_ASSERT(as_mm(cover.height) >= of.value(leaf_height));
      RC_ASSERT(all(book.pieces, Item::boards).empty());
    }
  }));
}

TEST_CASE_FIXTURE(AnyBook, "the mass is that of all its parts, each weighed once and by itself") {
  CHECK(rc::check([this] {
    draw();
    Structure const book = made();
    Figures const& of = book.figures;
    double parts = of.value(block_mass) + of.value(endpapers_mass);  // net of what is trimmed off
    for (Piece const& piece : book.pieces)
      if (piece.item != Item::text_sheets && piece.item != Item::endpaper_sheets)
        parts += (area(piece) - trimmed_across(piece, of)) * grams_a_mm2(catalogue.at(piece.material));
    for (Run const& run : book.runs)
      parts += static_cast<double>(run.count) * as_mm(run.each) * grams_a_mm(catalogue.at(run.material));
    for (Spread const& spread : book.spreads)
      parts +=
          mm2(spread.area) * spread.coats * spread.faces * dry_grams_a_mm2(catalogue.at(spread.material));
    RC_ASSERT(std::abs(parts - of.value(book_mass)) < 0.05);
    RC_ASSERT(book.mass.n == std::llround(of.value(book_mass) * 1000));
  }));
}

TEST_CASE_FIXTURE(AnyBook, "a round is never shorter than its chord, and a flat back is as long") {
  CHECK(rc::check([this] {
    draw();
    Figures const of = made().figures;
    RC_ASSERT(of.value(arc) >= of.value(chord));
    RC_ASSERT(of.value(chord) >= of.value(block_thickness));
    if (is(Way::flat)) RC_ASSERT(of.value(arc) == of.value(spine_width) && of.value(rise) == 0);
    if (!is(Way::backed)) RC_ASSERT(of.value(shoulder) == 0);
  }));
}

TEST_CASE_FIXTURE(AnyBook, "a larger or a thicker book of any kind never takes less") {
  CHECK(rc::check([this] {
    draw();
    Structure const small = made();
    FigureId const grown = *rc::gen::element(leaf_height, leaf_width, pages_wanted);
    spec.given.set(grown, spec.given.value(grown) + *rc::gen::inRange(1, 80), Origin::said);
    Structure const large = made();
    RC_ASSERT(large.mass >= small.mass);
    RC_ASSERT(large.closed_height >= small.closed_height);
    RC_ASSERT(large.closed_width >= small.closed_width);
    RC_ASSERT(large.closed_thickness >= small.closed_thickness);
    RC_ASSERT(large.pieces.size() == small.pieces.size());
    for (std::size_t i = 0; i < large.pieces.size(); ++i) {
      RC_ASSERT(large.pieces[i].item == small.pieces[i].item);
      RC_ASSERT(area(large.pieces[i]) >= area(small.pieces[i]) - 1e-6);
    }
    for (OperationRow const& row : operation_table())
      RC_ASSERT(times(large, row.kind) >= times(small, row.kind) - 1e-9);
  }));
}

TEST_CASE_FIXTURE(AnyBook, "what is done to the cover is what its pieces need") {
  CHECK(rc::check([this] {
    draw();
    Structure const book = made();
    auto const done = [&](OperationKind kind) { return times(book, kind) > 0; };
    RC_ASSERT(done(OperationKind::case_in) == is(Way::cased));
    RC_ASSERT(done(OperationKind::make_case) == is(Way::cased));
    RC_ASSERT(done(OperationKind::cover_book) == is(Way::laced));
    RC_ASSERT(done(OperationKind::lace_boards) == is(Way::laced));
    RC_ASSERT(done(OperationKind::sew_boards) == is(Way::sewn_on));
    RC_ASSERT(done(OperationKind::cut_wrapper) == is(Way::wrapper));
    RC_ASSERT(done(OperationKind::make_hollow) == is(Way::hollow));
    RC_ASSERT(done(OperationKind::round_spine) == !is(Way::flat));
    RC_ASSERT(done(OperationKind::back_spine) == is(Way::backed));
    RC_ASSERT(times(book, OperationKind::put_on_corners) ==
              (spec.ways.meet({Way::half, Way::three_quarter}) ? 4 : 0));
    RC_ASSERT(done(OperationKind::set_bands) == (book.figures.value(bands) > 0));
    bool leather = false;
    for (Piece const& piece : book.pieces)
      leather = leather ||
                (piece.part == Part::cover && catalogue.at(piece.material).kind == MaterialKind::leather);
    RC_ASSERT(done(OperationKind::pare_edges) == (leather && !is(Way::wrapper)));
    RC_ASSERT(done(OperationKind::dress_leather) == leather);
  }));
}
