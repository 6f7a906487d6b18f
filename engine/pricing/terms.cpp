#include "engine/pricing/terms.h"

#include <algorithm>
#include <stdexcept>
#include <tuple>

namespace endband {
namespace {

// "fees[].share" in the second row is "fees[2].share", as faults name it.
std::string field_of(Key const& key) {
  std::string text(key.path);
  if (std::size_t const at = text.find("[]"); key.row >= 0 && at != std::string::npos)
    text.replace(at, 2, '[' + std::to_string(key.row + 1) + ']');
  return text;
}

// "fees[].share" stands in "fees[]", "returns.lost" in "returns".
std::string_view table_of(std::string_view path) {
  std::size_t const point = path.rfind('.');
  return point == std::string_view::npos ? std::string_view() : path.substr(0, point);
}

auto in_file(Fault const& fault) { return std::tie(fault.where.line, fault.where.column); }

}  // namespace

std::string_view name_of(std::string_view path) { return path.substr(path.rfind('.') + 1); }

Terms::Terms(std::string_view text, std::string const& source, std::span<KeyRow const> keys)
    : keys_(keys), read_(read_readable(text, source, keys)) {}

bool Terms::said(Key const& key) const {
  if (read_.text.find(key.path, key.row) != nullptr) return true;
  std::string const field = field_of(key);
  return std::any_of(read_.faults.begin(), read_.faults.end(), [&](Fault const& fault) {
    return fault.code != FaultCode::missing_key && fault.where.field == field;
  });
}

std::optional<Money> Terms::money(Key const& key, std::optional<Currency> currency) {
  auto const text = get<std::string>(key);
  if (!text || !currency) return std::nullopt;
  auto money = read_money(*text, *currency);
  if (money) return *money;
  for (Fault& told : money.error()) fault(told.code, key, std::move(told.expected), std::move(told.near));
  return std::nullopt;
}

void Terms::need(std::string_view path, int row) {
  Key const key(path, row);
  if (said(key)) return;
  fault_found(FaultCode::missing_key, key, {},
              std::string(name_of(path)) + " = ..., " + std::string(row_of(key).help));
}

void Terms::refuse_key(Key const& key, std::string expected) {
  if (read_.text.find(key.path, key.row) != nullptr)
    fault(FaultCode::contradiction, key, std::move(expected));
}

void Terms::fault(FaultCode code, Key const& key, std::string expected, std::vector<std::string> near) {
  fault_found(code, key, shown(key), std::move(expected), std::move(near));
}

void Terms::fault_found(FaultCode code, Key const& key, std::string found, std::string expected,
                        std::vector<std::string> near) {
  read_.faults.push_back({code, where(key), std::move(found), std::move(expected), std::move(near)});
}

void Terms::fault_unknown(Key const& key, std::string_view table, std::span<std::string_view const> names) {
  std::string expected = "one of the [[" + std::string(table) + "]]";
  for (std::size_t i = 0; i < names.size(); ++i) expected += (i == 0 ? ": " : ", ") + std::string(names[i]);
  fault(FaultCode::unknown_code, key, names.empty() ? expected + ", of which there are none" : expected,
        nearest(words(key), names));
}

std::string Terms::shown(Key const& key) const {
  Entry const* const entry = read_.text.find(key.path, key.row);
  return entry == nullptr ? std::string() : value_text(row_of(key).type, entry->value);
}

tl::unexpected<std::vector<Fault>> Terms::refused() {
  std::stable_sort(read_.faults.begin(), read_.faults.end(),
                   [](Fault const& a, Fault const& b) { return in_file(a) < in_file(b); });
  return tl::unexpected(std::move(read_.faults));
}

KeyRow const& Terms::row_of(Key const& key) const {
  KeyRow const* const row = key_named(keys_, key.path);
  if (row == nullptr) throw std::logic_error("no such key: " + std::string(key.path));
  return *row;
}

// Where the value stands; else where its table begins; else the first line.
Where Terms::where(Key const& key) const {
  Where where{read_.text.source, 1, 1, {}};
  for (std::string_view const path : {key.path, table_of(key.path)})
    if (Entry const* const entry = read_.text.find(path, key.row)) {
      where = entry->where;
      break;
    }
  where.field = field_of(key);
  return where;
}

std::optional<std::size_t> Terms::choice_at(Key const& key) const {
  auto const word = get<std::string>(key);
  if (!word) return std::nullopt;
  std::size_t place = 0;
  for (std::string_view rest = row_of(key).choices; rest.substr(0, rest.find('|')) != *word; ++place)
    rest.remove_prefix(rest.find('|') + 1);
  return place;
}

}  // namespace endband
