// Taking back a command: an entry of counter-movements and restored versions. Nothing is deleted or changed.
#pragma once

#include "db/workshop.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::db {

struct Undone {
  std::string table, row;  // "movement", "L12 used"
  std::string now, then;   // what stands now, and what will stand
};
// What taking back would do, without doing it. Faults rule_refused: the entry is itself an undoing or was undone; what
// it wrote cannot be taken back (a migration, a new customer); a later entry builds on it, which is named.
Read<std::vector<Undone>> what_undo_does(Workshop& workshop, std::int64_t entry);
Read<std::vector<Undone>> undo(Writing& writing, std::int64_t entry);  // `writing`'s entry carries `undoes`
// The newest entry that may be undone.
std::optional<std::int64_t> last_entry(Workshop& workshop);

}  // namespace endband::db
