// A description as it was written: tables, lists and plain values with their places, before any key is looked
// up. What the TOML library knows is copied here, so that no other file has to include it.
#pragma once

#include "engine/description/description.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

struct TextPlace {
  int line = 0;
  int column = 0;
  friend auto operator<=>(TextPlace const&, TextPlace const&) = default;
};

struct RawMember;

struct Raw {
  enum class Is : std::uint8_t { text, whole, decimal, flag, date, time, list, table };
  Is is = Is::text;
  std::string text;  // of a text: itself; else how it would be written: "300", "true", "a table"
  std::int64_t whole = 0;
  bool flag = false;
  Date date;
  std::vector<Raw> items;          // of a list
  std::vector<RawMember> members;  // of a table, by place
  TextPlace place;
};

struct RawMember {
  std::string key;
  TextPlace place;
  Raw value;
};

// The whole text as one table. Faults: bad_syntax, one only.
Read<Raw> parse(std::string_view text, std::string const& source);

// One value by the row of its key; faults know the place of a part of a list, and are to be completed by the
// caller.
Read<Value> value_of(KeyRow const& row, Raw const& raw);

// Walks the table and adds to entries and faults; `text.source` is set.
void check(Raw const& root, std::span<KeyRow const> keys, BookText& text, std::vector<Fault>& faults);

}  // namespace endband
