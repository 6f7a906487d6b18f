// JSON Lines, read: the values of one line. The library that reads it stays in json.cpp.
#pragma once

#include "engine/fault/fault.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace endband::cli {

// A line of JSON Lines that holds one object, whose values are whole numbers, words or null, or of which one
// is an object of such values: {"entry":{"seq":1,"undoes":null}}.
struct JsonLine {
  using Value = std::variant<std::nullptr_t, std::int64_t, std::string>;
  std::string within;  // the name of the inner object; empty: the members are the line's own
  std::vector<std::pair<std::string, Value>> members;
};
// Faults: bad_syntax, wrong_type (with the member's name as field), each with the column. `line` is used
// anew, with its room.
Read<bool> read_json_line(std::string_view text, JsonLine& line);
// Appended as JSON has it, control characters escaped; false where it is not UTF-8.
bool append_json_words(std::string& out, std::string_view words);

}  // namespace endband::cli
