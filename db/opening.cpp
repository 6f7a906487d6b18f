#include "db/opening.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>

namespace endband::db {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void unusable(int error) {
  throw StoreError(FaultCode::file_unusable, std::generic_category().message(error));
}

class Descriptor {
 public:
  explicit Descriptor(std::string const& path) : number_(::open(path.c_str(), O_RDONLY | O_CLOEXEC)) {
    if (number_ < 0) unusable(errno);
  }
  ~Descriptor() { ::close(number_); }
  Descriptor(Descriptor const&) = delete;
  Descriptor& operator=(Descriptor const&) = delete;

  struct stat seen() const {
    struct stat what {};
    if (::fstat(number_, &what) != 0) unusable(errno);
    return what;
  }
  std::string all(std::size_t size) const {
    std::string bytes(size, '\0');
    std::size_t have = 0;
    while (have < size) {
      ssize_t const got = ::pread(number_, bytes.data() + have, size - have, static_cast<off_t>(have));
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) unusable(errno);
      if (got == 0) break;
      have += static_cast<std::size_t>(got);
    }
    bytes.resize(have);
    return bytes;
  }

 private:
  int number_;
};

bool same_time(timespec const& a, timespec const& b) {
  return a.tv_sec == b.tv_sec && a.tv_nsec == b.tv_nsec;
}

bool unchanged(struct stat const& a, struct stat const& b) {
  return a.st_size == b.st_size && same_time(a.st_mtim, b.st_mtim) && same_time(a.st_ctim, b.st_ctim);
}

bool has_content(std::string const& path) {
  std::error_code missing;
  return fs::file_size(path, missing) > 0 && !missing;
}

// Without what stands in SQLite's log the file is old, or torn.
void refuse_unfolded(std::string const& file) {
  for (char const* suffix : {"-wal", "-journal"})
    if (has_content(file + suffix))
      throw StoreError(FaultCode::file_unusable,
                       "its last entries are in " + fs::path(file + suffix).filename().string() +
                           ", which can only be read where both may be written: copy both files there");
}

// Others may be able to write it: what was read holds where nothing changed meanwhile.
std::string bytes_of_one_moment(std::string const& file) {
  constexpr int most_tries = 20;
  Descriptor const descriptor(file);
  for (int i = 0; i < most_tries; ++i) {
    struct stat const before = descriptor.seen();
    refuse_unfolded(file);
    std::string bytes = descriptor.all(static_cast<std::size_t>(before.st_size));
    refuse_unfolded(file);
    if (unchanged(before, descriptor.seen())) return bytes;
  }
  throw StoreError(FaultCode::workshop_busy, "it changes while it is read");
}

// In memory there is no log: the two bytes that ask for one ask for none.
void ask_for_no_log(std::string& bytes) {
  constexpr std::size_t write_version = 18, read_version = 19;
  constexpr char with_log = 2, without = 1;
  if (bytes.size() <= read_version || bytes[write_version] != with_log) return;
  bytes[write_version] = bytes[read_version] = without;
}

std::unique_ptr<Connection> as_of_one_moment(std::string const& path, std::string const& file) {
  std::string bytes = bytes_of_one_moment(file);
  ask_for_no_log(bytes);
  auto connection = std::make_unique<Connection>(path, SQLite::OPEN_READWRITE, Medium::memory);
  auto* const copy = static_cast<unsigned char*>(sqlite3_malloc64(bytes.size()));
  if (copy == nullptr) throw StoreError(FaultCode::file_unusable, "too large for the memory");
  bytes.copy(reinterpret_cast<char*>(copy), bytes.size());
  auto const size = static_cast<sqlite3_int64>(bytes.size());
  int const code = sqlite3_deserialize(connection->database.getHandle(), "main", copy, size, size,
                                       SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_READONLY);
  if (code != SQLITE_OK) fail(code, sqlite3_errmsg(connection->database.getHandle()));
  return connection;
}

// SQLite reads through a log and its index beside the file. Where it may make neither it reads through those
// of a user who may, while they are there.
std::unique_ptr<Connection> try_to_read(std::string const& path, std::string const& file) {
  if (!fs::exists(file + "-wal") || !fs::exists(file + "-shm")) return as_of_one_moment(path, file);
  return std::make_unique<Connection>(path, SQLite::OPEN_READONLY);
}

// That user's program may begin or end between two looks at what is there.
std::unique_ptr<Connection> open_to_read(std::string const& path, std::string const& file) {
  constexpr int most_tries = 10;
  for (int i = 1;; ++i) {
    try {
      return try_to_read(path, file);
    } catch (StoreError const&) {
      if (i == most_tries) throw;
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
}

}  // namespace

std::unique_ptr<Connection> open_where_it_lies(std::string const& path) {
  std::string const file = fs::canonical(path).string();
  bool const may_have_log = ::access(fs::path(file).parent_path().c_str(), W_OK | X_OK) == 0;
  if (!may_have_log) return open_to_read(path, file);
  try {
    return std::make_unique<Connection>(path, SQLite::OPEN_READWRITE);
  } catch (StoreError const& e) {
    if (e.code != FaultCode::file_unusable) throw;
  }
  // A full disk has no room for the index of the log. Whoever comes meanwhile waits, as for a writer.
  return std::make_unique<Connection>(path, SQLite::OPEN_READWRITE, Medium::file_alone);
}

}  // namespace endband::db
