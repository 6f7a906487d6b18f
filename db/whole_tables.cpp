#include "db/whole_tables.h"

#include "db/statement.h"

#include <algorithm>
#include <array>
#include <map>

namespace endband::db {
namespace {

// Kept by triggers on the rows of other tables; a test holds this list against the schema.
constexpr std::array<std::string_view, 3> summed_by_triggers{"lot_state", "shelf", "reserved"};

std::vector<std::string> names_of(Connection& connection) {
  Statement select(
      connection,
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY rowid");
  std::vector<std::string> names;
  while (select.step()) {
    auto name = select.value<std::string>();
    if (std::ranges::find(summed_by_triggers, name) == summed_by_triggers.end())
      names.push_back(std::move(name));
  }
  return names;
}

std::string text_of(Connection& connection, std::string const& table) {
  Statement select(connection, "SELECT sql FROM sqlite_schema WHERE type = 'table' AND name = ?");
  select.bind(table);
  select.step();
  return select.value<std::string>();
}

// SQLite's date() lets the 30th of February pass; the rule in which it stands still tells which columns are
// days.
bool is_day(std::string_view made_by, std::string const& column) {
  return made_by.find("CHECK (" + column + " IS date(" + column + "))") != std::string_view::npos;
}

KnownTable known_table(Connection& connection, std::string const& name) {
  KnownTable table;
  table.form.name = name;
  std::map<int, std::string> primary;
  std::string const made_by = text_of(connection, name);
  Statement columns(connection, "SELECT name, type, \"notnull\", pk FROM pragma_table_info(?) ORDER BY cid");
  columns.bind(name);
  while (columns.step()) {
    std::string column, type;
    bool not_null = false;
    int key = 0;
    columns.read(column, type, not_null, key);
    if (key > 0) primary.emplace(key, column);
    table.form.columns.push_back({column, type == "TEXT", !not_null && key == 0, is_day(made_by, column)});
  }
  for (auto const& [place, column] : primary) table.keys.primary.push_back(column);
  Statement foreign(
      connection, "SELECT id, \"table\", \"from\", \"to\" FROM pragma_foreign_key_list(?) ORDER BY id, seq");
  foreign.bind(name);
  int last = -1;
  while (foreign.step()) {
    int id = 0;
    std::string parent, from, to;
    foreign.read(id, parent, from, to);
    if (id != last) table.keys.foreign.push_back({parent, {}, {}});
    last = id;
    table.keys.foreign.back().from.push_back(from);
    table.keys.foreign.back().to.push_back(to);
  }
  return table;
}

// Depth first. A table that names itself needs no other before it: its rows do, and stand by their key.
class ParentsFirst {
 public:
  explicit ParentsFirst(std::vector<KnownTable> tables) : tables_(std::move(tables)) {
    for (KnownTable const& table : tables_) place(table);
  }
  std::vector<KnownTable> take() { return std::move(placed_); }

 private:
  void place(KnownTable const& table) {
    if (!begun_.emplace(table.form.name, true).second) return;
    for (TableKeys::Foreign const& key : table.keys.foreign)
      for (KnownTable const& other : tables_)
        if (other.form.name == key.table) place(other);
    placed_.push_back(table);
  }

  std::vector<KnownTable> tables_, placed_;
  std::map<std::string, bool> begun_;
};

}  // namespace

std::vector<KnownTable> known_tables(Connection& connection) {
  std::vector<KnownTable> tables;
  for (std::string const& name : names_of(connection)) tables.push_back(known_table(connection, name));
  return ParentsFirst(std::move(tables)).take();
}

}  // namespace endband::db
