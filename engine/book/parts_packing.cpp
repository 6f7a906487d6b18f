// The parcel, the work beside the bench, and what a description adds by itself.
#include "engine/book/making.h"

#include <algorithm>
#include <cmath>

namespace endband {

using enum FigureId;

namespace {

// Between what goes in the carton and the carton.
double void_in(Making const& making) {
  double const inside = making[carton_height] * making[carton_width] * making[carton_depth];
  return std::max(0.0, inside - making[parcel_height] * making[parcel_width] * making[parcel_thickness]);
}

// Padding off a roll goes twice round the girth; loose padding fills the carton; else it is one piece.
Amount padding_of(Material const& padding, Making const& making) {
  double const mm3 = making.material(Role::carton) != nullptr ? void_in(making) : 0;
  switch (dimension_of(padding.sold_by)) {
    case Dimension::length:
      return amount(length_of(2 * 2 * (making[parcel_width] + making[parcel_thickness])));
    case Dimension::volume: return amount(Volume{std::llround(mm3)});  // a cubic millimetre is a microlitre
    case Dimension::mass: return amount(Mass{std::llround(mm3 * making[padding_density] * 1e-3)});
    default: return amount(Count{1000});
  }
}

void warn_if_too_small(Making& making, Material const& carton) {
  double const padding = 2 * making[padding_thickness];
  std::array<double, 3> wanted{making[parcel_height] + padding, making[parcel_width] + padding,
                               making[parcel_thickness] + padding};
  std::array<double, 3> inside{making[carton_height], making[carton_width], making[carton_depth]};
  std::sort(wanted.begin(), wanted.end());
  std::sort(inside.begin(), inside.end());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (wanted[i] <= inside[i]) continue;
    making.warn(WarningCode::carton_too_small, inside[i], wanted[i], 0, carton.id);
    return;
  }
}

}  // namespace

void make_packing(Making& making) {
  if (!making.spec.has(Part::packing)) return;
  making.things(Item::carton, Part::packing, Role::carton, 1);
  if (Material const* const carton = making.material(Role::carton)) warn_if_too_small(making, *carton);
  if (Material const* const padding = making.material(Role::padding))
    making.things(Item::padding, Part::packing, padding->id, padding_of(*padding, making));
  if (!making.has(packing_mass))
    making.book.figures.set(packing_mass, mass_made(making, Part::packing), Origin::catalogue);
  making.operation(OperationKind::pack_parcel, 1);
  making.operation(OperationKind::post_parcel, 1);
}

void make_office_and_extras(Making& making) {
  for (OperationKind const kind :
       {OperationKind::answer_enquiry, OperationKind::draw_proof, OperationKind::photograph,
        OperationKind::order_materials, OperationKind::keep_accounts})
    making.operation(kind, 1);
  for (ExtraMaterial const& extra : making.spec.extra_materials)
    making.things(Item::extra, Part::extras, extra.material, extra.net);
  for (std::size_t i = 0; i < making.spec.extra_work.size(); ++i)
    making.book.operations.push_back(Operation{.kind = OperationKind::extra_work,
                                               .part = Part::extras,
                                               .count = Count{1000},
                                               .extra = static_cast<int>(i)});
}

}  // namespace endband
