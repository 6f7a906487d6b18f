// Opening a connection as a workshop needs it, and the table of SQLite's errors.
#include "db/connection.h"

#include <sqlite3.h>

#include <stdexcept>
#include <utility>

namespace endband::db {
namespace {

constexpr int busy_timeout_ms = 2000;

// A file may have been written by anyone: no double-quoted strings, no functions called from its schema, no
// writing to the schema tables.
void harden(sqlite3* handle) {
  for (auto [option, value] :
       {std::pair{SQLITE_DBCONFIG_DQS_DML, 0}, std::pair{SQLITE_DBCONFIG_DQS_DDL, 0},
        std::pair{SQLITE_DBCONFIG_DEFENSIVE, 1}, std::pair{SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
        std::pair{SQLITE_DBCONFIG_ENABLE_FKEY, 1}})
    if (int const code = sqlite3_db_config(handle, option, value, nullptr); code != SQLITE_OK)
      fail(code, "sqlite3_db_config");
}

// RFC 3986: what is not unreserved is written by its number.
std::string uri_text(std::string_view path) {
  constexpr std::string_view plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/";
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string text;
  for (char const c : path) {
    auto const byte = static_cast<unsigned char>(c);
    if (plain.find(c) != std::string_view::npos)
      text += c;
    else
      (text += '%').append({digits[byte >> 4U], digits[byte & 15U]});
  }
  return text;
}

// SQLite reads "file:..." as a URI, ":memory:" and "" as no file at all: with a folder before it each is a
// name.
std::string name_for_sqlite(std::string const& path, Medium medium) {
  if (medium == Medium::memory) return ":memory:";
  std::string const plain = path.starts_with('/') ? path : "./" + path;
  return medium == Medium::unchanging ? "file:" + uri_text(plain) + "?immutable=1" : plain;
}

}  // namespace

Connection::Connection(std::string file, int flags, Medium medium)
    : path(std::move(file)), database(guarded([&] {
        return SQLite::Database(name_for_sqlite(path, medium),
                                medium == Medium::unchanging ? flags | SQLite::OPEN_URI : flags,
                                busy_timeout_ms);
      })) {
  harden(database.getHandle());
  if (medium == Medium::file_alone) execute("PRAGMA locking_mode = EXCLUSIVE");  // before anything is read
  // REPLACE deletes rows without asking the triggers that forbid it, unless triggers are recursive.
  execute("PRAGMA recursive_triggers = ON; PRAGMA synchronous = FULL;");
}

void Connection::execute(std::string const& sql) {
  guarded([&] { database.exec(sql); });
}

void fail(int sqlite_code, std::string const& message) {
  switch (sqlite_code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED: throw StoreError(FaultCode::workshop_busy, message);
    case SQLITE_NOTADB:
    case SQLITE_CORRUPT: throw StoreError(FaultCode::not_a_workshop, message);
    case SQLITE_FULL: throw StoreError(FaultCode::file_unusable, "the disk is full");
    case SQLITE_READONLY:
      throw StoreError(
          FaultCode::file_unusable,
          "it can be read, but not written: the file, its folder or the disk is write-protected");
    case SQLITE_IOERR:
      throw StoreError(FaultCode::file_unusable, "the disk has no room, or fails (" + message + ")");
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH:
    case SQLITE_NOLFS:
    case SQLITE_PROTOCOL:
    case SQLITE_NOMEM: throw StoreError(FaultCode::file_unusable, message);
    default:
      if (message == "integer overflow") throw Overflow(message);  // of a sum()
      throw std::logic_error("SQLite " + std::to_string(sqlite_code) + ": " + message);
  }
}

}  // namespace endband::db
