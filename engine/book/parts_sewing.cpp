// Sewing: thread, wax, and cords or tapes.
#include "engine/book/making.h"

#include <algorithm>
#include <cmath>

namespace endband {

using enum FigureId;

namespace {

// Wax is sold by weight or by the piece; a piece whose mass nobody knows is taken whole, for the binder to
// see.
Amount wax_of(Material const& wax, double milligrams) {
  if (wax.sold_by == SoldBy::weight) return amount(Mass{std::llround(milligrams)});
  if (!wax.properties.piece_mass) return amount(Count{1000});
  return amount(
      Count{std::llround(std::ceil(milligrams * 1000 / static_cast<double>(wax.properties.piece_mass->n)))});
}

void make_thread(Making& making) {
  making.run(Item::sewing_thread, Part::sewing, Role::thread, 1, making[thread_length], making[thread_taken]);
  if (Material const* const wax = making.material(Role::thread_wax)) {
    double const thread_mg = making[thread_tex] * making[thread_taken] / 1000;  // tex is mg for a metre
    making.things(Item::thread_wax, Part::sewing, wax->id, wax_of(*wax, making[wax_pickup] * thread_mg));
  }
  making.operation(OperationKind::wax_thread, making[needlefuls]);
}

void make_supports(Making& making) {
  if (making.spec.ways.has(Way::unsupported)) return;
  double const taken = making[cord_each] + making[frame_allowance];
  making.run(Item::cords, Part::sewing, Role::cord, making[supports], making[cord_each], taken);
  making.run(Item::tapes, Part::sewing, Role::tape, making[supports], making[cord_each], taken);
  making.operation(OperationKind::set_up_frame, making[supports]);
}

bool sewn_again(BookSpec const& spec) {
  return std::any_of(spec.repairs.begin(), spec.repairs.end(),
                     [](Repair const& repair) { return repair.kind == RepairKind::resew; });
}

void sew(Making& making) {
  Ways const ways = making.spec.ways;
  double const sections_sewn = making[sewn_sections];
  if (sewn_again(making.spec))  // an old block, with old folds: other times than a new one
    making.operation(OperationKind::resew_block, sections_sewn);
  else if (ways.has(Way::link_stitch))
    making.operation(OperationKind::link_sections, sections_sewn);
  else if (ways.has(Way::long_stitch))
    making.operation(OperationKind::long_stitch_sections, sections_sewn);
  else if (ways.has(Way::pamphlet))
    making.operation(OperationKind::sew_pamphlet, 1);
  else  // two on, one pass takes two sections
    making.operation(OperationKind::sew_sections, making[thread_passes]);
}

}  // namespace

void make_sewing(Making& making) {
  if (!making.spec.has(Part::sewing)) return;
  make_thread(making);
  make_supports(making);
  making.operation(OperationKind::pierce_stations, making[sewn_sections]);
  sew(making);
}

}  // namespace endband
