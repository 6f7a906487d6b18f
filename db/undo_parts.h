// What `undo` is made of, inside db/ only.
#pragma once

#include "db/connection.h"
#include "db/undo.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// Entries that stand. ?1, where it stands, is the entry that is taken back.
inline constexpr std::string_view standing_text =
    "(SELECT seq FROM entry WHERE undoes IS NULL AND seq NOT IN (SELECT undoes FROM entry WHERE undoes IS "
    "NOT NULL))";
inline constexpr std::string_view later_text =
    "(SELECT seq FROM entry WHERE seq > ?1 AND undoes IS NULL AND seq NOT IN "
    "(SELECT undoes FROM entry WHERE seq > ?1 AND undoes IS NOT NULL))";

Fault refused_entry(std::int64_t entry, std::string expected);
// `later` does something that rests on it: "takes from L3".
Fault built_on(Connection& connection, std::int64_t entry, std::int64_t later, std::string const& deed);
std::vector<std::string> columns_of_table(Connection& connection, std::string const& table);

// Why the entry may not be taken back, but for what only shows when it is done.
std::vector<Fault> undo_refusals(Workshop& workshop, std::int64_t entry, Date on);

// Both write, add to `undone` what they did and give faults. `on`: the business day of the undoing.
std::vector<Fault> counter_rows(Writing& writing, std::int64_t entry, Date on, std::vector<Undone>& undone);
std::vector<Fault> restore_versions(Writing& writing, std::int64_t entry, std::vector<Undone>& undone);

}  // namespace endband::db
