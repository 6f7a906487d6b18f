#include "engine/book/operation.h"

#include "engine/book/structure.h"

#include <doctest/doctest.h>

#include <set>
#include <string_view>

using namespace endband;

TEST_CASE("every operation is found by its name, and no other name is") {
  std::set<std::string_view> names;
  for (OperationRow const& row : operation_table()) {
    CHECK(names.insert(row.name).second);
    CHECK(operation_named(row.name) == row.kind);
    CHECK(operation_row(row.kind).name == row.name);
    CHECK_FALSE(row.what.empty());
    CHECK_FALSE(driver_name(row.driver).empty());
  }
  CHECK(names.size() == operation_count);
  CHECK_FALSE(operation_named("sew-section"));
  CHECK_FALSE(operation_named(""));
}

TEST_CASE("what is repeated when its piece is ruined belongs to a part with a costly piece") {
  for (OperationRow const& row : operation_table())
    if (row.repeated_if_ruined)
      CHECK_MESSAGE((row.part == Part::cover || row.part == Part::boards || row.part == Part::strap ||
                     row.part == Part::stone || row.part == Part::box),
                    row.name);
  CHECK(operation_row(OperationKind::cover_book).repeated_if_ruined);
  CHECK_FALSE(operation_row(OperationKind::sew_sections).repeated_if_ruined);
}

TEST_CASE("items, warnings, parts and origins have names of their own") {
  std::set<std::string_view> items;
  for (std::size_t i = 0; i < item_count; ++i) {
    CHECK(items.insert(item_name(static_cast<Item>(i))).second);
    CHECK_FALSE(item_words(static_cast<Item>(i)).empty());
  }
  std::set<std::string_view> warnings;
  for (std::size_t i = 0; i < warning_count; ++i)
    CHECK(warnings.insert(warning_name(static_cast<WarningCode>(i))).second);
  std::set<std::string_view> parts;
  for (std::size_t i = 0; i < part_count; ++i) CHECK(parts.insert(part_name(static_cast<Part>(i))).second);
  CHECK(origin_name(Origin::said) == "said");
  CHECK(origin_name(Origin::none) == "none");
}
