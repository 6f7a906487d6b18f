#include "tests/engine/book/reference.h"

#include "engine/book/spec.h"
#include "engine/description/form.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <string_view>
#include <vector>

namespace endband {
namespace {

using Json = nlohmann::ordered_json;

constexpr int most_rows = 100;  // of a repeated table
constexpr char const* code_pattern = "^[a-z0-9-]{1,60}$";

struct Path {
  std::string table;  // "", "text", "lines"
  bool repeated = false;
  std::string key;
};
Path parts_of(std::string_view path) {
  std::size_t const point = path.rfind('.');
  if (point == std::string_view::npos) return {"", false, std::string(path)};
  std::string_view table = path.substr(0, point);
  bool const repeated = table.ends_with("[]");
  if (repeated) table.remove_suffix(2);
  return {std::string(table), repeated, std::string(path.substr(point + 1))};
}

// As a number, whole where it is.
Json number(double value) {
  auto const whole = static_cast<std::int64_t>(value);
  return static_cast<double>(whole) == value ? Json(whole) : Json(value);
}

Json choices(KeyRow const& row) {
  Json list = Json::array();
  for (std::string_view choice : choices_of(row)) list.push_back(std::string(choice));
  return list;
}

std::string described(KeyRow const& row) {
  bool const measured = !usual_unit(row.type).empty() || row.type == ValueType::amount;
  return std::string(row.help) + (measured ? "; " + range_text(row) : "");
}

Json code_or_choice(KeyRow const& row) {
  if (!row.choices.empty()) return {{"enum", choices(row)}};
  return {{"type", "string"}, {"pattern", code_pattern}};
}

void add_type(KeyRow const& row, Json& schema) {
  switch (row.type) {
    case ValueType::count:
      schema["type"] = "integer";
      schema["minimum"] = number(row.least);
      schema["maximum"] = number(row.most);
      return;
    case ValueType::number:
    case ValueType::share:
    case ValueType::money:
      // A string such as "35 %" is ranged by the reader; a number can be here too.
      schema["type"] = {"number", "string"};
      schema["minimum"] = number(row.least);
      schema["maximum"] = number(row.most);
      return;
    case ValueType::words:
      schema["type"] = "string";
      schema["minLength"] = number(row.least);
      schema["maxLength"] = number(row.most);
      return;
    case ValueType::code:
    case ValueType::choice: schema.update(code_or_choice(row)); return;
    case ValueType::codes:
      schema["anyOf"] = {code_or_choice(row),
                         {{"type", "array"},
                          {"items", code_or_choice(row)},
                          {"minItems", number(row.least)},
                          {"maxItems", number(row.most)}}};
      return;
    case ValueType::flag: schema["type"] = "boolean"; return;
    case ValueType::date:
      schema["type"] = "string";
      schema["format"] = "date";
      return;
    default: schema["type"] = "string"; return;
  }
}

Json schema_of(KeyRow const& row) {
  Json schema{{"description", described(row)}};
  add_type(row, schema);
  return schema;
}

Json closed_object() {
  return {{"type", "object"}, {"additionalProperties", false}, {"properties", Json::object()}};
}

Json& table_in(Json& root, Path const& path) {
  if (path.table.empty()) return root;
  Json& properties = root["properties"];
  if (!properties.contains(path.table))
    properties[path.table] =
        path.repeated ? Json{{"type", "array"}, {"maxItems", most_rows}, {"items", closed_object()}}
                      : closed_object();
  Json& table = properties[path.table];
  return path.repeated ? table["items"] : table;
}

std::string heading_of(Path const& path) {
  if (path.table.empty()) return "Above the first table";
  return path.repeated ? "`[[" + path.table + "]]`" : "`[" + path.table + "]`";
}

std::string value_words(KeyRow const& row) {
  std::string const form = expected_form(row);
  bool const ranged = row.most > 0 && row.type != ValueType::codes && row.type != ValueType::words;
  return form + (ranged ? ", " + range_text(row) : "");
}

// What stands when neither the description nor its model nor the workshop says anything.
std::string otherwise(KeyRow const& row) {
  if (Entry const* const entry = practice().find(row.path))
    return '`' + value_text(row.type, entry->value) + '`';
  for (std::size_t i = 0; i < role_count; ++i) {
    RoleRow const& role = role_row(static_cast<Role>(i));
    if (role.key == row.path && role.otherwise)
      return "that of `" + std::string(role_row(*role.otherwise).key) + '`';
  }
  return "";
}

std::string cell(std::string text) {
  for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2))
    text.insert(at, 1, '\\');
  return text;
}

}  // namespace

std::string description_schema() {
  Json root{
      {"$schema", "https://json-schema.org/draft/2020-12/schema"},
      {"$id", "endband/description/1"},
      {"title", "The description of a book"},
      {"description", "Made from the table of keys; a description is TOML, and this is of its JSON form."}};
  root.update(closed_object());
  root["required"] = {"endband"};
  for (KeyRow const& row : description_keys()) {
    Path const path = parts_of(row.path);
    table_in(root, path)["properties"][path.key] = schema_of(row);
  }
  return root.dump(2) + '\n';
}

std::string description_page() {
  std::string page =
      "# The description of a book\n\n"
      "A description is a TOML file. Its first line is `endband = 1`. Every measure carries its unit, in "
      "quotes. A value that\n"
      "is not said is the model's, else the workshop's (`endband workshop set default.sewing.supports=4`), "
      "else common\n"
      "practice, which stands in the last column. `endband book measure FILE` shows every value and where it "
      "comes from.\n\n"
      "This page is made from the table of keys by the tests (`ENDBAND_WRITE_REFERENCE=1`).\n";
  std::string last = "none";
  for (KeyRow const& row : description_keys()) {
    Path const path = parts_of(row.path);
    if (path.table != last) {
      page += "\n## " + heading_of(path) +
              "\n\n| key | what it is | value | otherwise |\n| --- | --- | --- | --- |\n";
      last = path.table;
    }
    page += "| `" + path.key + "` | " + cell(std::string(row.help)) + " | " + cell(value_words(row)) + " | " +
            cell(otherwise(row)) + " |\n";
  }
  return page;
}

}  // namespace endband
