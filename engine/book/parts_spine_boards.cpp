// The spine with its linings, and the boards.
#include "engine/book/making.h"

#include <numbers>

namespace endband {

using enum FigureId;

void make_spine(Making& making) {
  making.spread(Item::spine_glue, Part::spine, Role::spine_adhesive,
                making[spine_width] * making[leaf_height]);
  making.operation(OperationKind::glue_spine, 1);
  making.operation(OperationKind::round_spine, making[round_angle] > 0 ? 1 : 0);
  making.operation(OperationKind::back_spine, making[shoulder] > 0 ? 1 : 0);

  double const height = making[panel_height] - making[panel_clearance];
  if (!(height > 0)) return;  // bands so close that no panel is left; their number is warned of
  double const linen = making.material(Role::spine_lining) != nullptr ? making[lining_layers] : 0;
  double const paper = making.material(Role::spine_paper) != nullptr ? making[paper_lining_layers] : 0;
  double const linings = making[panels] * (linen + paper);
  making.piece(Item::panel_linings, Part::spine, Role::spine_lining, making[panels] * linen, height,
               making[arc]);
  making.piece(Item::panel_papers, Part::spine, Role::spine_paper, making[panels] * paper, height,
               making[arc]);
  making.spread(Item::lining_paste, Part::spine, Role::spine_adhesive, linings * height * making[arc]);
  making.operation(OperationKind::line_panels, linings > 0 ? making[panels] : 0);
}

void make_boards(Making& making) {
  making.piece(Item::boards, Part::boards, Role::board, making[boards], making[board_height],
               making[board_width]);
  // The whole round of each slip takes glue: frayed out, it lies between the leather and the board.
  double const slips = 2 * making[supports];
  making.spread(Item::lacing_glue, Part::boards, Role::lacing_adhesive,
                slips * making[slip_length] * std::numbers::pi * making[support_thickness]);
  making.operation(OperationKind::cut_boards, making[boards]);
  making.operation(OperationKind::shape_boards, making[boards]);
  making.operation(OperationKind::drill_lacing, making[lacing_holes]);
  making.operation(OperationKind::lace_boards, making[supports]);
}

}  // namespace endband
