// A text of terms as it is read: what its keys say, and every fault found on the way. For the readers of
// outlets, of carriage and of past commissions; no part of their public headers.
#pragma once

#include "engine/description/description.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace endband {

constexpr KeyRow term(std::string_view path, ValueType type, double least, double most,
                      std::string_view help) {
  return {path, type, least, most, {}, help};
}
constexpr KeyRow choice_of(std::string_view path, std::string_view choices, std::string_view help) {
  return {path, ValueType::choice, 0, 0, choices, help};
}
constexpr KeyRow flag_of(std::string_view path, std::string_view help) {
  return {path, ValueType::flag, 0, 0, {}, help};
}

// A key; in a repeated table with its row, from 0. A path alone is one.
struct Key {
  Key(std::string_view key, int in_row = -1) : path(key), row(in_row) {}
  Key(char const* key) : path(key) {}
  std::string_view path;
  int row = -1;
};

std::string_view name_of(std::string_view path);  // "share" of "fees[].share"

class Terms {
 public:
  Terms(std::string_view text, std::string const& source, std::span<KeyRow const> keys);

  // A text that is no TOML, or of a newer form, says nothing: what it lacks is not worth a word.
  bool readable() const { return read_.faults.empty() || !read_.text.entries.empty(); }
  int rows(std::string_view table) const { return read_.text.rows(table); }

  // Whether the key stands there, rightly or wrongly written.
  bool said(Key const& key) const;
  // What it says; nothing where it does not stand there, or is wrong, which is told already.
  template <class T>
  std::optional<T> get(Key const& key) const {
    Entry const* const entry = read_.text.find(key.path, key.row);
    return entry == nullptr ? std::nullopt : std::optional<T>(std::get<T>(entry->value));
  }
  std::int64_t whole(Key const& key) const { return get<std::int64_t>(key).value_or(0); }
  int count(Key const& key) const { return static_cast<int>(whole(key)); }
  Ratio ratio(Key const& key) const { return get<Ratio>(key).value_or(Ratio(0)); }
  bool flag(Key const& key) const { return get<bool>(key).value_or(false); }
  std::string words(Key const& key) const { return get<std::string>(key).value_or(std::string()); }
  // The enumerator at the place of the word among the key's choices, which stand in the enumeration's order.
  template <class Enum>
  std::optional<Enum> choice(Key const& key) const {
    auto const place = choice_at(key);
    return place ? std::optional(static_cast<Enum>(*place)) : std::nullopt;
  }
  // Faults what its currency cannot hold. No currency: one that was not understood, so nothing is read.
  std::optional<Money> money(Key const& key, std::optional<Currency> currency);

  // Faults the keys that do not stand there.
  void need(std::string_view path, int row = -1);
  // Faults a key that has no meaning here.
  void refuse_key(Key const& key, std::string expected);
  // Of what the key says, or of `found`; at the key's table when it does not stand there.
  void fault(FaultCode code, Key const& key, std::string expected, std::vector<std::string> near = {});
  void fault_found(FaultCode code, Key const& key, std::string found, std::string expected,
                   std::vector<std::string> near = {});
  // The key names a row of another table that is not there; `names` are those that are.
  void fault_unknown(Key const& key, std::string_view table, std::span<std::string_view const> names);
  // What the key says as the text has it: "\"2000 g\"".
  std::string shown(Key const& key) const;
  // Where the key stands; of a path of a repeated table ("fees[]") its heading.
  Where place(Key const& key) const { return where(key); }

  // What was read, or all faults in the order of the text.
  template <class T>
  Read<T> result(T value) {
    if (read_.faults.empty()) return value;
    return refused();
  }
  tl::unexpected<std::vector<Fault>> refused();

 private:
  KeyRow const& row_of(Key const& key) const;
  Where where(Key const& key) const;
  std::optional<std::size_t> choice_at(Key const& key) const;

  std::span<KeyRow const> keys_;
  Readable read_;
};

}  // namespace endband
