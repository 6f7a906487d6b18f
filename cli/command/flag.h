// What a flag or a word of the command line may be: its name, the type of its value, its help. Values are
// read by their type when the line is parsed, so that a command sees none that is malformed.
#pragma once

#include "engine/book/operation.h"
#include "engine/catalogue/catalogue.h"
#include "engine/fault/fault.h"
#include "engine/labour/labour.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

namespace endband::cli {

// Wet mass or volume that a square metre takes.
struct SpreadRate {
  std::int64_t mg_m2 = 0, ul_m2 = 0;  // one of them
};

// Time worked: how long, and from when to when where that was said.
struct WorkSpan {
  Duration time;
  std::string began, ended;  // "09:10"; empty: only how long
};

// Copied, moved and ended in flag.cpp alone: every command has values, and what a variant of so many
// generates is slow to compile.
struct FlagValue
    : std::variant<std::monostate, std::string, std::int64_t, Length, Thickness, Mass, Area, Amount, Ratio,
                   SheetSize, ThreadNumber, Date, Currency, MaterialKind, SoldBy, Charging, OperationKind,
                   Spread3, SpreadRate, WorkSpan, Duration, WorkingWeek> {
  using variant::variant;
  FlagValue();
  FlagValue(FlagValue const&);
  FlagValue(FlagValue&&) noexcept;
  FlagValue& operator=(FlagValue const&);
  FlagValue& operator=(FlagValue&&) noexcept;
  ~FlagValue();
};

enum class FlagType : std::uint8_t {
  on,         // stands alone: --json
  words,      // up to 200 characters of one line: a name
  text,       // up to 2000 characters: notes
  code,       // lower case letters, digits, '-', '.'; begins with a letter or digit
  file,       // a file's name, or "-" for standard input
  folder,     // a folder's name
  whole,      // 1 to 100000
  work,       // 0 to 1000000000: of a search
  length,     // "80 mm"
  rectangle,  // "700 x 500 mm", in the order said
  thickness,  // "0.16 mm", "2.5 oz"
  mass,       // "12 g"
  amount,     // "50 sheets"
  share,      // "5 %"
  number,     // "1.17"
  sheet,      // "A3", "640 x 900 mm"
  thread,     // "18/3"
  grammage,   // "120 g/m2"
  density,    // "900 kg/m3"
  spread,     // "150 g/m2", "80 ml/m2"
  date,       // "2026-11-25"
  clock,      // "09:30"
  money,      // "12.50" or "12.50 EUR"; kept as text until the workshop's currency is known
  currency,   // "EUR"
  kind,       // of material
  sold_by,    // how a material is sold
  charging,   // how it is charged
  operation,  // of the step library
  times,      // "5/10/20 min": low, likely, high
  wait,       // "8/12 h": low, high
  country,    // two letters of ISO 3166
  span,       // "09:10-11:40", or how long: "2 h 30 min"
  quantity,   // "20 sheets", "2 packs"; kept as text until the material is known; may be empty
  duration,   // "2 h 30 min"
  week,       // "Mon-Fri 09:00-12:30 13:30-17:00, Sat 10:00-13:00"
  own_money,  // as money, or empty: none of its own
  codes,      // codes parted by blanks or commas, kept as text; may be empty

  // What the workshop or the program knows by name: read as a code, a line or codes, and completed by what
  // there is.
  material,
  customer,
  service,  // of carriage
  tax_class,
  quote,    // "26-014b"
  job,      // "26-014"
  listing,  // by its number
  lot,      // "L12", "K3"
  goods,    // a material or a lot
  outlet,
  outlets,
  person,  // or everyone
  people,
  on_bench,  // a person, a press or a drying place
  places,    // presses and drying places
  steps,
  learnt,     // steps and materials that past jobs teach something of
  worked,     // a step, or a part of the book
  gate,       // that a job waits at
  outside,    // work by others, in the words of the quote
  lot_place,  // where lots lie
  supplier,
  model,
  binding,
  figure,       // of the book
  setting,      // "goal.margin=35 %"
  supposition,  // "goat-moss-08=+12%"
  entry,        // of the log
  book,         // a description's file, or the number of a job
  made_to,      // to whose order
  level,        // of a paper
  page_form,    // html or pdf
  quote_form,   // or ubl
  job_paper,    // for the customer of a job
  group_by,
  order,  // of a list
};

struct Flag {
  std::string_view name;  // "--sold-by"
  FlagType type = FlagType::on;
  std::string_view help;
  char letter = '\0';
  bool many = false;  // may be said several times: words only, kept as lines of one text
};

// A word that stands by its place.
struct Word {
  std::string_view name;  // "CODE"
  FlagType type = FlagType::words;
  std::string_view help;
  bool needed = true;
  bool many = false;  // takes all words that are left
};

std::string_view placeholder(FlagType type);  // "KIND"; empty for `on`
// Faults carry what was found and what would be right; where it was is the caller's to say.
Read<FlagValue> read_flag(FlagType type, std::string_view text);
// The names that a flag of this type may have; empty where it is not one of a list.
std::vector<std::string_view> choices(FlagType type);

}  // namespace endband::cli
