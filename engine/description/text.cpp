#include "engine/description/text.h"

#include <array>

namespace endband {
namespace {

constexpr std::size_t shown_at_most = 60;

struct Lead {
  std::size_t bytes;
  char32_t bits;
  char32_t least;  // what needs so many bytes: a longer form than needed is not UTF-8
};
std::optional<Lead> lead_of(unsigned char c) {
  if (c < 0x80U) return Lead{1, c, 0};
  if (c >= 0xC2U && c < 0xE0U) return Lead{2, c & 0x1FU, 0x80};
  if (c >= 0xE0U && c < 0xF0U) return Lead{3, c & 0x0FU, 0x800};
  if (c >= 0xF0U && c < 0xF5U) return Lead{4, c & 0x07U, 0x10000};
  return std::nullopt;
}

}  // namespace

std::optional<char32_t> take_code_point(std::string_view& text) {
  if (text.empty()) return std::nullopt;
  auto const lead = lead_of(static_cast<unsigned char>(text.front()));
  if (!lead || text.size() < lead->bytes) return std::nullopt;
  char32_t code = lead->bits;
  for (char c : text.substr(1, lead->bytes - 1)) {
    auto const byte = static_cast<unsigned char>(c);
    if ((byte & 0xC0U) != 0x80U) return std::nullopt;
    code = (code << 6U) | (byte & 0x3FU);
  }
  bool const surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < lead->least || surrogate || code > 0x10FFFF) return std::nullopt;
  text.remove_prefix(lead->bytes);
  return code;
}

std::size_t code_points(std::string_view text) {
  std::size_t count = 0;
  for (char c : text)
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  return count;
}

std::optional<TextPlace> first_bad_byte(std::string_view text) {
  TextPlace place{1, 1};
  while (!text.empty()) {
    auto const code = take_code_point(text);
    if (!code) return place;
    place = *code == U'\n' ? TextPlace{place.line + 1, 1} : TextPlace{place.line, place.column + 1};
  }
  return std::nullopt;
}

bool is_control(char32_t c) {
  bool const separator = c == 0x2028 || c == 0x2029;
  bool const turns_text = (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || separator || turns_text;
}

bool has_control(std::string_view text) {
  while (!text.empty()) {
    auto const code = take_code_point(text);
    if (!code || is_control(*code)) return true;
  }
  return false;
}

std::string shown(std::string_view text) {
  std::string result;
  std::size_t count = 0;
  while (!text.empty()) {
    if (count++ == shown_at_most) return result + "\u2026";
    std::string_view const before = text;
    auto const code = take_code_point(text);
    if (!code) text.remove_prefix(1);
    if (code && !is_control(*code))
      result += before.substr(0, before.size() - text.size());
    else
      result += "\uFFFD";
  }
  return result;
}

}  // namespace endband
