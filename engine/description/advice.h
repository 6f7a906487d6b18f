// One line of a description that is not TOML: what people write who do not know TOML, and what would be
// right.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace endband {

struct Advice {
  std::size_t at = 0;  // byte of the line where what is wrong begins
  std::string key;     // of the line; may be empty
  std::string found;
  std::string expected;  // the line as it should be, and why
};

// `said`: what the TOML library says of it. nullopt: nothing to see in this line.
std::optional<Advice> advise(std::string_view line, std::string_view said);

}  // namespace endband
