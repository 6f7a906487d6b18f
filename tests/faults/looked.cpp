#include "tests/faults/looked.h"

#include "db/connection.h"

#include <SQLiteCpp/Column.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <stdexcept>
#include <string_view>
#include <system_error>
#include <vector>

namespace endband::faults {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> tables_of(SQLite::Database& database) {
  SQLite::Statement select(database, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  std::vector<std::string> names;
  while (select.executeStep()) names.push_back(select.getColumn(0).getString());
  return names;
}

void dump_table(SQLite::Database& database, std::string const& table, std::string& text) {
  std::string columns, order;
  SQLite::Statement info(database, "SELECT name FROM pragma_table_info(?)");
  info.bind(1, table);
  for (int i = 1; info.executeStep(); ++i) {
    columns += (i > 1 ? " || ',' || quote(" : "quote(") + info.getColumn(0).getString() + ")";
    order += (i > 1 ? ", " : "") + std::to_string(i);
  }
  SQLite::Statement rows(database, "SELECT " + columns + " AS line FROM " + table + " ORDER BY line");
  while (rows.executeStep()) text += table + ": " + rows.getColumn(0).getString() + "\n";
}

std::string bytes_of(std::string const& path) {
  std::error_code missing;
  std::uintmax_t const size = fs::file_size(path, missing);
  if (missing) return "";
  std::string bytes(size, '\0');
  std::ifstream(path, std::ios::binary).read(bytes.data(), static_cast<std::streamsize>(size));
  return bytes;
}

std::size_t hash_of_files(std::string const& path) {
  std::string const bytes = bytes_of(path) + "\n-wal\n" + bytes_of(path + "-wal");
  return std::hash<std::string_view>{}(bytes);
}

void require_whole_pages(db::Workshop& workshop) {
  SQLite::Statement check(workshop.connection().database, "PRAGMA integrity_check");
  check.executeStep();
  if (std::string const told = check.getColumn(0).getString(); told != "ok") throw std::runtime_error(told);
}

}  // namespace

std::string dump(db::Workshop& workshop) {
  std::string text;
  SQLite::Database& database = workshop.connection().database;
  for (std::string const& table : tables_of(database)) dump_table(database, table, text);
  return text;
}

std::string const& Looked::at(std::string const& path) {
  auto [found, fresh] = seen_.try_emplace(hash_of_files(path));
  if (fresh) found->second = look(path);
  return found->second;
}

std::string Looked::look(std::string const& path) {
  if (!fs::exists(path)) return "";
  auto workshop = db::Workshop::open(path);
  if (!workshop) throw std::runtime_error("cannot be opened: " + workshop.error().front().found);
  require_whole_pages(*workshop);
  std::string rows = dump(*workshop);
  if (sound_.insert(rows).second)
    for (Fault const& fault : db::check(*workshop))
      throw std::runtime_error(fault.where.field + ": " + fault.found);
  return rows;
}

}  // namespace endband::faults
