// Bars of characters, for a table in a terminal.
#include "cli/drawings/figure.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

using namespace endband::cli;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("a bar of characters goes from zero to the value, to its scale") {
  CHECK(bar_text(10, 0, 10, 11) == "|##########");
  CHECK(bar_text(5, 0, 10, 11) == "|#####     ");
  CHECK(bar_text(0, 0, 10, 11) == "|          ");
  CHECK(bar_text(0.4, 0, 10, 11) == "|#         ");  // less than half a column
  CHECK(bar_text(-0.01, -5, 5, 11) == "    -|     ");
  CHECK(bar_text(4, -5, 5, 11) == "     |#### ");
  CHECK(bar_text(-4, -5, 5, 11) == " ----|     ");
  CHECK(bar_text(-10, -10, 0, 11) == "----------|");
  CHECK(bar_text(-3, -10, 0, 11) == "       ---|");
}

TEST_CASE("a bar keeps within its width and always shows where zero is") {
  CHECK(bar_text(99, 0, 10, 11) == "|##########");
  CHECK(bar_text(-99, -5, 5, 11) == "-----|     ");
  CHECK(bar_text(-1, 0, 10, 5) == "|    ");
  CHECK(bar_text(8, 5, 10, 11) == "|########  ");  // zero is taken in
  CHECK(bar_text(-8, -10, -5, 11) == "  --------|");
  CHECK(bar_text(-1, -1, 100, 11) == "-|         ");  // either side keeps a column
  CHECK(bar_text(100, -1, 100, 11) == " |#########");
  CHECK(bar_text(1, -100, 1, 11) ==
        "         |#"
        "");
  CHECK(bar_text(5, 10, 0, 11) == "|#####     ");  // ends in any order
}

TEST_CASE("a bar of nothing") {
  CHECK(bar_text(0, 0, 0, 5) == "|    ");
  CHECK(bar_text(3, 0, 0, 5) == "|    ");
  CHECK(bar_text(3, 0, 5, 1) == "|");
  CHECK(bar_text(5, 0, 5, 2) == "|#");
  CHECK(bar_text(3, 0, 5, 0).empty());
  CHECK(bar_text(std::nan(""), 0, 5, 4) == "|   ");
  CHECK(bar_text(1, -infinite, infinite, 4) == "|   ");
  CHECK(bar_text(infinite, 0, 5, 4) == "|###");
  CHECK(bar_text(1e308, -1e308, 1e308, 5) == "  |##");
}
