#include "db/workshop.h"

#include "db/connection.h"
#include "tests/db/bench.h"

#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <csignal>
#include <fstream>
#include <iterator>
#include <vector>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

FaultCode code_of(Read<Workshop> const& opened) {
  REQUIRE_FALSE(opened.has_value());
  REQUIRE(opened.error().size() == 1);
  return opened.error().front().code;
}

mode_t mode_of(std::string const& path) {
  struct stat status {};
  REQUIRE(::stat(path.c_str(), &status) == 0);
  return status.st_mode & 0777;
}

std::size_t files_in(Folder const& folder) {
  return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder.path()),
                                                std::filesystem::directory_iterator()));
}

void overwrite(std::string const& path, std::streamoff at, std::string const& bytes) {
  std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
  file.seekp(at);
  file << bytes;
}

void add_customers(Workshop& workshop, int first, int count) {
  Writing writing(workshop, info());
  for (int i = first; i < first + count; ++i)
    REQUIRE(add_customer(
        writing, {0, "customer-" + std::to_string(i), "Näme 🦦", "", "", "", "", day("2026-01-01")}));
  writing.commit();
}

// The exit status of `action` in a process of its own; a signal gives 128 + its number.
template <class Action>
int in_child(Action&& action) {
  pid_t const child = ::fork();
  if (child == 0) {
    int status = 99;
    try {
      status = action();
    } catch (std::exception const&) {
    }
    ::_exit(status);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
}

}  // namespace

TEST_CASE("a new workshop is one file that only its owner may read") {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  {
    Workshop workshop = new_workshop(path);
    CHECK(workshop.currency() == euro());
    add_customers(workshop, 0, 1);
    CHECK(mode_of(path) == 0600);
    CHECK(mode_of(path + "-wal") == 0600);
  }
  CHECK(files_in(folder) == 1);
}

TEST_CASE("a workshop is never made over another file") {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  std::ofstream(path) << "letters to customers";
  CHECK(code_of(Workshop::create(path, euro(), "A", "2026-11-25T09:10:05Z", day("2026-11-25"))) ==
        FaultCode::already_exists);
  std::string text;
  std::getline(std::ifstream(path), text);
  CHECK(text == "letters to customers");
  CHECK(files_in(folder) == 1);
}

TEST_CASE("a missing folder is named") {
  Folder folder;
  auto const made =
      Workshop::create(folder.file("no/workshop.db"), euro(), "A", "2026-11-25T09:10:05Z", day("2026-11-25"));
  CHECK(code_of(made) == FaultCode::file_missing);
  CHECK(made.error().front().where.source == folder.file("no"));
  CHECK(files_in(folder) == 0);
}

TEST_CASE("what is not a workshop is refused and not touched") {
  Folder folder;
  std::string const path = folder.file("other");
  CHECK(code_of(Workshop::open(path)) == FaultCode::file_missing);
  CHECK(code_of(Workshop::open(folder.path())) == FaultCode::not_a_workshop);
  for (std::string const& text :
       {std::string(), std::string("letters to customers"), std::string(5000, 'x')}) {
    std::ofstream(path) << text;
    CHECK(code_of(Workshop::open(path)) == FaultCode::not_a_workshop);
    std::ifstream file(path);
    CHECK(std::string(std::istreambuf_iterator<char>(file), {}) == text);
    file.close();
    CHECK(files_in(folder) == 1);
  }
}

TEST_CASE("a database of another program is refused") {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  new_workshop(path);
  overwrite(path, 68, std::string("\0\0\0\0", 4));  // application_id
  CHECK(code_of(Workshop::open(path)) == FaultCode::not_a_workshop);
}

TEST_CASE("a workshop of a newer program is refused by name") {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  new_workshop(path);
  overwrite(path, 60, std::string("\0\0\0\x63", 4));  // user_version
  auto const opened = Workshop::open(path);
  CHECK(code_of(opened) == FaultCode::newer_workshop);
  CHECK(opened.error().front().found == "version 99");
}

TEST_CASE("a file that lost the row of its currency is refused") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  workshop.connection().execute("DROP TRIGGER workshop_kept; DELETE FROM workshop;");
  CHECK(code_of(Workshop::open(workshop.path())) == FaultCode::not_a_workshop);
}

TEST_CASE("a damaged file is told as one") {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  {
    Workshop workshop = new_workshop(path);
    add_customers(workshop, 0, 500);
  }
  auto const size = std::filesystem::file_size(path);
  REQUIRE(size > 40'000);
  overwrite(path, 4096, std::string(size - 4096, '\xff'));
  CHECK(code_of(Workshop::open(path)) == FaultCode::not_a_workshop);
}

TEST_CASE("what is not committed never was") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  {
    Writing writing(workshop, info("customer add otter"));
    REQUIRE(add_customer(writing, {0, "otter", "Otter Stage", "", "", "", "", day("2026-01-01")}));
  }
  CHECK(list_customers(workshop).empty());
  CHECK(log_entries(workshop, 10).size() == 1);  // that of its making
}

TEST_CASE("every writing command leaves one entry, newest first") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  for (std::string const command : {"customer add otter", "material add laid-120"}) {
    Writing writing(workshop, info(command, "2026-11-20"));
    CHECK(writing.entry() > 1);
    writing.commit();
  }
  auto const entries = log_entries(workshop, 2);
  REQUIRE(entries.size() == 2);
  CHECK(entries[0].command == "material add laid-120");
  CHECK(entries[1].command == "customer add otter");
  CHECK(entries[0].seq == 3);
  CHECK(entries[0].on == day("2026-11-20"));
  CHECK(entries[0].at_utc == "2026-11-25T09:10:05Z");
  CHECK(log_entries(workshop, 10).back().command == "workshop new");
}

TEST_CASE("a second writer waits, and is then told that the workshop is busy") {
  Folder folder;
  Workshop first = new_workshop(folder.file("workshop.db"));
  Workshop second = Workshop::open(first.path()).value();
  Writing writing(first, info());
  try {
    Writing const late(second, info());
    FAIL("two wrote at once");
  } catch (StoreError const& e) {
    CHECK(e.code == FaultCode::workshop_busy);
  }
  writing.commit();
  Writing(second, info()).commit();  // now it can
}

TEST_CASE("a reader keeps the state it began with while another writes") {
  Folder folder;
  Workshop first = new_workshop(folder.file("workshop.db"));
  Workshop second = Workshop::open(first.path()).value();
  {
    Reading const reading(first);
    add_customers(second, 0, 3);
    CHECK(list_customers(first).empty());
  }
  CHECK(list_customers(first).size() == 3);
}

TEST_CASE("a process killed in the middle of writing leaves the last committed state") {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  {
    Workshop workshop = new_workshop(path);
    add_customers(workshop, 0, 3);
  }
  CHECK(in_child([&] {
          Workshop workshop = Workshop::open(path).value();
          Writing writing(workshop, info());
          for (int i = 10; i < 2000; ++i)
            (void)add_customer(writing, {0, "customer-" + std::to_string(i), std::string(200, 'x'), "", "",
                                         "", "", day("2026-01-01")});
          ::raise(SIGKILL);
          return 0;
        }) == 128 + SIGKILL);
  Workshop workshop = Workshop::open(path).value();
  CHECK(list_customers(workshop).size() == 3);
  CHECK(log_entries(workshop, 10).size() == 2);
  CHECK(check(workshop).empty());
}

TEST_CASE("a full disk is told, and nothing of the command stays") {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  {
    Workshop workshop = new_workshop(path);
    add_customers(workshop, 0, 3);
  }
  constexpr int file_unusable = 3;
  CHECK(in_child([&] {
          std::signal(SIGXFSZ, SIG_IGN);
          Workshop workshop = Workshop::open(path).value();
          rlimit const limit{300'000, 300'000};
          ::setrlimit(RLIMIT_FSIZE, &limit);
          try {
            add_customers(workshop, 10, 5000);
          } catch (StoreError const& e) {
            return e.code == FaultCode::file_unusable ? file_unusable : 1;
          }
          return 0;
        }) == file_unusable);
  Workshop workshop = Workshop::open(path).value();
  CHECK(list_customers(workshop).size() == 3);
  CHECK(check(workshop).empty());
}

TEST_CASE("no workshop is made on a full disk, and nothing is left of it") {
  Folder folder;
  constexpr int file_unusable = 3;
  CHECK(in_child([&] {
          std::signal(SIGXFSZ, SIG_IGN);
          rlimit const limit{20'000, 20'000};
          ::setrlimit(RLIMIT_FSIZE, &limit);
          auto const made = Workshop::create(folder.file("workshop.db"), euro(), "A", "2026-11-25T09:10:05Z",
                                             day("2026-11-25"));
          return !made && made.error().front().code == FaultCode::file_unusable ? file_unusable : 1;
        }) == file_unusable);
  CHECK(files_in(folder) == 0);
}

TEST_CASE("a file that may only be read can be read, and says so when it is written") {
  if (::geteuid() == 0) return;  // to whom nothing is forbidden
  Folder folder;
  std::string const path = folder.file("workshop.db");
  new_workshop(path);
  ::chmod(path.c_str(), 0400);
  Workshop workshop = Workshop::open(path).value();
  CHECK(list_customers(workshop).empty());
  CHECK_THROWS_AS(Writing(workshop, info()), StoreError);
}
