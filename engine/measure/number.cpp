#include "engine/measure/number.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace endband {
namespace {

constexpr int most_decimals = 9;
constexpr std::size_t most_fraction_digits = 9;

struct Vulgar {
  std::string_view glyph;
  std::int64_t num;
  std::int64_t den;
};
constexpr std::array vulgar_fractions{
    Vulgar{"\u00bd", 1, 2}, Vulgar{"\u00bc", 1, 4}, Vulgar{"\u00be", 3, 4},
    Vulgar{"\u2153", 1, 3}, Vulgar{"\u2154", 2, 3}, Vulgar{"\u215b", 1, 8},
    Vulgar{"\u215c", 3, 8}, Vulgar{"\u215d", 5, 8}, Vulgar{"\u215e", 7, 8},
};

struct Fraction {
  Ratio value;
  std::string_view rest;
};

std::optional<std::int64_t> take_digits(std::string_view& text) {
  auto const end = std::find_if_not(text.begin(), text.end(), is_digit);
  auto const size = static_cast<std::size_t>(end - text.begin());
  std::int64_t value = 0;
  if (size == 0 || size > most_fraction_digits) return std::nullopt;
  std::from_chars(text.data(), text.data() + size, value);
  text.remove_prefix(size);
  return value;
}

// "3/4" or "¾" at the front of `text`.
std::optional<Fraction> take_fraction(std::string_view text) {
  for (Vulgar const& vulgar : vulgar_fractions)
    if (text.starts_with(vulgar.glyph))
      return Fraction{Ratio(vulgar.num, vulgar.den), text.substr(vulgar.glyph.size())};
  auto const num = take_digits(text);
  if (!num || !text.starts_with('/')) return std::nullopt;
  text.remove_prefix(1);
  auto const den = take_digits(text);
  if (!den || *den == 0) return std::nullopt;
  return Fraction{Ratio(*num, *den), text};
}

Ratio decimal_value(Numeral const& numeral) {
  std::int64_t den = 1;
  for (int i = 0; i < numeral.decimals; ++i) den *= 10;
  return {numeral.digits, den};
}

// "11" has been read; is it "11 3/4"?
void add_fraction(Number& number, bool negative) {
  if (auto const fraction = take_fraction(number.rest)) {
    number.value = negative ? number.value - fraction->value : number.value + fraction->value;
    number.rest = trimmed(fraction->rest);
  }
}

}  // namespace

Fault NumberWanted::fault(FaultCode code) const { return fault(code, std::string(example)); }

Fault NumberWanted::fault(FaultCode code, std::string expected) const {
  return {
      .code = code, .where = {}, .found = std::string(found), .expected = std::move(expected), .near = {}};
}

Read<Number> take_number(std::string_view text, NumberWanted const& wanted) {
  std::string_view unsigned_text = text;
  bool const negative = take_minus(unsigned_text);
  if (auto const fraction = take_fraction(unsigned_text))
    return Number{
        negative ? Ratio(0) - fraction->value : fraction->value, false, {}, trimmed(fraction->rest)};
  auto const numeral = read_numeral(text);
  if (!numeral)
    return refuse(wanted.fault(numeral.error() == NumeralFault::too_long ? FaultCode::out_of_range
                                                                         : FaultCode::bad_value));
  if (numeral->decimals > most_decimals)
    return refuse(wanted.fault(FaultCode::bad_value, "at most 9 decimals"));
  Number number{decimal_value(*numeral), numeral->decimals > 0, {}, trimmed(text.substr(numeral->length))};
  if (numeral->ambiguous) number.ambiguous = *numeral;
  if (!number.decimal) add_fraction(number, numeral->negative);
  return number;
}

}  // namespace endband
