// The limp wrapper: one piece round the leaves, which are sewn through it.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

void make_wrapper(Making& making) {
  making.piece(Item::cover_leather, Part::cover, Role::leather, 1, making[cover_height], making[cover_width],
               skin_with_cover(making, Role::leather));
  making.operation(OperationKind::cut_wrapper, 1);
  // Straps and ties are cut beside it.
  double const straps_cut = making.spec.has(Part::strap) ? making[straps] : 0;
  bool const thongs = making.spec.has(Part::tie) && making.is_leather(Role::tie);
  making.operation(OperationKind::cut_leather, straps_cut + (thongs ? making[ties] : 0));
  if (making.is_leather(Role::leather)) {
    making.operation(OperationKind::pare_edges, making[pare_length] / 1000);
    bool const thinned = making[leather_pared] < making[leather_bought];
    making.operation(OperationKind::thin_leather, thinned ? making[cover_area] / 10'000 : 0);
  }
  if (making.has(wrapper_holes)) making.operation(OperationKind::pierce_wrapper, making[wrapper_holes]);
  making.operation(OperationKind::turn_corners, making[turn_in] > 0 ? 4 : 0);
  dye_and_dress(making);
}

}  // namespace endband
