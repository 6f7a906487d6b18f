// The material of every role: found in the catalogue, of the right kind, with what the calculator needs of
// it.
#include "engine/book/resolve.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numbers>

namespace endband {
namespace {

std::string any_of_kinds(std::span<MaterialKind const> kinds) {
  std::string words;
  for (std::size_t i = 0; i < kinds.size(); ++i)
    words += fmt::format("{}{}",
                         i == 0                  ? ""
                         : i + 1 == kinds.size() ? " or "
                                                 : ", ",
                         kind_row(kinds[i]).name);
  return words;
}

bool is_of(std::span<MaterialKind const> kinds, MaterialKind kind) {
  return kinds.empty() || std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

void missing_key(Resolving& to, RoleRow const& row) {
  to.fault(
      FaultCode::missing_key, {to.layers.source(), 0, 0, std::string(row.key)}, {},
      fmt::format("the code of {}, here or as the setting default.{}", any_of_kinds(row.kinds), row.key));
}

// --- what the calculator needs

bool said(Resolving const& to, std::size_t index) { return static_cast<bool>(to.layers[index]); }

// Known itself, or following from others.
bool is_known(Material const& material, Property property) {
  Properties const& has = material.properties;
  switch (property) {
    case Property::grammage: return has.grammage_mg || (has.density_kg_m3 && has.caliper);
    case Property::density: return has.density_kg_m3 || (has.grammage_mg && has.caliper);
    case Property::thread: return has.thread || (has.density_kg_m3 && has.caliper);
    case Property::spread:
      return material.sold_by == SoldBy::volume ? has.spread_ul_m2.has_value() : has.spread_mg_m2.has_value();
    default: return has_property(has, property);
  }
}

// What a piece is cut from must have a size.
void add_size(Material const& material, std::vector<Property>& needs) {
  switch (material.sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: needs.push_back(Property::sheet); return;
    case SoldBy::skin: needs.insert(needs.end(), {Property::usable, Property::usable_share}); return;
    case SoldBy::length: needs.push_back(Property::width); return;
    default: return;
  }
}

// NOLINTNEXTLINE(readability-function-size): a row for each role
std::vector<Property> needs_of(Resolving const& to, Role role, Material const& material) {
  std::vector<Property> needs;
  switch (role) {
    case Role::text_paper:
      if (!said(to, key("text.caliper"))) needs.push_back(Property::caliper);
      needs.push_back(Property::grammage);
      add_size(material, needs);
      break;
    case Role::endpaper:
      needs = {Property::caliper, Property::grammage};
      add_size(material, needs);
      break;
    case Role::thread:
    case Role::endband_silk_1:
    case Role::endband_silk_2:
    case Role::endband_silk_3:
    case Role::endband_silk_4:
    case Role::endband_silk_5:
    case Role::endband_silk_6: needs = {Property::thread}; break;
    case Role::cord: needs = {Property::caliper}; break;
    case Role::tape:
      needs = {Property::caliper};
      if (!said(to, key("sewing.tape_width"))) needs.push_back(Property::width);
      break;
    case Role::guard_paper:
      needs = {Property::caliper};
      add_size(material, needs);
      break;
    case Role::joint_leather: add_size(material, needs); break;
    case Role::endband_core:
      if (!said(to, key("endbands.core_thickness"))) needs.push_back(Property::caliper);
      break;
    case Role::second_core: needs = {Property::caliper}; break;
    case Role::board:
      if (!said(to, key("boards.thickness"))) needs.push_back(Property::caliper);
      needs.push_back(Property::density);
      add_size(material, needs);
      break;
    case Role::leather:
    case Role::sides:
    case Role::corner_covering:
      needs = {Property::caliper};
      if (material.kind != MaterialKind::leather) needs.push_back(Property::density);
      add_size(material, needs);
      break;
    case Role::strap_leather:
    case Role::stiffener:
      needs = {Property::caliper};
      add_size(material, needs);
      break;
    case Role::box_board:
      needs = {Property::caliper, Property::density};
      add_size(material, needs);
      break;
    case Role::box_cloth:
    case Role::box_lining:
      needs = {Property::caliper};
      add_size(material, needs);
      break;
    case Role::spine_lining:
    case Role::spine_paper:
    case Role::mull:
    case Role::hollow_paper:
    case Role::board_lining: add_size(material, needs); break;
    case Role::false_band:
    case Role::tie:
      if (material.sold_by != SoldBy::length || material.kind == MaterialKind::leather)
        add_size(material, needs);
      break;
    case Role::metal_leaf: needs = {Property::leaf_side, Property::leaves_a_book}; break;
    case Role::stone:
      if (!said(to, key("stone.height"))) needs.push_back(Property::height);
      if (!said(to, key("stone.width"))) needs.push_back(Property::width);
      [[fallthrough]];
    case Role::corner:
    case Role::clasp:
    case Role::rivet:
    case Role::buckle: needs.push_back(Property::piece_mass); break;
    case Role::carton: needs = {Property::height, Property::width, Property::depth}; break;
    case Role::thread_wax:
    case Role::made_endband:
    case Role::ribbon:
    case Role::padding: break;
    default: needs = {Property::spread}; break;  // adhesives, dye, dressing, size, varnish
  }
  // A polish of wax by the piece is not spread, but counted.
  if (material.sold_by == SoldBy::piece) std::erase(needs, Property::spread);
  return needs;
}

void check_properties(Resolving& to, Role role, Material const& material, Where const& where) {
  for (Property const property : needs_of(to, role, material))
    if (!is_known(material, property))
      to.fault(FaultCode::missing_property, where, material.code, std::string(property_name(property)));
}

// --- figures that follow from a material in a roundabout way; the plain ones the calculator reads for itself

void set(Resolving& to, FigureId id, double value) {
  if (!to.spec.given.has(id)) to.spec.given.set(id, value, Origin::catalogue);
}

double mm(Thickness thickness) { return static_cast<double>(thickness.n) / 1'000'000; }

void follow_from(Resolving& to, Role role, Material const& material) {
  Properties const& has = material.properties;
  bool const dense = has.density_kg_m3 && has.caliper;
  if (!dense && !(has.grammage_mg && has.caliper)) return;
  double const thickness = mm(*has.caliper);
  auto const grammage = [&] {
    return static_cast<double>(*has.density_kg_m3) * thickness;
  };  // kg/m3 x mm is g/m2
  auto const density = [&] { return static_cast<double>(*has.grammage_mg) / 1000 / thickness; };
  // Of a round thread: kg/m3 x mm2 is g/km.
  auto const tex = [&] {
    return static_cast<double>(*has.density_kg_m3) * std::numbers::pi / 4 * thickness * thickness;
  };
  switch (role) {
    case Role::text_paper:
      if (dense && !has.grammage_mg) set(to, FigureId::leaf_grammage, grammage());
      return;
    case Role::endpaper:
      if (dense && !has.grammage_mg) set(to, FigureId::endpaper_grammage, grammage());
      return;
    case Role::thread:
      if (dense && !has.thread) set(to, FigureId::thread_tex, tex());
      return;
    case Role::endband_silk_1:
      if (dense && !has.thread) set(to, FigureId::silk_tex, tex());
      return;
    case Role::board:
      if (!has.density_kg_m3) set(to, FigureId::board_density, density());
      return;
    case Role::leather:
      if (!has.density_kg_m3) set(to, FigureId::leather_density, density());
      return;
    case Role::sides:
      if (!has.density_kg_m3) set(to, FigureId::side_density, density());
      return;
    default: return;
  }
}

}  // namespace

Material const* Resolving::find(std::string_view code, std::span<MaterialKind const> kinds,
                                Where const& where) {
  Material const* const material = catalogue.find(code);
  if (material == nullptr) {
    std::vector<std::string_view> codes;
    for (Material const& other : catalogue.materials)
      if (is_of(kinds, other.kind)) codes.push_back(other.code);
    fault(FaultCode::unknown_material, where, std::string(code),
          "a code of the catalogue" + (kinds.empty() ? std::string() : ", of kind " + any_of_kinds(kinds)),
          nearest(code, codes));
    return nullptr;
  }
  if (is_of(kinds, material->kind)) return material;
  fault(FaultCode::wrong_kind, where, fmt::format("{} ({})", code, kind_row(material->kind).name),
        any_of_kinds(kinds));
  return nullptr;
}

namespace {

// `leather` names a leather; `cover.material` whatever covers.
std::span<MaterialKind const> kinds_of(Resolving const& to, Role role) {
  static constexpr std::array leather_only{MaterialKind::leather};
  if (role == Role::leather && !to.layers[key("cover.material")]) return leather_only;
  return role_row(role).kinds;
}

bool stands_in(Role role, Layers const& layers) {
  if (role == Role::leather || !role_row(role).otherwise) return false;
  auto const at = find_key(role_row(role).key);
  return at && !layers[*at];
}

bool fits(Resolving const& to, Named const& name, std::span<MaterialKind const> kinds) {
  Material const* const material = to.catalogue.find(name.code);
  return material == nullptr || is_of(kinds, material->kind);
}

}  // namespace

void resolve_materials(Resolving& to) {
  for (std::size_t i = 0; i < role_count; ++i) {
    Role const role = static_cast<Role>(i);
    MaterialWanted const need = wanted(role, to.layers, to.parts);
    if (need == MaterialWanted::no) continue;
    RoleRow const& row = role_row(role);
    Named const name = named(role, to.layers);
    if (name.origin == Origin::none) {
      // Of a role and the one whose material it takes otherwise, the latter's key is what has to be said.
      bool const told = row.otherwise && wanted(*row.otherwise, to.layers, to.parts) == MaterialWanted::yes;
      if (need == MaterialWanted::yes && !told) missing_key(to, row);
      continue;
    }
    // What stands in for another role must be fit for this one: no strap is cut from the cover's cloth.
    if (stands_in(role, to.layers) && !fits(to, name, row.kinds)) {
      if (need == MaterialWanted::yes) missing_key(to, row);
      continue;
    }
    Material const* const material = to.find(name.code, kinds_of(to, role), name.where);
    if (material == nullptr) continue;
    to.spec.materials[i] = {material->id, name.origin, name.where};
    check_properties(to, role, *material, name.where);
    follow_from(to, role, *material);
  }
}

}  // namespace endband
