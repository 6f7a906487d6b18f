// The spine: glued up, shaped, lined, and the bands that are set on it.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

namespace {

double of_layers(Making const& making, Role role, FigureId layers) {
  return making.material(role) != nullptr && making.has(layers) ? making[layers] : 0;
}

// Between raised cords each panel is lined by itself.
void line_panels(Making& making) {
  if (!making.has(panel_height)) return;  // the bands of a block that came sewn were not measured
  double const height = making[panel_height] - making[panel_clearance];
  if (!(height > 0)) return;  // bands so close that no panel is left; their number is warned of
  double const linen = of_layers(making, Role::spine_lining, lining_layers);
  double const paper = of_layers(making, Role::spine_paper, paper_lining_layers);
  double const linings = making[panels] * (linen + paper);
  making.piece(Item::panel_linings, Part::spine, Role::spine_lining, making[panels] * linen, height,
               making[arc]);
  making.piece(Item::panel_papers, Part::spine, Role::spine_paper, making[panels] * paper, height,
               making[arc]);
  making.spread(Item::lining_paste, Part::spine, Role::spine_adhesive, linings * height * making[arc]);
  making.operation(OperationKind::line_panels, linings > 0 ? making[panels] : 0);
}

// Without raised cords the linings go over the whole spine: linen on a tight back, mull that reaches on to
// the boards under any other, paper on both.
void line_whole_spine(Making& making) {
  double const height = making[leaf_height];
  double const width = making[arc];
  bool const tight = making.spec.ways.has(Way::tight);
  double const linen = tight ? of_layers(making, Role::spine_lining, lining_layers) : 0;
  bool const has_mull = !tight && making.material(Role::mull) != nullptr;
  double const paper = of_layers(making, Role::spine_paper, paper_lining_layers);
  making.piece(Item::spine_linings, Part::spine, Role::spine_lining, linen, height, width);
  if (has_mull) making.piece(Item::mull, Part::spine, Role::mull, 1, making[mull_height], making[mull_width]);
  making.piece(Item::spine_papers, Part::spine, Role::spine_paper, paper, height, width);
  double const area = (linen + paper) * height * width + (has_mull ? making[mull_height] * width : 0);
  making.spread(Item::lining_paste, Part::spine, Role::spine_adhesive, area);
  making.operation(OperationKind::line_spine, area > 0 || has_mull ? 1 : 0);
}

// A tube of paper, glued to the spine by one of its sides.
void make_hollow(Making& making) {
  if (making.material(Role::hollow_paper) == nullptr) return;
  making.piece(Item::hollow, Part::spine, Role::hollow_paper, 1, making[leaf_height], making[hollow_width]);
  making.spread(Item::lining_paste, Part::spine, Role::spine_adhesive, making[leaf_height] * making[arc]);
  making.operation(OperationKind::make_hollow, 1);
}

void set_false_bands(Making& making) {
  Material const* const of = making.material(Role::false_band);
  if (!making.spec.has(Part::false_bands) || of == nullptr) return;
  double const count = making[false_bands];
  double const width = making[false_band_width];
  if (of->kind == MaterialKind::cord)
    making.run(Item::false_bands, Part::false_bands, Role::false_band, count, making[arc], making[arc]);
  else
    making.piece(Item::false_bands, Part::false_bands, Role::false_band, count, width, making[arc]);
  making.spread(Item::lining_paste, Part::false_bands, Role::spine_adhesive, count * width * making[arc]);
  making.operation(OperationKind::set_false_bands, count);
}

}  // namespace

void make_spine(Making& making) {
  Ways const ways = making.spec.ways;
  if (making.material(Role::spine_adhesive) != nullptr) {
    making.spread(Item::spine_glue, Part::spine, Role::spine_adhesive,
                  making[spine_width] * making[leaf_height]);
    making.operation(OperationKind::glue_spine, 1);
  }
  bool const rounded = ways.meet({Way::rounded, Way::backed}) && making[round_angle] > 0;
  making.operation(OperationKind::round_spine, rounded ? 1 : 0);
  making.operation(OperationKind::back_spine, making[shoulder] > 0 ? 1 : 0);
  if (ways.has(Way::raised_cords))
    line_panels(making);
  else if (!ways.has(Way::open_back))
    line_whole_spine(making);
  if (ways.has(Way::hollow)) make_hollow(making);
  set_false_bands(making);
  if (ways.has(Way::loose))
    making.piece(Item::stiffener, Part::spine, Role::stiffener, 1, making[board_height],
                 making[spine_piece_width]);
}

}  // namespace endband
