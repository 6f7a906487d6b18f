// Underlays: card laminated on the boards, under the covering.
#include "engine/book/making.h"

#include <algorithm>
#include <cmath>

namespace endband {

using enum FigureId;

namespace {

// How many of `wanted` pieces of `size` can lie in one line of `room`; at least one, for it was asked for.
double abreast(double wanted, double room, double size) {
  return std::min(wanted, std::max(1.0, std::floor(room / size)));
}

double thickness_of(Underlay const& underlay, Catalogue const& catalogue) {
  Thickness const caliper = catalogue.at(underlay.card).properties.caliper.value();
  return underlay.layers * static_cast<double>(caliper.n) / 1'000'000;
}

}  // namespace

// The leather climbs both walls of every underlay that it crosses: up the book, those of one board that find
// room above one another; across it, those of both boards that find room side by side, or of one board where
// each is covered by itself.
void grow_for_underlays(Making& making) {
  if (!making.spec.has(Part::underlays)) return;
  double up = 0;
  double over = 0;
  bool const one_piece = making.spec.ways.has(Way::full);
  for (Underlay const& underlay : making.spec.underlays) {
    double const walls = 2 * thickness_of(underlay, making.catalogue);
    double const on_one = std::ceil(underlay.count / making[boards]);
    double const on_other = underlay.count - on_one;
    double const across_one = abreast(on_one, making[board_width], underlay.width_mm);
    double const across_other = on_other > 0 ? abreast(on_other, making[board_width], underlay.width_mm) : 0;
    up += walls * abreast(on_one, making[board_height], underlay.height_mm);
    over += walls * (across_one + (one_piece ? across_other : 0));
  }
  Figures& figures = making.book.figures;
  if (!figures.has(underlay_growth)) figures.set(underlay_growth, up, Origin::catalogue);
  if (!figures.has(underlay_growth_across)) figures.set(underlay_growth_across, over, Origin::catalogue);
}

void make_underlays(Making& making) {
  if (!making.spec.has(Part::underlays)) return;
  double count = 0;
  double glued = 0;
  for (Underlay const& underlay : making.spec.underlays) {
    Material const& card = making.catalogue.at(underlay.card);
    making.book.pieces.push_back(
        Piece{.item = Item::underlay_cards,
              .part = Part::underlays,
              .material = card.id,
              .count = std::int64_t{underlay.count} * underlay.layers,
              .height = cut_to(underlay.height_mm),
              .width = cut_to(underlay.width_mm),
              .grain = making.grain_of(card, underlay.height_mm, underlay.width_mm)});
    count += underlay.count;
    // Each layer is glued to the one below it, the lowest to the board.
    glued += underlay.height_mm * underlay.width_mm * underlay.layers * underlay.count;
  }
  making.spread(Item::underlay_glue, Part::underlays, Role::underlay_adhesive, glued);
  making.operation(OperationKind::laminate_underlays, count);
}

}  // namespace endband
