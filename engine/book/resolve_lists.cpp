// The repeated tables: lines, underlays, and what a description adds by itself.
#include "engine/book/resolve.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

namespace endband {
namespace {

double number(Row const& row, std::size_t index, double otherwise) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? otherwise : number_of(key_table::rows[index].row.type, entry->value);
}
int whole(Row const& row, std::size_t index, int otherwise) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? otherwise : static_cast<int>(std::get<std::int64_t>(entry->value));
}
std::string words(Row const& row, std::size_t index) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? std::string() : std::get<std::string>(entry->value);
}

// "lines[2].width"
std::string field(std::size_t index, std::size_t row) {
  std::string path(path_of(index));
  if (std::size_t const at = path.find("[]"); at != std::string::npos)
    path.replace(at, 2, fmt::format("[{}]", row + 1));
  return path;
}

class Table {
 public:
  Table(Resolving& to, std::string_view name) : to_(to), rows_(to.layers.rows(name)) {}

  std::size_t size() const { return rows_.rows.size(); }
  Row const& operator[](std::size_t i) const { return rows_.rows[i]; }

  // Faults each that is missing; true when none is.
  bool complete(std::size_t i, std::initializer_list<std::size_t> needed) {
    bool whole_row = true;
    for (std::size_t const index : needed) {
      if (rows_.rows[i].find(index) != nullptr) continue;
      Where where = rows_.rows[i].where;
      where.field = field(index, i);
      to_.fault(FaultCode::missing_key, std::move(where), {},
                fmt::format("{} = ..., {}", path_of(index).substr(path_of(index).rfind('.') + 1),
                            key_table::rows[index].row.help));
      whole_row = false;
    }
    return whole_row;
  }

  // What has no meaning for this row.
  void refuse_key(std::size_t i, std::size_t index, std::string_view expected) {
    if (Entry const* const entry = rows_.rows[i].find(index))
      to_.fault(FaultCode::contradiction, entry->where,
                value_text(key_table::rows[index].row.type, entry->value), std::string(expected));
  }

 private:
  Resolving& to_;
  Rows const& rows_;
};

LineLayout layout_of(std::string_view name) {
  if (name == "bands") return LineLayout::bands;
  return name == "length" ? LineLayout::length : LineLayout::frame;
}

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

void resolve_outside(Resolving& to) {
  Table table(to, "outside");
  for (std::size_t i = 0; i < table.size(); ++i) {
    Row const& row = table[i];
    if (!table.complete(i, {key("outside[].words"), key("outside[].price")})) continue;
    Entry const* const at_cost = row.find(key("outside[].at_cost"));
    Entry const* const lead = row.find(key("outside[].lead"));
    OutsideWork work;
    work.words = words(row, key("outside[].words"));
    work.price = words(row, key("outside[].price"));
    work.at_cost = at_cost == nullptr || std::get<bool>(at_cost->value);
    work.lead = Duration{lead == nullptr ? 0 : std::get<std::int64_t>(lead->value)};
    work.where = row.where;
    to.spec.outside.push_back(std::move(work));
  }
}

}  // namespace

void resolve_lists(Resolving& to) {
  resolve_lines(to);
  resolve_underlays(to);
  resolve_extra_materials(to);
  resolve_extra_work(to);
  resolve_outside(to);
}

}  // namespace endband
