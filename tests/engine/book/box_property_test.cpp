// What holds of every box: put together from its pieces, it takes the book and its coverings reach.
#include "tests/engine/book/boxed.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

using namespace endband;
using namespace endband::tests;
using enum FigureId;

namespace {

double tenths(int low, int high) { return *rc::gen::inRange(low, high + 1) / 10.0; }

constexpr double hair = 1e-3;  // a piece is cut to the next micrometre, its figure is not

struct AnyBox {
  Catalogue catalogue = catalogue_with_boxes();
  BookSpec spec;
  double t = 0, cloth = 0, lining = 0;

  void draw(Way way) {
    spec = box_alone(way, catalogue);
    t = tenths(10, 40);
    cloth = tenths(1, 9);
    lining = tenths(1, 15);
    material(catalogue, "board-box").properties.caliper = fixtures::thick(t);
    material(catalogue, "buckram").properties.caliper = fixtures::thick(cloth);
    material(catalogue, "lining").properties.caliper = fixtures::thick(lining);
    fixtures::say(spec, {{closed_height, tenths(600, 4500)},
                         {closed_width, tenths(400, 3500)},
                         {closed_thickness, tenths(40, 1200)},
                         {box_clearance, tenths(0, 40)},
                         {box_turn_in, tenths(50, 300)},
                         {box_square, tenths(0, 80)}});
  }
  Structure made() const { return structure(spec, catalogue); }
  double said(FigureId id) const { return spec.given.value(id); }
};

struct Cuts {
  std::vector<Piece> pieces;
  double height(Item item, std::size_t which = 0) const { return mm_of(all(pieces, item).at(which).height); }
  double width(Item item, std::size_t which = 0) const { return mm_of(all(pieces, item).at(which).width); }
};

// A tray as it stands: inside between its clothed walls, outside over them.
struct Standing {
  double free_height, free_width, free_depth, height, width, depth;
};
Standing stand(Cuts const& cut, AnyBox const& box, Item base, Item walls) {
  double const layers = box.t + box.cloth;  // one wall, covered on its inner face
  double const wall = cut.width(walls);
  return {.free_height = cut.height(base) - 2 * layers,
          .free_width = cut.width(base) - layers,
          .free_depth = wall - box.cloth - box.lining,
          .height = cut.height(base) + 2 * box.cloth,
          .width = cut.width(base) + 2 * box.cloth,
          .depth = box.t + wall + 2 * box.cloth};
}

}  // namespace

TEST_CASE_FIXTURE(AnyBox, "a slipcase takes the book with its play, past what is turned in") {
  CHECK(rc::check([this] {
    draw(Way::slipcase);
    Cuts const cut{made().pieces};
    double const play = said(box_clearance);
    double const lined = cloth + lining;
    // Top and bottom stand between the sides, and the back between them.
    double const height = cut.height(Item::slipcase_sides) - 2 * t - 2 * lined;
    double const width = cut.width(Item::slipcase_sides) - t - lining;
    double const depth = cut.width(Item::slipcase_ends) - 2 * lined;
    RC_ASSERT(std::abs(height - said(closed_height) - play) < 2 * hair);
    RC_ASSERT(std::abs(width - said(closed_width) - play) < 2 * hair);
    RC_ASSERT(std::abs(depth - said(closed_thickness) - play) < 2 * hair);
    RC_ASSERT(std::abs(cut.height(Item::slipcase_back) + 2 * t - cut.height(Item::slipcase_sides)) <
              2 * hair);
    RC_ASSERT(cut.width(Item::slipcase_back) == cut.width(Item::slipcase_ends));
    RC_ASSERT(cut.height(Item::slipcase_ends) == cut.width(Item::slipcase_sides));
  }));
}

TEST_CASE_FIXTURE(AnyBox, "the covering and the linings of a slipcase reach over what they cover") {
  CHECK(rc::check([this] {
    draw(Way::slipcase);
    Structure const box = made();
    Cuts const cut{box.pieces};
    double const in = said(box_turn_in);
    double const outside = cut.width(Item::slipcase_ends) + 2 * t;
    double const round = 2 * cut.height(Item::slipcase_ends) + cut.height(Item::slipcase_sides);
    RC_ASSERT(cut.width(Item::slipcase_strip) >= outside + 2 * in - hair);
    RC_ASSERT(cut.height(Item::slipcase_strip) >= round + 2 * in - hair);
    RC_ASSERT(cut.height(Item::slipcase_side_cloths) >= cut.height(Item::slipcase_sides) - hair);
    RC_ASSERT(cut.width(Item::slipcase_side_cloths) >= cut.width(Item::slipcase_sides) + t + in - hair);
    RC_ASSERT(cut.height(Item::slipcase_side_linings) >= said(closed_height));
    RC_ASSERT(cut.width(Item::slipcase_side_linings) >= said(closed_width));
    RC_ASSERT(cut.width(Item::slipcase_strip_lining) >= said(closed_thickness));
    RC_ASSERT(box.figures.value(box_depth) >= outside + 2 * cloth - hair);
  }));
}

TEST_CASE_FIXTURE(AnyBox, "the inner tray takes the book, the outer tray the inner one, and the case both") {
  CHECK(rc::check([this] {
    draw(Way::drop_spine);
    Structure const box = made();
    Cuts const cut{box.pieces};
    double const play = said(box_clearance);
    Standing const inner = stand(cut, *this, Item::inner_tray_base, Item::inner_tray_walls);
    Standing const outer = stand(cut, *this, Item::outer_tray_base, Item::outer_tray_walls);
    RC_ASSERT(std::abs(inner.free_height - said(closed_height) - play) < 2 * hair);
    RC_ASSERT(std::abs(inner.free_width - said(closed_width) - play) < 2 * hair);
    RC_ASSERT(std::abs(inner.free_depth - said(closed_thickness) - play) < 2 * hair);
    RC_ASSERT(std::abs(outer.free_height - inner.height - play) < 2 * hair);
    RC_ASSERT(outer.free_width >= inner.width - cloth + play - hair);
    RC_ASSERT(std::abs(outer.free_depth - inner.depth - play) < 2 * hair);
    for (std::size_t const wall : {0U, 1U})
      RC_ASSERT(cut.width(Item::inner_tray_walls, wall) == cut.width(Item::inner_tray_walls));
    // Head and tail walls and the thickness of the fore-edge wall make up the base.
    RC_ASSERT(std::abs(cut.height(Item::outer_tray_walls, 1) + t - cut.width(Item::outer_tray_base)) <
              2 * hair);
    RC_ASSERT(cut.height(Item::box_case_boards) >= outer.height - hair);
    RC_ASSERT(cut.width(Item::box_case_boards) >= outer.width - hair);
    RC_ASSERT(cut.width(Item::box_case_spine) >= outer.depth + 2 * lining - hair);
    RC_ASSERT(box.figures.value(box_depth) >= outer.depth + 2 * (t + cloth + lining) - hair);
  }));
}

TEST_CASE_FIXTURE(AnyBox, "the covering and the linings of a drop-spine box reach over what they cover") {
  CHECK(rc::check([this] {
    draw(Way::drop_spine);
    Structure const box = made();
    Cuts const cut{box.pieces};
    double const in = said(box_turn_in);
    for (auto const& [base, walls, strip, floor] :
         {std::tuple{Item::inner_tray_base, Item::inner_tray_walls, Item::inner_tray_cloth,
                     Item::inner_tray_lining},
          std::tuple{Item::outer_tray_base, Item::outer_tray_walls, Item::outer_tray_cloth,
                     Item::outer_tray_lining}}) {
      Standing const tray = stand(cut, *this, base, walls);
      double const round = cut.height(base) + 2 * cut.width(base);
      RC_ASSERT(cut.height(strip) >= round + 2 * (t + in) - hair);
      // Base and wall outside, the top of the wall, the wall inside, and a turn-in at both edges.
      RC_ASSERT(cut.width(strip) >= t + cut.width(walls) + t + cut.width(walls) + 2 * in - hair);
      RC_ASSERT(std::abs(cut.height(floor) - tray.free_height) < 2 * hair);
      RC_ASSERT(cut.width(floor) >= tray.free_width + t - hair);
    }
    double const opened = 2 * cut.width(Item::box_case_boards) + cut.width(Item::box_case_spine) +
                          2 * box.figures.value(box_joint);
    RC_ASSERT(cut.width(Item::box_case_cloth) >= opened + 2 * (t + in) - hair);
    RC_ASSERT(cut.height(Item::box_case_cloth) >= cut.height(Item::box_case_boards) + 2 * (t + in) - hair);
    // The lining of the case hides the edge of what is turned in, at both ends.
    RC_ASSERT(cut.width(Item::box_case_lining) > opened - 2 * in);
    RC_ASSERT(cut.height(Item::box_case_lining) > cut.height(Item::box_case_boards) - 2 * in);
  }));
}

TEST_CASE_FIXTURE(AnyBox, "a box weighs the sum of its boards, covering, linings and dry adhesive") {
  CHECK(rc::check([this] {
    draw(*rc::gen::element(Way::slipcase, Way::drop_spine));
    Structure const box = made();
    double grams = 0;
    for (Piece const& piece : box.pieces) {
      double const m2 = mm_of(piece.height) * mm_of(piece.width) * static_cast<double>(piece.count) / 1e6;
      std::string const& code = catalogue.at(piece.material).code;
      grams += m2 * (code == "board-box" ? 700 * t : code == "buckram" ? 320 : 120);
    }
    for (Spread const& spread : box.spreads) grams += mm2(spread.area) / 1e6 * 140 * 0.54;
    RC_ASSERT(std::abs(box.figures.value(box_mass) - grams) < 1e-6 * grams);
    RC_ASSERT(std::abs(box.figures.value(packed_mass) - grams - 900 - 420) < 1e-3);
  }));
}

TEST_CASE_FIXTURE(AnyBox, "a larger book never takes a smaller box") {
  CHECK(rc::check([this] {
    draw(*rc::gen::element(Way::slipcase, Way::drop_spine));
    Structure const small = made();
    FigureId const grown = *rc::gen::element(closed_height, closed_width, closed_thickness);
    spec.given.set(grown, said(grown) + tenths(1, 500), Origin::said);
    Structure const large = made();
    RC_ASSERT(large.pieces.size() == small.pieces.size());
    for (std::size_t i = 0; i < small.pieces.size(); ++i) {
      RC_ASSERT(large.pieces[i].height >= small.pieces[i].height);
      RC_ASSERT(large.pieces[i].width >= small.pieces[i].width);
    }
    for (FigureId const id : {box_height, box_width, box_depth, box_mass, packed_mass})
      RC_ASSERT(large.figures.value(id) >= small.figures.value(id));
    RC_ASSERT(large.figures.value(box_mass) > small.figures.value(box_mass));
  }));
}

TEST_CASE_FIXTURE(AnyBox,
                  "a carton is too small just when no way of laying the box in it leaves its padding") {
  CHECK(rc::check([this] {
    draw(*rc::gen::element(Way::slipcase, Way::drop_spine));
    Properties& carton = material(catalogue, "carton").properties;
    double const sides[] = {tenths(800, 5000), tenths(800, 5000), tenths(200, 2000)};
    carton.height = fixtures::mm(sides[0]);
    carton.width = fixtures::mm(sides[1]);
    carton.depth = fixtures::mm(sides[2]);
    Structure const box = made();
    double const wanted[] = {box.figures.value(box_height) + 20, box.figures.value(box_width) + 20,
                             box.figures.value(box_depth) + 20};
    int order[] = {0, 1, 2};
    bool fits = false;
    do
      fits = fits ||
             (wanted[0] <= sides[order[0]] && wanted[1] <= sides[order[1]] && wanted[2] <= sides[order[2]]);
    while (std::next_permutation(std::begin(order), std::end(order)));
    RC_ASSERT((warning(box, WarningCode::carton_too_small) == nullptr) == fits);
  }));
}
