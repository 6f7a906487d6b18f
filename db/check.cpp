#include "db/check.h"

#include "db/cutting.h"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <stdexcept>
#include <vector>

namespace endband::db {

void Findings::add(std::string_view table, std::string_view row, std::string found, std::string expected) {
  std::string const field = std::string(table) + (row.empty() ? "" : " ") + std::string(row);
  faults.push_back({FaultCode::broken_invariant,
                    {workshop.path(), 0, 0, field},
                    std::move(found),
                    std::move(expected),
                    {}});
}

void Findings::hold(std::string_view table, std::int64_t row, std::string_view what, Money found, Money due,
                    std::string_view why) {
  if (found == due) return;
  add(table, row, std::string(what) + " " + money_text(found), money_text(due) + ", " + std::string(why));
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

void Findings::add_damage(std::string const& detail) {
  constexpr std::string_view field = "file";
  auto const told = [&](std::string_view found) {
    return std::ranges::any_of(
        faults, [&](Fault const& fault) { return fault.where.field == field && fault.found == found; });
  };
  if (std::string const found = "the file is damaged"; !told(found))
    add(field, "", found, "the last backup in its place: endband help workshop backup says how");
  if (!told(detail)) add(field, "", detail, "");
}

namespace {

using Part = void (*)(Findings&);
constexpr std::array<Part, 11> parts{check_file,    check_rows,   check_versions, check_bench,
                                     check_selling, check_quotes, check_stock,    check_lots_said,
                                     check_agreed,  check_jobs,   check_homes};

std::vector<Fault> found_by(Workshop& workshop, std::span<Part const> by) {
  // All parts see one state, whether or not the caller already holds it.
  std::optional<Reading> reading;
  if (sqlite3_get_autocommit(workshop.connection().database.getHandle()) != 0) reading.emplace(workshop);
  Findings findings(workshop);
  for (Part const part : by) {
    try {
      part(findings);
    } catch (StoreError const& e) {
      if (e.code != FaultCode::not_a_workshop) throw;
      findings.add_damage(e.what());
    } catch (Overflow const&) {
      findings.add("file", "", "a number grew too large to be right", "smaller numbers");
    }
  }
  return std::move(findings.faults);
}

}  // namespace

std::vector<Fault> check(Workshop& workshop) { return found_by(workshop, parts); }

std::vector<Fault> check_with_plans(Workshop& workshop) {
  std::vector<Part> all(parts.begin(), parts.end());
  all.push_back(check_plans);
  return found_by(workshop, all);
}

}  // namespace endband::db
