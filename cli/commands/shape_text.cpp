#include "cli/commands/shape_text.h"

#include "engine/cutting/geometry/outline.h"
#include "engine/money/numeral.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

struct Unit {
  std::string_view name;
  std::int64_t um;
};
constexpr std::array units{Unit{"mm", 1000}, Unit{"cm", 10'000}, Unit{"m", 1'000'000}, Unit{"in", 25'400}};
constexpr std::string_view unit_names = "mm, cm, m or in";

constexpr std::string_view blanks = " \t\r\n";
constexpr std::string_view digits = "0123456789";
constexpr std::size_t most_digits = 9;  // before the point, and after it: both fit 64 bits together

Fault fault(FaultCode code, std::string_view found, std::string expected) {
  return {code, {}, std::string(found), std::move(expected), {}};
}

Unit const* unit_named(std::string_view name) {
  auto const found = std::ranges::find(units, name, &Unit::name);
  return found == units.end() ? nullptr : &*found;
}

// What stands behind the last digit, mark or blank, which may be nothing.
std::string_view unit_text(std::string_view text) {
  text = trimmed(text);
  std::size_t const last = text.find_last_of("0123456789.,; \t\r\n");
  return last == std::string_view::npos ? text : text.substr(last + 1);
}

std::vector<std::string_view> split(std::string_view text, std::string_view marks) {
  std::vector<std::string_view> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    std::size_t const end = std::min(text.find_first_of(marks, begin), text.size());
    parts.push_back(trimmed(text.substr(begin, end - begin)));
    begin = end + 1;
  }
  return parts;
}

bool take_sign(std::string_view& text) {
  for (std::string_view const minus : {"-", "\xE2\x88\x92"})  // a hyphen, or the minus sign
    if (text.starts_with(minus)) {
      text.remove_prefix(minus.size());
      return true;
    }
  return false;
}

struct Decimal {
  std::int64_t scaled = 0;  // every digit as one whole number
  std::int64_t one = 1;     // a power of ten
};

// "12", "12.5", ".5"; nullopt: no such number, or one of more digits than a rule shows.
std::optional<Decimal> read_decimal(std::string_view text) {
  std::size_t const point = std::min(text.find('.'), text.size());
  std::string_view const whole = text.substr(0, point);
  std::string_view const after = point < text.size() ? text.substr(point + 1) : std::string_view{};
  bool const only_digits =
      (std::string(whole) + std::string(after)).find_first_not_of(digits) == std::string::npos;
  bool const too_long = whole.size() > most_digits || after.size() > most_digits;
  if (!only_digits || too_long || whole.size() + after.size() == 0) return std::nullopt;
  Decimal number;
  for (char const c : whole) number.scaled = number.scaled * 10 + (c - '0');
  for (char const c : after) {
    number.scaled = number.scaled * 10 + (c - '0');
    number.one *= 10;
  }
  return number;
}

class GroupReader {
 public:
  GroupReader(std::string_view text, Unit const& unit) : text_(text), unit_(unit) {}

  Read<SaidGroups> read() {
    for (std::string_view const part : split(text_, ",")) read_group(part);
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    return std::move(groups_);
  }

 private:
  void read_group(std::string_view text) {
    SaidGroup group{std::string(text), {}};
    for (std::string_view const word : split(text, blanks))
      if (!word.empty()) read_number(word, group);
    if (group.text.empty())
      faults_.push_back(
          fault(FaultCode::bad_syntax, text_, "numbers before and after each comma, and none at the ends"));
    groups_.push_back(std::move(group));
  }

  void read_number(std::string_view word, SaidGroup& group) {
    std::string_view rest = word;
    bool const negative = take_sign(rest);
    auto const number = read_decimal(rest);
    if (!number) {
      faults_.push_back(fault(FaultCode::bad_syntax, word, why_not(word)));
      return;
    }
    std::int64_t const um = mul_div(number->scaled, unit_.um, number->one, Rounding::half_away);
    if (um > cutting::largest_length)
      faults_.push_back(
          fault(FaultCode::out_of_range, fmt::format("{} {}", word, unit_.name), "at most 10 m"));
    group.um.push_back(negative ? -um : um);
  }

  static std::string why_not(std::string_view word) {
    if (unit_named(unit_text(word)) != nullptr) return "the unit stands once, at the end";
    return "a number such as 12 or 12.5 was due; a point parts decimals, a comma only parts groups";
  }

  std::string_view text_;
  Unit const& unit_;
  SaidGroups groups_;
  std::vector<Fault> faults_;
};

// The end of a long text, where its unit should be.
std::string_view last_group(std::string_view text) {
  std::size_t const mark = text.find_last_of(",;");
  return trimmed(mark == std::string_view::npos ? text : text.substr(mark + 1));
}

Read<Unit const*> read_unit(std::string_view text, std::string_view example) {
  std::string_view const name = unit_text(text);
  std::string const right = fmt::format("{} at the end: {}", unit_names, example);
  if (trimmed(text).empty()) return refuse(fault(FaultCode::bad_syntax, text, std::string(example)));
  if (name.empty()) return refuse(fault(FaultCode::missing_unit, last_group(text), right));
  Unit const* const unit = unit_named(name);
  if (unit == nullptr) return refuse(fault(FaultCode::wrong_unit, last_group(text), right));
  return unit;
}

std::string_view without_unit(std::string_view text) {
  text = trimmed(text);
  return trimmed(text.substr(0, text.size() - unit_text(text).size()));
}

}  // namespace

Read<SaidGroups> read_groups(std::string_view text, std::string_view example) {
  auto const unit = read_unit(text, example);
  if (!unit) return tl::unexpected(unit.error());
  return GroupReader(without_unit(text), **unit).read();
}

Read<std::vector<SaidGroups>> read_lists(std::string_view text, std::string_view example) {
  auto const last = read_unit(text, example);
  if (!last) return tl::unexpected(last.error());
  std::vector<SaidGroups> lists;
  std::vector<Fault> faults;
  for (std::string_view const part : split(text, ";")) {
    bool const bare = !part.empty() && unit_text(part).empty();
    auto list = bare ? GroupReader(part, **last).read() : read_groups(part, example);
    if (list)
      lists.push_back(std::move(*list));
    else
      faults.insert(faults.end(), list.error().begin(), list.error().end());
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return lists;
}

Read<Ratio> read_svg_unit(std::string_view text) {
  constexpr std::string_view example = "1 mm";
  auto const unit = read_unit(text, example);
  if (!unit) return tl::unexpected(unit.error());
  std::string_view const number = without_unit(text);
  std::size_t const slash = number.find('/');
  auto const over = read_decimal(trimmed(number.substr(0, slash)));
  auto const under =
      slash == std::string_view::npos ? Decimal{1, 1} : read_decimal(trimmed(number.substr(slash + 1)));
  if (!over || !under || under->scaled == 0)
    return refuse(fault(FaultCode::bad_syntax, text, "a length such as 1 mm, 0.2646 mm or 1/96 in was due"));
  // Two numbers of at most 18 digits: their quotient may leave 64 bits, which no drawing needs.
  Ratio um;
  try {
    um = Ratio(over->scaled, over->one) / Ratio(under->scaled, under->one) * Ratio((*unit)->um);
  } catch (Overflow const&) {
    um = Ratio(0);
  }
  if (um < Ratio(1) || um > Ratio(1'000'000))
    return refuse(fault(FaultCode::out_of_range, text, "from 0.001 mm to 1 m"));
  return um;
}

}  // namespace endband::cli
