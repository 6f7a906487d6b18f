// TOML to Raw. The one file that includes the TOML library.
#include "engine/description/raw.h"
#include "engine/description/syntax.h"
#include "engine/description/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#define TOML_EXCEPTIONS 0
#define TOML_ENABLE_FORMATTERS 0
#define TOML_MAX_NESTED_VALUES 32
#include <toml++/toml.h>

namespace endband {
namespace {

Place place_of(toml::source_region const& region) {
  return {static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

Raw raw_of(toml::node const& node);

std::vector<RawMember> members_of(toml::table const& table) {
  std::vector<RawMember> members;
  for (auto const& [key, node] : table)
    members.push_back({std::string(key.str()), place_of(key.source()), raw_of(node)});
  // The library keeps a table by its keys; faults and entries are told in the order of the file.
  std::stable_sort(members.begin(), members.end(),
                   [](RawMember const& a, RawMember const& b) { return a.place < b.place; });
  return members;
}

Raw raw_value(toml::node const& node) {
  Raw raw;
  if (auto const* text = node.as_string()) {
    raw.text = text->get();
  } else if (auto const* whole = node.as_integer()) {
    raw.is = Raw::Is::whole;
    raw.whole = whole->get();
    raw.text = fmt::format("{}", raw.whole);
  } else if (auto const* decimal = node.as_floating_point()) {
    raw.is = Raw::Is::decimal;
    raw.text = fmt::format("{}", decimal->get());  // the shortest that is this number: 0.35 stays 0.35
  } else if (auto const* flag = node.as_boolean()) {
    raw.is = Raw::Is::flag;
    raw.flag = flag->get();
    raw.text = raw.flag ? "true" : "false";
  } else if (auto const* date = node.as_date()) {
    raw.is = Raw::Is::date;
    toml::date const& d = date->get();
    raw.date = std::chrono::year(d.year) / std::chrono::month(d.month) / std::chrono::day(d.day);
    raw.text = date_text(raw.date);
  } else {
    raw.is = Raw::Is::time;
    raw.text = "a time";
  }
  return raw;
}

Raw raw_of(toml::node const& node) {
  Raw raw;
  if (auto const* table = node.as_table()) {
    raw.is = Raw::Is::table;
    raw.text = "a table";
    raw.members = members_of(*table);
  } else if (auto const* list = node.as_array()) {
    raw.is = Raw::Is::list;
    raw.text = "a list";
    for (toml::node const& item : *list) raw.items.push_back(raw_of(item));
  } else {
    raw = raw_value(node);
  }
  raw.place = place_of(node.source());
  return raw;
}

}  // namespace

Read<Raw> parse(std::string_view text, std::string const& source) {
  if (auto fault = refused_before_parsing(text)) {
    fault->where.source = source;
    return refuse(std::move(*fault));
  }
  toml::parse_result const result = toml::parse(text);
  if (!result) {
    Fault fault = explain_syntax(text, place_of(result.error().source()), result.error().description());
    fault.where.source = source;
    return refuse(std::move(fault));
  }
  return raw_of(result.table());
}

}  // namespace endband
