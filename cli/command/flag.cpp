#include "cli/command/flag.h"

#include "cli/command/flag_read.h"
#include "cli/document/text.h"
#include "db/week.h"
#include "engine/book/spec.h"
#include "engine/book/style.h"
#include "engine/commission/order.h"
#include "engine/description/description.h"

#include <algorithm>
#include <array>
#include <utility>

namespace endband::cli {
namespace {

template <class T>
Read<FlagValue> as_value(Read<T> read) {
  if (!read) return tl::unexpected(std::move(read.error()));
  return FlagValue(std::move(*read));
}

template <class T, Read<T> (*reader)(std::string_view)>
Read<FlagValue> with(std::string_view text) {
  return as_value(reader(text));
}

// No dimension of a material or a book is less than nothing.
template <class T, Read<T> (*reader)(std::string_view)>
Read<FlagValue> positive(std::string_view text) {
  Read<T> read = reader(text);
  if (read && read->n <= 0) return refuse(flag_fault(FaultCode::out_of_range, text, "more than nothing"));
  return as_value(std::move(read));
}

Read<FlagValue> read_line(std::string_view text, std::size_t most) {
  bool const control = std::any_of(text.begin(), text.end(), [](char c) { return c >= 0 && c < 0x20; });
  if (control)
    return refuse(flag_fault(FaultCode::bad_value, text, "one line of text, without tabs or control signs"));
  std::size_t const length = code_points(text);
  if (length > most)
    return refuse(flag_fault(FaultCode::out_of_range, std::to_string(length) + " characters",
                             "at most " + std::to_string(most) + " characters"));
  return FlagValue(std::string(text));
}

Read<FlagValue> read_words(std::string_view text) {
  if (!text.empty() && text.find_first_not_of(' ') == std::string_view::npos)
    return refuse(flag_fault(FaultCode::bad_value, text, "words, not only spaces"));
  return read_line(text, 200);
}
Read<FlagValue> read_notes(std::string_view text) { return read_line(text, 2000); }

Read<FlagValue> read_code(std::string_view text) {
  auto const plain = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
  bool const good =
      !text.empty() && text.size() <= 60 && plain(text.front()) &&
      std::all_of(text.begin(), text.end(), [&](char c) { return plain(c) || c == '-' || c == '.'; });
  if (!good)
    return refuse(flag_fault(FaultCode::bad_value, text,
                             "a code of lower case letters, digits and '-', such as goat-green"));
  return FlagValue(std::string(text));
}

Read<FlagValue> read_file_name(std::string_view text) {
  if (text.empty())
    return refuse(flag_fault(FaultCode::bad_value, text, "a file's name, or - for standard input"));
  return FlagValue(std::string(text));
}

Read<FlagValue> read_folder_name(std::string_view text) {
  if (text.empty()) return refuse(flag_fault(FaultCode::bad_value, text, "a folder's name"));
  return FlagValue(std::string(text));
}

Read<FlagValue> read_whole_from(std::string_view text, std::int64_t least, std::int64_t most) {
  auto const count = read_count(text);
  constexpr std::int64_t one = 1000;
  if (!count || count->n % one != 0) return refuse(flag_fault(FaultCode::bad_value, text, "a whole number"));
  if (count->n < least * one || count->n > most * one)
    return refuse(flag_fault(FaultCode::out_of_range, text,
                             "a whole number from " + std::to_string(least) + " to " + std::to_string(most)));
  return FlagValue(count->n / one);
}
Read<FlagValue> read_whole(std::string_view text) { return read_whole_from(text, 1, 100'000); }
Read<FlagValue> read_work(std::string_view text) { return read_whole_from(text, 0, 1'000'000'000); }

Read<FlagValue> read_share(std::string_view text) {
  auto const ratio = read_ratio(text);
  if (ratio && (*ratio < Ratio(0) || *ratio > Ratio(100)))
    return refuse(flag_fault(FaultCode::out_of_range, text, "a share of nothing or more, such as 5 %"));
  return as_value(ratio);
}

Read<FlagValue> read_number(std::string_view text) {
  auto const ratio = read_ratio(text);
  if (ratio && *ratio <= Ratio(0))
    return refuse(flag_fault(FaultCode::out_of_range, text, "a number above 0"));
  return as_value(ratio);
}

// "120 g/m2": the number before one of the units, times the factor of that unit, as a whole number.
struct RateUnit {
  std::string_view name;
  std::int64_t factor;
};
Read<std::int64_t> read_rate(std::string_view text, std::span<RateUnit const> units,
                             std::string_view example) {
  std::string const expected(example);
  for (RateUnit const& unit : units) {
    if (!text.ends_with(unit.name)) continue;
    std::string_view number = text.substr(0, text.size() - unit.name.size());
    while (number.ends_with(' ')) number.remove_suffix(1);
    auto const ratio = read_ratio(number);
    if (!ratio) return refuse(flag_fault(ratio.error().front().code, text, expected));
    std::int64_t const whole = round_product(*ratio, Ratio(unit.factor), Rounding::half_away);
    if (whole <= 0)
      return refuse(flag_fault(FaultCode::out_of_range, text, "more than nothing, " + expected));
    return whole;
  }
  bool const bare =
      !text.empty() && text.back() >= '0' && text.back() <= '9' && text.find('/') == std::string_view::npos;
  return refuse(flag_fault(bare ? FaultCode::missing_unit : FaultCode::wrong_unit, text, expected));
}

constexpr std::array grams_a_square_metre{RateUnit{"g/m2", 1000}, RateUnit{"g/m²", 1000},
                                          RateUnit{"gsm", 1000}};
constexpr std::array kilograms_a_cubic_metre{RateUnit{"kg/m3", 1}, RateUnit{"kg/m³", 1},
                                             RateUnit{"g/cm3", 1000}, RateUnit{"g/cm³", 1000}};
constexpr std::array millilitres_a_square_metre{RateUnit{"ml/m2", 1000}, RateUnit{"ml/m²", 1000}};

Read<FlagValue> read_grammage(std::string_view text) {
  return as_value(read_rate(text, grams_a_square_metre, "a grammage such as 120 g/m2"));
}
Read<FlagValue> read_density(std::string_view text) {
  return as_value(read_rate(text, kilograms_a_cubic_metre, "a density such as 900 kg/m3"));
}
Read<FlagValue> read_spread(std::string_view text) {
  std::string_view const example = "a spread such as 150 g/m2 or 80 ml/m2";
  if (auto const by_volume = read_rate(text, millilitres_a_square_metre, example))
    return FlagValue(SpreadRate{0, *by_volume});
  auto const by_mass = read_rate(text, grams_a_square_metre, example);
  if (!by_mass) return tl::unexpected(by_mass.error());
  return FlagValue(SpreadRate{*by_mass, 0});
}

// The digits are read again, with the currency, once the workshop is open.
Read<FlagValue> read_money_form(std::string_view text) {
  bool const digits = std::any_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!digits) return refuse(flag_fault(FaultCode::bad_value, text, "an amount such as 12.50 or 12.50 EUR"));
  if (text.front() == '-') return refuse(flag_fault(FaultCode::out_of_range, text, "an amount of 0 or more"));
  return FlagValue(std::string(text));
}

Read<FlagValue> read_own_money(std::string_view text) {
  return text.empty() ? Read<FlagValue>(std::string()) : read_money_form(text);
}

// "cora, ben": "cora ben".
Read<FlagValue> read_codes(std::string_view text) {
  std::string codes;
  std::vector<Fault> faults;
  while (!text.empty()) {
    std::size_t const end = std::min(text.find_first_of(" ,"), text.size());
    std::string_view const code = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (code.empty()) continue;
    if (auto const read = read_code(code); !read) faults.push_back(read.error().front());
    codes += (codes.empty() ? "" : " ") + std::string(code);
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return FlagValue(std::move(codes));
}

// A word of a closed list, told with what may have been meant.
template <class T>
Read<FlagValue> one_of(std::string_view text, std::optional<T> found, FlagType type, std::string_view what) {
  if (found) return FlagValue(*found);
  auto const known = choices(type);
  Fault refused = flag_fault(FaultCode::bad_value, text, std::string(what));
  refused.near = nearest(text, known);
  if (refused.near.empty() && known.size() <= 12) {
    refused.expected += ": ";
    for (std::size_t i = 0; i < known.size(); ++i)
      refused.expected += (i == 0 ? "" : i + 1 == known.size() ? " or " : ", ") + std::string(known[i]);
  }
  return refuse(std::move(refused));
}

Read<FlagValue> read_kind(std::string_view text) {
  return one_of(text, kind_named(text), FlagType::kind, "a kind of material");
}
Read<FlagValue> read_sold_by(std::string_view text) {
  return one_of(text, sold_by_named(text), FlagType::sold_by, "a way a material is sold");
}
Read<FlagValue> read_charging(std::string_view text) {
  return one_of(text, charging_named(text), FlagType::charging, "a way a material is charged");
}
Read<FlagValue> read_operation(std::string_view text) {
  return one_of(text, operation_named(text), FlagType::operation, "a step");
}

Read<FlagValue> read_country(std::string_view text) {
  bool const good = text.size() == 2 && text[0] >= 'A' && text[0] <= 'Z' && text[1] >= 'A' && text[1] <= 'Z';
  if (!good)
    return refuse(flag_fault(FaultCode::bad_value, text, "a country by its two letters, such as AT"));
  return FlagValue(std::string(text));
}

Read<FlagValue> read_on(std::string_view) { return FlagValue(); }

struct TypeRow {
  FlagType type;
  std::string_view placeholder;
  Read<FlagValue> (*read)(std::string_view);
};
constexpr std::array type_table{
    TypeRow{FlagType::on, "", read_on},
    TypeRow{FlagType::words, "WORDS", read_words},
    TypeRow{FlagType::text, "TEXT", read_notes},
    TypeRow{FlagType::code, "CODE", read_code},
    TypeRow{FlagType::file, "FILE", read_file_name},
    TypeRow{FlagType::folder, "DIR", read_folder_name},
    TypeRow{FlagType::whole, "N", read_whole},
    TypeRow{FlagType::work, "N", read_work},
    TypeRow{FlagType::length, "LENGTH", positive<Length, read_length>},
    TypeRow{FlagType::rectangle, "H x W", with<SheetSize, read_sheet_size>},
    TypeRow{FlagType::thickness, "THICKNESS", positive<Thickness, read_thickness>},
    TypeRow{FlagType::mass, "MASS", positive<Mass, read_mass>},
    TypeRow{FlagType::amount, "AMOUNT", positive<Amount, read_amount>},
    TypeRow{FlagType::share, "SHARE", read_share},
    TypeRow{FlagType::number, "NUMBER", read_number},
    TypeRow{FlagType::sheet, "SIZE", with<SheetSize, read_sheet_size>},
    TypeRow{FlagType::thread, "NUMBER/PLY", with<ThreadNumber, read_thread_number>},
    TypeRow{FlagType::grammage, "GRAMMAGE", read_grammage},
    TypeRow{FlagType::density, "DENSITY", read_density},
    TypeRow{FlagType::spread, "SPREAD", read_spread},
    TypeRow{FlagType::date, "DATE", read_day},
    TypeRow{FlagType::clock, "HH:MM", read_clock},
    TypeRow{FlagType::money, "MONEY", read_money_form},
    TypeRow{FlagType::currency, "CURRENCY", with<Currency, read_currency>},
    TypeRow{FlagType::kind, "KIND", read_kind},
    TypeRow{FlagType::sold_by, "HOW", read_sold_by},
    TypeRow{FlagType::charging, "HOW", read_charging},
    TypeRow{FlagType::operation, "STEP", read_operation},
    TypeRow{FlagType::times, "TIMES", read_three_times},
    TypeRow{FlagType::wait, "WAIT", read_wait},
    TypeRow{FlagType::country, "COUNTRY", read_country},
    TypeRow{FlagType::span, "SPAN", read_span},
    TypeRow{FlagType::quantity, "QUANTITY", read_words},
    TypeRow{FlagType::duration, "TIME", read_time},
    TypeRow{FlagType::week, "HOURS", with<WorkingWeek, db::read_week>},
    TypeRow{FlagType::own_money, "MONEY", read_own_money},
    TypeRow{FlagType::codes, "CODES", read_codes},
    TypeRow{FlagType::material, "CODE", read_code},
    TypeRow{FlagType::customer, "CODE", read_code},
    TypeRow{FlagType::service, "CODE", read_code},
    TypeRow{FlagType::tax_class, "CODE", read_code},
    TypeRow{FlagType::quote, "NUMBER", read_code},
    TypeRow{FlagType::job, "NUMBER", read_code},
    TypeRow{FlagType::listing, "N", read_whole},
    TypeRow{FlagType::lot, "LOT", read_words},
    TypeRow{FlagType::goods, "CODE", read_words},
    TypeRow{FlagType::outlet, "CODE", read_code},
    TypeRow{FlagType::outlets, "CODES", read_codes},
    TypeRow{FlagType::person, "CODE", read_code},
    TypeRow{FlagType::people, "CODES", read_codes},
    TypeRow{FlagType::on_bench, "CODE", read_code},
    TypeRow{FlagType::places, "CODES", read_codes},
    TypeRow{FlagType::steps, "CODES", read_codes},
    TypeRow{FlagType::learnt, "CODES", read_codes},
    TypeRow{FlagType::worked, "WORDS", read_words},
    TypeRow{FlagType::gate, "WORDS", read_words},
    TypeRow{FlagType::outside, "WORDS", read_words},
    TypeRow{FlagType::lot_place, "WORDS", read_words},
    TypeRow{FlagType::supplier, "WORDS", read_words},
    TypeRow{FlagType::model, "CODE", read_code},
    TypeRow{FlagType::binding, "CODE", read_code},
    TypeRow{FlagType::figure, "WORDS", read_words},
    TypeRow{FlagType::setting, "TEXT", read_notes},
    TypeRow{FlagType::supposition, "WORDS", read_words},
    TypeRow{FlagType::entry, "N", read_whole},
    TypeRow{FlagType::book, "FILE", read_file_name},
    TypeRow{FlagType::made_to, "CODE", read_code},
    TypeRow{FlagType::level, "CODE", read_code},
    TypeRow{FlagType::page_form, "CODE", read_code},
    TypeRow{FlagType::quote_form, "CODE", read_code},
    TypeRow{FlagType::job_paper, "CODE", read_code},
    TypeRow{FlagType::group_by, "CODE", read_code},
    TypeRow{FlagType::order, "CODE", read_code},
};

constexpr bool in_order() {
  for (std::size_t i = 0; i < type_table.size(); ++i)
    if (static_cast<std::size_t>(type_table[i].type) != i) return false;
  return true;
}
static_assert(in_order(), "type_row indexes the table by the type");

TypeRow const& type_row(FlagType type) { return type_table.at(static_cast<std::size_t>(type)); }

}  // namespace

Fault flag_fault(FaultCode code, std::string_view found, std::string expected) {
  return {code, {}, std::string(found), std::move(expected), {}};
}

FlagValue::FlagValue() = default;
FlagValue::FlagValue(FlagValue const&) = default;
FlagValue::FlagValue(FlagValue&&) noexcept = default;
FlagValue& FlagValue::operator=(FlagValue const&) = default;
FlagValue& FlagValue::operator=(FlagValue&&) noexcept = default;
FlagValue::~FlagValue() = default;

std::string_view placeholder(FlagType type) { return type_row(type).placeholder; }

Read<FlagValue> read_flag(FlagType type, std::string_view text) { return type_row(type).read(text); }

}  // namespace endband::cli
