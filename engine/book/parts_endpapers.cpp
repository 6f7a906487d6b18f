// Endpapers: tipped on, made, sewn in, or with a joint of leather.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

namespace {

// What holds folded endpapers to the block and to each other.
double pasted_area(Making const& making) {
  Ways const ways = making.spec.ways;
  double const leaf = making[leaf_height] * making[leaf_width];
  double const tips = making[tip_width] * making[leaf_height];
  double const folios = 2 * making[endpapers_each_end];
  if (ways.has(Way::sewn)) return 0;
  // At each end the second folio is pasted to the first by a whole leaf, and needs no tip.
  if (ways.has(Way::made)) return (folios - 2) * tips + 2 * leaf;
  return folios * tips;
}

void make_joints(Making& making) {
  if (!making.spec.ways.has(Way::leather_joint)) return;
  double const width = 2 * making[joint_reach];
  Material const* const of = making.material(Role::joint_leather);
  Material const* const cover = making.material(Role::leather);
  bool const same_skin = of != nullptr && cover != nullptr && of->id == cover->id;
  making.piece(Item::joint_strips, Part::endpapers, Role::joint_leather, making[boards], making[leaf_height],
               width, same_skin ? skin_of_the_cover : 0);
  making.spread(Item::tipping_paste, Part::endpapers, Role::pastedown_adhesive,
                making[boards] * making[leaf_height] * width);
  making.operation(OperationKind::joint_endpapers, making[boards]);
}

}  // namespace

void make_endpapers(Making& making) {
  if (!making.spec.has(Part::endpapers)) return;
  Figures const& figures = making.book.figures;
  // Folded once at the spine and trimmed with the block, whatever the sheets of the text are.
  Piece* const cut =
      making.piece(Item::endpaper_sheets, Part::endpapers, Role::endpaper, 2 * making[endpapers_each_end],
                   making[leaf_height] + 2 * figures.value_or(head_tail_trim, 0),
                   2 * (making[leaf_width] + figures.value_or(fore_edge_trim, 0)));
  trim_to(cut, making[leaf_height], 2 * making[leaf_width]);
  making.spread(Item::tipping_paste, Part::endpapers, Role::pastedown_adhesive, pasted_area(making));
  make_joints(making);
  making.spread(Item::pastedown_paste, Part::endpapers, Role::pastedown_adhesive,
                making[pastedowns] * making[leaf_height] * making[leaf_width]);
  making.operation(OperationKind::make_endpapers, making[endpapers_each_end] > 0 ? 1 : 0);
  making.operation(OperationKind::put_down_endpapers, making[pastedowns]);
}

}  // namespace endband
