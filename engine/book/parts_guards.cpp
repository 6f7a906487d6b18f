// Guards: strips at the spine that make room for what is mounted on the leaves.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

void make_guards(Making& making) {
  if (!making.spec.has(Part::guards)) return;
  // They are sewn in with the leaves, and trimmed with them at head and tail.
  Piece* const cut = making.piece(Item::guard_strips, Part::guards, Role::guard_paper, making[guards],
                                  making[leaf_height] + 2 * making.book.figures.value_or(head_tail_trim, 0),
                                  making[guard_width]);
  trim_to(cut, making[leaf_height], making[guard_width]);
  making.operation(OperationKind::cut_guards, making[guards]);
  making.operation(OperationKind::set_guards, making[guards]);
}

}  // namespace endband
