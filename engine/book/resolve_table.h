// A repeated table of a description, row by row. Private to engine/book.
#pragma once

#include "engine/book/resolve.h"

#include <initializer_list>
#include <string>
#include <string_view>

namespace endband {

// What a cell of a row says; `otherwise` when it says nothing.
double number(Row const& row, std::size_t index, double otherwise);
int whole(Row const& row, std::size_t index, int otherwise);
std::string words(Row const& row, std::size_t index);  // empty when it says nothing

class Table {
 public:
  Table(Resolving& to, std::string_view name) : to_(to), rows_(to.layers.rows(name)) {}

  std::size_t size() const { return rows_.rows.size(); }
  Row const& operator[](std::size_t i) const { return rows_.rows[i]; }

  // Faults each that is missing; true when none is.
  bool complete(std::size_t i, std::initializer_list<std::size_t> needed);
  // What has no meaning for this row.
  void refuse_key(std::size_t i, std::size_t index, std::string_view expected);

 private:
  Resolving& to_;
  Rows const& rows_;
};

}  // namespace endband
