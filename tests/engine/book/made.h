// One book made of a description, and finding one's way in it.
#pragma once

#include "engine/book/structure.h"
#include "tests/fixtures/sample_spec.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string_view>
#include <vector>

namespace endband::tests {

// All rows of an item, in the order in which they were made.
template <class Row>
std::vector<Row> all(std::vector<Row> const& rows, Item item) {
  std::vector<Row> found;
  std::copy_if(rows.begin(), rows.end(), std::back_inserter(found),
               [item](Row const& r) { return r.item == item; });
  return found;
}
// Its only row; a test that has none or several has failed.
template <class Row>
Row only(std::vector<Row> const& rows, Item item) {
  auto const found = all(rows, item);
  REQUIRE_MESSAGE(found.size() == 1, item_name(item));
  return found.front();
}

// Of the operation's driver; 0 when it is not done.
inline double times(Structure const& book, OperationKind kind) {
  for (Operation const& operation : book.operations)
    if (operation.kind == kind) return static_cast<double>(operation.count.n) / 1000;
  return 0;
}

inline Warning const* warning(Structure const& book, WarningCode code) {
  auto const found = std::find_if(book.warnings.begin(), book.warnings.end(),
                                  [code](Warning const& w) { return w.code == code; });
  return found == book.warnings.end() ? nullptr : &*found;
}

inline bool is_material(Catalogue const& catalogue, MaterialId id, std::string_view code) {
  return catalogue.at(id).code == code;
}

inline Material& material(Catalogue& catalogue, std::string_view code) {
  auto const found = std::find_if(catalogue.materials.begin(), catalogue.materials.end(),
                                  [code](Material const& m) { return m.code == code; });
  REQUIRE(found != catalogue.materials.end());
  return *found;
}

inline double mm2(Area area) { return static_cast<double>(area.n) / 1e6; }

}  // namespace endband::tests
