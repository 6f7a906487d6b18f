// Values as a description would have them, exactly.
#include "engine/description/description.h"
#include "engine/money/numeral.h"

#include <fmt/format.h>

#include <optional>

namespace endband {
namespace {

// digits / 10^decimals without zeros at the end: (250000, 3) is "250".
std::string shortest(std::int64_t digits, int decimals) {
  std::string text = decimal_text(digits, decimals);
  if (decimals == 0) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  // Three decimals could be a group of thousands to the reader: 1.001 is written 1.0010.
  if (auto const numeral = read_numeral(text); numeral && numeral->ambiguous) text += '0';
  return text;
}

// A ratio whose denominator divides a power of ten up to 10^9.
std::optional<std::string> as_decimal(Ratio value) {
  std::int64_t scale = 1;
  for (int decimals = 0; decimals <= 9; ++decimals, scale *= 10)
    if (scale % value.den() == 0) return shortest(checked_mul(value.num(), scale / value.den()), decimals);
  return std::nullopt;
}

std::string ratio_value(ValueType type, Ratio value) {
  if (type == ValueType::share) {
    auto const percent = as_decimal(value * Ratio(100));
    return percent ? fmt::format("\"{} %\"", *percent) : fmt::format("\"{}\"", ratio_text(value));
  }
  auto const decimal = as_decimal(value);
  if (type == ValueType::angle) return fmt::format("\"{} deg\"", decimal ? *decimal : ratio_text(value));
  return decimal ? *decimal : fmt::format("\"{}\"", ratio_text(value));
}

std::string quoted(std::string_view words) {
  std::string text = "\"";
  for (char c : words) {
    if (c == '"' || c == '\\') text += '\\';
    text += c;
  }
  return text + '"';
}

std::string amount_value(Amount amount) {
  switch (amount.dimension) {
    case Dimension::length: return shortest(amount.n, 3) + " mm";
    case Dimension::area: return shortest(amount.n, 6) + " mm2";
    case Dimension::mass: return shortest(amount.n, 3) + " g";
    case Dimension::volume: return shortest(amount.n, 3) + " ml";
    case Dimension::count: return shortest(amount.n, 3) + " pieces";
    case Dimension::duration: return duration_text({amount.n});
  }
  throw std::logic_error("an amount of no dimension");
}

std::string whole_value(ValueType type, std::int64_t n) {
  switch (type) {
    case ValueType::length: return quoted(shortest(n, 3) + " mm");
    case ValueType::thickness: return quoted(shortest(n, 6) + " mm");
    case ValueType::mass: return quoted(shortest(n, 3) + " g");
    case ValueType::duration: return quoted(duration_text({n}));
    case ValueType::density: return quoted(fmt::format("{} kg/m3", n));
    default: return fmt::format("{}", n);
  }
}

std::string codes_value(std::vector<std::string> const& codes) {
  std::string text = "[";
  for (std::string const& code : codes) text += (text.size() > 1 ? ", " : "") + quoted(code);
  return text + ']';
}

struct Writer {
  ValueType type;
  std::string operator()(std::int64_t n) const { return whole_value(type, n); }
  std::string operator()(Ratio value) const { return ratio_value(type, value); }
  std::string operator()(std::string const& words) const { return quoted(words); }
  std::string operator()(std::vector<std::string> const& codes) const { return codes_value(codes); }
  std::string operator()(bool flag) const { return flag ? "true" : "false"; }
  std::string operator()(Amount amount) const { return quoted(amount_value(amount)); }
  std::string operator()(ThreadNumber thread) const {
    return quoted(fmt::format("{}/{}", thread.number, thread.ply));
  }
  std::string operator()(Date date) const { return date_text(date); }
  std::string operator()(Times const& times) const {
    return quoted(fmt::format("{}/{}/{}", duration_text(times.low), duration_text(times.likely),
                              duration_text(times.high)));
  }
};

}  // namespace

std::string value_text(ValueType type, Value const& value) { return std::visit(Writer{type}, value); }

}  // namespace endband
