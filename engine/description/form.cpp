#include "engine/description/form.h"

#include "engine/description/text.h"
#include "engine/money/numeral.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband {
namespace {

struct Form {
  ValueType type;
  std::string_view what;
  std::string_view example;  // as it stands in a description
  std::string_view unit;     // the one people usually write
  double base;               // how many of the value's base units are one of `unit`
};

// In the order of ValueType.
constexpr std::array forms{
    Form{ValueType::length, "a length", "\"250 mm\"", "mm", 1e3},
    Form{ValueType::thickness, "a thickness", "\"0.9 mm\"", "mm", 1e6},
    Form{ValueType::count, "a whole number", "4", "", 1},
    Form{ValueType::number, "a number", "1.5", "", 1},
    Form{ValueType::share, "a share", "\"35 %\"", "", 1},
    Form{ValueType::angle, "an angle", "\"120 deg\"", "deg", 1},
    Form{ValueType::duration, "a time", "\"45 min\"", "min", 60},
    Form{ValueType::times, "a time, or three", "\"10/20/40 min\"", "min", 60},
    Form{ValueType::density, "a density", "\"800 kg/m3\"", "kg/m3", 1},
    Form{ValueType::mass, "a mass", "\"12 g\"", "g", 1e3},
    Form{ValueType::amount, "an amount", "\"2 sheets\"", "", 1},
    Form{ValueType::money, "an amount of money", "\"12.50\"", "", 1},
    Form{ValueType::code, "a code in quotes", "\"linen-18-3\"", "", 1},
    Form{ValueType::codes, "a code or a list of them", "[\"silk-red\", \"silk-cream\"]", "", 1},
    Form{ValueType::words, "words in quotes", "\"Poems\"", "", 1},
    Form{ValueType::choice, "", "", "", 1},
    Form{ValueType::flag, "true or false, without quotes", "", "", 1},
    Form{ValueType::thread, "a thread number in quotes", "\"18/3\"", "", 1},
    Form{ValueType::date, "a date", "2026-11-25", "", 1},
};

Form const& form_of(ValueType type) {
  Form const& form = forms.at(static_cast<std::size_t>(type));
  if (form.type != type) throw std::logic_error("forms are not in the order of ValueType");
  return form;
}

// Amounts are ranged in metres, square metres, kilograms, litres, pieces and hours.
double amount_in_range_unit(Amount amount) {
  constexpr std::array base{1e6, 1e12, 1e6, 1e6, 1e3, 3600.0};  // in the order of Dimension
  return static_cast<double>(amount.n) / base.at(static_cast<std::size_t>(amount.dimension));
}

double decimal(Ratio value) { return static_cast<double>(value.num()) / static_cast<double>(value.den()); }

double money_size(std::string_view text) {
  auto const numeral = read_numeral(text);
  if (!numeral) throw std::logic_error("money that was not read");
  double scale = 1;
  for (int i = 0; i < numeral->decimals; ++i) scale *= 10;
  return static_cast<double>(numeral->digits) / scale;
}

constexpr double longest_words = 200;

double most_of(KeyRow const& row) {
  return row.type == ValueType::words && row.most == 0 ? longest_words : row.most;
}

std::string range_number(KeyRow const& row, double value) {
  if (row.type == ValueType::share) return fmt::format("{:g} %", value * 100);
  std::string_view const unit = usual_unit(row.type);
  return fmt::format("{}{}{}", value, unit.empty() ? "" : " ", unit);
}

}  // namespace

std::string_view usual_unit(ValueType type) { return form_of(type).unit; }

std::vector<std::string_view> choices_of(KeyRow const& row) {
  std::vector<std::string_view> choices;
  for (std::string_view rest = row.choices; !rest.empty();) {
    std::size_t const bar = std::min(rest.find('|'), rest.size());
    choices.push_back(rest.substr(0, bar));
    rest.remove_prefix(std::min(bar + 1, rest.size()));
  }
  return choices;
}

std::string expected_form(KeyRow const& row) {
  if (!row.choices.empty()) {
    auto const choices = choices_of(row);
    std::string text;
    for (std::size_t i = 0; i < choices.size(); ++i)
      text += fmt::format("{}\"{}\"", i == 0 ? "" : i + 1 == choices.size() ? " or " : ", ", choices[i]);
    return text;
  }
  Form const& form = form_of(row.type);
  if (form.example.empty()) return std::string(form.what);
  return fmt::format("{} such as {}", form.what, form.example);
}

std::string range_text(KeyRow const& row) {
  std::string_view const counted = row.type == ValueType::words   ? " characters"
                                   : row.type == ValueType::codes ? " codes"
                                                                  : "";
  if (row.type == ValueType::amount)
    return fmt::format("more than nothing, and at most {} m, m2, kg, l, h or pieces", row.most);
  return fmt::format("from {} to {}{}", range_number(row, row.least), range_number(row, most_of(row)),
                     counted);
}

bool within_range(KeyRow const& row, Value const& value) {
  auto const within = [&](double size) { return size >= row.least && size <= most_of(row); };
  double const base = form_of(row.type).base;
  if (auto const* whole = std::get_if<std::int64_t>(&value))
    return within(static_cast<double>(*whole) / base);
  if (auto const* ratio = std::get_if<Ratio>(&value)) return within(decimal(*ratio));
  if (auto const* amount = std::get_if<Amount>(&value))
    return amount->n > 0 && within(amount_in_range_unit(*amount));
  if (auto const* times = std::get_if<Times>(&value))
    return within(static_cast<double>(times->low.n) / base) &&
           within(static_cast<double>(times->high.n) / base);
  if (auto const* codes = std::get_if<std::vector<std::string>>(&value))
    return within(static_cast<double>(codes->size()));
  if (row.type == ValueType::words)
    return within(static_cast<double>(code_points(std::get<std::string>(value))));
  if (row.type == ValueType::money) return within(money_size(std::get<std::string>(value)));
  return true;
}

}  // namespace endband
