#include "db/check.h"

#include <sqlite3.h>

#include <optional>

namespace endband::db {

void Findings::add(std::string_view table, std::string_view row, std::string found, std::string expected) {
  std::string const field = std::string(table) + (row.empty() ? "" : " ") + std::string(row);
  faults.push_back({FaultCode::broken_invariant,
                    {workshop.path(), 0, 0, field},
                    std::move(found),
                    std::move(expected),
                    {}});
}

std::vector<Fault> check(Workshop& workshop) {
  // All parts see one state, whether or not the caller already holds it.
  std::optional<Reading> reading;
  if (sqlite3_get_autocommit(workshop.connection().database.getHandle()) != 0) reading.emplace(workshop);
  Findings findings(workshop);
  for (auto part : {check_file, check_rows, check_versions, check_bench, check_selling, check_quotes,
                    check_stock, check_lots_said, check_agreed, check_jobs, check_homes}) {
    try {
      part(findings);
    } catch (StoreError const& e) {
      if (e.code != FaultCode::not_a_workshop) throw;
      findings.add("file", "", e.what(), "a file that can be read");
    }
  }
  return std::move(findings.faults);
}

}  // namespace endband::db
