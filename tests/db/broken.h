// A workshop changed behind the program's back, as no command would leave it, and what `check` finds in it.
#pragma once

#include "db/connection.h"
#include "db/workshop.h"

#include <SQLiteCpp/Column.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace endband::db::test {

// The faults of a copy in which triggers were dropped, `sql` was run, and triggers were put back.
inline std::vector<Fault> broken_copy(std::string const& path, std::string const& sql,
                                      std::vector<Fault> (*checked)(Workshop&) = check) {
  std::string const copy = path + ".broken";
  std::filesystem::remove(copy);
  {
    SQLite::Database from(path, SQLite::OPEN_READWRITE);
    from.exec("VACUUM INTO '" + copy + "'");
    SQLite::Database database(copy, SQLite::OPEN_READWRITE);
    std::vector<std::pair<std::string, std::string>> triggers;
    SQLite::Statement select(database, "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    while (select.executeStep())
      triggers.emplace_back(select.getColumn(0).getString(), select.getColumn(1).getString());
    select.reset();
    for (auto const& [name, text] : triggers) database.exec("DROP TRIGGER " + name);
    database.exec("PRAGMA ignore_check_constraints = ON");
    database.exec(sql);
    for (auto const& [name, text] : triggers) database.exec(text);
  }
  Workshop workshop = Workshop::open(copy).value();
  return checked(workshop);
}

// Some fault names it, as the place or, for a word that nobody knows, in what was found.
inline bool names(std::vector<Fault> const& faults, std::string_view what) {
  return std::any_of(faults.begin(), faults.end(), [&](Fault const& fault) {
    return fault.code == FaultCode::broken_invariant &&
           (fault.where.field.starts_with(what) || fault.found.starts_with(what));
  });
}

// "job_result 1: kept 1.00: 2.00, as agreed"
inline std::vector<std::string> told(std::vector<Fault> const& faults) {
  std::vector<std::string> lines;
  for (Fault const& fault : faults)
    lines.push_back(fault.where.field + ": " + fault.found + ": " + fault.expected);
  return lines;
}

}  // namespace endband::db::test
