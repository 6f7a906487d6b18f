// Creating, opening, reading and writing of the workshop file.
#include "db/workshop.h"

#include "db/connection.h"
#include "db/files.h"
#include "db/migrate.h"
#include "db/opening.h"
#include "db/settings.h"
#include "db/statement.h"

#include <SQLiteCpp/Column.h>

#include <filesystem>
#include <utility>

namespace endband::db {
namespace {

namespace fs = std::filesystem;

Fault file_fault(FaultCode code, std::string const& path, std::string found, std::string expected) {
  return {code, {path, 0, 0, ""}, std::move(found), std::move(expected), {}};
}

tl::unexpected<std::vector<Fault>> refuse_file(StoreError const& e, std::string const& path) {
  return refuse(file_fault(e.code, path, e.what(), ""));
}

// Reads nothing but the two numbers that say what the file is, so that a stranger's file is never touched.
std::optional<Fault> not_ours(Connection& connection) {
  int const id = pragma_number(connection, "application_id");
  int const version = pragma_number(connection, "user_version");
  if (id != schema::application_id || version < 1)
    return file_fault(FaultCode::not_a_workshop, connection.path, "a file of another program",
                      "a workshop file");
  if (version > schema_version)
    return file_fault(FaultCode::newer_workshop, connection.path, "version " + std::to_string(version),
                      "version " + std::to_string(schema_version) + " or older");
  return std::nullopt;
}

// Bringing it up to date is writing.
std::optional<Fault> too_old_to_read(Connection& connection) {
  int const version = pragma_number(connection, "user_version");
  if (version >= schema_version) return std::nullopt;
  try {
    connection.execute("BEGIN IMMEDIATE; ROLLBACK;");
  } catch (StoreError const& e) {
    if (e.code != FaultCode::file_unusable) throw;
    return file_fault(e.code, connection.path,
                      "is of version " + std::to_string(version) +
                          ", and would have to be brought up to date, but " + e.what(),
                      "a copy of it in a folder of yours");
  }
  return std::nullopt;
}

void read_currency_of(Connection& connection) {
  Statement workshop(connection, "SELECT currency FROM workshop");
  if (!workshop.step()) throw StoreError(FaultCode::not_a_workshop, "no row in: workshop");
  workshop.read(connection.currency);
}

std::int64_t write_entry(Connection& connection, EntryInfo const& info) {
  Statement entry(connection,
                  "INSERT INTO entry (at_utc, on_date, command, program, undoes) VALUES (?, ?, ?, ?, ?)");
  return entry.bind(info.at_utc, info.on, info.command, info.program, ZeroIsNull{info.undoes}).insert();
}

// The first entry of a workshop comes before there is one to open a Writing on.
void found_workshop(std::string const& path, Currency currency, std::string_view name,
                    EntryInfo const& info) {
  Connection connection(path, SQLite::OPEN_READWRITE);
  connection.execute("PRAGMA journal_mode = WAL");
  migrate(connection, schema::migrations());
  connection.execute("BEGIN IMMEDIATE");
  std::int64_t const entry = write_entry(connection, info);
  Statement(connection, "INSERT INTO workshop (id, currency, entry) VALUES (1, ?, ?)")
      .bind(currency, entry)
      .run();
  Statement(connection,
            "INSERT INTO setting_version (name, value, valid_from, entry) VALUES ('maker.name', ?, ?, ?)")
      .bind(name, info.on, entry)
      .run();
  connection.execute("COMMIT");
}

}  // namespace

Workshop::Workshop(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Workshop::Workshop(Workshop&&) noexcept = default;
Workshop& Workshop::operator=(Workshop&&) noexcept = default;
Workshop::~Workshop() = default;
Currency Workshop::currency() const { return connection_->currency; }
std::string const& Workshop::path() const { return connection_->path; }

Read<Workshop> Workshop::create(std::string path, Currency currency, std::string_view name,
                                std::string_view at_utc, Date on) try {
  if (fs::exists(path))
    return refuse(file_fault(FaultCode::already_exists, path, "a file of this name", "a name that is free"));
  fs::path const folder = fs::path(path).parent_path();
  if (!folder.empty() && !fs::is_directory(folder))
    return refuse(
        file_fault(FaultCode::file_missing, folder.string(), "no such folder", "a folder that exists"));
  if (auto left = left_beside(path)) return refuse(*std::move(left));
  TemporaryFile file(path);
  found_workshop(file.path(), currency, name,
                 {0, std::string(at_utc), on, "workshop new", "endband " ENDBAND_VERSION, 0});
  file.move_to(path);
  return open(std::move(path));
} catch (StoreError const& e) {
  return refuse_file(e, path);
} catch (fs::filesystem_error const& e) {
  return refuse(file_fault(FaultCode::file_unusable, path, e.code().message(), ""));
}

Read<Workshop> Workshop::open(std::string path) try {
  if (!fs::exists(path))
    return refuse(file_fault(FaultCode::file_missing, path, "no such file", "a workshop file"));
  if (fs::is_directory(path))
    return refuse(file_fault(FaultCode::not_a_workshop, path, "a folder", "a workshop file"));
  // SQLite takes an empty file for a new one, and throws away the log beside it.
  if (std::error_code other; fs::file_size(path, other) == 0 && !other)
    return refuse(file_fault(FaultCode::not_a_workshop, path, "it is empty", "a workshop file"));
  auto connection = open_where_it_lies(path);
  if (std::optional<Fault> fault = not_ours(*connection)) return refuse(*std::move(fault));
  if (std::optional<Fault> fault = too_old_to_read(*connection)) return refuse(*std::move(fault));
  migrate(*connection, schema::migrations());
  read_currency_of(*connection);
  return Workshop(std::move(connection));
} catch (StoreError const& e) {
  return refuse_file(e, path);
} catch (fs::filesystem_error const& e) {
  return refuse(file_fault(FaultCode::file_unusable, path, e.code().message(), ""));
}

// Where nobody writes there is no log beside the file, and reading would make one, and leave it.
std::optional<Workshop> Workshop::look(std::string const& path) {
  if (std::error_code error; !fs::is_regular_file(path, error)) return std::nullopt;
  bool const written_to = fs::exists(path + "-wal");
  auto connection = std::make_unique<Connection>(path, SQLite::OPEN_READONLY,
                                                 written_to ? Medium::file : Medium::unchanging);
  bool const ours = pragma_number(*connection, "application_id") == schema::application_id;
  if (!ours || pragma_number(*connection, "user_version") != schema_version) return std::nullopt;
  read_currency_of(*connection);
  return Workshop(std::move(connection));
}

Reading::Reading(Workshop& workshop) : workshop_(workshop) {
  // SQLite takes its snapshot at the first read, not at BEGIN.
  workshop_.connection().execute("BEGIN DEFERRED; SELECT 1 FROM workshop;");
}

Reading::~Reading() {
  try {
    workshop_.connection().execute("COMMIT");
  } catch (std::exception const&) {  // nothing was written; closing the file ends what is left
  }
}

Writing::Writing(Workshop& workshop, EntryInfo const& info) : workshop_(workshop) {
  workshop_.connection().execute("BEGIN IMMEDIATE");
  try {
    entry_ = write_entry(workshop_.connection(), info);
  } catch (...) {
    workshop_.connection().database.tryExec("ROLLBACK");
    throw;
  }
}

Writing::~Writing() {
  // SQLite itself rolls back on a full disk, and then says that there is no transaction.
  if (open_) workshop_.connection().database.tryExec("ROLLBACK");
}

void Writing::commit() {
  workshop_.connection().execute("COMMIT");
  open_ = false;
}

std::vector<EntryInfo> log_entries(Workshop& workshop, int last) {
  Statement select(
      workshop.connection(),
      "SELECT seq, at_utc, on_date, command, program, undoes FROM entry ORDER BY seq DESC LIMIT ?");
  select.bind(last);
  std::vector<EntryInfo> entries;
  while (select.step()) {
    EntryInfo& entry = entries.emplace_back();
    select.read(entry.seq, entry.at_utc, entry.on, entry.command, entry.program, ZeroIsNull{entry.undoes});
  }
  return entries;
}

}  // namespace endband::db
