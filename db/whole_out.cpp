#include "db/whole.h"
#include "db/whole_tables.h"

#include <SQLiteCpp/Column.h>
#include <fmt/format.h>
#include <sqlite3.h>

namespace endband::db {
namespace {

std::string listed(std::vector<std::string> const& names) {
  std::string text;
  for (std::string const& name : names) text += (text.empty() ? "\"" : ", \"") + name + '"';
  return text;
}

std::string select_of(KnownTable const& table) {
  std::vector<std::string> columns;
  for (WholeColumn const& column : table.form.columns) columns.push_back(column.name);
  return "SELECT " + listed(columns) + " FROM \"" + table.form.name + "\" ORDER BY " +
         listed(table.keys.primary);
}

Cell cell_of(SQLite::Column const& value) {
  if (value.isNull()) return nullptr;
  if (value.isInteger()) return std::int64_t{value.getInt64()};
  char const* const text = value.getText();
  return std::string_view(text, static_cast<std::size_t>(value.getBytes()));
}

}  // namespace

void each_row(Workshop& workshop,
              std::function<void(WholeTable const& table, std::span<Cell const> cells)> const& take) {
  Connection& connection = workshop.connection();
  std::vector<Cell> cells;
  for (KnownTable const& table : known_tables(connection)) {
    auto select = guarded([&] { return SQLite::Statement(connection.database, select_of(table)); });
    cells.resize(table.form.columns.size());
    while (guarded([&] { return select.executeStep(); })) {
      for (std::size_t i = 0; i < cells.size(); ++i)
        cells[i] = cell_of(select.getColumn(static_cast<int>(i)));
      take(table.form, cells);
    }
  }
}

}  // namespace endband::db
