// The bench: people with their weeks and days off, presses and drying places, as dated versions; and what the
// steps of the library ask of it.
#pragma once

#include "db/workshop.h"
#include "engine/book/operation.h"
#include "engine/labour/bench.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// In force from that day on. `person.off` is not looked at. Gone: not of the bench any more.
void set_person(Writing& writing, Person const& person, Date valid_from, bool gone = false);
// A count of 0: there is none any more.
void set_place(Writing& writing, Place const& place, Date valid_from);

struct DayOff {
  std::int64_t id = 0;
  std::string person;  // a code; empty: the whole workshop
  DaysOff days;
  std::string words;
};
void add_day_off(Writing& writing, DayOff const& day_off);
void take_back_day_off(Writing& writing, DayOff const& day_off);
std::vector<DayOff> days_off(Workshop& workshop);  // those that stand, by their first day

// As of that day; all days off of any day, in order and merged, the whole workshop's in each person's. Throws
// StoreError not_a_workshop where a stored week does not read.
Bench load_bench(Workshop& workshop, Date on);

// What was last said of a code up to that day, also where it is there no more: a count of 0, `gone`.
struct PersonSaid {
  Person person;  // without days off
  bool gone = false;
};
std::optional<PersonSaid> person_said(Workshop& workshop, std::string_view code, Date on);
std::optional<Place> place_said(Workshop& workshop, std::string_view code, Date on);

// Stands for all of them in a command, so that nobody bears it.
inline constexpr std::string_view everyone = "everyone";
// Whether a new person or place may have it: bad_value otherwise.
std::optional<Fault> check_bench_code(std::string_view code, Where const& where);

enum class BenchKind { person, place };
// Whose code it is, or was.
std::optional<BenchKind> kind_of_code(Workshop& workshop, std::string_view code);

// What a step asks for and the bench does not have, from some day on.
struct BenchGap {
  std::int64_t step_version = 0;
  OperationKind kind{};
  Date from;
  std::string code;  // of the place, or of a person never known; all of `who`, where all of them are gone
  enum class Lack { place, person, everybody } lack = Lack::place;
  friend bool operator==(BenchGap const&, BenchGap const&) = default;
};
// By step and day; of each version of a step the first day. A step that some of its people left is none.
std::vector<BenchGap> bench_gaps(Workshop& workshop);

}  // namespace endband::db
