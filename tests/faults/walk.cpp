#include "tests/faults/walk.h"

#include "db/connection.h"
#include "tests/faults/failing_disk.h"

#include <SQLiteCpp/Column.h>
#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <system_error>
#include <utility>
#include <vector>

namespace endband::faults {
namespace {

namespace fs = std::filesystem;

// How a process ended that did the operation on a failing disk.
enum Ending : int { done = 0, done_in_spite = 1, told = 3, cut_off = ended_by_power_cut, wrong = 99 };

int in_child(std::function<int()> const& action) {
  pid_t const child = ::fork();
  if (child == 0) {
    int status = wrong;
    try {
      status = action();
    } catch (std::exception const& e) {
      std::fprintf(stderr, "%s\n", e.what());
    }
    ::_exit(status);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : static_cast<int>(wrong);
}

int run(std::string const& path, std::function<void(db::Workshop&)> const& operation) {
  try {
    auto workshop = db::Workshop::open(path);
    if (!workshop) return told;
    operation(*workshop);
  } catch (db::StoreError const&) {
    return told;
  }
  return has_failed() ? done_in_spite : done;
}

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

// What a workshop stands at, once it is found sound. Files of the same bytes are looked at once: a disk that
// failed before anything reached it is the same disk.
class Looked {
 public:
  std::string const& at(std::string const& path) {
    auto [found, fresh] = seen_.try_emplace({bytes_of(path), bytes_of(path + "-wal")});
    if (fresh) found->second = look(path);
    return found->second;
  }

 private:
  static std::string look(std::string const& path) {
    auto workshop = db::Workshop::open(path);
    REQUIRE(workshop.has_value());
    std::vector<Fault> const faults = db::check(*workshop);
    for (Fault const& fault : faults) FAIL_CHECK(fault.where.field << ": " << fault.found);
    return dump(*workshop);
  }

  std::map<std::pair<std::string, std::string>, std::string> seen_;
};

}  // namespace

std::string dump(db::Workshop& workshop) {
  std::string text;
  SQLite::Database& database = workshop.connection().database;
  for (std::string const& table : tables_of(database)) dump_table(database, table, text);
  return text;
}

DiskWalk::DiskWalk(std::function<void(db::Workshop&)> const& prepare) {
  db::Workshop workshop = db::test::new_workshop(base_);
  prepare(workshop);
}

std::string DiskWalk::copy() const {
  std::string const path = folder_.file("copy.db");
  for (char const* suffix : {"", "-wal", "-shm", "-journal"}) fs::remove(path + suffix);
  fs::copy_file(base_, path);
  return path;
}

int DiskWalk::over(std::function<void(db::Workshop&)> const& operation) {
  Looked looked;
  std::string const before = looked.at(copy());
  std::string const clean = copy();
  REQUIRE(in_child([&] { return run(clean, operation); }) == done);
  std::string const after = looked.at(clean);
  REQUIRE(before != after);
  int most = 0;
  for (auto const& [failure, name] : std::map<Failure, std::string>{{Failure::full, "full"},
                                                                    {Failure::io_error, "input/output error"},
                                                                    {Failure::dead_disk, "dead disk"},
                                                                    {Failure::power_cut, "power cut"},
                                                                    {Failure::torn_writes, "torn writes"}}) {
    bool saw_before = false, saw_after = false;
    for (int step = 1;; ++step) {
      CAPTURE(name);
      CAPTURE(step);
      std::string const path = copy();
      int const ending = in_child([&] {
        install();
        fail_at(step, failure);
        return run(path, operation);
      });
      if (ending == done) break;
      REQUIRE(ending != wrong);
      std::string const& now = looked.at(path);
      CHECK((now == before || now == after));
      if (ending == done_in_spite) CHECK(now == after);  // what was told as done is done
      saw_before = saw_before || now == before;
      saw_after = saw_after || now == after;
      most = std::max(most, step);
      REQUIRE(step < 5000);
    }
    CAPTURE(name);
    CHECK(saw_before);
    if (failure != Failure::full) CHECK(saw_after);
  }
  return most;
}

}  // namespace endband::faults
