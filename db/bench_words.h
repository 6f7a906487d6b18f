// Lists of codes as one text, inside db/ only: "cora ben".
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

inline std::vector<std::string> codes_in(std::string_view text) {
  std::vector<std::string> codes;
  while (!text.empty()) {
    std::size_t const end = text.find(' ');
    if (end != 0) codes.emplace_back(text.substr(0, end));
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  return codes;
}

inline std::string codes_text(std::vector<std::string> const& codes) {
  std::string text;
  for (std::string const& code : codes) text += (text.empty() ? "" : " ") + code;
  return text;
}

}  // namespace endband::db
