// Taking back a command: an entry of counter-movements and restored versions. Nothing is deleted or changed.
//
// What stands is what was written by entries that are neither undone nor undoings. Taking back an entry makes
// the workshop stand as if it had not been: a movement, a reservation, hours, a payment by their opposites;
// an event, an agreement, a day off by a row that names it; a setting, a price, a supply, a step, a person, a
// press, a material's properties, a lot's place by writing anew what would stand without it, on every day on
// which it would be another.
#pragma once

#include "db/workshop.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::db {

struct Undone {
  std::string what;  // "L12 board-20", "goal.margin from 2026-01-01", "job 26-014, sewing"
  std::string now;   // what stands now: "7", "40 %", "2 h 30 min"
  std::string then;  // what will stand; empty: nothing
};
// `writing`'s entry carries `undoes` = `entry`, else std::logic_error. On a fault the caller must not commit.
// To show what it would do, undo and do not commit. Faults rule_refused, all at once, where.field "ENTRY":
// - it is itself an undoing, or was undone: `expected` names the command to type instead
// - it wrote what cannot be taken back: a workshop, a customer, a material, the first price of one, the first
// times of a step
// - a later entry that stands builds on it: `expected` names that entry and what it does
// - a step would be left without its people or its place, or come after itself
// - a lot moved later than the day of `writing`
Read<std::vector<Undone>> undo(Writing& writing, std::int64_t entry);

// An entry that stands, to be asked for before `undo`. Faults rule_refused: there is no such entry, or as
// above.
Read<EntryInfo> standing_entry(Workshop& workshop, std::int64_t entry);
// The newest one; absent in a new workshop, whose making is not counted.
std::optional<EntryInfo> last_standing(Workshop& workshop);

}  // namespace endband::db
