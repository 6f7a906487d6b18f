// What holds for every book, whatever its size.
#include "engine/book/making.h"
#include "tests/engine/book/made.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>

using namespace endband;
using namespace endband::tests;
using enum FigureId;

namespace {

double tenths(int low, int high) { return *rc::gen::inRange(low, high + 1) / 10.0; }

struct Any {
  Catalogue catalogue = fixtures::sample_catalogue();
  BookSpec spec = fixtures::sample_spec_with_everything(catalogue);

  void draw() {
    fixtures::say(spec, {{leaf_height, tenths(1000, 5000)},
                         {leaf_width, tenths(800, 4000)},
                         {pages_wanted, *rc::gen::inRange(8, 1600)},
                         {folds, *rc::gen::inRange(1, 4)},
                         {sheets_per_section, *rc::gen::inRange(1, 9)},
                         {supports, *rc::gen::inRange(2, 8)},
                         {board_thickness, tenths(10, 60)},
                         {round_angle, tenths(300, 1800)},
                         {turn_in, tenths(100, 300)},
                         {square, tenths(10, 60)}});
  }
  Structure made() const { return structure(spec, catalogue); }
};

}  // namespace

TEST_CASE_FIXTURE(Any, "a round is longer than its chord, and the spine has a panel more than bands") {
  CHECK(rc::check([this] {
    draw();
    Figures const figures = made().figures;
    RC_ASSERT(figures.value(arc) >= figures.value(chord));
    RC_ASSERT(figures.value(rise) > 0);
    RC_ASSERT(figures.value(panels) == figures.value(bands) + 1);
    RC_ASSERT(figures.value(pages) >= figures.value(pages_wanted));
    RC_ASSERT(figures.value(last_section_sheets) >= 1);
    RC_ASSERT(figures.value(last_section_sheets) <= figures.value(sheets_per_section));
  }));
}

TEST_CASE_FIXTURE(Any, "the leather covers both boards and the spine") {
  CHECK(rc::check([this] {
    draw();
    Figures const figures = made().figures;
    double const under = 2 * figures.value(board_height) * figures.value(board_width) +
                         figures.value(arc) * figures.value(leaf_height);
    RC_ASSERT(figures.value(cover_area) > under);
  }));
}

TEST_CASE_FIXTURE(Any, "a piece is no smaller than its dimension, and less than a micrometre larger") {
  CHECK(rc::check([this] {
    draw();
    Structure const book = made();
    Piece const cover = only(book.pieces, Item::cover_leather);
    for (auto const& [piece, figure] :
         {std::pair{cover.height, cover_height}, std::pair{cover.width, cover_width}}) {
      double const over = static_cast<double>(piece.n) - book.figures.value(figure) * 1000;
      RC_ASSERT(over > -1e-3);
      RC_ASSERT(over < 1);
    }
  }));
}

TEST_CASE_FIXTURE(Any, "the folded sheet yields the leaf and its trims again") {
  CHECK(rc::check([this] {
    draw();
    // Portrait leaves no narrower than half their height: each fold then goes across the longer side.
    double const h = tenths(1000, 5000);
    double const w = tenths(static_cast<int>(5 * h) + 100, static_cast<int>(10 * h) - 100);
    fixtures::say(spec, {{leaf_height, h}, {leaf_width, w}, {head_tail_trim, 3}, {fore_edge_trim, 4}});
    Piece const sheet = only(made().pieces, Item::text_sheets);
    // The grain lies along the sheet's height.
    Folded const leaf = fold({sheet.width, sheet.height}, static_cast<int>(spec.given.value(folds)));
    RC_ASSERT(std::abs(leaf.height.n - std::llround((h + 6) * 1000)) <= 8);
    RC_ASSERT(std::abs(leaf.width.n - std::llround((w + 4) * 1000)) <= 8);
  }));
}

TEST_CASE_FIXTURE(Any, "a larger or a thicker book never takes less") {
  CHECK(rc::check([this] {
    draw();
    Structure const small = made();
    FigureId const grown = *rc::gen::element(leaf_height, leaf_width, pages_wanted);
    double const before = spec.given.value(grown);
    spec.given.set(grown, before + *rc::gen::inRange(1, 80), Origin::said);
    Structure const large = made();
    RC_ASSERT(large.mass >= small.mass);
    for (FigureId const id : {thread_length, thread_taken, cover_area, cord_length, pare_length, boards_mass,
                              block_mass, sections, wraps, strap_length, closed_thickness, closed_width})
      RC_ASSERT(large.figures.value(id) >= small.figures.value(id) - 1e-9);
    for (OperationRow const& row : operation_table())
      RC_ASSERT(times(large, row.kind) >= times(small, row.kind) - 1e-9);
  }));
}

TEST_CASE_FIXTURE(Any, "the same book is made the same each time") {
  CHECK(rc::check([this] {
    draw();
    Structure const a = made();
    Structure const b = made();
    RC_ASSERT(a.mass == b.mass);
    RC_ASSERT(a.pieces.size() == b.pieces.size());
    for (std::size_t i = 0; i < a.pieces.size(); ++i) {
      RC_ASSERT(a.pieces[i].height == b.pieces[i].height);
      RC_ASSERT(a.pieces[i].width == b.pieces[i].width);
    }
  }));
}

TEST_CASE("strips hold what they are laid for, and never more than one by one") {
  CHECK(rc::check([] {
    double const side = tenths(600, 1600);
    double const lap = tenths(0, 50);
    double const width = tenths(5, 2000);
    double const length = tenths(1, 20'000);
    int const runs = *rc::gen::inRange(1, 40);
    StripPlan const plan = strips_for(side, lap, width, length, runs);
    RC_ASSERT(plan.width <= side + 1e-9);
    double const of_one = side - lap;
    double const abreast = std::max(1.0, std::ceil((width + lap) / of_one - 1e-9));
    double const each = std::ceil(length / of_one - 1e-6);
    RC_ASSERT(static_cast<double>(plan.strips) * of_one >= abreast * runs * length - 1e-3);
    RC_ASSERT(static_cast<double>(plan.strips) <= abreast * runs * each);
  }));
}
