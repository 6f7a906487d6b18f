// Onlays, panels let into the boards, and the furniture that is listed.
#include "engine/book/making.h"

#include <array>

namespace endband {

using enum FigureId;

namespace {

// What is cut of the cover's own leather comes from its skin, and a thin shape may lie any way.
void make_piece(Making& making, Inset const& inset, Material const& of) {
  bool const onlay = inset.kind == InsetKind::onlay;
  Material const* const cover = making.material(Role::leather);
  bool const same_skin = of.kind == MaterialKind::leather && cover != nullptr && cover->id == of.id;
  making.book.pieces.push_back(
      Piece{.item = onlay ? Item::onlays : Item::inset_panels,
            .part = Part::insets,
            .material = of.id,
            .count = inset.count,
            .height = cut_to(inset.height_mm),
            .width = cut_to(inset.width_mm),
            .grain = onlay ? Grain::any : making.grain_of(of, inset.height_mm, inset.width_mm),
            .skin_group = same_skin ? skin_of_the_cover : 0});
}

}  // namespace

void make_insets(Making& making) {
  if (!making.spec.has(Part::insets)) return;
  double glued = 0;
  std::array<double, 2> counts{};  // by InsetKind
  for (Inset const& inset : making.spec.insets) {
    Material const& of = making.catalogue.at(inset.material);
    if (of.sold_by == SoldBy::piece)
      making.things(Item::inset_panels, Part::insets, of.id, amount(Count{std::int64_t{inset.count} * 1000}));
    else
      make_piece(making, inset, of);
    glued += inset.height_mm * inset.width_mm * inset.count;
    counts[static_cast<std::size_t>(inset.kind)] += inset.count;
  }
  making.spread(Item::inset_glue, Part::insets, Role::inset_adhesive, glued);
  making.operation(OperationKind::lay_onlays, counts[static_cast<std::size_t>(InsetKind::onlay)]);
  making.operation(OperationKind::let_in_panels, counts[static_cast<std::size_t>(InsetKind::panel)]);
}

}  // namespace endband
