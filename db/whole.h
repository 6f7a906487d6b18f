// The whole of a workshop as rows of its tables, and a new workshop made of such rows.
#pragma once

#include "db/workshop.h"

#include <cstdint>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace endband::db {

struct WholeColumn {
  std::string name;
  bool words = false;  // else whole numbers
  bool may_be_null = false;
  bool day = false;  // words that are a day of the calendar, year-month-day
};
struct WholeTable {
  std::string name;
  std::vector<WholeColumn> columns;
};
using Cell = std::variant<std::nullptr_t, std::int64_t, std::string_view>;

// Every row that somebody wrote, within one Reading: tables after those that they name rows of, rows by their
// key. Two workshops that say the same give the same. What the database sums up itself is not among them.
void each_row(Workshop& workshop,
              std::function<void(WholeTable const& table, std::span<Cell const> cells)> const& take);

// A new workshop file of an empty schema, with mode 0600 and no row, and then what it is given. The triggers
// and keys of that schema hold for each row; none of them is there for others until `finish`.
class Filling {
 public:
  // `path` must be free. Throws StoreError; std::logic_error for a schema that there never was.
  Filling(std::string path, int schema);
  ~Filling();
  Filling(Filling const&) = delete;
  Filling& operator=(Filling const&) = delete;

  std::vector<WholeTable> const& tables() const&;
  std::vector<WholeTable> const& tables() const&& = delete;  // they are gone with it
  // One cell for each column, of its type. Faults: contradiction (a row that is there), unknown_code (names a
  // row that is not), out_of_range (a day that no calendar has; what its table or a trigger refuses); each
  // without its place.
  Read<bool> add(std::size_t table, std::span<Cell const> cells);
  // Keeps all rows, brings the file up to this program's schema, and checks it as `check` does. Faults:
  // missing_key (there is no workshop in it), broken_invariant.
  Read<Workshop> finish();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace endband::db
