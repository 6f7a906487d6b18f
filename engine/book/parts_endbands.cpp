// Endbands and registers.
#include "engine/book/making.h"

#include <algorithm>
#include <cmath>

namespace endband {

using enum FigureId;

namespace {

// Common practice, no source: what of a made endband lies on the spine, where its maker does not say.
constexpr double made_endband_width_mm = 12;

double width_of(Material const& of, double otherwise) {
  return of.properties.width ? static_cast<double>(of.properties.width->n) / 1000 : otherwise;
}

// Each endband is begun with new needlefuls, and each colour has its own.
void run_silk(Making& making, SilkShare const& silk) {
  double const each = making[silk_length] * silk.share;
  double const used_of_one = making[needle_length] - making[needle_waste];
  double const needles = making[endbands] * std::ceil(each / making[endbands] / used_of_one);
  making.run(Item::endband_silk, Part::endbands, silk.role, 1, each, each + needles * making[needle_waste]);
}

void sew_endbands(Making& making) {
  double const count = making[endbands];
  making.run(Item::endband_cores, Part::endbands, Role::endband_core, count, making[arc],
             making[core_length]);
  if (making[cores_an_endband] > 1)
    making.run(Item::endband_cores, Part::endbands, Role::second_core, count, making[arc],
               making[core_length]);
  for (SilkShare const& silk : silk_shares(making.spec)) run_silk(making, silk);
  // Glued to the spine along the foot of the core, as wide as the core is thick.
  making.spread(Item::endband_glue, Part::endbands, Role::endband_adhesive,
                count * making[arc] * making[core_thickness]);
  making.operation(OperationKind::sew_endbands, count * making[wraps]);
}

void stick_endbands(Making& making) {
  double const count = making[endbands];
  making.run(Item::made_endbands, Part::endbands, Role::made_endband, count, making[arc], making[arc]);
  if (Material const* const made = making.material(Role::made_endband))
    making.spread(Item::endband_glue, Part::endbands, Role::endband_adhesive,
                  count * making[arc] * width_of(*made, made_endband_width_mm));
  making.operation(OperationKind::stick_endbands, count);
}

}  // namespace

std::vector<SilkShare> silk_shares(BookSpec const& spec) {
  std::vector<MaterialId> in_turn;
  for (Role const role : endband_silks)
    if (spec.chosen(role).origin != Origin::none) in_turn.push_back(spec.chosen(role).material);
  std::vector<MaterialId> const& wraps_of = spec.silk_pattern.empty() ? in_turn : spec.silk_pattern;

  std::vector<SilkShare> shares;
  std::vector<MaterialId> seen;  // one silk may be threaded on two needles
  for (Role const role : endband_silks) {
    if (spec.chosen(role).origin == Origin::none) continue;
    MaterialId const silk = spec.chosen(role).material;
    if (std::find(seen.begin(), seen.end(), silk) != seen.end()) continue;
    seen.push_back(silk);
    auto const wraps_of_it = std::count(wraps_of.begin(), wraps_of.end(), silk);
    if (wraps_of_it > 0)
      shares.push_back({role, static_cast<double>(wraps_of_it) / static_cast<double>(wraps_of.size())});
  }
  return shares;
}

void make_endbands(Making& making) {
  if (!making.spec.has(Part::endbands) || !(making[endbands] > 0)) return;
  if (making.spec.ways.has(Way::stuck_on))
    stick_endbands(making);
  else
    sew_endbands(making);
}

void make_registers(Making& making) {
  if (!making.spec.has(Part::registers)) return;
  making.run(Item::registers, Part::registers, Role::ribbon, making[registers], making[register_length],
             making[register_length]);
  if (Material const* const ribbon = making.material(Role::ribbon);
      ribbon != nullptr && ribbon->properties.width)
    making.spread(Item::register_glue, Part::registers, Role::spine_adhesive,
                  making[registers] * making[register_anchor] * width_of(*ribbon, 0));
  making.operation(OperationKind::fix_registers, making[registers]);
}

}  // namespace endband
