#include "engine/fault/fault.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <set>
#include <string>

using namespace std::string_view_literals;
using endband::edit_distance;
using endband::FaultCode;
using endband::nearest;
using Words = std::vector<std::string>;

TEST_CASE("every fault has a name of its own, in small letters and hyphens") {
  std::set<std::string_view> names;
  for (auto const& row : endband::fault_table()) {
    CHECK_MESSAGE(names.insert(row.name).second, row.name);
    for (char c : row.name) CHECK(((c >= 'a' && c <= 'z') || c == '-'));
  }
  CHECK(names.size() == static_cast<std::size_t>(FaultCode::workshop_busy) + 1);
}

TEST_CASE("a fault is found by its code") {
  for (auto const& row : endband::fault_table()) CHECK(&endband::fault_row(row.code) == &row);
  CHECK(endband::fault_row(FaultCode::unknown_key).name == "unknown-key");
  CHECK_THROWS_AS(endband::fault_row(FaultCode{255}), std::out_of_range);
}

TEST_CASE("the exit code tells a refusal, bad input and an unusable file apart") {
  CHECK(endband::fault_row(FaultCode::rule_refused).exit == 1);
  CHECK(endband::fault_row(FaultCode::changed_meanwhile).exit == 1);
  CHECK(endband::fault_row(FaultCode::broken_invariant).exit == 1);
  CHECK(endband::fault_row(FaultCode::bad_command).exit == 2);
  CHECK(endband::fault_row(FaultCode::refused_part).exit == 2);
  CHECK(endband::fault_row(FaultCode::bad_goal).exit == 2);
  CHECK(endband::fault_row(FaultCode::workshop_busy).exit == 3);
  for (auto const& row : endband::fault_table()) CHECK((row.exit >= 1 && row.exit <= 3));
}

TEST_CASE("located says the place in every fault and leaves a value alone") {
  endband::Where const where{"book.toml", 3, 7, "text.paper"};
  endband::Read<int> const good = endband::located(endband::Read<int>(7), where);
  REQUIRE(good);
  CHECK(*good == 7);
  std::vector<endband::Fault> two(2, {FaultCode::bad_value, {}, "x", "y", {}});
  endband::Read<int> const bad = endband::located(endband::Read<int>(tl::unexpected(two)), where);
  REQUIRE_FALSE(bad);
  REQUIRE(bad.error().size() == 2);
  for (auto const& fault : bad.error()) {
    CHECK(fault.where.source == "book.toml");
    CHECK(fault.where.column == 7);
    CHECK(fault.where.field == "text.paper");
    CHECK(fault.found == "x");
  }
}

TEST_CASE("edit distance counts letters put in, taken out, replaced and swapped") {
  CHECK(edit_distance("", "") == 0);
  CHECK(edit_distance("", "goat") == 4);
  CHECK(edit_distance("goat", "goat") == 0);
  CHECK(edit_distance("goat", "goats") == 1);
  CHECK(edit_distance("goat", "oat") == 1);
  CHECK(edit_distance("goat", "boat") == 1);
  CHECK(edit_distance("goat", "gaot") == 1);
  CHECK(edit_distance("ca", "abc") == 3);          // a swapped pair is not edited again
  CHECK(edit_distance("kitten", "sitting") == 3);  // V. Levenshtein's distance, the usual example
}

TEST_CASE("edit distance takes a letter of several bytes as one, and capitals as small letters") {
  CHECK(edit_distance("café", "cafe") == 1);
  CHECK(edit_distance("Goat", "gOAT") == 0);
  CHECK(edit_distance("\xff\x80\x80", "\x80") <= 3);  // not UTF-8: compared all the same
}

TEST_CASE("the nearest words come first and are three at most") {
  constexpr std::array known{"leather"sv, "leaf"sv,   "lining"sv, "linen"sv,
                             "leader"sv,  "lather"sv, "heather"sv};
  CHECK(nearest("lether", known) == Words{"leather", "lather", "leader"});
  CHECK(nearest("linne", known) == Words{"linen", "lining"});
  CHECK(nearest("ribbon", known).empty());
  CHECK(nearest("leather", {}).empty());
}

TEST_CASE("a long word may be further from what was meant, a short one not") {
  constexpr std::array known{"marbled_paper_double"sv, "cm"sv, "mm"sv};
  CHECK(nearest("marbeld_papr_duble", known) == Words{"marbled_paper_double"});
  CHECK(nearest("in", known).empty());
  CHECK(nearest("cn", known) == Words{"cm"});
}
