// One SQLite file is the workshop. It is created, opened, migrated and checked here; every writing command is
// one Writing: BEGIN IMMEDIATE, one entry in the log, rows that carry it, COMMIT, or nothing at all.
#pragma once

#include "engine/fault/fault.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

struct Connection;  // SQLiteCpp stays out of the headers

inline constexpr int schema_version = 7;

class Workshop {
 public:
  // Creates the file with mode 0600 and the whole schema, or nothing. Faults: already_exists, file_unusable.
  static Read<Workshop> create(std::string path, Currency currency, std::string_view name,
                               std::string_view at_utc, Date on);
  // Faults: file_missing, not_a_workshop, newer_workshop, file_unusable, workshop_busy. An older file is
  // backed up beside itself and migrated.
  static Read<Workshop> open(std::string path);
  // Opens it only to look: nothing is migrated, and no file is made beside it. Nullopt where there is none,
  // or none of this very schema. Throws StoreError, as any reading.
  static std::optional<Workshop> look(std::string const& path);
  Workshop(Workshop&&) noexcept;
  Workshop& operator=(Workshop&&) noexcept;
  ~Workshop();

  Currency currency() const;
  std::string const& path() const;
  Connection& connection() { return *connection_; }

 private:
  explicit Workshop(std::unique_ptr<Connection> connection);
  std::unique_ptr<Connection> connection_;
};

// All reads of a command see one state of the file.
class Reading {
 public:
  explicit Reading(Workshop& workshop);
  ~Reading();
  Reading(Reading const&) = delete;
  Reading& operator=(Reading const&) = delete;

 private:
  Workshop& workshop_;
};

struct EntryInfo {
  std::int64_t seq = 0;
  std::string at_utc;  // "2026-11-25T09:10:05Z"
  Date on;
  std::string command;      // as typed, without the workshop's path
  std::string program;      // "endband 0.1.0"
  std::int64_t undoes = 0;  // the entry that this one takes back; 0: none
};

// Rolls back unless committed. Construction throws Busy when another process writes for longer than the
// timeout.
class Writing {
 public:
  Writing(Workshop& workshop, EntryInfo const& info);
  ~Writing();
  Writing(Writing const&) = delete;
  Writing& operator=(Writing const&) = delete;
  std::int64_t entry() const { return entry_; }
  Workshop& workshop() { return workshop_; }
  void commit();

 private:
  Workshop& workshop_;
  std::int64_t entry_ = 0;
  bool open_ = true;
};

// Thrown by any statement: the file is busy, full, read-only or damaged. Told as its fault where the command
// ends.
struct StoreError : std::runtime_error {
  StoreError(FaultCode c, std::string const& what) : std::runtime_error(what), code(c) {}
  FaultCode code;
};

std::vector<EntryInfo> log_entries(Workshop& workshop, int last);  // newest first

// Every stored invariant, each fault naming table, row and what is wrong: SQLite's own integrity and foreign
// keys, money identities of every quote, replay of every quote, one home for each cost, versions in order.
std::vector<Fault> check(Workshop& workshop);

}  // namespace endband::db
