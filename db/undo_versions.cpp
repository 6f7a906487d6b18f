// Versions are restored by writing anew what would stand without the entry.
#include "db/statement.h"
#include "db/undo_parts.h"
#include "engine/measure/measure.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

namespace endband::db {
namespace {

// Something whose versions have a day from which they hold.
struct Versioned {
  std::string table, key;
  std::string name;   // SQL: the key's name for people, of ?1
  std::string empty;  // SQL values for `empty_columns` that say "none"; empty: there is no such version
  std::string empty_columns;
  std::string first;  // why the first cannot be taken back
};
std::array<Versioned, 9> const& versioned() {
  static std::array<Versioned, 9> const all{
      Versioned{"setting_version", "name", "SELECT ?1", "''", "value", ""},
      Versioned{"step_version", "operation", "SELECT ?1", "", "",
                "these are its first times; endband steps set gives others"},
      Versioned{"material_version", "material", "SELECT code FROM material WHERE id = ?1", "", "",
                "a material once added stays; endband material change corrects it"},
      Versioned{"price_version", "material", "SELECT code || ', price' FROM material WHERE id = ?1", "", "",
                "it is the material's first price; endband material price gives another"},
      Versioned{"supply_version", "material", "SELECT code || ', supply' FROM material WHERE id = ?1",
                "NULL, NULL, NULL, NULL, NULL",
                "reorder_at, order_size, lead_days, keeps_days, keeps_opened_days", ""},
      Versioned{"person_version", "code", "SELECT ?1", "'', '', NULL, 0, 1",
                "name, week, rate, overtime_s, gone", ""},
      Versioned{"place_version", "code", "SELECT ?1", "'', 0", "name, count", ""},
      Versioned{"outlet_version", "code", "SELECT 'outlet ' || ?1", "''", "text", ""},
      Versioned{"carriage_version", "code", "SELECT 'carriage ' || ?1", "''", "text", ""}};
  return all;
}

using Content = std::map<std::string, std::string>;  // column -> value as SQL writes it

std::vector<std::string> content_columns(Connection& connection, Versioned const& what) {
  std::vector<std::string> columns = columns_of_table(connection, what.table);
  std::erase_if(columns, [&](std::string const& each) {
    return each == "id" || each == "valid_from" || each == "entry" || each == what.key;
  });
  return columns;
}

Content content_of(Connection& connection, Versioned const& what, std::int64_t version) {
  Content content;
  for (std::string const& column : content_columns(connection, what)) {
    Statement select(connection, "SELECT quote(" + column + ") FROM " + what.table + " WHERE id = ?");
    select.bind(version).step();
    content[column] = select.value<std::string>();
  }
  return content;
}

// "a, b" and "'', NULL" as a: '', b: NULL.
Content empty_content(Versioned const& what) {
  Content content;
  std::string_view columns = what.empty_columns;
  std::string_view values = what.empty;
  auto const next = [](std::string_view& list) {
    std::size_t const comma = std::min(list.find(','), list.size());
    std::string_view const first = list.substr(0, comma);
    list.remove_prefix(std::min(comma + 2, list.size()));
    return std::string(first);
  };
  while (!columns.empty()) {
    std::string const column = next(columns);
    content[column] = next(values);
  }
  return content;
}

// The version in force on a day: of all, or of entries that stand.
std::optional<std::int64_t> in_force(Connection& connection, Versioned const& what, std::string const& key,
                                     std::string const& day, bool standing) {
  Statement select(connection, "SELECT id FROM " + what.table + " WHERE " + what.key +
                                   " = ?1 AND valid_from <= ?2" +
                                   (standing ? " AND entry IN " + std::string(standing_text) : "") +
                                   " ORDER BY valid_from DESC, id DESC LIMIT 1");
  if (!select.bind(key, day).step()) return std::nullopt;
  return select.value<std::int64_t>();
}

std::string for_people(Connection& connection, std::string const& column, std::string const& value) {
  if (value == "NULL" || value == "''") return "";
  if (column == "text") return "its terms";  // of many lines
  if (value.front() == '\'') {
    Statement plain(connection, "SELECT replace(?1, '''''', '''')");
    plain.bind(std::string_view(value).substr(1, value.size() - 2)).step();
    return plain.value<std::string>();
  }
  std::int64_t const number = std::stoll(value);
  if (column.ends_with("_s")) return duration_text(Duration{number});
  if (column == "gone") return number == 0 ? "" : "gone";
  if (column == "price" || column == "carriage" || column == "rate")
    return money_text({number, connection.currency});
  return value;
}

struct Restoring {
  Writing& writing;
  Connection& connection;
  Versioned const& what;
  std::string key, name;

  void tell(std::string const& day, Content const& now, Content const& then,
            std::vector<Undone>& undone) const {
    bool const one = now.size() == 1;
    for (auto const& [column, value] : now) {
      auto const found = then.find(column);
      std::string const restored = found == then.end() ? "NULL" : found->second;
      if (restored == value) continue;
      std::string field = column;
      std::replace(field.begin(), field.end(), '_', '-');
      undone.push_back({name + (one ? "" : ", " + field) + ", from " + day,
                        for_people(connection, column, value), for_people(connection, column, restored)});
    }
  }

  void write(std::string const& day, std::optional<std::int64_t> version) const {
    std::string columns, values;
    for (std::string const& column : content_columns(connection, what)) {
      columns += ", " + column;
      values += ", " + column;
    }
    if (!version) {
      Statement insert(connection, "INSERT INTO " + what.table + " (" + what.key + ", valid_from, entry, " +
                                       what.empty_columns + ") VALUES (?, ?, ?, " + what.empty + ")");
      insert.bind(key, day, writing.entry()).run();
      return;
    }
    Statement insert(connection, "INSERT INTO " + what.table + " (" + what.key + ", valid_from, entry" +
                                     columns + ") SELECT ?, ?, ?" + values + " FROM " + what.table +
                                     " WHERE id = ?");
    insert.bind(key, day, writing.entry(), *version).run();
  }

  // On one day on which a version begins. False: without the entry there would be none, and none can be said.
  bool on(std::string const& day, std::vector<Undone>& undone) const {
    std::optional<std::int64_t> const now = in_force(connection, what, key, day, false);
    std::optional<std::int64_t> const then = in_force(connection, what, key, day, true);
    Content const stands = content_of(connection, what, now.value());
    Content const due = then ? content_of(connection, what, *then) : Content{};
    if (stands == due || (!then && !what.empty.empty() && stands == empty_content(what))) return true;
    if (!then && what.empty.empty()) return false;
    write(day, then);
    tell(day, stands, due, undone);
    return true;
  }
};

std::vector<std::string> texts(Statement& select) {
  std::vector<std::string> all;
  while (select.step()) all.push_back(select.value<std::string>());
  return all;
}

std::optional<Fault> restore(Writing& writing, Versioned const& what, std::string const& key,
                             std::int64_t entry, std::vector<Undone>& undone) {
  Connection& connection = writing.workshop().connection();
  Statement named(connection, what.name);
  named.bind(key).step();
  Restoring const restoring{writing, connection, what, key, named.value<std::string>()};
  // Later days too: what an undoing wrote there may have been what this entry said.
  Statement days(connection, "SELECT DISTINCT valid_from FROM " + what.table + " WHERE " + what.key +
                                 " = ?1 AND valid_from >= (SELECT min(valid_from) FROM " + what.table +
                                 " WHERE " + what.key + " = ?1 AND entry = ?2) ORDER BY valid_from");
  days.bind(key, entry);
  std::size_t const told = undone.size();
  for (std::string const& day : texts(days))
    if (!restoring.on(day, undone)) return refused_entry(entry, restoring.name + ": " + what.first);
  // It had said what stood before it too.
  if (undone.size() == told) undone.push_back({restoring.name, "as before", "as before"});
  return std::nullopt;
}

// Facts of lots that are older than the entry: a lot's first place goes with its goods.
void restore_facts(Writing& writing, std::int64_t entry, std::vector<Undone>& undone) {
  Connection& connection = writing.workshop().connection();
  static std::string const sql =
      "SELECT DISTINCT f.lot, l.mark || l.number, f.fact, "
      "(SELECT value FROM lot_fact WHERE lot = f.lot AND fact = f.fact ORDER BY id DESC LIMIT 1), "
      "ifnull((SELECT value FROM lot_fact WHERE lot = f.lot AND fact = f.fact AND entry IN " +
      std::string(standing_text) +
      " ORDER BY id DESC LIMIT 1), '') FROM lot_fact f JOIN lot l ON l.id = f.lot WHERE f.entry = ?1 AND "
      "l.entry <> ?1";
  struct Fact {
    std::int64_t lot = 0;
    std::string mark, fact, now, then;
  };
  std::vector<Fact> facts;
  {
    Statement select(connection, sql);
    select.bind(entry);
    while (select.step()) {
      Fact& fact = facts.emplace_back();
      select.read(fact.lot, fact.mark, fact.fact, fact.now, fact.then);
    }
  }
  Statement insert(connection, "INSERT INTO lot_fact (lot, fact, value, entry) VALUES (?, ?, ?, ?)");
  for (Fact const& fact : facts) {
    if (fact.now != fact.then) insert.bind(fact.lot, fact.fact, fact.then, writing.entry()).run();
    undone.push_back({fact.mark + ", " + fact.fact, fact.now, fact.then});
  }
}

}  // namespace

std::vector<Fault> restore_versions(Writing& writing, std::int64_t entry, std::vector<Undone>& undone) {
  Connection& connection = writing.workshop().connection();
  std::vector<Fault> faults;
  for (Versioned const& what : versioned()) {
    std::vector<std::string> keys;
    {
      Statement select(connection, "SELECT DISTINCT CAST(" + what.key + " AS TEXT) FROM " + what.table +
                                       " WHERE entry = ? ORDER BY 1");
      select.bind(entry);
      keys = texts(select);
    }
    for (std::string const& key : keys)
      if (std::optional<Fault> fault = restore(writing, what, key, entry, undone))
        faults.push_back(*std::move(fault));
  }
  restore_facts(writing, entry, undone);
  return faults;
}

}  // namespace endband::db
