// Reading quantities of one number and one unit, and areas of two lengths.
#include "engine/measure/extent.h"
#include "engine/measure/number.h"
#include "engine/measure/unit.h"

#include <array>

namespace endband {
namespace {

using Units = std::span<SpelledUnit const>;

constexpr std::string_view length_example = "a length such as 250 mm";
constexpr std::string_view amount_example = "an amount with its unit, such as 50 g, 20 sheets or 6 sq ft";

bool is_ascii(char c) { return static_cast<unsigned char>(c) < 0x80U; }

struct Kind {
  Dimension dimension;
  Units units;
};
std::array<Kind, 6> kinds() {
  return {{{Dimension::length, length_units()},
           {Dimension::area, area_units()},
           {Dimension::mass, mass_units()},
           {Dimension::volume, volume_units()},
           {Dimension::count, count_units()},
           {Dimension::duration, duration_units()}}};
}

std::int64_t in_units(Ratio value, SpelledUnit const& unit) {
  return round_product(value, Ratio(unit.num, unit.den), Rounding::half_away);
}

Fault unit_fault(std::string_view unit, Units units, NumberWanted const& wanted) {
  if (unit.empty()) return wanted.fault(FaultCode::missing_unit);
  if (is_digit(unit.front())) return wanted.fault(FaultCode::bad_value);
  Fault fault = wanted.fault(FaultCode::wrong_unit);
  bool known = false;
  for (Kind const& kind : kinds()) known = known || find_unit(kind.units, unit).has_value();
  if (!known) fault.near = near_units(units, unit);
  return fault;
}

// `unit_of_other`: the unit of a number that has none itself, "450" in "450 x 640 mm".
Read<std::int64_t> read_in(std::string_view text, Units units, NumberWanted const& wanted,
                           std::string_view unit_of_other = {}) {
  auto const number = take_number(text, wanted);
  if (!number) return tl::unexpected(number.error());
  std::string_view const said = number->rest.empty() ? unit_of_other : number->rest;
  auto const unit = find_unit(units, said);
  if (!unit) return refuse(unit_fault(said, units, wanted));
  if (number->ambiguous)
    return refuse(wanted.fault(FaultCode::ambiguous_number, both_readings(*number->ambiguous, said)));
  return in_units(number->value, *unit);
}

// Runs a reader; a number too large for its type is out of range.
template <class Reader>
auto within_range(NumberWanted const& wanted, Reader reader) -> decltype(reader()) {
  try {
    return reader();
  } catch (Overflow const&) {
    return refuse(wanted.fault(FaultCode::out_of_range));
  }
}

template <class Q>
Read<Q> read_quantity(std::string_view text, Units units, std::string_view example) {
  NumberWanted const wanted{trimmed(text), example};
  return within_range(
      wanted, [&] { return read_in(wanted.found, units, wanted).map([](std::int64_t n) { return Q{n}; }); });
}

// Where a cross parts two numbers, and how long it is; npos: nowhere. The "x" of "boxes" parts nothing.
struct Cross {
  std::size_t at = std::string_view::npos;
  std::size_t length = 0;
};
Cross find_cross(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at)
    for (std::string_view cross :
         {std::string_view("x"), std::string_view("X"), std::string_view("\u00d7")}) {
      if (!text.substr(at).starts_with(cross)) continue;
      std::string_view const after = trimmed(text.substr(at + cross.size()));
      bool const number = !after.empty() && (is_digit(after[0]) || after[0] == '.' || !is_ascii(after[0]));
      if (number) return {at, cross.size()};
    }
  return {};
}

Read<Amount> read_single_amount(NumberWanted const& wanted) {
  auto const number = take_number(wanted.found, wanted);
  if (!number) return tl::unexpected(number.error());
  for (Kind const& kind : kinds())
    if (find_unit(kind.units, number->rest))
      return read_in(wanted.found, kind.units, wanted).map([&](std::int64_t n) {
        return Amount{kind.dimension, n};
      });
  if (auto const duration = read_duration(wanted.found)) return amount(*duration);
  if (number->rest.empty()) return refuse(wanted.fault(FaultCode::missing_unit));
  return refuse(wanted.fault(FaultCode::wrong_unit));
}

}  // namespace

bool has_cross(std::string_view text) { return find_cross(text).at != std::string_view::npos; }

Read<Extent> read_extent(std::string_view text, std::string_view example) {
  NumberWanted const wanted{trimmed(text), example};
  Cross const cross = find_cross(wanted.found);
  if (cross.at == std::string_view::npos) return refuse(wanted.fault(FaultCode::bad_value));
  std::string_view const left = trimmed(wanted.found.substr(0, cross.at));
  std::string_view const right = trimmed(wanted.found.substr(cross.at + cross.length));
  return within_range(wanted, [&]() -> Read<Extent> {
    auto const last = take_number(right, wanted);
    if (!last) return tl::unexpected(last.error());
    auto const first = read_in(left, length_units(), wanted, last->rest);
    if (!first) return tl::unexpected(first.error());
    auto const second = read_in(right, length_units(), wanted);
    if (!second) return tl::unexpected(second.error());
    return Extent{Length{*first}, Length{*second}};
  });
}

Read<Length> read_length(std::string_view text) {
  return read_quantity<Length>(text, length_units(), length_example);
}

Read<Area> read_area(std::string_view text) {
  constexpr std::string_view example = "an area such as 0.31 m2, 6 sq ft or 300 x 200 mm";
  if (!has_cross(text)) return read_quantity<Area>(text, area_units(), example);
  return within_range({trimmed(text), example}, [&] {
    return read_extent(text, example).map([](Extent const& e) { return area(e.first, e.second); });
  });
}

Read<Mass> read_mass(std::string_view text) {
  return read_quantity<Mass>(text, mass_units(), "a mass such as 50 g");
}

Read<Volume> read_volume(std::string_view text) {
  return read_quantity<Volume>(text, volume_units(), "a volume such as 20 ml");
}

Read<Thickness> read_thickness(std::string_view text) {
  return read_quantity<Thickness>(text, thickness_units(), "a thickness such as 0.9 mm or 2.5 oz");
}

Read<Count> read_count(std::string_view text) {
  NumberWanted const wanted{trimmed(text), "a number such as 12, 2.5 or 1/2"};
  return within_range(wanted, [&]() -> Read<Count> {
    auto const number = take_number(wanted.found, wanted);
    if (!number) return tl::unexpected(number.error());
    if (!number->rest.empty()) {
      bool const unit = !is_digit(number->rest.front());
      return refuse(wanted.fault(unit ? FaultCode::wrong_unit : FaultCode::bad_value));
    }
    if (number->ambiguous)
      return refuse(wanted.fault(FaultCode::ambiguous_number, both_readings(*number->ambiguous, "")));
    Ratio const thousandths = number->value * Ratio(1000);
    if (number->decimal && thousandths.den() != 1)
      return refuse(wanted.fault(FaultCode::bad_value, "at most 3 decimals"));
    return Count{round(thousandths, Rounding::half_away)};
  });
}

Read<Amount> read_amount(std::string_view text) {
  NumberWanted const wanted{trimmed(text), amount_example};
  return within_range(wanted, [&]() -> Read<Amount> {
    if (has_cross(text)) return read_area(text).map([](Area q) { return amount(q); });
    return read_single_amount(wanted);
  });
}

}  // namespace endband
