// Endbands and registers.
#include "engine/book/making.h"

#include <cmath>

namespace endband {

using enum FigureId;

void make_endbands(Making& making) {
  if (!making.spec.has(Part::endbands) || !(making[endbands] > 0)) return;
  making.run(Item::endband_cores, Part::endbands, Role::endband_core, making[endbands], making[arc],
             making[core_length]);
  // The colours take turns, so each has an equal share; each endband is begun with new needlefuls.
  double const colours = making[endband_colours];
  double const each = making[silk_length] / colours;
  double const used_of_one = making[needle_length] - making[needle_waste];
  double const needles = making[endbands] * std::ceil(each / making[endbands] / used_of_one);
  double const taken = each + needles * making[needle_waste];
  making.run(Item::endband_silk, Part::endbands, Role::endband_silk_1, 1, each, taken);
  if (colours > 1) making.run(Item::endband_silk, Part::endbands, Role::endband_silk_2, 1, each, taken);
  // Glued to the spine along the foot of the core, as wide as the core is thick.
  making.spread(Item::endband_glue, Part::endbands, Role::endband_adhesive,
                making[endbands] * making[arc] * making[core_thickness]);
  making.operation(OperationKind::sew_endbands, making[endbands] * making[wraps]);
}

void make_registers(Making& making) {
  if (!making.spec.has(Part::registers)) return;
  making.run(Item::registers, Part::registers, Role::ribbon, making[registers], making[register_length],
             making[register_length]);
  if (Material const* const ribbon = making.material(Role::ribbon);
      ribbon != nullptr && ribbon->properties.width) {
    double const width = static_cast<double>(ribbon->properties.width->n) / 1000;
    making.spread(Item::register_glue, Part::registers, Role::spine_adhesive,
                  making[registers] * making[register_anchor] * width);
  }
  making.operation(OperationKind::fix_registers, making[registers]);
}

}  // namespace endband
