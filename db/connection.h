// One open workshop file, inside db/ only: the SQLite connection, its prepared statements, and how SQLite's
// errors become ours.
#pragma once

#include "db/workshop.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>

namespace endband::db {

struct Prepared {
  SQLite::Statement statement;
  bool in_use = false;
};

struct TextHash {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
};

enum class Medium : std::uint8_t {
  file,
  file_alone,  // nobody else may read it meanwhile: the index of its log is in memory, and takes no room
  unchanging,  // as a file that nobody writes: no file is made beside it, and none is looked for
  memory,      // empty, and gone with the connection
};

struct Connection {
  std::string path;
  SQLite::Database database;
  Currency currency;
  // Kept prepared for the life of the connection: preparing costs four times what a row does.
  std::unordered_map<std::string, std::unique_ptr<Prepared>, TextHash, std::equal_to<>> statements;

  // `file` is a path and nothing else, whatever it looks like; `flags` are SQLite's of opening. Sets what
  // every connection must have; of a file SQLite reads the schema for it.
  Connection(std::string file, int flags, Medium medium = Medium::file);
  void execute(std::string const& sql);  // one or more statements, without values
};

// What SQLite reports is the file's or another process's doing, or a bug of ours: StoreError or
// std::logic_error.
[[noreturn]] void fail(int sqlite_code, std::string const& message);

// Runs `action` with SQLite's exceptions turned into ours.
template <class Action>
decltype(auto) guarded(Action&& action) {
  try {
    return action();
  } catch (SQLite::Exception const& e) {
    fail(e.getErrorCode(), e.what());
  }
}

}  // namespace endband::db
