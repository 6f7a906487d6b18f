// The book description: TOML text to keys, values and places. It knows the form of a description (its keys,
// their types and ranges come in as a table) and nothing of books.
#pragma once

#include "engine/fault/fault.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace endband {

enum class ValueType : std::uint8_t {
  length,     // "250 mm" -> micrometres
  thickness,  // "0.62 mm", "2.5 oz" -> nanometres
  count,      // 300 -> 300 (whole)
  number,     // 1.5 or "1.5" -> Ratio
  share,      // "35 %", 0.35 -> Ratio
  angle,      // "120 deg" -> Ratio of degrees
  duration,   // "45 min" -> seconds
  times,      // "10/20/40 min": low, likely, high -> Times
  density,    // "800 kg/m3", "0.8 g/cm3" -> kilograms to the cubic metre
  mass,       // "12 g" -> milligrams
  amount,     // "2 sheets" -> Amount
  money,      // "12.50" -> decimal text, read with the workshop's currency later
  code,       // a material, step or customer code: lower case letters, digits, '-'
  codes,      // one code or a list of them
  words,      // any text up to 200 characters
  choice,     // one of KeyRow::choices
  flag,       // true, false
  thread,     // "18/3"
  date,       // "2026-11-25"
};

struct Times {  // low <= likely <= high
  Duration low, likely, high;
  friend bool operator==(Times const&, Times const&) = default;
};
// "10/20/40 min", each as a duration is written, the last unit serving all: "20 min/1 h/2 h"; "30 min" is all
// three. Not negative; faults as read_duration, and contradiction when they do not rise.
Read<Times> read_times(std::string_view text);

// One key of a description. `path` is dotted; a path in a repeated table ([[lines]]) starts with its name and
// "[]": "lines[].width".
struct KeyRow {
  std::string_view path;
  ValueType type = ValueType::words;
  double least =
      0;  // declared range, both ends allowed, in the unit people write: mm, count, minutes, g, degrees,
  double most =
      0;  //   kg/m3, units of money; a share as a fraction. Words: how many code points; codes: how many.
  std::string_view choices;  // "cut|uncut"; of codes: what each may be
  std::string_view help;     // one line, for the reference page and for faults
  int since = 1;
};

using Value = std::variant<std::int64_t, Ratio, std::string, std::vector<std::string>, bool, Amount,
                           ThreadNumber, Date, Times>;
// length, thickness, duration, mass, count, density -> int64 in base unit; number, share, angle -> Ratio;
// code, words, choice, money -> string; codes -> vector; flag -> bool; amount -> Amount; thread; date; times.

struct Entry {
  std::string key;  // "text.paper"; in a repeated table "lines[].width"
  int row = -1;     // which [[table]], from 0; -1 outside one
  Value value;
  Where where;
};

struct BookText {
  std::string source;
  std::vector<Entry> entries;  // in file order
  Entry const* find(std::string_view key, int row = -1) const;
  int rows(std::string_view table) const;  // how many [[table]] there are
};

// The row of a key, or nullptr.
KeyRow const* key_named(std::span<KeyRow const> keys, std::string_view path);

// One value that stands alone, as a setting or a flag has it: the same forms as in a description, without
// quotes
// ("250 mm", "300", "true", "silk-red, silk-cream"). `where` is copied to faults.
Read<Value> read_value(KeyRow const& row, std::string_view text, Where const& where);

// A value as a description would have it: `"250 mm"`, `300`, `["silk-red", "silk-cream"]`.
std::string value_text(ValueType type, Value const& value);

// Reads and checks a whole description: all faults at once, by line. The first key must be `endband = 1`.
// Syntax faults are told in plain words (a bare word: put it in quotes; 1,5: write 1.5; 12 mm: in quotes
// ...); after one there is nothing more to check. A text over 1 MiB is refused. Columns count code points.
Read<BookText> read_description(std::string_view text, std::string source, std::span<KeyRow const> keys);

// The entries that are right, beside the faults of those that are not: so that what is wrong with the
// materials it names can be told with the rest. A text that cannot be parsed has no entries.
struct Readable {
  BookText text;
  std::vector<Fault> faults;
};
Readable read_readable(std::string_view text, std::string source, std::span<KeyRow const> keys);

}  // namespace endband
