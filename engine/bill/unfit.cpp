// What is said of pieces that do not fit, and of materials without a price.
#include "engine/bill/taken.h"
#include "engine/cutting/yield.h"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <cstdint>

namespace endband {
namespace {

// The place that named the material: that of the same part before others.
Where where_named(MaterialId id, Part part, BookSpec const& spec) {
  Chosen const* named = nullptr;
  for (std::size_t i = 0; i < role_count; ++i) {
    Chosen const& chosen = spec.materials[i];
    if (chosen.origin == Origin::none || chosen.material != id) continue;
    if (role_row(static_cast<Role>(i)).part == part) return chosen.where;
    if (named == nullptr) named = &chosen;
  }
  if (named != nullptr) return named->where;
  for (Underlay const& underlay : spec.underlays)
    if (underlay.card == id) return underlay.where;
  for (ExtraMaterial const& extra : spec.extra_materials)
    if (extra.material == id) return extra.where;
  return {};
}

std::string size_text(Length first, Length second) {
  return fmt::format("{} x {} mm", length_mm(first), length_mm(second));
}

// In tenths, and up: a piece that is a hair too large must not read as if it fitted.
std::string tenths_up(Length side) {
  constexpr std::int64_t tenth = 100;  // um
  std::int64_t const tenths = (side.n + tenth - 1) / tenth;
  return fmt::format("{}", static_cast<double>(tenths) / 10);
}

std::string piece_text(Piece const& piece) {
  std::string text = fmt::format("{} of {} x {} mm", item_words(piece.item), tenths_up(piece.height),
                                 tenths_up(piece.width));
  if (piece.grain == Grain::along_height) text += ", grain along the first side";
  if (piece.grain == Grain::along_width) text += ", grain along the second side";
  return text;
}

std::string stock_text(Material const& material) {
  Properties const& given = material.properties;
  switch (material.sold_by) {
    case SoldBy::skin:
      return fmt::format("the rectangle of {} to count on of a skin of {}",
                         size_text(given.usable_height.value(), given.usable_width.value()), material.code);
    case SoldBy::length:
      return fmt::format("the width of {} mm of {}", length_mm(given.width.value()), material.code);
    default:
      return fmt::format("a sheet of {} of {}, grain along the second side",
                         size_text(given.sheet.value().first, given.sheet.value().second), material.code);
  }
}

bool fits(Piece const& piece, Material const& material) {
  Properties const& given = material.properties;
  Piece one = piece;
  one.count = 1;
  std::span<Piece const> const single(&one, 1);
  switch (material.sold_by) {
    case SoldBy::skin:
      return skins_for(given.usable_height.value(), given.usable_width.value(), single).has_value();
    case SoldBy::length: return roll_for(given.width.value(), single).has_value();
    default: return sheets_for(given.sheet.value(), single).has_value();
  }
}

}  // namespace

void add_unfit(std::span<Need const> uses, Material const& material, BookSpec const& spec,
               std::vector<Fault>& faults) {
  bool all_fit_alone = true;
  for (Need const& use : uses)
    for (Piece const& piece : use.pieces) {
      if (fits(piece, material)) continue;
      all_fit_alone = false;
      faults.push_back({FaultCode::does_not_fit,
                        where_named(material.id, use.part, spec),
                        piece_text(piece),
                        "a piece within " + stock_text(material),
                        {}});
    }
  if (all_fit_alone)
    faults.push_back({FaultCode::does_not_fit,
                      where_named(material.id, uses.front().part, spec),
                      "pieces that must come from one skin",
                      "pieces that together lie within " + stock_text(material),
                      {}});
}

Fault no_price(Need const& use, Material const& material, BookSpec const& spec, Date on) {
  return {FaultCode::no_price,
          where_named(material.id, use.part, spec),
          material.code,
          fmt::format("a price of it in force on {}", date_text(on)),
          {}};
}

}  // namespace endband
