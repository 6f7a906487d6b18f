#include "engine/book/resolve_parts.h"

#include <algorithm>
#include <utility>

namespace endband {
namespace {

struct OptionalPart {
  std::string_view table;  // of the description, and its name in `without`
  Part part;
};
constexpr std::array optional_parts{
    OptionalPart{"endbands", Part::endbands},   OptionalPart{"registers", Part::registers},
    OptionalPart{"underlays", Part::underlays}, OptionalPart{"lines", Part::lines},
    OptionalPart{"lettering", Part::lettering}, OptionalPart{"corners", Part::corners},
    OptionalPart{"clasps", Part::clasps},       OptionalPart{"strap", Part::strap},
    OptionalPart{"stone", Part::stone},         OptionalPart{"packing", Part::packing},
};

// Materials that a workshop may use as a habit and a book may do without.
constexpr std::array optional_roles{
    std::pair{Role::thread_wax, std::string_view("wax")},
    std::pair{Role::leather_dye, std::string_view("dye")},
    std::pair{Role::leather_dressing, std::string_view("dressing")},
    std::pair{Role::leaf_varnish, std::string_view("varnish")},
    std::pair{Role::padding, std::string_view("padding")},
};

bool lists(Hit const& hit, std::string_view name) {
  auto const& codes = std::get<std::vector<std::string>>(hit.entry->value);
  return std::find(codes.begin(), codes.end(), name) != codes.end();
}

std::int64_t count_of(Layers const& layers, std::size_t index) {
  Hit const& hit = layers[index];
  return hit ? std::get<std::int64_t>(hit.entry->value) : 0;
}

bool is_leaf(Entry const* kind) { return kind != nullptr && std::get<std::string>(kind->value) == "leaf"; }

bool has_leaf(Layers const& layers, Parts const& parts) {
  auto const& lines = layers.rows("lines").rows;
  bool const in_lines = parts.has(Part::lines) && std::any_of(lines.begin(), lines.end(), [](Row const& row) {
                          return is_leaf(row.find(key("lines[].kind")));
                        });
  return in_lines || (parts.has(Part::lettering) && is_leaf(layers[key("lettering.kind")].entry));
}

bool has_rivets(Layers const& layers, Parts const& parts) {
  return (parts.has(Part::corners) && count_of(layers, key("corners.rivets_each")) > 0) ||
         (parts.has(Part::clasps) && count_of(layers, key("clasps.rivets_each")) > 0) ||
         parts.has(Part::strap);
}

Wanted needed_if(bool condition) { return condition ? Wanted::yes : Wanted::no; }

// "endbands.silk" names two roles, the second only where there are two codes.
Named silk(Layers const& layers, std::size_t which) {
  Hit const& hit = layers[key("endbands.silk")];
  if (!hit) return {};
  auto const& codes = std::get<std::vector<std::string>>(hit.entry->value);
  if (codes.size() <= which) return {};
  return {codes[which], hit.origin, hit.entry->where};
}

// Where the layer that leaves out a part describes it too; nullptr: nowhere.
Where const* described_beside(Layers const& layers, std::string_view table) {
  Hit const& without = layers[key("without")];
  if (!lists(without, table)) return nullptr;
  for (std::size_t i = 0; i < key_count; ++i) {
    bool const of_table = path_of(i).starts_with(table) && path_of(i).substr(table.size()).starts_with('.');
    if (of_table && layers[i] && layers[i].layer == without.layer) return &layers[i].entry->where;
  }
  Rows const& rows = layers.rows(table);
  return !rows.rows.empty() && rows.origin == without.origin ? &rows.rows.front().where : nullptr;
}

}  // namespace

Parts::Parts(Layers const& layers, std::vector<Fault>& faults) : layers_(layers) {
  present_.fill(true);
  for (auto const& [table, part] : optional_parts)
    present_[static_cast<std::size_t>(part)] = layers.asked_for(table) && !left_out(table);
  present_[static_cast<std::size_t>(Part::endpapers)] =
      !left_out("endpapers") && count_of(layers, key("endpapers.each_end")) > 0;
  present_[static_cast<std::size_t>(Part::extras)] =
      !layers.rows("extra_materials").rows.empty() || !layers.rows("extra_work").rows.empty();

  if (!layers[key("without")]) return;
  for (auto const& [table, part] : optional_parts)
    if (auto const* described = described_beside(layers, table))
      faults.push_back({FaultCode::contradiction,
                        *described,
                        std::string(table),
                        "no [" + std::string(table) + "], or no \"" + std::string(table) + "\" in without",
                        {}});
}

bool Parts::left_out(std::string_view name) const {
  auto const all = layers_.all(key("without"));
  return std::any_of(all.begin(), all.end(), [&](Hit const& hit) { return lists(hit, name); });
}

Wanted wanted(Role role, Layers const& layers, Parts const& parts) {
  for (auto const& [optional, name] : optional_roles)
    if (role == optional && parts.left_out(name)) return Wanted::no;
  RoleRow const& row = role_row(role);
  bool const has_part = parts.has(row.part);
  switch (role) {
    case Role::text_paper: return needed_if(!layers.flag(key("text.given")));
    case Role::spine_lining: return needed_if(count_of(layers, key("spine.lining_layers")) > 0);
    case Role::spine_paper: return needed_if(count_of(layers, key("spine.paper_layers")) > 0);
    case Role::metal_leaf:
    case Role::leaf_size: return needed_if(has_leaf(layers, parts));
    case Role::leaf_varnish: return has_leaf(layers, parts) ? Wanted::if_named : Wanted::no;
    case Role::rivet: return needed_if(has_rivets(layers, parts));
    case Role::thread_wax:
    case Role::leather_dye:
    case Role::leather_dressing:
    case Role::endband_silk_2:
    case Role::corner_adhesive:
    case Role::padding: return has_part ? Wanted::if_named : Wanted::no;
    default: return needed_if(has_part);
  }
}

Named named(Role role, Layers const& layers) {
  if (role == Role::endband_silk_1) return silk(layers, 0);
  if (role == Role::endband_silk_2) return silk(layers, 1);
  RoleRow const& row = role_row(role);
  auto const at = find_key(row.key);
  if (!at) throw std::logic_error("a role without a key: " + std::string(row.key));
  if (Hit const& hit = layers[*at])
    return {std::get<std::string>(hit.entry->value), hit.origin, hit.entry->where};
  return row.otherwise ? named(*row.otherwise, layers) : Named{};
}

}  // namespace endband
