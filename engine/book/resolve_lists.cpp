// The repeated tables: lines, underlays, and what a description adds by itself.
#include "engine/book/resolve_table.h"

#include <fmt/format.h>

#include <array>

namespace endband {
namespace {

LineLayout layout_of(std::string_view name) {
  if (name == "bands") return LineLayout::bands;
  return name == "length" ? LineLayout::length : LineLayout::frame;
}

bool has_bands(Parts const& parts) { return parts.has(Part::false_bands) || parts.is(Way::raised_cords); }

void resolve_lines(Resolving& to) {
  Table table(to, "lines");
  for (std::size_t i = 0; to.parts.has(Part::lines) && i < table.size(); ++i) {
    Row const& row = table[i];
    LineLayout const layout = layout_of(words(row, key("lines[].layout")));
    bool whole_row = table.complete(i, {key("lines[].kind"), key("lines[].width")});
    if (layout == LineLayout::frame) whole_row = table.complete(i, {key("lines[].inset")}) && whole_row;
    if (layout == LineLayout::length) whole_row = table.complete(i, {key("lines[].length")}) && whole_row;
    if (layout != LineLayout::frame)
      table.refuse_key(i, key("lines[].inset"), "layout = \"frame\", or no inset");
    if (layout != LineLayout::length)
      table.refuse_key(i, key("lines[].length"), "layout = \"length\", or no length");
    if (layout == LineLayout::bands && !has_bands(to.parts)) {
      to.fault(FaultCode::contradiction, row.where, "layout = \"bands\" on a book without bands",
               "lines of another layout, raised cords, or [false_bands]");
      continue;
    }
    if (!whole_row) continue;
    bool const leaf = words(row, key("lines[].kind")) == "leaf";
    if (!leaf) table.refuse_key(i, key("lines[].layers"), "kind = \"leaf\", or no layers");
    to.spec.lines.push_back({leaf ? LineKind::leaf : LineKind::blind, layout,
                             number(row, key("lines[].inset"), 0), number(row, key("lines[].width"), 0),
                             number(row, key("lines[].length"), 0), whole(row, key("lines[].count"), 1),
                             whole(row, key("lines[].layers"), 1), row.where});
  }
}

void resolve_underlays(Resolving& to) {
  static constexpr std::array cards{MaterialKind::card, MaterialKind::board};
  Table table(to, "underlays");
  for (std::size_t i = 0; to.parts.has(Part::underlays) && i < table.size(); ++i) {
    Row const& row = table[i];
    if (!table.complete(i, {key("underlays[].card"), key("underlays[].height"), key("underlays[].width")}))
      continue;
    Entry const& code = *row.find(key("underlays[].card"));
    Material const* const card = to.find(std::get<std::string>(code.value), cards, code.where);
    if (card == nullptr) continue;
    for (Property const property : {Property::caliper, Property::sheet})
      if (!has_property(card->properties, property))
        to.fault(FaultCode::missing_property, code.where, card->code, std::string(property_name(property)));
    to.spec.underlays.push_back(
        {card->id, number(row, key("underlays[].height"), 0), number(row, key("underlays[].width"), 0),
         whole(row, key("underlays[].layers"), 1), whole(row, key("underlays[].count"), 1), row.where});
  }
}

std::string_view dimension_words(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "a length, such as \"2 m\"";
    case Dimension::area: return "an area, such as \"0.1 m2\"";
    case Dimension::mass: return "a mass, such as \"50 g\"";
    case Dimension::volume: return "a volume, such as \"20 ml\"";
    case Dimension::count: return "a count, such as \"2 pieces\"";
    case Dimension::duration: return "a time, such as \"2 h\"";
  }
  return {};
}

void resolve_extra_materials(Resolving& to) {
  Table table(to, "extra_materials");
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (!table.complete(i, {key("extra_materials[].material"), key("extra_materials[].amount")})) continue;
    Entry const& code = *table[i].find(key("extra_materials[].material"));
    Entry const& net = *table[i].find(key("extra_materials[].amount"));
    Material const* const material = to.find(std::get<std::string>(code.value), {}, code.where);
    if (material == nullptr) continue;
    Amount const amount = std::get<Amount>(net.value);
    if (amount.dimension != dimension_of(material->sold_by))
      to.fault(FaultCode::wrong_unit, net.where, value_text(ValueType::amount, net.value),
               fmt::format("{}, as {} is sold by {}", dimension_words(dimension_of(material->sold_by)),
                           material->code, sold_by_name(material->sold_by)));
    else
      to.spec.extra_materials.push_back({material->id, amount, table[i].where});
  }
}

void resolve_extra_work(Resolving& to) {
  Table table(to, "extra_work");
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (!table.complete(i, {key("extra_work[].words"), key("extra_work[].time")})) continue;
    Times const times = std::get<Times>(table[i].find(key("extra_work[].time"))->value);
    to.spec.extra_work.push_back(
        {words(table[i], key("extra_work[].words")), times.low, times.likely, times.high, table[i].where});
  }
}

}  // namespace

void resolve_lists(Resolving& to) {
  resolve_lines(to);
  resolve_underlays(to);
  resolve_insets(to);
  resolve_furniture(to);
  resolve_extra_materials(to);
  resolve_extra_work(to);
}

}  // namespace endband
