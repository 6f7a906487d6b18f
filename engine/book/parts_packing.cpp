// The parcel, the work beside the bench, and what a description adds by itself.
#include "engine/book/making.h"

#include <algorithm>
#include <cmath>

namespace endband {

using enum FigureId;

namespace {

double mm(std::optional<Length> length) { return static_cast<double>(length.value_or(Length{}).n) / 1000; }

// Between the book and the carton.
double void_in(Material const& carton, Making const& making) {
  double const inside =
      mm(carton.properties.height) * mm(carton.properties.width) * mm(carton.properties.depth);
  return std::max(0.0, inside - making[closed_height] * making[closed_width] * making[closed_thickness]);
}

// Padding off a roll goes twice round the book's girth; loose padding fills the carton; else it is one piece.
Amount padding_of(Material const& padding, Making const& making) {
  Material const* const carton = making.material(Role::carton);
  double const mm3 = carton != nullptr ? void_in(*carton, making) : 0;
  switch (dimension_of(padding.sold_by)) {
    case Dimension::length:
      return amount(length_of(2 * 2 * (making[closed_width] + making[closed_thickness])));
    case Dimension::volume: return amount(Volume{std::llround(mm3)});  // a cubic millimetre is a microlitre
    case Dimension::mass: return amount(Mass{std::llround(mm3 * making[padding_density] * 1e-3)});
    default: return amount(Count{1000});
  }
}

void warn_if_too_small(Making& making, Material const& carton) {
  std::array<double, 3> book{making[closed_height], making[closed_width], making[closed_thickness]};
  std::array<double, 3> inside{mm(carton.properties.height), mm(carton.properties.width),
                               mm(carton.properties.depth)};
  std::sort(book.begin(), book.end());
  std::sort(inside.begin(), inside.end());
  for (std::size_t i = 0; i < book.size(); ++i) {
    if (book[i] <= inside[i]) continue;
    making.warn(WarningCode::carton_too_small, inside[i], book[i], 0, carton.id);
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
