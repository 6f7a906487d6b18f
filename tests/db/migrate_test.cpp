#include "db/migrate.h"

#include "tests/db/bench.h"

#include <SQLiteCpp/Column.h>
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <array>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;
using schema::Migration;

namespace {

constexpr Migration first{1, "0001_first", "CREATE TABLE a (x INTEGER) STRICT; PRAGMA user_version = 1;"};
constexpr Migration second{
    2, "0002_second",
    "ALTER TABLE a ADD COLUMN y INTEGER; INSERT INTO a VALUES (1, 2); PRAGMA user_version = 2;"};
constexpr Migration broken{3, "0003_broken", "CREATE TABLE b (x INTEGER) STRICT; INSERT INTO c VALUES (1);"};

struct Made {
  Folder folder;
  std::string path = folder.file("workshop.db");
  Connection connection{path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE};
  int version() { return pragma_number(connection, "user_version"); }
};

int rows(std::string const& path) {
  Connection connection(path, SQLite::OPEN_READWRITE);
  return connection.database.execAndGet("SELECT count(*) FROM a").getInt();
}

}  // namespace

TEST_CASE("migrations are numbered without a gap, and the last one is the program's version") {
  int version = 0;
  for (Migration const& migration : schema::migrations()) {
    CHECK(migration.version == ++version);
    CHECK(migration.sql.find("PRAGMA user_version = " + std::to_string(version) + ";") !=
          std::string_view::npos);
  }
  CHECK(version == schema_version);
}

TEST_CASE("a new file needs no backup, and a second run changes nothing") {
  Made bench;
  migrate(bench.connection, std::array{first, second});
  CHECK(bench.version() == 2);
  migrate(bench.connection, std::array{first, second});
  CHECK(rows(bench.path) == 1);
  CHECK_FALSE(std::filesystem::exists(bench.path + ".version-1.backup"));
}

TEST_CASE("an older file is copied beside itself before it is changed") {
  Made bench;
  migrate(bench.connection, std::array{first});
  bench.connection.execute("INSERT INTO a VALUES (7)");
  std::string const backup = backup_path(bench.path, 1);
  migrate(bench.connection, std::array{first, second});
  CHECK(bench.version() == 2);
  CHECK(rows(bench.path) == 2);
  CHECK(rows(backup) == 1);
  Connection old(backup, SQLite::OPEN_READWRITE);
  CHECK(pragma_number(old, "user_version") == 1);
  struct stat status {};
  REQUIRE(::stat(backup.c_str(), &status) == 0);
  CHECK((status.st_mode & 0777) == 0600);
}

TEST_CASE("a backup never replaces an earlier one") {
  Made bench;
  std::string const first_backup = backup_path(bench.path, 1);
  migrate(bench.connection, std::array{first});
  copy_database(bench.connection, first_backup);
  CHECK(backup_path(bench.path, 1) != first_backup);
  CHECK_THROWS_AS(copy_database(bench.connection, first_backup), StoreError);
}

TEST_CASE("a migration that fails leaves the file as the one before it did") {
  Made bench;
  CHECK_THROWS(migrate(bench.connection, std::array{first, second, broken}));
  CHECK(bench.version() == 2);
  CHECK(rows(bench.path) == 1);
  CHECK_THROWS(bench.connection.execute("SELECT * FROM b"));
  migrate(bench.connection, std::array{first, second});  // no transaction was left open
}
