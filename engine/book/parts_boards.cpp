// The boards, how they are held to the book, and what lines them.
#include "engine/book/making.h"

#include <numbers>

namespace endband {

using enum FigureId;

namespace {

void lace(Making& making) {
  double const laced = making.book.figures.value_or(supports, 0);
  if (!(laced > 0)) return;
  if (making.spec.has(Part::sewing)) {
    // The whole round of a cord's slip takes glue: frayed out, it lies between the leather and the board. A
    // tape's lies between the two halves of a split board.
    double const round = making.spec.ways.has(Way::tapes) ? 2 * making[support_width]
                                                          : std::numbers::pi * making[support_thickness];
    making.spread(Item::lacing_glue, Part::boards, Role::lacing_adhesive,
                  2 * laced * making[slip_length] * round);
  }
  making.operation(OperationKind::drill_lacing, making[lacing_holes]);
  making.operation(OperationKind::lace_boards, laced);
}

// As large as a leaf: what a pastedown would cover.
void line(Making& making) {
  if (making.material(Role::board_lining) == nullptr) return;
  making.piece(Item::board_linings, Part::boards, Role::board_lining, making[boards], making[leaf_height],
               making[leaf_width]);
  making.spread(Item::lining_paste, Part::boards, Role::cover_paste,
                making[boards] * making[leaf_height] * making[leaf_width]);
  making.operation(OperationKind::line_boards, making[boards]);
}

}  // namespace

void make_boards(Making& making) {
  if (!making.spec.has(Part::boards)) return;
  Ways const ways = making.spec.ways;
  making.piece(Item::boards, Part::boards, Role::board, making[boards], making[board_height],
               making[board_width]);
  making.operation(OperationKind::cut_boards, making[boards]);
  // The edges of boards in a case are left as they are cut.
  making.operation(OperationKind::shape_boards, ways.has(Way::cased) ? 0 : making[boards]);
  if (ways.has(Way::laced)) lace(making);
  making.operation(OperationKind::sew_boards, ways.has(Way::sewn_on) ? making[boards] : 0);
  line(making);
}

}  // namespace endband
