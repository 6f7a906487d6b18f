#include "engine/stock/quantity_said.h"

#include "engine/money/numeral.h"
#include "engine/stock/stock.h"

#include <fmt/format.h>

#include <optional>

namespace endband {
namespace {

Fault fault(FaultCode code, std::string_view found, std::string expected) {
  return {code, {}, std::string(found), std::move(expected), {}};
}

struct Counted {
  std::string_view number;
  std::string unit;  // in small letters
};
// "2 packs": what stands before the last word, and that word where it is one of letters only.
Counted counted(std::string_view text) {
  std::size_t at = text.size();
  std::string unit;
  auto const letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  while (at > 0 && letter(text[at - 1])) --at;
  for (char const c : text.substr(at)) unit += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  if (unit.size() > 1 && unit.ends_with('s')) unit.pop_back();
  return {trimmed(text.substr(0, at)), std::move(unit)};
}

// What one of this word holds: a pack as it is sold, or a book of leaf; nullopt: no word for a pack of these
// goods.
struct Pack {
  std::optional<Amount> holds;  // absent: no price says what a pack is
};
std::optional<Pack> pack_named(Material const& material, std::string_view unit) {
  auto const& leaves = material.properties.leaves_a_book;
  if (unit == "book" && material.sold_by == SoldBy::leaf_book && leaves)
    return Pack{amount(Count{checked_mul(*leaves, 1000)})};
  bool const pack = unit == "pack" || (unit == "pad" && material.sold_by == SoldBy::pad) ||
                    (unit == "book" && material.sold_by == SoldBy::leaf_book) ||
                    (unit == "roll" && material.sold_by == SoldBy::length);
  if (!pack) return std::nullopt;
  return Pack{material.price ? std::optional(material.price->pack) : std::nullopt};
}

Read<Amount> read_packs(Material const& material, std::string_view text, std::string_view number, Pack pack) {
  auto const count = read_count(number);
  if (!count) return refuse(fault(count.error().front().code, text, quantity_example(material)));
  if (!pack.holds)
    return refuse(fault(FaultCode::no_price, material.code,
                        fmt::format("one that says what a pack holds, or {}", quantity_example(material))));
  return Amount{pack.holds->dimension, mul_div(pack.holds->n, count->n, 1000, Rounding::half_away)};
}

// Both words count, and neither says how much there is of a thing that is measured.
bool counts_skins(std::string_view unit) { return unit == "skin" || unit == "hide"; }

Read<Amount> read_in_units(Material const& material, std::string_view text) {
  Counted const said = counted(text);
  if (auto const pack = pack_named(material, said.unit))
    return read_packs(material, text, said.number, *pack);
  Dimension const dimension = dimension_of(material.sold_by);
  if (text == "0") return Amount{dimension, 0};
  auto const read = read_amount(text);
  if (!read && read.error().front().code != FaultCode::wrong_unit &&
      read.error().front().code != FaultCode::missing_unit)
    return tl::unexpected(read.error());
  bool const bare = !read && read.error().front().code == FaultCode::missing_unit;
  if (!read || read->dimension != dimension || counts_skins(said.unit))
    return refuse(
        fault(bare ? FaultCode::missing_unit : FaultCode::wrong_unit, text, quantity_example(material)));
  return *read;
}

}  // namespace

std::string quantity_example(Material const& material) {
  std::string text;
  switch (material.sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: text = "sheets such as 12 sheets"; break;
    case SoldBy::leaf_book: text = "leaves such as 50 leaves"; break;
    case SoldBy::piece: text = "pieces such as 4 pieces"; break;
    case SoldBy::skin: text = "the area of one skin, such as 0.61 m2 or 6.5 sq ft"; break;
    case SoldBy::length: text = "a length such as 3 m"; break;
    case SoldBy::weight: text = "a mass such as 250 g"; break;
    case SoldBy::volume: text = "a volume such as 100 ml"; break;
  }
  // A skin is bought by its area: a pack of the price is only what one usually has.
  if (material.price && material.sold_by != SoldBy::skin) text += ", or packs such as 2 packs";
  return text;
}

Read<SaidQuantity> read_quantity_of(Material const& material, std::string_view text, Least least) {
  std::string_view const said = trimmed(text);
  if (auto const size = read_sheet_size(said)) {
    auto const part = offcut_amount(material, size->first, size->second);
    if (!part) return tl::unexpected(part.error());
    return SaidQuantity{*part, size->first, size->second};
  }
  auto const read = read_in_units(material, said);
  if (!read) return tl::unexpected(read.error());
  if (read->n < 0 || (read->n == 0 && least == Least::something))
    return refuse(fault(FaultCode::out_of_range, said,
                        least == Least::nothing ? "nothing or more" : "more than nothing"));
  return SaidQuantity{*read, {}, {}};
}

}  // namespace endband
