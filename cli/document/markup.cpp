#include "cli/document/markup.h"

#include "cli/document/text.h"

#include <algorithm>
#include <cstdint>

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

std::string base64(std::string_view bytes) {
  static constexpr std::string_view letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    std::size_t const count = std::min<std::size_t>(3, bytes.size() - at);
    std::uint32_t group = 0;
    for (std::size_t i = 0; i < 3; ++i)
      group = group << 8U | (i < count ? static_cast<unsigned char>(bytes[at + i]) : 0U);
    for (std::size_t i = 0; i < 4; ++i) out += i <= count ? letters[group >> (18 - 6 * i) & 63U] : '=';
  }
  return out;
}

}  // namespace endband::cli
