// The file as SQLite sees it, its schema as the migrations made it, and no row lost from it.
#include "db/check.h"
#include "db/migrate.h"
#include "db/statement.h"
#include "db/whole_tables.h"

#include <array>
#include <map>
#include <sstream>
#include <utility>

namespace endband::db {
namespace {

// SQLite may say several things in one row, under a line that only names the database.
void add_lines(Findings& findings, std::string const& told) {
  std::istringstream lines(told);
  for (std::string line; std::getline(lines, line);)
    if (!line.empty() && !line.starts_with("***") && line != "ok") findings.add_damage(line);
}

void check_integrity(Findings& findings) {
  Statement integrity(findings.connection(), "PRAGMA integrity_check");
  while (integrity.step()) add_lines(findings, integrity.value<std::string>());
  Statement keys(findings.connection(), "PRAGMA foreign_key_check");
  while (keys.step()) {
    std::string table, parent;
    std::int64_t row = 0;
    keys.read(table, row, parent);
    findings.add(table, row, "names a row that is not there", "a row of " + parent);
  }
}

using Schema = std::map<std::string, std::string>;  // "trigger entry_kept" -> its text

Schema schema_of(Connection& connection) {
  Statement select(
      connection,
      "SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite%'");
  Schema schema;
  while (select.step()) {
    std::string type, name, sql;
    select.read(type, name, sql);
    schema.emplace(type + " " + name, sql);
  }
  return schema;
}

// Against a file that this program makes anew: a trigger that is gone lets a frozen row be changed.
void check_schema(Findings& findings) {
  Connection fresh("", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, Medium::memory);
  migrate(fresh, schema::migrations());
  Schema const due = schema_of(fresh);
  Schema const found = schema_of(findings.connection());
  for (auto const& [name, sql] : due) {
    auto const at = found.find(name);
    if (at == found.end())
      findings.add("schema", name, "is gone", "as the program made it");
    else if (at->second != sql)
      findings.add("schema", name, "was changed", "as the program made it");
  }
  for (auto const& [name, sql] : found)
    if (!due.contains(name)) findings.add("schema", name, "is not the program's", "nothing of this name");
}

// Rows are numbered without a gap, and a command that fails gives its numbers back: a gap is a row that was
// deleted.
void check_none_lost(Findings& findings, std::string const& table, std::string const& id) {
  Statement select(findings.connection(), "SELECT count(*), (SELECT seq FROM sqlite_sequence WHERE name = '" +
                                              table + "') FROM " + table);
  std::int64_t count = 0, last = 0;
  select.step();
  select.read(count, last);
  if (count == last) return;
  Statement gap(findings.connection(), "SELECT min(n) FROM (SELECT 1 AS n UNION ALL SELECT " + id +
                                           " + 1 FROM " + table + ") WHERE n NOT IN (SELECT " + id +
                                           " FROM " + table + ")");
  gap.step();
  findings.add(table, gap.value<std::int64_t>(), "is gone", std::to_string(last) + " rows without a gap");
}

void check_order(Findings& findings, std::string const& table) {
  Statement select(findings.connection(),
                   "SELECT id FROM (SELECT id, entry, lag(entry) OVER (ORDER BY id) AS earlier "
                   "FROM " +
                       table + ") WHERE earlier > entry");
  while (select.step())
    findings.add(table, select.value<std::int64_t>(), "was written before the row above it",
                 "an entry that is not older");
}

void check_numbers(Findings& findings) {
  Statement years(
      findings.connection(),
      "SELECT year, count(*), max(count) FROM commission GROUP BY year HAVING count(*) <> max(count)");
  while (years.step()) {
    std::int64_t year = 0, count = 0, last = 0;
    years.read(year, count, last);
    findings.add("commission", "of " + std::to_string(year), std::to_string(count) + " numbers",
                 std::to_string(last) + " without a gap");
  }
  Statement bare(findings.connection(),
                 "SELECT c.id FROM commission c LEFT JOIN quote q ON q.commission = c.id GROUP BY c.id "
                 "HAVING count(q.id) = 0 OR unicode(max(q.issue)) - unicode('a') + 1 <> count(q.id)");
  while (bare.step())
    findings.add("commission", bare.value<std::int64_t>(), "lacks an issue", "issues a, b, c without a gap");
}

void check_people(Findings& findings) {
  Statement select(findings.connection(),
                   "SELECT c.id FROM customer c LEFT JOIN customer_address a ON a.customer = c.id "
                   "WHERE a.customer IS NULL");
  while (select.step())
    findings.add("customer", select.value<std::int64_t>(), "has no row of its name",
                 "a row in customer_address");
  Statement one(findings.connection(), "SELECT count(*) FROM workshop");
  one.step();
  if (one.value<std::int64_t>() != 1) findings.add("workshop", "", "no row", "one row");
}

void check_days(Findings& findings) {
  for (KnownTable const& table : known_tables(findings.connection()))
    for (WholeColumn const& column : table.form.columns) {
      if (!column.day) continue;
      Statement select(findings.connection(), "SELECT CAST(" + table.keys.primary.front() + " AS TEXT), " +
                                                  column.name + " FROM " + table.form.name + " WHERE " +
                                                  column.name + " IS NOT date(" + column.name +
                                                  ", '+0 days')");
      while (select.step()) {
        std::string row, day;
        select.read(row, day);
        findings.add(table.form.name, row, column.name + " " + day, "a day of the calendar");
      }
    }
}

}  // namespace

void check_file(Findings& findings) {
  check_integrity(findings);
  check_schema(findings);
}

void check_rows(Findings& findings) {
  check_none_lost(findings, "entry", "seq");
  for (char const* table :
       {"setting_version", "step_version", "material", "material_version", "price_version", "customer",
        "commission", "quote", "supply_version", "person_version", "place_version", "day_off", "delivery",
        "lot", "lot_fact", "movement", "reservation"}) {
    check_none_lost(findings, table, "id");
    check_order(findings, table);
  }
  check_numbers(findings);
  check_people(findings);
  check_days(findings);
}

}  // namespace endband::db
