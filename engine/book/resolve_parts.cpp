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
    OptionalPart{"guards", Part::guards},
    OptionalPart{"edges", Part::edges},
    OptionalPart{"false_bands", Part::false_bands},
    OptionalPart{"endbands", Part::endbands},
    OptionalPart{"registers", Part::registers},
    OptionalPart{"underlays", Part::underlays},
    OptionalPart{"insets", Part::insets},
    OptionalPart{"lines", Part::lines},
    OptionalPart{"lettering", Part::lettering},
    OptionalPart{"corners", Part::corners},
    OptionalPart{"clasps", Part::clasps},
    OptionalPart{"furniture", Part::furniture},
    OptionalPart{"strap", Part::strap},
    OptionalPart{"tie", Part::tie},
    OptionalPart{"stone", Part::stone},
    OptionalPart{"box", Part::box},
    OptionalPart{"repairs", Part::repairs},
    OptionalPart{"packing", Part::packing},
};

// What every bound book has.
constexpr std::array body_of_a_book{Part::text_block, Part::sewing, Part::endpapers,
                                    Part::spine,      Part::boards, Part::cover};

// What is fixed to a board, and why a book without boards cannot have it.
constexpr std::array parts_of_boards{
    std::pair{Part::corners,
              std::string_view("without boards there is nothing that corners could hold on to")},
    std::pair{Part::clasps,
              std::string_view("a clasp pulls on its boards: a wrapper is closed with [strap] or [tie]")},
    std::pair{Part::underlays, std::string_view("without boards there is nothing to lay card on")},
    std::pair{Part::stone, std::string_view("without boards there is nothing to set a stone in")},
};

// Materials that a workshop may use as a habit and a book may do without.
constexpr std::array optional_roles{
    std::pair{Role::thread_wax, std::string_view("wax")},
    std::pair{Role::leather_dye, std::string_view("dye")},
    std::pair{Role::leather_dressing, std::string_view("dressing")},
    std::pair{Role::leaf_varnish, std::string_view("varnish")},
    std::pair{Role::padding, std::string_view("padding")},
    std::pair{Role::mull, std::string_view("mull")},
    std::pair{Role::hollow_paper, std::string_view("hollow")},
    std::pair{Role::stiffener, std::string_view("stiffener")},
    std::pair{Role::board_lining, std::string_view("lining")},
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

// Edges that another workshop gilds take no leaf of ours.
bool gilt_elsewhere(Layers const& layers) {
  auto const& rows = layers.rows("outside").rows;
  return std::any_of(rows.begin(), rows.end(), [](Row const& row) {
    Entry const* const kind = row.find(key("outside[].kind"));
    return kind != nullptr && std::get<std::string>(kind->value) == "edge-gilding";
  });
}

bool has_leaf(Layers const& layers, Parts const& parts) {
  auto const& lines = layers.rows("lines").rows;
  bool const in_lines = parts.has(Part::lines) && std::any_of(lines.begin(), lines.end(), [](Row const& row) {
                          return is_leaf(row.find(key("lines[].kind")));
                        });
  if (parts.has(Part::edges) && parts.is(Way::gilt) && !gilt_elsewhere(layers)) return true;
  return in_lines || (parts.has(Part::lettering) && is_leaf(layers[key("lettering.kind")].entry));
}

bool furniture_has_rivets(Layers const& layers) {
  auto const& rows = layers.rows("furniture").rows;
  return std::any_of(rows.begin(), rows.end(), [](Row const& row) {
    Entry const* const rivets = row.find(key("furniture[].rivets_each"));
    return rivets != nullptr && std::get<std::int64_t>(rivets->value) > 0;
  });
}

bool has_rivets(Layers const& layers, Parts const& parts) {
  return (parts.has(Part::corners) && count_of(layers, key("corners.rivets_each")) > 0) ||
         (parts.has(Part::clasps) && count_of(layers, key("clasps.rivets_each")) > 0) ||
         parts.has(Part::strap) || (parts.has(Part::furniture) && furniture_has_rivets(layers));
}

MaterialWanted needed_if(bool condition) { return condition ? MaterialWanted::yes : MaterialWanted::no; }

// "endbands.silk" names six roles, each only where there are as many codes.
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

// Where a description or its model asks for a table; nullptr: nowhere.
Where const* asked_at(Layers const& layers, std::string_view table) {
  for (std::size_t i = 0; i < key_count; ++i) {
    bool const of_table = path_of(i).starts_with(table) && path_of(i).substr(table.size()).starts_with('.');
    Hit const& hit = layers[i];
    if (of_table && hit && (hit.origin == Origin::said || hit.origin == Origin::model))
      return &hit.entry->where;
  }
  Rows const& rows = layers.rows(table);
  return rows.rows.empty() ? nullptr : &rows.rows.front().where;
}

std::string_view refused_without_boards(Part part) {
  for (auto const& [of_boards, because] : parts_of_boards)
    if (of_boards == part) return because;
  return {};
}

}  // namespace

Parts::Parts(Layers const& layers, Style const& style, Ways ways, std::vector<Fault>& faults)
    : layers_(layers), ways_(ways) {
  auto const set = [&](Part part, bool there) { present_[static_cast<std::size_t>(part)] = there; };
  set(Part::whole_book, true);
  set(Part::office, true);
  for (Part const part : body_of_a_book) set(part, style.body == Body::book);
  for (auto const& [table, part] : optional_parts) {
    bool const wanted = layers.asked_for(table) && !left_out(table);
    std::string_view because = style.refuses(part);
    if (because.empty() && is(Way::no_boards)) because = refused_without_boards(part);
    set(part, wanted && because.empty());
    if (!wanted || because.empty()) continue;
    Where const* const at = asked_at(layers, table);
    faults.push_back({FaultCode::refused_part,
                      at != nullptr ? *at : Where{layers.source(), 0, 0, std::string(table)},
                      "[" + std::string(table) + "] with binding = \"" + std::string(style.name) + "\"",
                      std::string(because),
                      {}});
  }
  if (style.body == Body::book) {
    set(Part::boards, !is(Way::no_boards));
    set(Part::endpapers, !left_out("endpapers") && count_of(layers, key("endpapers.each_end")) > 0);
    set(Part::sewing, !left_out("sewing"));
  }
  if (style.body == Body::box_alone) set(Part::box, true);
  set(Part::extras, !layers.rows("extra_materials").rows.empty() || !layers.rows("extra_work").rows.empty());

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

MaterialWanted wanted(Role role, Layers const& layers, Parts const& parts) {
  for (auto const& [optional, name] : optional_roles)
    if (role == optional && parts.left_out(name)) return MaterialWanted::no;
  RoleRow const& row = role_row(role);
  if (!parts.has(row.part) && role != Role::metal_leaf && role != Role::leaf_size &&
      role != Role::leaf_varnish)
    return MaterialWanted::no;
  bool const sewn = parts.is_any({Way::one_core, Way::two_cores});
  // A bare spine and that of a wrapper are left as they are sewn, and so is the fold of one section.
  bool const glued = !parts.is(Way::open_back) && !parts.is(Way::pamphlet);
  bool const by_panels = parts.is(Way::raised_cords);
  bool const in_parts = parts.is_any({Way::three_quarter, Way::half, Way::quarter});
  switch (role) {
    case Role::text_paper: return needed_if(!layers.flag(key("text.given")));
    case Role::joint_leather: return needed_if(parts.is(Way::leather_joint));
    case Role::cord: return needed_if(parts.is_any({Way::raised_cords, Way::recessed_cords}));
    case Role::tape: return needed_if(parts.is(Way::tapes));
    case Role::spine_adhesive: return needed_if(glued);
    case Role::spine_lining:
      return needed_if(glued && (by_panels || parts.is(Way::tight)) &&
                       count_of(layers, key("spine.lining_layers")) > 0);
    case Role::spine_paper: return needed_if(glued && count_of(layers, key("spine.paper_layers")) > 0);
    case Role::mull: return needed_if(!by_panels && parts.is_any({Way::hollow, Way::loose}));
    case Role::hollow_paper: return needed_if(parts.is(Way::hollow));
    case Role::stiffener: return needed_if(parts.is(Way::loose));
    case Role::lacing_adhesive: return needed_if(parts.is(Way::laced));
    case Role::sides: return needed_if(in_parts);
    case Role::corner_covering: return needed_if(parts.is_any({Way::three_quarter, Way::half}));
    case Role::side_adhesive: return needed_if(in_parts);
    case Role::cover_paste: return needed_if(!parts.is(Way::wrapper));
    case Role::endband_core:
    case Role::endband_silk_1: return needed_if(sewn);
    case Role::second_core: return needed_if(parts.is(Way::two_cores));
    case Role::made_endband: return needed_if(parts.is(Way::stuck_on));
    case Role::edge_colour: return needed_if(parts.is(Way::sprinkled));
    case Role::metal_leaf:
    case Role::leaf_size: return needed_if(has_leaf(layers, parts));
    case Role::leaf_varnish: return has_leaf(layers, parts) ? MaterialWanted::if_named : MaterialWanted::no;
    case Role::rivet: return needed_if(has_rivets(layers, parts));
    case Role::endband_silk_2:
    case Role::endband_silk_3:
    case Role::endband_silk_4:
    case Role::endband_silk_5:
    case Role::endband_silk_6: return sewn ? MaterialWanted::if_named : MaterialWanted::no;
    case Role::thread_wax:
    case Role::leather_dye:
    case Role::leather_dressing:
    case Role::corner_adhesive:
    case Role::board_lining:
    case Role::padding: return MaterialWanted::if_named;
    default: return MaterialWanted::yes;
  }
}

Named named(Role role, Layers const& layers) {
  if (role >= Role::endband_silk_1 && role <= Role::endband_silk_6)
    return silk(layers, static_cast<std::size_t>(role) - static_cast<std::size_t>(Role::endband_silk_1));
  if (role == Role::leather)  // the leather, or whatever else covers the book
    if (Hit const& hit = layers[key("cover.material")])
      return {std::get<std::string>(hit.entry->value), hit.origin, hit.entry->where};
  RoleRow const& row = role_row(role);
  auto const at = find_key(row.key);
  if (!at) throw std::logic_error("a role without a key: " + std::string(row.key));
  if (Hit const& hit = layers[*at])
    return {std::get<std::string>(hit.entry->value), hit.origin, hit.entry->where};
  return row.otherwise ? named(*row.otherwise, layers) : Named{};
}

}  // namespace endband
