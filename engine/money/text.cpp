// Money and ratios as text.
#include "engine/money/numeral.h"

#include <array>
#include <charconv>
#include <optional>
#include <stdexcept>

namespace endband {
namespace {

constexpr int most_decimals = 9;

std::int64_t power_of_ten(int exponent) {
  std::int64_t result = 1;
  for (int i = 0; i < exponent; ++i) result *= 10;
  return result;
}

tl::unexpected<std::vector<Fault>> fault(FaultCode code, std::string_view found, std::string expected) {
  return refuse(
      {.code = code, .where = {}, .found = std::string(found), .expected = std::move(expected), .near = {}});
}

tl::unexpected<std::vector<Fault>> numeral_fault(NumeralFault what, std::string_view found,
                                                 std::string expected) {
  return fault(what == NumeralFault::too_long ? FaultCode::out_of_range : FaultCode::bad_value, found,
               std::move(expected));
}

std::string money_example(Currency currency) {
  return "an amount such as " + decimal_text(12 * currency.minor_per_major(), currency.digits());
}

std::optional<std::int64_t> whole_number(std::string_view text) {
  std::int64_t value = 0;
  auto const [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

constexpr std::string_view ratio_example = "a number such as 0.35, 35 % or 7/20";

Read<Ratio> read_fraction(std::string_view text, std::size_t slash) {
  auto const num = whole_number(trimmed(text.substr(0, slash)));
  auto const den = whole_number(trimmed(text.substr(slash + 1)));
  if (!num || !den || *den <= 0) return fault(FaultCode::bad_value, text, std::string(ratio_example));
  return Ratio(*num, *den);
}

}  // namespace

Read<Ratio> read_ratio(std::string_view said) {
  std::string_view const text = trimmed(said);
  if (std::size_t const slash = text.find('/'); slash != std::string_view::npos)
    return read_fraction(text, slash);
  auto const numeral = read_numeral(text);
  if (!numeral) return numeral_fault(numeral.error(), text, std::string(ratio_example));
  std::string_view const sign = trimmed(text.substr(numeral->length));
  if (!sign.empty() && sign != "%") return fault(FaultCode::bad_value, text, std::string(ratio_example));
  // A rate of exchange is written with a point and three decimals oftener than a ratio is over a thousand.
  if (numeral->ambiguous && numeral->mark == ',')
    return fault(FaultCode::ambiguous_number, text, both_readings(*numeral, sign));
  if (numeral->decimals > most_decimals)
    return fault(FaultCode::bad_value, text, "a number of at most 9 decimals");
  return Ratio(numeral->digits, power_of_ten(numeral->decimals + (sign.empty() ? 0 : 2)));
}

std::string ratio_text(Ratio value) {
  std::string text = std::to_string(value.num());
  if (value.den() != 1) text += '/' + std::to_string(value.den());
  return text;
}

std::string percent_text(Ratio value, int decimals) {
  if (decimals < 0 || decimals > most_decimals)
    throw std::invalid_argument("a percentage of 0 to 9 decimals");
  return decimal_text(round_product(value, power_of_ten(decimals + 2), Rounding::half_away), decimals);
}

std::string money_text(Money money) { return decimal_text(money.minor, money.currency.digits()); }

Read<Money> read_money(std::string_view said, Currency currency) {
  std::string_view const text = trimmed(said);
  std::string const expected = money_example(currency);
  auto const numeral = read_numeral(text);
  if (!numeral) return numeral_fault(numeral.error(), text, expected);
  if (numeral->length != text.size()) return fault(FaultCode::bad_value, text, expected);
  // "1.234" is what money_text writes in a currency of three digits.
  bool const as_written = numeral->mark == '.' && numeral->decimals == currency.digits();
  if (numeral->ambiguous && !as_written)
    return fault(FaultCode::ambiguous_number, text, both_readings(*numeral, currency.code()));
  if (numeral->decimals > currency.digits()) {
    std::string const places =
        currency.digits() == 0 ? "no decimals" : "at most " + std::to_string(currency.digits()) + " decimals";
    return fault(FaultCode::bad_value, text, expected + ", with " + places);
  }
  std::int64_t minor = 0;
  if (__builtin_mul_overflow(numeral->digits, power_of_ten(currency.digits() - numeral->decimals), &minor))
    return fault(FaultCode::out_of_range, text, expected);
  return Money{minor, currency};
}

Read<Money> read_money_with_currency(std::string_view said) {
  std::string_view const text = trimmed(said);
  auto const numeral = read_numeral(text);
  std::string const expected = "an amount with its currency, such as 12.50 EUR";
  if (!numeral) return numeral_fault(numeral.error(), text, expected);
  std::string_view const code = trimmed(text.substr(numeral->length));
  if (code.empty()) return fault(FaultCode::missing_unit, text, expected);
  return read_currency(code).and_then(
      [&](Currency currency) { return read_money(text.substr(0, numeral->length), currency); });
}

}  // namespace endband
