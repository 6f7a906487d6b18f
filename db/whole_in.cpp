#include "db/check.h"
#include "db/cutting.h"
#include "db/files.h"
#include "db/migrate.h"
#include "db/statement.h"
#include "db/whole.h"
#include "db/whole_tables.h"

#include <sqlite3.h>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <utility>

namespace endband::db {
namespace {

std::span<schema::Migration const> up_to(int schema) {
  std::span<schema::Migration const> const all = schema::migrations();
  if (schema < 1 || schema > static_cast<int>(all.size())) throw std::logic_error("no schema of this number");
  return all.first(static_cast<std::size_t>(schema));
}

std::string insert_into(WholeTable const& table) {
  std::string columns, places;
  for (WholeColumn const& column : table.columns) {
    columns += (columns.empty() ? "\"" : ", \"") + column.name + '"';
    places += places.empty() ? "?" : ", ?";
  }
  return "INSERT INTO \"" + table.name + "\" (" + columns + ") VALUES (" + places + ")";
}

std::string cell_words(Cell const& cell) {
  if (auto const* number = std::get_if<std::int64_t>(&cell)) return std::to_string(*number);
  if (auto const* text = std::get_if<std::string_view>(&cell)) return std::string(*text);
  return "null";
}

std::string_view after(std::string_view text, std::string_view start) {
  return text.starts_with(start) ? text.substr(start.size()) : text;
}

std::optional<Fault> no_day(WholeTable const& table, std::span<Cell const> cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    auto const* text = std::get_if<std::string_view>(&cells[i]);
    if (WholeColumn const& column = table.columns.at(i); text != nullptr && column.day && !read_date(*text))
      return Fault{FaultCode::out_of_range,
                   {"", 0, 0, table.name + "." + column.name},
                   table.name + "." + column.name + " " + std::string(*text),
                   "a day of the calendar, such as 2026-11-25",
                   {}};
  }
  return std::nullopt;
}

}  // namespace

struct Filling::Parts {
  std::string path;
  std::unique_ptr<Connection> connection;
  std::vector<KnownTable> known;
  std::vector<WholeTable> tables;
  std::vector<SQLite::Statement> inserts;

  std::size_t column(KnownTable const& table, std::string_view name) const {
    auto const at = std::ranges::find(table.form.columns, name, &WholeColumn::name);
    return static_cast<std::size_t>(at - table.form.columns.begin());
  }

  // "quote_rung, quote 12 and position 3": the columns named, of a row.
  std::string words_of(std::vector<std::string> const& columns, KnownTable const& table,
                       std::span<Cell const> cells) const {
    std::string text = table.form.name;
    for (std::string const& name : columns)
      text +=
          (&name == &columns.front() ? ", " : " and ") + name + " " + cell_words(cells[column(table, name)]);
    return text;
  }

  bool is_there(TableKeys::Foreign const& key, KnownTable const& table, std::span<Cell const> cells) {
    std::string where;
    for (std::string const& name : key.to) where += (where.empty() ? "\"" : " AND \"") + name + "\" = ?";
    Statement select(*connection, "SELECT 1 FROM \"" + key.table + "\" WHERE " + where);
    for (std::string const& name : key.from) {
      Cell const& cell = cells[column(table, name)];
      if (std::holds_alternative<std::nullptr_t>(cell)) return true;
      if (auto const* number = std::get_if<std::int64_t>(&cell))
        select.bind(*number);
      else
        select.bind(std::get<std::string_view>(cell));
    }
    return select.step();
  }

  Fault refused(std::size_t at, std::span<Cell const> cells, int code) {
    KnownTable const& table = known[at];
    std::string const message = connection->database.getErrorMsg();
    auto const fault = [&](FaultCode what, std::vector<std::string> const& columns, std::string expected) {
      return Fault{
          what, {"", 0, 0, table.form.name}, words_of(columns, table, cells), std::move(expected), {}};
    };
    if (code == SQLITE_CONSTRAINT_FOREIGNKEY)
      for (TableKeys::Foreign const& key : table.keys.foreign)
        if (!is_there(key, table, cells))
          return fault(FaultCode::unknown_code, key.from, "a row of " + key.table + " above it");
    if (code == SQLITE_CONSTRAINT_PRIMARYKEY || code == SQLITE_CONSTRAINT_UNIQUE ||
        code == SQLITE_CONSTRAINT_ROWID)
      return fault(FaultCode::contradiction, table.keys.primary,
                   "one row of each " + std::string(after(message, "UNIQUE constraint failed: ")));
    return fault(FaultCode::out_of_range, table.keys.primary,
                 "one that keeps: " + std::string(after(message, "CHECK constraint failed: ")));
  }
};

Filling::Filling(std::string path, int schema) : parts_(std::make_unique<Parts>()) {
  make_private_file(path);
  parts_->path = std::move(path);
  parts_->connection = std::make_unique<Connection>(parts_->path, SQLite::OPEN_READWRITE);
  Connection& connection = *parts_->connection;
  // Nobody has the file yet: one that is not finished is thrown away, one that is goes to the disk when it is
  // moved to its place.
  connection.execute("PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF;");
  apply(connection, up_to(schema));
  parts_->known = known_tables(connection);
  connection.execute("BEGIN IMMEDIATE");
  for (KnownTable const& table : parts_->known) {
    parts_->tables.push_back(table.form);
    parts_->inserts.push_back(
        guarded([&] { return SQLite::Statement(connection.database, insert_into(table.form)); }));
  }
}

Filling::~Filling() = default;

std::vector<WholeTable> const& Filling::tables() const& { return parts_->tables; }

Read<bool> Filling::add(std::size_t table, std::span<Cell const> cells) {
  if (auto fault = no_day(parts_->tables.at(table), cells)) return refuse(std::move(*fault));
  SQLite::Statement& insert = parts_->inserts.at(table);
  guarded([&] {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      int const place = static_cast<int>(i) + 1;
      if (auto const* number = std::get_if<std::int64_t>(&cells[i]))
        insert.bind(place, *number);
      else if (auto const* text = std::get_if<std::string_view>(&cells[i]))
        insert.bind(place, std::string(*text));
      else
        insert.bind(place);
    }
  });
  int const code = insert.tryExecuteStep();
  int const extended = insert.getExtendedErrorCode();
  if (code == SQLITE_DONE) {
    insert.tryReset();
    return true;
  }
  if ((code & 0xff) != SQLITE_CONSTRAINT) fail(code, parts_->connection->database.getErrorMsg());
  Fault fault = parts_->refused(table, cells, extended);
  insert.tryReset();
  return refuse(std::move(fault));
}

Read<Workshop> Filling::finish() {
  parts_->inserts.clear();
  Connection& connection = *parts_->connection;
  connection.execute("COMMIT");
  apply(connection, schema::migrations());
  {
    Statement one(connection, "SELECT count(*) FROM workshop");
    one.step();
    if (one.value<std::int64_t>() != 1)
      return refuse(
          {FaultCode::missing_key, {"", 0, 0, "workshop"}, "", "one row that says its currency", {}});
  }
  connection.execute("PRAGMA journal_mode = WAL");
  parts_->connection.reset();
  auto workshop = Workshop::open(parts_->path);
  if (!workshop) return workshop;
  if (std::vector<Fault> faults = check_with_plans(*workshop); !faults.empty())
    return tl::unexpected(std::move(faults));
  return workshop;
}

}  // namespace endband::db
