// Ties: a thong, ribbon or cord wound round the closed book.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

void make_ties(Making& making) {
  if (!making.spec.has(Part::tie)) return;
  if (making.is_leather(Role::tie))
    making.piece(Item::tie, Part::tie, Role::tie, making[ties], making[tie_band], making[tie_width],
                 skin_with_cover(making, Role::tie));
  else
    making.run(Item::tie, Part::tie, Role::tie, making[ties], making[tie_band], making[tie_band]);
  making.operation(OperationKind::make_ties, making[ties]);
}

}  // namespace endband
