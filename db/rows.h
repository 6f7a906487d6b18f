// Which columns hold which fields: one list for each kind of row, walked by both the writer and the reader,
// so that the two cannot differ.
#pragma once

#include "db/statement.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace endband::db {

// Row<T>: `table`, `columns` in order, and `fields(io, row)`, which hands every field to io in that order.
template <class T>
struct Row;

struct Bind {
  Sink& sink;
  template <class... T>
  void operator()(T const&... fields) const {
    sink.take(fields...);
  }
};
struct Take {
  Statement& statement;
  template <class... T>
  void operator()(T&&... fields) const {
    statement.read(std::forward<T>(fields)...);
  }
};

// "INSERT INTO table (key, key, columns) VALUES (?, ?, ...)"
inline std::string insert_text(std::string_view table, std::string_view keys, std::string_view columns) {
  std::string const names = std::string(keys) + ", " + std::string(columns);
  std::string places = "?";
  for (auto n = std::count(names.begin(), names.end(), ','); n > 0; --n) places += ", ?";
  return "INSERT INTO " + std::string(table) + " (" + names + ") VALUES (" + places + ")";
}

// "v.name, v.kind" for "name, kind"
inline std::string columns_of(std::string_view alias, std::string_view columns) {
  std::string result = std::string(alias) + ".";
  for (char c : columns) {
    result += c;
    if (c == ' ') result += std::string(alias) + ".";
  }
  return result;
}

}  // namespace endband::db
