#include "db/check.h"

#include "db/cutting.h"

#include <sqlite3.h>

#include <algorithm>
#include <initializer_list>
#include <iterator>
#include <optional>
#include <stdexcept>

namespace endband::db {

void Findings::add(std::string_view table, std::string_view row, std::string found, std::string expected) {
  std::string const field = std::string(table) + (row.empty() ? "" : " ") + std::string(row);
  faults.push_back({FaultCode::broken_invariant,
                    {workshop.path(), 0, 0, field},
                    std::move(found),
                    std::move(expected),
                    {}});
}

void Findings::look_at(std::string_view table, std::string_view row, std::function<void()> const& look) try {
  look();
} catch (StoreError const& e) {
  if (e.code != FaultCode::not_a_workshop) throw;
  add(table, row, e.what(), "words that this program knows");
} catch (Overflow const&) {
  add(table, row, "a number grew too large to be right", "smaller numbers");
} catch (std::out_of_range const& e) {
  add(table, row, e.what(), "all its parts");
} catch (std::logic_error const& e) {  // a share of all there is, where something must be left
  add(table, row, e.what(), "figures that can be reckoned with");
}

namespace {

std::vector<Fault> found_by(Workshop& workshop, std::initializer_list<void (*)(Findings&)> parts) {
  // All parts see one state, whether or not the caller already holds it.
  std::optional<Reading> reading;
  if (sqlite3_get_autocommit(workshop.connection().database.getHandle()) != 0) reading.emplace(workshop);
  Findings findings(workshop);
  for (auto part : parts) {
    try {
      part(findings);
    } catch (StoreError const& e) {
      if (e.code != FaultCode::not_a_workshop) throw;
      findings.add("file", "", e.what(), "a file that can be read");
    } catch (Overflow const&) {
      findings.add("file", "", "a number grew too large to be right", "smaller numbers");
    }
  }
  return std::move(findings.faults);
}

}  // namespace

std::vector<Fault> check(Workshop& workshop) {
  return found_by(workshop, {check_file, check_rows, check_versions, check_bench, check_selling, check_quotes,
                             check_stock, check_lots_said, check_agreed, check_jobs, check_homes});
}

std::vector<Fault> check_with_plans(Workshop& workshop) {
  std::vector<Fault> faults = check(workshop);
  std::ranges::move(found_by(workshop, {check_plans}), std::back_inserter(faults));
  return faults;
}

}  // namespace endband::db
