#include "cli/document/markup.h"

#include "cli/document/text.h"

namespace endband::cli {

std::string xml_characters(std::string_view given, bool lines) {
  std::string const text = printable(given, lines);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const from = at;
    char32_t const point = next_code_point(text, at);
    if (point == 0xFFFE || point == 0xFFFF)
      out += "\xEF\xBF\xBD";
    else
      out.append(text, from, at - from);
  }
  return out;
}

std::string escaped(std::string_view given, bool lines) {
  std::string const text = xml_characters(given, lines);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const from = at;
    char32_t const point = next_code_point(text, at);
    switch (point) {
      case U'&': out += "&amp;"; break;
      case U'<': out += "&lt;"; break;
      case U'>': out += "&gt;"; break;
      case U'"': out += "&quot;"; break;
      case U'\'': out += "&#39;"; break;
      default: out.append(text, from, at - from);
    }
  }
  return out;
}

}  // namespace endband::cli
