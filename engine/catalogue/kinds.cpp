// The tables of kinds, of ways of selling and of properties.
#include "engine/catalogue/catalogue.h"

#include <array>
#include <cstddef>
#include <stdexcept>

namespace endband {
namespace {

// clang-format off
constexpr std::array in_sheets{SoldBy::sheet, SoldBy::pad};
constexpr std::array sheet_only{SoldBy::sheet};
constexpr std::array sheet_or_length{SoldBy::sheet, SoldBy::length};
constexpr std::array skin_or_sheet{SoldBy::skin, SoldBy::sheet};
constexpr std::array length_only{SoldBy::length};
constexpr std::array length_or_weight{SoldBy::length, SoldBy::weight};
constexpr std::array weight_only{SoldBy::weight};
constexpr std::array weight_or_volume{SoldBy::weight, SoldBy::volume};
constexpr std::array piece_only{SoldBy::piece};
constexpr std::array weight_or_piece{SoldBy::weight, SoldBy::piece};
constexpr std::array leaf_book_only{SoldBy::leaf_book};
constexpr std::array abrasives{SoldBy::sheet, SoldBy::length, SoldBy::piece};
constexpr std::array sundries{SoldBy::sheet, SoldBy::pad, SoldBy::length, SoldBy::weight, SoldBy::volume, SoldBy::piece};

constexpr std::array paper_needs{Property::caliper, Property::grammage};
constexpr std::array board_needs{Property::caliper, Property::density};
constexpr std::array caliper_needed{Property::caliper};
constexpr std::array thread_needed{Property::thread};
constexpr std::array width_needed{Property::width};
constexpr std::array spread_needed{Property::spread};
constexpr std::array piece_mass_needed{Property::piece_mass};
constexpr std::array inner_size_needed{Property::height, Property::width, Property::depth};
constexpr std::span<Property const> nothing{};

using Kind = MaterialKind;
constexpr std::array kinds{
  KindRow{Kind::paper,        "paper",        "paper for text, endpapers or linings", in_sheets, paper_needs},
  KindRow{Kind::card,         "card",         "card for underlays and stiffeners", in_sheets, paper_needs},
  KindRow{Kind::board,        "board",        "mill, grey or straw board", sheet_only, board_needs},
  KindRow{Kind::wood_board,   "wood-board",   "wood planed for boards", sheet_or_length, board_needs},
  KindRow{Kind::leather,      "leather",      "leather, by the skin or in sheets", skin_or_sheet, caliper_needed},
  KindRow{Kind::cloth,        "cloth",        "book cloth", sheet_or_length, nothing},
  KindRow{Kind::linen,        "linen",        "linen or mull for linings and joints", sheet_or_length, nothing},
  KindRow{Kind::thread,       "thread",       "thread for sewing", length_or_weight, thread_needed},
  KindRow{Kind::cord,         "cord",         "cord, tape or thong to sew on", length_only, caliper_needed},
  KindRow{Kind::core,         "core",         "core for endbands", length_only, caliper_needed},
  KindRow{Kind::silk,         "silk",         "silk for endbands", length_only, thread_needed},
  KindRow{Kind::ribbon,       "ribbon",       "ribbon for registers", length_only, width_needed},
  KindRow{Kind::adhesive,     "adhesive",     "glue or ready paste", weight_or_volume, spread_needed},
  KindRow{Kind::paste_powder, "paste-powder", "starch or flour for paste", weight_only, spread_needed},
  KindRow{Kind::epoxy,        "epoxy",        "adhesive of two parts", weight_or_volume, spread_needed},
  KindRow{Kind::dye,          "dye",          "dye for leather or edges", weight_or_volume, spread_needed},
  KindRow{Kind::dressing,     "dressing",     "dressing or polish for leather", weight_or_volume, spread_needed},
  KindRow{Kind::gilding_size, "gilding-size", "adhesive for metal leaf", weight_or_volume, spread_needed},
  KindRow{Kind::metal_leaf,   "metal-leaf",   "leaf of gold or of brass, in books", leaf_book_only, nothing},
  KindRow{Kind::varnish,      "varnish",      "varnish over metal leaf or wood", weight_or_volume, spread_needed},
  KindRow{Kind::corner,       "corner",       "metal corners", piece_only, piece_mass_needed},
  KindRow{Kind::clasp,        "clasp",        "clasps with their catches", piece_only, piece_mass_needed},
  KindRow{Kind::rivet,        "rivet",        "rivets", piece_only, piece_mass_needed},
  KindRow{Kind::buckle,       "buckle",       "buckles for straps", piece_only, piece_mass_needed},
  KindRow{Kind::stone,        "stone",        "stones to set", piece_only, piece_mass_needed},
  KindRow{Kind::wax,          "wax",          "wax for thread or for finishing", weight_or_piece, nothing},
  KindRow{Kind::abrasive,     "abrasive",     "abrasive paper or cloth", abrasives, nothing},
  KindRow{Kind::packing,      "packing",      "padding and wrapping", sundries, nothing},
  KindRow{Kind::carton,       "carton",       "cartons to send books in", piece_only, inner_size_needed},
  KindRow{Kind::sundry,       "sundry",       "anything else", sundries, nothing},
  KindRow{Kind::endband,      "endband",      "made endbands by the metre", length_only, nothing},
};

struct SoldByRow {
  SoldBy sold_by;
  std::string_view name;
  Dimension dimension;
  std::span<Property const> needs;
};
constexpr std::array sheet_needed{Property::sheet};
constexpr std::array skin_needs{Property::usable, Property::usable_share};
constexpr std::array leaf_needs{Property::leaf_side, Property::leaves_a_book};
constexpr std::array ways_of_selling{
  SoldByRow{SoldBy::sheet,     "sheet",     Dimension::count,  sheet_needed},
  SoldByRow{SoldBy::pad,       "pad",       Dimension::count,  sheet_needed},
  SoldByRow{SoldBy::skin,      "skin",      Dimension::area,   skin_needs},
  SoldByRow{SoldBy::length,    "length",    Dimension::length, nothing},
  SoldByRow{SoldBy::weight,    "weight",    Dimension::mass,   nothing},
  SoldByRow{SoldBy::volume,    "volume",    Dimension::volume, nothing},
  SoldByRow{SoldBy::piece,     "piece",     Dimension::count,  nothing},
  SoldByRow{SoldBy::leaf_book, "leaf-book", Dimension::count,  leaf_needs},
};

constexpr std::array<std::string_view, 3> charging_names{"as-used", "whole-less-offcuts", "whole"};
constexpr std::array<std::string_view, 15> property_names{
  "caliper", "grammage", "density", "sheet", "thread", "leaf-side", "leaves-a-book", "usable", "usable-share",
  "spread", "solids", "piece-mass", "width", "height", "depth"};
// clang-format on

template <class Rows, class Key>
constexpr bool in_order(Rows const& rows, Key key) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (static_cast<std::size_t>(rows[i].*key) != i) return false;
  return true;
}
static_assert(in_order(kinds, &KindRow::kind) && kinds.size() == static_cast<std::size_t>(Kind::endband) + 1);
static_assert(in_order(ways_of_selling, &SoldByRow::sold_by) &&
              ways_of_selling.size() == static_cast<std::size_t>(SoldBy::leaf_book) + 1);
static_assert(charging_names.size() == static_cast<std::size_t>(Charging::whole) + 1);
static_assert(property_names.size() == static_cast<std::size_t>(Property::depth) + 1);

template <class Rows, class Enum>
auto const& row_of(Rows const& rows, Enum value) {
  auto const index = static_cast<std::size_t>(value);
  if (index >= rows.size()) throw std::logic_error("a value outside its enumeration");
  return rows[index];
}

}  // namespace

Dimension dimension_of(SoldBy sold_by) { return row_of(ways_of_selling, sold_by).dimension; }

std::span<KindRow const> kind_table() { return kinds; }
KindRow const& kind_row(MaterialKind kind) { return row_of(kinds, kind); }
std::optional<MaterialKind> kind_named(std::string_view name) {
  for (KindRow const& row : kinds)
    if (row.name == name) return row.kind;
  return std::nullopt;
}

std::string_view sold_by_name(SoldBy sold_by) { return row_of(ways_of_selling, sold_by).name; }
std::optional<SoldBy> sold_by_named(std::string_view name) {
  for (SoldByRow const& row : ways_of_selling)
    if (row.name == name) return row.sold_by;
  return std::nullopt;
}
std::span<Property const> needs_of(SoldBy sold_by) { return row_of(ways_of_selling, sold_by).needs; }

std::string_view charging_name(Charging charging) { return row_of(charging_names, charging); }
std::optional<Charging> charging_named(std::string_view name) {
  for (std::size_t i = 0; i < charging_names.size(); ++i)
    if (charging_names[i] == name) return static_cast<Charging>(i);
  return std::nullopt;
}

std::string_view property_name(Property property) { return row_of(property_names, property); }

bool has_property(Properties const& properties, Property property) {
  switch (property) {
    case Property::caliper: return properties.caliper.has_value();
    case Property::grammage: return properties.grammage_mg.has_value();
    case Property::density: return properties.density_kg_m3.has_value();
    case Property::sheet: return properties.sheet.has_value();
    case Property::thread: return properties.thread.has_value();
    case Property::leaf_side: return properties.leaf_side.has_value();
    case Property::leaves_a_book: return properties.leaves_a_book.has_value();
    case Property::usable: return properties.usable_height && properties.usable_width;
    case Property::usable_share: return properties.usable_share.has_value();
    case Property::spread: return properties.spread_mg_m2 || properties.spread_ul_m2;
    case Property::solids: return properties.solids.has_value();
    case Property::piece_mass: return properties.piece_mass.has_value();
    case Property::width: return properties.width.has_value();
    case Property::height: return properties.height.has_value();
    case Property::depth: return properties.depth.has_value();
  }
  throw std::logic_error("a value outside its enumeration");
}

}  // namespace endband
