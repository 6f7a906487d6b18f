#include "db/setting_value.h"

#include "db/paper_words.h"
#include "engine/book/spec.h"
#include "engine/money/numeral.h"

#include <algorithm>
#include <vector>

namespace endband::db {
namespace {

constexpr std::size_t longest_words = 2000;  // bytes; an address has several lines, an owner's text more

Fault fault(FaultCode code, Where const& where, std::string_view found, std::string expected) {
  return {code, where, std::string(found), std::move(expected), {}};
}

std::string range_text(SettingRow const& row, std::string_view unit) {
  return std::to_string(row.least) + " to " + std::to_string(row.most) + std::string(unit);
}

// `scale` base units make one of the unit people write.
Read<std::string> in_range(SettingRow const& row, Ratio value, Ratio scale, std::string_view unit,
                           std::string text, Where const& where) {
  if (value < Ratio(row.least) * scale || value > Ratio(row.most) * scale)
    return refuse(fault(FaultCode::out_of_range, where, text, range_text(row, unit)));
  return text;
}

Read<std::string> choice(std::string_view value, std::string_view choices, Where const& where) {
  std::vector<std::string_view> const known = split(choices, '|');
  if (std::find(known.begin(), known.end(), value) != known.end()) return std::string(value);
  Fault wrong = fault(FaultCode::bad_value, where, value, std::string(choices));
  wrong.near = nearest(value, known);
  return refuse(std::move(wrong));
}

// What an overhead may pay for: a kind of material, or a step.
Read<std::string> covered(std::string_view value, Where const& where) {
  std::vector<std::string_view> known;
  for (KindRow const& row : kind_table()) known.push_back(row.name);
  for (OperationRow const& row : operation_table()) known.push_back(row.name);
  if (std::find(known.begin(), known.end(), value) != known.end()) return std::string(value);
  Fault wrong = fault(FaultCode::unknown_code, where, value, "a kind of material or a step");
  wrong.near = nearest(value, known);
  return refuse(std::move(wrong));
}

Read<std::string> code(std::string_view value, Where const& where) {
  bool const plain = value.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
  if (plain) return std::string(value);
  return refuse(fault(FaultCode::bad_value, where, value, "lower case letters, digits and '-'"));
}

std::string decimal_or_fraction(Ratio value) {
  for (int decimals = 0; decimals <= 9; ++decimals) {
    std::int64_t power = 1;
    for (int i = 0; i < decimals; ++i) power *= 10;
    if (power % value.den() == 0)
      return decimal_text(checked_mul(value.num(), power / value.den()), decimals);
  }
  return ratio_text(value);
}

}  // namespace

std::string share_text(Ratio share) {
  if (share.den() > 1'000'000'000 || 1'000'000'000 % share.den() != 0) return ratio_text(share);
  return decimal_or_fraction(share * Ratio(100)) + " %";
}

Read<std::string> canonical_value(SettingRow const& row, std::string_view value, Currency currency,
                                  Where const& where) {
  switch (row.type) {
    case ValueType::money: {
      Read<Money> const money = located(read_money(value, currency), where);
      if (!money) return tl::unexpected(money.error());
      return in_range(row, money->minor, currency.minor_per_major(), "", money_text(*money), where);
    }
    case ValueType::share: {
      Read<Ratio> const share = located(read_ratio(value), where);
      if (!share) return tl::unexpected(share.error());
      return in_range(row, *share, Ratio(1, 100), " %", share_text(*share), where);
    }
    case ValueType::number: {
      Read<Ratio> const number = located(read_ratio(value), where);
      if (!number) return tl::unexpected(number.error());
      return in_range(row, *number, 1, "", decimal_or_fraction(*number), where);
    }
    case ValueType::duration: {
      Read<Duration> const duration = located(read_duration(value), where);
      if (!duration) return tl::unexpected(duration.error());
      return in_range(row, duration->n, 3600, " h", duration_text(*duration), where);
    }
    case ValueType::length: {
      Read<Length> const length = located(read_length(value), where);
      if (!length) return tl::unexpected(length.error());
      return in_range(row, length->n, 1000, " mm", length_mm(*length) + " mm", where);
    }
    case ValueType::count: {
      Read<Count> const count = located(read_count(value), where);
      if (!count) return tl::unexpected(count.error());
      if (count->n % 1000 != 0) return refuse(fault(FaultCode::bad_value, where, value, "a whole number"));
      return in_range(row, count->n / 1000, 1, "", std::to_string(count->n / 1000), where);
    }
    case ValueType::choice: return choice(value, row.choices, where);
    case ValueType::code: return row.name == "covers.*" ? covered(value, where) : code(value, where);
    default:
      if (value.size() > longest_words)
        return refuse(
            fault(FaultCode::out_of_range, where, value, std::to_string(longest_words) + " bytes at most"));
      return std::string(value);
  }
}

std::optional<Fault> fault_of_member(SettingRow const& row, std::string_view name, Where const& where) {
  std::string_view const member = name.substr(name.find('.') + 1);
  std::vector<std::string_view> known;
  std::vector<std::string> lower;
  std::string expected;
  if (row.name == "tax-class.*") {
    for (std::size_t i = 0; i < component_count; ++i)
      known.push_back(component_name(static_cast<Component>(i)));
    known.emplace_back("carriage");
    expected = "tax-class and a component of a quote, or carriage";
  } else if (row.name == "word.*") {
    for (PaperWord const& word : paper_words()) known.push_back(word.name);
    expected = "word and the name of a word on papers: word.total";
  } else if (row.name == "exchange.*" || row.name == "exchange-spread.*") {
    for (std::string_view const code : currency_codes()) {
      std::string& each = lower.emplace_back(code);
      for (char& letter : each) letter = static_cast<char>(letter - 'A' + 'a');
    }
    known.assign(lower.begin(), lower.end());
    expected = "a currency in small letters: exchange.usd";
  } else {
    return std::nullopt;
  }
  if (std::find(known.begin(), known.end(), member) != known.end()) return std::nullopt;
  Fault wrong = fault(FaultCode::unknown_code, where, name, expected);
  wrong.near = nearest(member, known);
  return wrong;
}

Read<Value> default_value(std::string_view key, std::string_view value, Where const& where) {
  // Rows of a repeated table, and what is this one quote's, have no habit to fall back on.
  auto const has_habit = [](std::string_view path) {
    return path.find("[]") == std::string_view::npos && !path.starts_with("quote.") && path != "endband";
  };
  if (KeyRow const* row = key_named(description_keys(), key); row != nullptr && has_habit(key))
    return read_value(*row, value, where);
  std::vector<std::string_view> known;
  for (KeyRow const& row : description_keys())
    if (has_habit(row.path)) known.push_back(row.path);
  Fault wrong = fault(FaultCode::unknown_key, where, key, "a key of the book description");
  wrong.near = nearest(key, known);
  return refuse(std::move(wrong));
}

}  // namespace endband::db
