// Onlays and panels, and the furniture that is listed.
#include "engine/book/resolve_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

namespace endband {
namespace {

constexpr std::array of_onlays{MaterialKind::leather, MaterialKind::cloth, MaterialKind::paper};

// What must be known of that which pieces are cut from; a panel may also come as a piece.
std::span<Property const> needs_of_piece(SoldBy sold_by) {
  static constexpr std::array sheet{Property::sheet};
  static constexpr std::array skin{Property::usable, Property::usable_share};
  static constexpr std::array length{Property::width};
  switch (sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: return sheet;
    case SoldBy::skin: return skin;
    case SoldBy::length: return length;
    default: return {};
  }
}

bool can_be_cut(SoldBy sold_by) { return !needs_of_piece(sold_by).empty(); }

// nullptr: faulted.
Material const* material_of(Resolving& to, Entry const& code, InsetKind kind) {
  bool const onlay = kind == InsetKind::onlay;
  Material const* const material =
      to.find(std::get<std::string>(code.value),
              onlay ? std::span<MaterialKind const>(of_onlays) : std::span<MaterialKind const>(), code.where);
  if (material == nullptr) return nullptr;
  bool const as_piece = !onlay && material->sold_by == SoldBy::piece;
  if (!as_piece && !can_be_cut(material->sold_by)) {
    to.fault(FaultCode::wrong_kind, code.where,
             fmt::format("{}, sold by {}", material->code, sold_by_name(material->sold_by)),
             onlay ? "what an onlay is cut from" : "what a panel is cut from, or panels by the piece");
    return nullptr;
  }
  for (Property const property : needs_of_piece(material->sold_by))
    if (!has_property(material->properties, property))
      to.fault(FaultCode::missing_property, code.where, material->code, std::string(property_name(property)));
  return material;
}

double thickness_of(Resolving const& to, MaterialId id) {
  auto const caliper = to.catalogue.at(id).properties.caliper;
  return caliper ? static_cast<double>(caliper->n) / 1'000'000 : 0;
}

double board_thickness_of(Resolving const& to) {
  if (to.spec.given.has(FigureId::board_thickness)) return to.spec.given.value(FigureId::board_thickness);
  Chosen const& board = to.spec.chosen(Role::board);
  return board.origin == Origin::none ? 0 : thickness_of(to, board.material);
}

}  // namespace

void resolve_insets(Resolving& to) {
  Table table(to, "insets");
  for (std::size_t i = 0; to.parts.has(Part::insets) && i < table.size(); ++i) {
    Row const& row = table[i];
    if (!table.complete(i, {key("insets[].kind"), key("insets[].material"), key("insets[].height"),
                            key("insets[].width")}))
      continue;
    InsetKind const kind = words(row, key("insets[].kind")) == "panel" ? InsetKind::panel : InsetKind::onlay;
    if (kind == InsetKind::panel && !to.parts.has(Part::boards)) {
      table.refuse_key(i, key("insets[].kind"), "an onlay: without boards there is none to let a panel into");
      continue;
    }
    Material const* const material = material_of(to, *row.find(key("insets[].material")), kind);
    if (material == nullptr) continue;
    to.spec.insets.push_back({kind, material->id, number(row, key("insets[].height"), 0),
                              number(row, key("insets[].width"), 0), whole(row, key("insets[].count"), 1),
                              row.where});
  }
}

void resolve_furniture(Resolving& to) {
  Table table(to, "furniture");
  for (std::size_t i = 0; to.parts.has(Part::furniture) && i < table.size(); ++i) {
    Row const& row = table[i];
    if (!table.complete(i, {key("furniture[].material")})) continue;
    Entry const& code = *row.find(key("furniture[].material"));
    Material const* const material = to.find(std::get<std::string>(code.value), {}, code.where);
    if (material == nullptr) continue;
    if (material->sold_by != SoldBy::piece)
      to.fault(FaultCode::wrong_kind, code.where,
               fmt::format("{}, sold by {}", material->code, sold_by_name(material->sold_by)),
               "a material that is sold by the piece");
    else if (!material->properties.piece_mass)
      to.fault(FaultCode::missing_property, code.where, material->code,
               std::string(property_name(Property::piece_mass)));
    else
      to.spec.furniture.push_back({material->id, whole(row, key("furniture[].count"), 1),
                                   whole(row, key("furniture[].rivets_each"), 0), row.where});
  }
}

// Nothing that lies in a side is larger than it, and no panel goes through its board.
void check_insets(Resolving& to) {
  Figures const& given = to.spec.given;
  double const edge = given.value_or(FigureId::square, 0);
  for (Inset const& inset : to.spec.insets) {
    double const height = given.value(FigureId::leaf_height) + 2 * edge;
    double const width = given.value(FigureId::leaf_width) + edge - given.value_or(FigureId::setback, 0);
    if (inset.height_mm > height || inset.width_mm > width)
      to.fault(FaultCode::contradiction, inset.where,
               fmt::format("{:g} x {:g} mm", inset.height_mm, inset.width_mm),
               fmt::format("at most the side that it lies in, {:g} x {:g} mm", height, width));
    double const board = board_thickness_of(to);
    if (inset.kind == InsetKind::panel && board > 0 && thickness_of(to, inset.material) >= board)
      to.fault(FaultCode::contradiction, inset.where,
               fmt::format("a panel of {:g} mm", thickness_of(to, inset.material)),
               fmt::format("a panel thinner than its board of {:g} mm", board));
  }
}

}  // namespace endband
