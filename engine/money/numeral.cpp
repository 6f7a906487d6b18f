#include "engine/money/numeral.h"

#include <algorithm>
#include <charconv>
#include <optional>

namespace endband {
namespace {

constexpr std::string_view minus_sign = "\u2212";  // as typeset prices have it

bool is_mark(char c) { return c == '.' || c == ','; }

// "1,234,567" with `mark` between the groups: up to three digits, then threes; no zero in front.
bool well_grouped(std::string_view whole, char mark) {
  std::size_t const first = whole.find(mark);
  if (first == 0 || first > 3 || whole.front() == '0') return false;
  if ((whole.size() - first) % 4 != 0) return false;
  for (std::size_t i = first; i < whole.size(); ++i)
    if ((whole[i] == mark) != ((i - first) % 4 == 0)) return false;
  return true;
}

struct Shape {
  std::size_t decimal_mark = std::string_view::npos;  // where it is; npos: a whole number
  bool ambiguous = false;
};

// What the marks of "1.234,5" mean; nullopt: nothing.
std::optional<Shape> shape_of(std::string_view token) {
  std::size_t const last = token.find_last_of(".,");
  if (last == std::string_view::npos) return Shape{};
  if (last + 1 == token.size()) return std::nullopt;
  char const mark = token[last];
  std::string_view const before = token.substr(0, last);
  if (before.find(mark) != std::string_view::npos)  // twice: it groups
    return well_grouped(token, mark) ? std::optional(Shape{}) : std::nullopt;
  char const other = mark == '.' ? ',' : '.';
  if (before.find(other) != std::string_view::npos)
    return well_grouped(before, other) ? std::optional(Shape{last}) : std::nullopt;
  return Shape{last, token.size() - last == 4 && well_grouped(token, mark)};
}

std::optional<std::int64_t> whole_number(std::string_view token, bool negative) {
  std::string digits = negative ? "-" : "";
  for (char c : token)
    if (!is_mark(c)) digits += c;
  std::int64_t value = 0;
  auto const [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error != std::errc{} || end != digits.data() + digits.size()) return std::nullopt;
  return value;
}

}  // namespace

bool take_minus(std::string_view& text) {
  for (std::string_view sign : {std::string_view("-"), minus_sign})
    if (text.starts_with(sign)) {
      text.remove_prefix(sign.size());
      return true;
    }
  return false;
}

tl::expected<Numeral, NumeralFault> read_numeral(std::string_view text) {
  Numeral result;
  std::string_view rest = text;
  result.negative = take_minus(rest);
  auto const end = std::find_if(rest.begin(), rest.end(), [](char c) { return !is_digit(c) && !is_mark(c); });
  std::string_view const token = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
  if (std::none_of(token.begin(), token.end(), is_digit)) return tl::unexpected(NumeralFault::no_numeral);
  std::optional<Shape> const shape = shape_of(token);
  if (!shape) return tl::unexpected(NumeralFault::malformed);
  std::optional<std::int64_t> const digits = whole_number(token, result.negative);
  if (!digits) return tl::unexpected(NumeralFault::too_long);
  result.digits = *digits;
  result.ambiguous = shape->ambiguous;
  if (shape->decimal_mark != std::string_view::npos) {
    result.mark = token[shape->decimal_mark];
    result.decimals = static_cast<int>(token.size() - shape->decimal_mark - 1);
  }
  result.length = text.size() - rest.size() + token.size();
  return result;
}

std::string both_readings(Numeral const& numeral, std::string_view unit) {
  std::string const blank = unit.empty() ? "" : " ";
  std::string const after = blank + std::string(unit);
  return decimal_text(numeral.digits, 0) + after + " or " + decimal_text(numeral.digits, numeral.decimals) +
         after;
}

std::string decimal_text(std::int64_t digits, int decimals) {
  std::string text = std::to_string(digits);
  if (decimals <= 0) return text;
  std::size_t const places = static_cast<std::size_t>(decimals);
  std::size_t const sign = digits < 0 ? 1 : 0;
  if (text.size() - sign <= places) text.insert(sign, places + 1 - (text.size() - sign), '0');
  text.insert(text.size() - places, 1, '.');
  return text;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  std::size_t const first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::vector<std::string_view> split(std::string_view text, char mark) {
  std::vector<std::string_view> parts;
  while (true) {
    std::size_t const end = text.find(mark);
    parts.push_back(trimmed(text.substr(0, end)));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

}  // namespace endband
