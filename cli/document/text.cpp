#include "cli/document/text.h"

#include <algorithm>
#include <array>
#include <span>

namespace endband::cli {
namespace {

struct Range {
  char32_t first, last;
};

// Marks that stand on the letter before them, joiners and variation selectors.
constexpr std::array no_width{
    Range{0x0300, 0x036F},   Range{0x0483, 0x0489},   Range{0x0591, 0x05BD}, Range{0x05BF, 0x05BF},
    Range{0x05C1, 0x05C2},   Range{0x05C4, 0x05C5},   Range{0x0610, 0x061A}, Range{0x064B, 0x065F},
    Range{0x0670, 0x0670},   Range{0x06D6, 0x06DC},   Range{0x0900, 0x0902}, Range{0x093C, 0x093C},
    Range{0x0941, 0x0948},   Range{0x094D, 0x094D},   Range{0x0E31, 0x0E31}, Range{0x0E34, 0x0E3A},
    Range{0x0E47, 0x0E4E},   Range{0x1AB0, 0x1AFF},   Range{0x1DC0, 0x1DFF}, Range{0x200B, 0x200F},
    Range{0x202A, 0x202E},   Range{0x2060, 0x2064},   Range{0x20D0, 0x20F0}, Range{0x3099, 0x309A},
    Range{0xFE00, 0xFE0F},   Range{0xFE20, 0xFE2F},   Range{0xFEFF, 0xFEFF}, Range{0x1F3FB, 0x1F3FF},
    Range{0xE0001, 0xE007F}, Range{0xE0100, 0xE01EF},
};

constexpr std::array double_width{
    Range{0x1100, 0x115F},   Range{0x231A, 0x231B},   Range{0x2329, 0x232A},   Range{0x23E9, 0x23EC},
    Range{0x23F0, 0x23F0},   Range{0x23F3, 0x23F3},   Range{0x25FD, 0x25FE},   Range{0x2614, 0x2615},
    Range{0x2648, 0x2653},   Range{0x267F, 0x267F},   Range{0x2693, 0x2693},   Range{0x26A1, 0x26A1},
    Range{0x26AA, 0x26AB},   Range{0x26BD, 0x26BE},   Range{0x26C4, 0x26C5},   Range{0x26CE, 0x26CE},
    Range{0x26D4, 0x26D4},   Range{0x26EA, 0x26EA},   Range{0x26F2, 0x26F3},   Range{0x26F5, 0x26F5},
    Range{0x26FA, 0x26FA},   Range{0x26FD, 0x26FD},   Range{0x2705, 0x2705},   Range{0x270A, 0x270B},
    Range{0x2728, 0x2728},   Range{0x274C, 0x274C},   Range{0x274E, 0x274E},   Range{0x2753, 0x2755},
    Range{0x2757, 0x2757},   Range{0x2795, 0x2797},   Range{0x27B0, 0x27B0},   Range{0x27BF, 0x27BF},
    Range{0x2B1B, 0x2B1C},   Range{0x2B50, 0x2B50},   Range{0x2B55, 0x2B55},   Range{0x2E80, 0x303E},
    Range{0x3041, 0x33FF},   Range{0x3400, 0x4DBF},   Range{0x4E00, 0xA4CF},   Range{0xA960, 0xA97F},
    Range{0xAC00, 0xD7A3},   Range{0xF900, 0xFAFF},   Range{0xFE30, 0xFE6F},   Range{0xFF00, 0xFF60},
    Range{0xFFE0, 0xFFE6},   Range{0x1F004, 0x1F004}, Range{0x1F0CF, 0x1F0CF}, Range{0x1F18E, 0x1F18E},
    Range{0x1F191, 0x1F19A}, Range{0x1F200, 0x1F320}, Range{0x1F32D, 0x1F335}, Range{0x1F337, 0x1F37C},
    Range{0x1F37E, 0x1F393}, Range{0x1F3A0, 0x1F3CA}, Range{0x1F3CF, 0x1F3D3}, Range{0x1F3E0, 0x1F3F0},
    Range{0x1F3F4, 0x1F3F4}, Range{0x1F3F8, 0x1F43E}, Range{0x1F440, 0x1F440}, Range{0x1F442, 0x1F4FC},
    Range{0x1F4FF, 0x1F53D}, Range{0x1F54B, 0x1F54E}, Range{0x1F550, 0x1F567}, Range{0x1F57A, 0x1F57A},
    Range{0x1F595, 0x1F596}, Range{0x1F5A4, 0x1F5A4}, Range{0x1F5FB, 0x1F64F}, Range{0x1F680, 0x1F6C5},
    Range{0x1F6CC, 0x1F6CC}, Range{0x1F6D0, 0x1F6D2}, Range{0x1F6D5, 0x1F6D7}, Range{0x1F6EB, 0x1F6EC},
    Range{0x1F6F4, 0x1F6FC}, Range{0x1F7E0, 0x1F7EB}, Range{0x1F90C, 0x1F93A}, Range{0x1F93C, 0x1F945},
    Range{0x1F947, 0x1F9FF}, Range{0x1FA70, 0x1FAFF}, Range{0x20000, 0x3FFFD},
};

bool in(std::span<Range const> ranges, char32_t c) {
  auto const after = std::upper_bound(ranges.begin(), ranges.end(), c,
                                      [](char32_t value, Range const& range) { return value < range.first; });
  return after != ranges.begin() && c <= std::prev(after)->last;
}

std::size_t width_of(char32_t c) {
  if (in(no_width, c)) return 0;
  return in(double_width, c) ? 2 : 1;
}

constexpr char32_t replacement = 0xFFFD;
constexpr char32_t joiner = 0x200D;

// Bytes that a lead byte announces after itself, and the smallest code point that needs them.
struct Form {
  std::size_t more;
  char32_t first, bits;
};
bool form_of(unsigned char lead, Form& form) {
  if (lead < 0x80)
    form = {0, 0, lead};
  else if ((lead & 0xE0U) == 0xC0U)
    form = {1, 0x80, lead & 0x1FU};
  else if ((lead & 0xF0U) == 0xE0U)
    form = {2, 0x800, lead & 0x0FU};
  else if ((lead & 0xF8U) == 0xF0U)
    form = {3, 0x10000, lead & 0x07U};
  else
    return false;
  return true;
}

bool decode(std::string_view text, std::size_t& at, char32_t& out) {
  Form form{};
  std::size_t const start = at++;
  if (!form_of(static_cast<unsigned char>(text[start]), form) || start + form.more >= text.size())
    return false;
  char32_t c = form.bits;
  for (std::size_t i = 1; i <= form.more; ++i) {
    auto const byte = static_cast<unsigned char>(text[start + i]);
    if ((byte & 0xC0U) != 0x80U) return false;
    c = (c << 6U) | (byte & 0x3FU);
  }
  if (c < form.first || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return false;
  at = start + form.more + 1;
  out = c;
  return true;
}

}  // namespace

char32_t next_code_point(std::string_view text, std::size_t& at) {
  char32_t c = replacement;
  return decode(text, at, c) ? c : replacement;
}

bool is_utf8(std::string_view text) {
  char32_t c = 0;
  for (std::size_t at = 0; at < text.size();)
    if (!decode(text, at, c)) return false;
  return true;
}

std::size_t code_points(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) next_code_point(text, at);
  return count;
}

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  bool joined = false;  // what a joiner ties to the sign before it is drawn as one sign
  for (std::size_t at = 0; at < text.size();) {
    char32_t const c = next_code_point(text, at);
    if (!joined) width += width_of(c);
    joined = c == joiner;
  }
  return width;
}

std::string printable(std::string_view text, bool lines) {
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const start = at;
    char32_t const c = next_code_point(text, at);
    if (c == U'\n' && lines)
      result += '\n';
    else if (c < 0x20)
      (result += "\xE2\x90") += static_cast<char>(0x80U + c);  // U+2400 + c
    else if (c == 0x7F)
      result += "\xE2\x90\xA1";  // U+2421
    else if (c == replacement || (c >= 0x80 && c < 0xA0))
      result += "\xEF\xBF\xBD";
    else
      result += text.substr(start, at - start);
  }
  return result;
}

std::string pad_right(std::string text, std::size_t width) {
  std::size_t const is = display_width(text);
  if (is < width) text.append(width - is, ' ');
  return text;
}

std::string pad_left(std::string text, std::size_t width) {
  std::size_t const is = display_width(text);
  if (is < width) text.insert(0, width - is, ' ');
  return text;
}

namespace {

// The longest head of `word` that fits; never empty, so that a sign wider than the column still comes out.
std::string_view head_of(std::string_view word, std::size_t width) {
  std::size_t at = 0;
  while (at < word.size()) {
    std::size_t after = at;
    next_code_point(word, after);
    if (at > 0 && display_width(word.substr(0, after)) > width) break;
    at = after;
  }
  return word.substr(0, at);
}

}  // namespace

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  // An indented text stays indented, on its further lines too.
  std::size_t const indent = std::min(std::min(text.find_first_not_of(' '), text.size()), width / 2);
  std::string const margin(indent, ' ');
  text.remove_prefix(indent);
  width -= indent;
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    std::size_t const space = text.find(' ');
    std::string_view word = text.substr(0, space);
    text.remove_prefix(space == std::string_view::npos ? text.size() : space + 1);
    bool const fits = display_width(lines.back()) + 1 + display_width(word) <= width;
    if (!lines.back().empty() && fits)
      lines.back() += ' ';
    else if (!lines.back().empty())
      lines.emplace_back();
    while (display_width(word) > width) {
      std::string_view const head = head_of(word, width);
      lines.back() += head;
      lines.emplace_back();
      word.remove_prefix(head.size());
    }
    lines.back() += word;
  }
  for (std::string& line : lines) line.insert(0, margin);
  return lines;
}

}  // namespace endband::cli
