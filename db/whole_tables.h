// The tables of a workshop that hold what was written, as the file itself tells them.
#pragma once

#include "db/connection.h"
#include "db/whole.h"

#include <string>
#include <vector>

namespace endband::db {

struct TableKeys {
  std::vector<std::string> primary;
  // Columns that name a row of another table, and that table's.
  struct Foreign {
    std::string table;
    std::vector<std::string> from, to;
  };
  std::vector<Foreign> foreign;
};
struct KnownTable {
  WholeTable form;
  TableKeys keys;
};

// Parents first; else in the order in which the migrations made them.
std::vector<KnownTable> known_tables(Connection& connection);

}  // namespace endband::db
