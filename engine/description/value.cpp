// One value by the row of its key: its form, then its range.
#include "engine/description/form.h"
#include "engine/description/raw.h"
#include "engine/description/text.h"
#include "engine/money/numeral.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace endband {
namespace {

using Is = Raw::Is;

Fault fault_at(Raw const& raw, FaultCode code, std::string expected, std::vector<std::string> near = {}) {
  return {.code = code,
          .where = {.source = {}, .line = raw.place.line, .column = raw.place.column, .field = {}},
          .found = shown(raw.text),
          .expected = std::move(expected),
          .near = std::move(near)};
}

tl::unexpected<std::vector<Fault>> wrong_type(KeyRow const& row, Raw const& raw) {
  return refuse(fault_at(raw, FaultCode::wrong_type, expected_form(row)));
}

bool is_number(Raw const& raw) { return raw.is == Is::whole || raw.is == Is::decimal; }

// A bare number, or words that are one: the unit is what is missing, and the number is good.
std::optional<std::string> plain_number(Raw const& raw) {
  auto const numeral = read_numeral(trimmed(raw.text));
  if (!numeral || numeral->ambiguous || numeral->length != trimmed(raw.text).size()) return std::nullopt;
  return decimal_text(numeral->digits, numeral->decimals);
}

tl::unexpected<std::vector<Fault>> missing_unit(KeyRow const& row, Raw const& raw) {
  std::string_view const unit = usual_unit(row.type);
  auto const number = plain_number(raw);
  if (!number || unit.empty()) return refuse(fault_at(raw, FaultCode::missing_unit, expected_form(row)));
  return refuse(fault_at(raw, FaultCode::missing_unit, '"' + *number + ' ' + std::string(unit) + '"'));
}

// A measure: words with a number and its unit, read by `reader`.
template <class Reader>
auto measure(KeyRow const& row, Raw const& raw, Reader reader) -> decltype(reader(raw.text)) {
  if (is_number(raw)) return missing_unit(row, raw);
  if (raw.is != Is::text) return wrong_type(row, raw);
  auto read = reader(raw.text);
  if (read) return read;
  Fault const& told = read.error().front();
  if (told.code == FaultCode::missing_unit) return missing_unit(row, raw);
  bool const too_large = told.code == FaultCode::out_of_range;
  return refuse(fault_at(raw, told.code, too_large ? range_text(row) : told.expected, told.near));
}

template <class T, class Reader>
Read<Value> whole_measure(KeyRow const& row, Raw const& raw, Reader reader) {
  return measure(row, raw, reader).map([](T q) { return Value(q.n); });
}

// "120" of "120 deg": the number in front of one of `units`.
Read<Ratio> number_before(std::string_view text, std::span<std::string_view const> units,
                          std::string const& example) {
  auto const told = [&](FaultCode code, std::string expected) {
    return refuse({.code = code, .where = {}, .found = {}, .expected = std::move(expected), .near = {}});
  };
  std::string_view const whole = trimmed(text);
  auto const numeral = read_numeral(whole);
  if (!numeral || numeral->decimals > 9) return told(FaultCode::bad_value, example);
  std::string_view const unit = trimmed(whole.substr(numeral->length));
  if (unit.empty()) return told(FaultCode::missing_unit, example);
  if (std::find(units.begin(), units.end(), unit) == units.end()) return told(FaultCode::wrong_unit, example);
  if (numeral->ambiguous) return told(FaultCode::ambiguous_number, both_readings(*numeral, unit));
  std::int64_t scale = 1;
  for (int i = 0; i < numeral->decimals; ++i) scale *= 10;
  return Ratio(numeral->digits, scale);
}

Read<Ratio> read_angle(std::string_view text) {
  constexpr std::array<std::string_view, 4> units{"deg", "degree", "degrees", "\u00b0"};
  return number_before(text, units, "an angle such as 120 deg");
}

Read<Count> read_density(std::string_view text) {
  constexpr std::array<std::string_view, 2> kilograms{"kg/m3", "kg/m\u00b3"};
  constexpr std::array<std::string_view, 2> grams{"g/cm3", "g/cm\u00b3"};
  auto density = number_before(text, kilograms, "a density such as 800 kg/m3");
  if (!density && density.error().front().code == FaultCode::wrong_unit)
    density = number_before(text, grams, "a density such as 800 kg/m3").map([](Ratio g) {
      return g * Ratio(1000);
    });
  return density.map([](Ratio value) { return Count{round(value, Rounding::half_away)}; });
}

Read<Value> ratio_value(KeyRow const& row, Raw const& raw) {
  if (!is_number(raw) && raw.is != Is::text) return wrong_type(row, raw);
  auto const read = read_ratio(raw.text);
  if (read) return Value(*read);
  Fault const& told = read.error().front();
  bool const ambiguous = told.code == FaultCode::ambiguous_number;
  return refuse(fault_at(raw, told.code, ambiguous ? told.expected : expected_form(row)));
}

Read<Value> money_value(KeyRow const& row, Raw const& raw) {
  if (!is_number(raw) && raw.is != Is::text) return wrong_type(row, raw);
  constexpr int most_digits = 4;  // of the minor unit of any currency
  std::string_view const text = trimmed(raw.text);
  auto const numeral = read_numeral(text);
  if (!numeral || numeral->length != text.size() || numeral->decimals > most_digits)
    return refuse(fault_at(raw, FaultCode::bad_value, expected_form(row)));
  if (numeral->ambiguous)
    return refuse(fault_at(raw, FaultCode::ambiguous_number, both_readings(*numeral, "")));
  return Value(decimal_text(numeral->digits, numeral->decimals));
}

Read<Value> count_value(KeyRow const& row, Raw const& raw) {
  if (raw.is == Is::whole) return Value(raw.whole);
  auto const number = raw.is == Is::text ? plain_number(raw) : std::nullopt;
  if (!number) return wrong_type(row, raw);
  return refuse(fault_at(raw, FaultCode::wrong_type, "a number without quotes: " + *number));
}

bool is_code(std::string_view text) {
  constexpr std::size_t longest = 60;
  auto const fits = [](char c) { return (c >= 'a' && c <= 'z') || is_digit(c) || c == '-'; };
  return !text.empty() && text.size() <= longest && std::all_of(text.begin(), text.end(), fits);
}

Read<std::string> one_choice(KeyRow const& row, Raw const& raw) {
  if (raw.is != Is::text) return wrong_type(row, raw);
  auto const choices = choices_of(row);
  if (std::find(choices.begin(), choices.end(), raw.text) != choices.end()) return raw.text;
  return refuse(fault_at(raw, FaultCode::bad_value, expected_form(row), nearest(raw.text, choices)));
}

Read<std::string> one_code(KeyRow const& row, Raw const& raw) {
  if (raw.is != Is::text) return wrong_type(row, raw);
  if (!row.choices.empty()) return one_choice(row, raw);
  if (is_code(raw.text)) return raw.text;
  return refuse(
      fault_at(raw, FaultCode::bad_value, "a code of small letters, digits and '-', such as linen-18-3"));
}

Read<Value> codes_value(KeyRow const& row, Raw const& raw) {
  std::vector<Raw> const items = raw.is == Is::list ? raw.items : std::vector<Raw>{raw};
  std::vector<std::string> codes;
  std::vector<Fault> faults;
  for (Raw const& item : items) {
    auto code = one_code(row, item);
    if (code)
      codes.push_back(std::move(*code));
    else
      faults.insert(faults.end(), code.error().begin(), code.error().end());
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return Value(std::move(codes));
}

Read<Value> words_value(KeyRow const& row, Raw const& raw) {
  if (raw.is != Is::text) return wrong_type(row, raw);
  if (has_control(raw.text))
    return refuse(fault_at(raw, FaultCode::bad_value, "words on one line, without control characters"));
  return Value(raw.text);
}

Read<Value> date_value(KeyRow const& row, Raw const& raw) {
  if (raw.is == Is::date) return Value(raw.date);
  if (raw.is != Is::text) return wrong_type(row, raw);
  auto const read = read_date(raw.text);
  if (!read) return refuse(fault_at(raw, read.error().front().code, expected_form(row)));
  return Value(*read);
}

Read<Value> form_of(KeyRow const& row, Raw const& raw) {
  switch (row.type) {
    case ValueType::length: return whole_measure<Length>(row, raw, read_length);
    case ValueType::thickness: return whole_measure<Thickness>(row, raw, read_thickness);
    case ValueType::duration: return whole_measure<Duration>(row, raw, read_duration);
    case ValueType::mass: return whole_measure<Mass>(row, raw, read_mass);
    case ValueType::density: return whole_measure<Count>(row, raw, read_density);
    case ValueType::angle: return measure(row, raw, read_angle).map([](Ratio r) { return Value(r); });
    case ValueType::amount: return measure(row, raw, read_amount).map([](Amount a) { return Value(a); });
    case ValueType::times: return measure(row, raw, read_times).map([](Times t) { return Value(t); });
    case ValueType::thread:
      if (raw.is != Is::text) return wrong_type(row, raw);
      return measure(row, raw, read_thread_number).map([](ThreadNumber t) { return Value(t); });
    case ValueType::count: return count_value(row, raw);
    case ValueType::number:
    case ValueType::share: return ratio_value(row, raw);
    case ValueType::money: return money_value(row, raw);
    case ValueType::code: return one_code(row, raw).map([](std::string const& s) { return Value(s); });
    case ValueType::codes: return codes_value(row, raw);
    case ValueType::words: return words_value(row, raw);
    case ValueType::choice: return one_choice(row, raw).map([](std::string const& s) { return Value(s); });
    case ValueType::flag:
      if (raw.is != Is::flag) return wrong_type(row, raw);
      return Value(raw.flag);
    case ValueType::date: return date_value(row, raw);
  }
  throw std::logic_error("a value of no type");
}

// What read_value is given has no quotes: the type says how the words are to be taken.
Raw raw_of(KeyRow const& row, std::string_view text) {
  Raw raw;
  raw.text = std::string(trimmed(text));
  if (row.type == ValueType::count) {
    char const* const end = raw.text.data() + raw.text.size();
    auto const read = std::from_chars(raw.text.data(), end, raw.whole);
    if (read.ec == std::errc{} && read.ptr == end) raw.is = Is::whole;
  } else if (row.type == ValueType::flag && (raw.text == "true" || raw.text == "false")) {
    raw.is = Is::flag;
    raw.flag = raw.text == "true";
  } else if (row.type == ValueType::codes) {
    raw.is = Is::list;
    for (std::string_view rest = raw.text; !rest.empty();) {
      std::size_t const comma = std::min(rest.find(','), rest.size());
      Raw item;
      item.text = std::string(trimmed(rest.substr(0, comma)));
      raw.items.push_back(std::move(item));
      rest.remove_prefix(std::min(comma + 1, rest.size()));
    }
  }
  return raw;
}

}  // namespace

Read<Value> value_of(KeyRow const& row, Raw const& raw) {
  try {
    auto read = form_of(row, raw);
    if (!read || within_range(row, *read)) return read;
  } catch (Overflow const&) {
    // told as out of range, below
  }
  return refuse(fault_at(raw, FaultCode::out_of_range, range_text(row)));
}

Read<Value> read_value(KeyRow const& row, std::string_view text, Where const& where) {
  Raw const raw = raw_of(row, text);
  auto read = value_of(row, raw);
  if (!read)
    for (Fault& fault : read.error()) fault.found = shown(raw.text);
  return located(std::move(read), where);
}

}  // namespace endband
