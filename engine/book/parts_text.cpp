// The text block.
#include "engine/book/making.h"

#include <cmath>

namespace endband {

using enum FigureId;

void make_text_block(Making& making) {
  // A box alone has none; one that is given was measured, and nothing of it is bought, cut or folded.
  if (!making.spec.has(Part::text_block) || making[block_given] != 0) return;
  Material const* const paper = making.material(Role::text_paper);
  if (paper != nullptr && !making.has(grain_head_to_tail)) {
    bool const along =
        making.grain_of(*paper, making[sheet_height], making[sheet_width]) == Grain::along_height;
    making.book.figures.set(grain_head_to_tail, along ? 1 : 0, Origin::catalogue);
  }
  Piece* const cut = making.piece(Item::text_sheets, Part::text_block, Role::text_paper, making[sheets],
                                  making[sheet_height], making[sheet_width]);
  // So many leaves lie above one another on a sheet, and so many side by side.
  double const above = std::exp2(std::floor(making[folds] / 2));
  double const beside = std::exp2(std::ceil(making[folds] / 2));
  trim_to(cut, above * making[leaf_height], beside * making[leaf_width]);
  making.operation(OperationKind::cut_sheets, making[sheets]);
  making.operation(OperationKind::fold_sheets, making[sheets]);
  making.operation(OperationKind::press_sections, 1);
  bool const cut_edges = making[head_tail_trim] > 0 || making[fore_edge_trim] > 0;
  making.operation(OperationKind::trim_edges, cut_edges ? 1 : 0);
}

}  // namespace endband
