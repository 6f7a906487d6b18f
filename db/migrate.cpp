#include "db/migrate.h"

#include "db/files.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Transaction.h>
#include <sqlite3.h>

#include <filesystem>

namespace endband::db {

int pragma_number(Connection& connection, std::string const& pragma) {
  return guarded([&] { return connection.database.execAndGet("PRAGMA " + pragma).getInt(); });
}

std::string backup_path(std::string const& path, int version) {
  std::string const stem = path + ".version-" + std::to_string(version);
  std::string name = stem + ".backup";
  for (int i = 2; std::filesystem::exists(name) || left_beside(name); ++i)
    name = stem + "." + std::to_string(i) + ".backup";
  return name;
}

void copy_database(Connection& from, std::string const& to) {
  TemporaryFile file(to);
  {
    Connection target(file.path(), SQLite::OPEN_READWRITE);
    guarded([&] {
      SQLite::Backup backup(target.database, from.database);
      if (int const code = backup.executeStep(); code != SQLITE_DONE) fail(code, "cannot copy " + from.path);
    });
    target.execute("PRAGMA journal_mode = WAL");  // what was read into memory had none
  }
  file.move_to(to);
}

void migrate(Connection& connection, std::span<schema::Migration const> migrations) {
  int const had = pragma_number(connection, "user_version");
  if (migrations.empty() || had >= migrations.back().version) return;
  if (had > 0) copy_database(connection, backup_path(connection.path, had));
  apply(connection, migrations);
}

void apply(Connection& connection, std::span<schema::Migration const> migrations) {
  for (schema::Migration const& migration : migrations) {
    guarded([&] {
      SQLite::Transaction transaction(connection.database, SQLite::TransactionBehavior::IMMEDIATE);
      if (migration.version <= pragma_number(connection, "user_version"))
        return;  // rolls back an empty transaction
      connection.execute(std::string(migration.sql));
      if (pragma_number(connection, "user_version") != migration.version)
        throw std::logic_error("a migration must set its own user_version: " + std::string(migration.name));
      transaction.commit();
    });
  }
}

}  // namespace endband::db
