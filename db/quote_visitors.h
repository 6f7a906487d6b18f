// What is done with each part of a frozen quote, for the .cpp files that store one: saved, loaded, sealed. A
// part is one row a quote, a list of rows by position, or rows beside those of another list.
#pragma once

#include "db/frozen.h"
#include "db/quote_rows.h"
#include "db/seal.h"
#include "db/statement.h"

#include <stdexcept>
#include <string>
#include <vector>

namespace endband::db {

struct Saver {
  Connection& connection;
  std::int64_t quote;

  template <class T>
  void one(auto const& row) {
    static std::string const sql = insert_text(Row<T>::table, "quote", Row<T>::columns);
    Statement insert(connection, sql);
    insert.bind(quote);
    Row<T>::fields(Bind{insert}, row);
    insert.run();
  }
  template <class List>
  void list(List const& rows) {
    beside<typename List::value_type>(rows);
  }
  template <class T>
  void beside(auto const& rows) {
    static std::string const sql = insert_text(Row<T>::table, "quote, position", Row<T>::columns);
    Statement insert(connection, sql);
    for (std::int64_t position = 0; auto const& row : rows) {
      insert.bind(quote, position++);
      Row<T>::fields(Bind{insert}, row);
      insert.run();
    }
  }
};

// Reads one row; damage is told with its table.
template <class T>
void read_row(Statement& select, auto& row) try {
  Row<T>::fields(Take{select}, row);
} catch (StoreError const& e) {
  throw StoreError(e.code, std::string(Row<T>::table) + ": " + e.what());
}

struct Loader {
  Connection& connection;
  std::int64_t quote;

  template <class T>
  void one(auto& row) {
    static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                   std::string(Row<T>::table) + " WHERE " + std::string(quote_key<T>) +
                                   " = ?";
    Statement select(connection, sql);
    if (!select.bind(quote).step())
      throw std::out_of_range("quote " + std::to_string(quote) + " has no row in " +
                              std::string(Row<T>::table));
    read_row<T>(select, row);
  }
  template <class T>
  void list(std::vector<T>& rows) {
    static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                   std::string(Row<T>::table) + " WHERE quote = ? ORDER BY position";
    Statement select(connection, sql);
    select.bind(quote);
    while (select.step()) read_row<T>(select, rows.emplace_back());
  }
  // Fills the rows that are there already.
  template <class T>
  void beside(auto& rows) {
    static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                   std::string(Row<T>::table) + " WHERE quote = ? ORDER BY position";
    Statement select(connection, sql);
    select.bind(quote);
    for (auto& row : rows) {
      if (!select.step())
        throw std::out_of_range("quote " + std::to_string(quote) + " lacks a row in " +
                                std::string(Row<T>::table));
      read_row<T>(select, row);
    }
  }
};

struct Sealer {
  Currency currency;
  std::vector<PartSeal> seals;

  template <class T>
  void one(auto const& row) {
    Seal seal(currency);
    Row<T>::fields(Bind{seal}, row);
    keep(Row<T>::table, seal);
  }
  template <class List>
  void list(List const& rows) {
    beside<typename List::value_type>(rows);
  }
  template <class T>
  void beside(auto const& rows) {
    Seal seal(currency);
    for (auto const& row : rows) Row<T>::fields(Bind{seal}, row);
    keep(Row<T>::table, seal);
  }
  void keep(std::string_view table, Seal const& seal) {
    seals.push_back({std::string(table), seal.number()});
  }
};

}  // namespace endband::db
