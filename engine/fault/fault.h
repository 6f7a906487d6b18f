// What a user can get wrong, as a value: where it is, what was found, what would be right.
// The text for people is made in cli/ from these parts; nothing here is a finished sentence.
#pragma once

#include <tl/expected.hpp>

#include <cstddef>
#include <cstdint>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace endband {

// Stable: the names below are printed by --json and listed in schema/faults.json with an example each.
enum class FaultCode : std::uint8_t {
  bad_command,        // no such command, flag, or number of words
  bad_value,          // a flag or key has a value of the wrong form
  bad_syntax,         // the file is not TOML
  unknown_key,        // a key that no table has
  missing_key,        // a key that is needed and was given by nobody
  wrong_type,         // a number where words were due, and the like
  missing_unit,       // "250" where "250 mm" was due
  wrong_unit,         // "250 g" where a length was due
  ambiguous_number,   // "1,234"
  out_of_range,       // outside the declared range of the key
  contradiction,      // two values that cannot both hold
  refused_part,       // the binding cannot have this part
  unknown_material,   // no material of this code
  wrong_kind,         // a ribbon where leather was due
  missing_property,   // the material lacks a figure the calculator needs
  no_price,           // no price in force on that day
  currency_mismatch,  // a price in a currency without a rate to the workshop's
  does_not_fit,       // a piece larger than what it is cut from
  missing_step,       // the step library has no times for an operation
  missing_setting,    // the workshop lacks a setting that is needed
  bad_goal,           // a margin of 100 % or more and the like
  too_large,          // a sum that leaves the range of money
  unknown_code,       // no customer, quote, step, setting ... of this name
  already_exists,     // a code that is taken
  rule_refused,       // a workshop rule forbids it
  changed_meanwhile,  // what the command relied on was changed by another
  broken_invariant,   // `workshop check` found a stored invariant broken
  file_missing,       // a file or the workshop does not exist
  file_unusable,      // exists, but cannot be read, written or is full
  not_a_workshop,     // not a workshop file, or a damaged one
  newer_workshop,     // written by a newer program
  workshop_busy,      // another process holds it
};

// One row for each code: its stable name and the exit code of a command that ends with it.
struct FaultRow {
  FaultCode code;
  std::string_view name;  // "unknown-key"
  int exit;               // 1 refused by a rule, 2 command line or input file, 3 file or workshop
};
std::span<FaultRow const> fault_table();
FaultRow const& fault_row(FaultCode code);

struct Where {
  std::string source;  // a file's name, or the command's words: "book.toml", "material price"
  int line = 0;        // from 1; 0: not a place in a text
  int column = 0;      // from 1, in code points
  std::string field;   // "text.paper", "--unit", "amount"
};

struct Fault {
  FaultCode code;
  Where where;
  std::string found;              // what stood there
  std::string expected;           // what would be right, a fragment: "a length such as 250 mm"
  std::vector<std::string> near;  // what may have been meant, nearest first
};

template <class T>
using Read = tl::expected<T, std::vector<Fault>>;

inline tl::unexpected<std::vector<Fault>> refuse(Fault fault) {
  return tl::unexpected<std::vector<Fault>>(std::vector<Fault>{std::move(fault)});
}

// A sum left the range of its type. Caught where a command ends, and told as FaultCode::too_large.
struct Overflow : std::overflow_error {
  using std::overflow_error::overflow_error;
};

// Says where the faults of a read were; readers of one value know only the value.
template <class T>
Read<T> located(Read<T> read, Where const& where) {
  if (!read)
    for (Fault& fault : read.error()) fault.where = where;
  return read;
}

// Damerau-Levenshtein distance (a swap of neighbours is one edit, and is not edited again) in code points,
// A to Z and a to z being the same.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The words among `known` that may have been meant by `word`: edit distance at most 2, or a third of the
// word's length if that is more, and less than the longer word; nearest first, at most three.
std::vector<std::string> nearest(std::string_view word, std::span<std::string_view const> known);

}  // namespace endband
