// Offcuts: what one is worth, and how much of its material it is.
#include "engine/stock/stock.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

std::string extent_text(Length height, Length width) {
  return fmt::format("{} x {} mm", length_mm(height), length_mm(width));
}

// How an offcut of goods sold so is counted; nullopt: such goods leave none that has a size.
enum class CountedBy : std::uint8_t { area, share_of_sheet, length_of_roll };
std::optional<CountedBy> counted_by(Material const& material) {
  switch (material.sold_by) {
    case SoldBy::skin: return CountedBy::area;
    case SoldBy::sheet:
    case SoldBy::pad: return CountedBy::share_of_sheet;
    case SoldBy::length: break;
    case SoldBy::weight:
    case SoldBy::volume:
    case SoldBy::piece:
    case SoldBy::leaf_book: return std::nullopt;
  }
  if (material.properties.width) return CountedBy::length_of_roll;
  // Goods that are flat come on a roll whose width was not said; a thread or a cord never has one.
  bool const flat = material.kind == MaterialKind::cloth || material.kind == MaterialKind::linen ||
                    material.kind == MaterialKind::ribbon || material.kind == MaterialKind::wood_board;
  return flat ? std::optional(CountedBy::length_of_roll) : std::nullopt;
}

Read<Amount> share_of_sheet(Material const& material, Length height, Length width) {
  auto const& sheet = material.properties.sheet;
  if (!sheet)
    return refuse({FaultCode::missing_property,
                   {},
                   material.code,
                   fmt::format("its {}", property_name(Property::sheet)),
                   {}});
  auto const [shorter, longer] = std::minmax(sheet->first, sheet->second);
  auto const [narrow, tall] = std::minmax(height, width);
  if (narrow > shorter || tall > longer)
    return refuse(
        {FaultCode::does_not_fit,
         {},
         extent_text(height, width),
         fmt::format("at most the sheet of {}, {}", material.code, extent_text(sheet->first, sheet->second)),
         {}});
  std::int64_t const share =
      mul_div(area(height, width).n, 1000, area(sheet->first, sheet->second).n, Rounding::down);
  return amount(Count{std::max<std::int64_t>(share, 1)});
}

Read<Amount> length_of_roll(Material const& material, Length height, Length width) {
  auto const& roll = material.properties.width;
  if (!roll)
    return refuse({FaultCode::missing_property,
                   {},
                   material.code,
                   fmt::format("its {}", property_name(Property::width)),
                   {}});
  if (std::min(height, width) > *roll)
    return refuse({FaultCode::does_not_fit,
                   {},
                   extent_text(height, width),
                   fmt::format("one side at most the width of {}, {} mm", material.code, length_mm(*roll)),
                   {}});
  return amount(Length{std::max<std::int64_t>(area(height, width).n / roll->n, 1)});
}

}  // namespace

std::int64_t kept_value(Held const& held, std::int64_t quantity, Ratio kept_worth) {
  if (quantity <= 0 || quantity > held.quantity)
    throw std::logic_error("an offcut is kept of what the job does not hold");
  if (held.value < 0 || kept_worth < Ratio(0) || kept_worth > Ratio(1))
    throw std::logic_error("an offcut is worth between nothing and its part of the cost");
  // One rounding: the product of both ratios is taken in 128 bits.
  return round_product(Ratio(quantity, held.quantity), Ratio(held.value) * kept_worth, Rounding::half_away);
}

Read<Amount> offcut_amount(Material const& material, Length height, Length width) {
  auto const by = counted_by(material);
  if (!by)
    return refuse({FaultCode::wrong_unit,
                   {},
                   extent_text(height, width),
                   fmt::format("a material in sheets, skins or on a roll; {} is sold by {}", material.code,
                               sold_by_name(material.sold_by)),
                   {}});
  if (height.n <= 0 || width.n <= 0)
    return refuse(
        {FaultCode::out_of_range, {}, extent_text(height, width), "two sides of more than nothing", {}});
  switch (*by) {
    case CountedBy::area: return amount(area(height, width));
    case CountedBy::share_of_sheet: return share_of_sheet(material, height, width);
    case CountedBy::length_of_roll: return length_of_roll(material, height, width);
  }
  throw std::logic_error("an offcut is counted in no way");
}

}  // namespace endband
