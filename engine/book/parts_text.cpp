// Text block, endpapers and sewing.
#include "engine/book/making.h"

#include <cmath>

namespace endband {

using enum FigureId;

namespace {

bool sewn_here(Making const& making) { return making.spec.has(Part::sewing) && making.has(sections); }

// Wax is sold by weight or by the piece; a piece whose mass nobody knows is taken whole, for the binder to
// see.
Amount wax_of(Material const& wax, double milligrams) {
  if (wax.sold_by == SoldBy::weight) return amount(Mass{std::llround(milligrams)});
  if (!wax.properties.piece_mass) return amount(Count{1000});
  return amount(
      Count{std::llround(std::ceil(milligrams * 1000 / static_cast<double>(wax.properties.piece_mass->n)))});
}

}  // namespace

void make_text_block(Making& making) {
  if (making[block_given] != 0) return;  // measured; nothing of it is bought, cut or folded
  Material const* const paper = making.material(Role::text_paper);
  if (paper != nullptr && !making.has(grain_head_to_tail)) {
    bool const along =
        making.grain_of(*paper, making[sheet_height], making[sheet_width]) == Grain::along_height;
    making.book.figures.set(grain_head_to_tail, along ? 1 : 0, Origin::catalogue);
  }
  making.piece(Item::text_sheets, Part::text_block, Role::text_paper, making[sheets], making[sheet_height],
               making[sheet_width]);
  making.operation(OperationKind::cut_sheets, making[sheets]);
  making.operation(OperationKind::fold_sheets, making[sheets]);
  making.operation(OperationKind::press_sections, 1);
  bool const cut_edges = making[head_tail_trim] > 0 || making[fore_edge_trim] > 0;
  making.operation(OperationKind::trim_edges, cut_edges ? 1 : 0);
}

void make_endpapers(Making& making) {
  if (!making.spec.has(Part::endpapers)) return;
  double const folios = 2 * making[endpapers_each_end];
  // Folded once at the spine and trimmed with the block, whatever the sheets of the text are.
  making.piece(Item::endpaper_sheets, Part::endpapers, Role::endpaper, folios,
               making[leaf_height] + 2 * making.book.figures.value_or(head_tail_trim, 0),
               2 * (making[leaf_width] + making.book.figures.value_or(fore_edge_trim, 0)));
  making.spread(Item::tipping_paste, Part::endpapers, Role::pastedown_adhesive,
                folios * making[tip_width] * making[leaf_height]);
  making.spread(Item::pastedown_paste, Part::endpapers, Role::pastedown_adhesive,
                making[boards] * making[leaf_height] * making[leaf_width]);
  making.operation(OperationKind::make_endpapers, folios > 0 ? 1 : 0);
  making.operation(OperationKind::put_down_endpapers, folios > 0 ? making[boards] : 0);
}

void make_sewing(Making& making) {
  if (!sewn_here(making)) return;
  making.run(Item::sewing_thread, Part::sewing, Role::thread, 1, making[thread_length], making[thread_taken]);
  if (Material const* const wax = making.material(Role::thread_wax)) {
    double const thread_mg = making[thread_tex] * making[thread_taken] / 1000;  // tex is mg for a metre
    making.things(Item::thread_wax, Part::sewing, wax->id, wax_of(*wax, making[wax_pickup] * thread_mg));
  }
  making.run(Item::cords, Part::sewing, Role::cord, making[supports], making[cord_each],
             making[cord_each] + making[frame_allowance]);
  making.operation(OperationKind::pierce_stations, making[sections]);
  making.operation(OperationKind::set_up_frame, making[supports]);
  making.operation(OperationKind::wax_thread, making[needlefuls]);
  making.operation(OperationKind::sew_sections, making[sections]);
}

}  // namespace endband
