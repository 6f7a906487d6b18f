// Leaving double millimetres, and planning strips of leaf.
#include "engine/book/making.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

using namespace endband;

TEST_CASE("a cut is rounded up to the micrometre, but not by the error of a sum") {
  CHECK(cut_to(256).n == 256'000);
  CHECK(cut_to(0.1 + 0.2).n == 300);  // 0.30000000000000004
  CHECK(cut_to(0.3001).n == 301);
  CHECK(cut_to(10'000).n == 10'000'000);
}

TEST_CASE("lengths and surfaces go to the nearest unit") {
  CHECK(length_of(0.0004).n == 0);
  CHECK(length_of(0.0005).n == 1);
  CHECK(length_of(12'000).n == 12'000'000);  // thread may be longer than any piece
  CHECK(surface(1.5).n == 1'500'000);
}

TEST_CASE("what is no dimension throws") {
  for (double const value :
       {-0.001, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_AS(cut_to(value), std::logic_error);
    CHECK_THROWS_AS(length_of(value), std::logic_error);
    CHECK_THROWS_AS(surface(value), std::logic_error);
  }
  CHECK_THROWS_AS(cut_to(10'000.001), std::logic_error);
}

TEST_CASE("a fore-edge of 210 x 40 mm takes three strips of a leaf of 80 mm, one from each leaf") {
  StripPlan const plan = strips_for(80, 3, 40, 210, 1);
  CHECK(plan.strips == 3);
  CHECK(plan.width == 46);
  CHECK(std::floor(80 / plan.width) == 1);
}

TEST_CASE("what a run leaves of a strip serves the next when it is long enough") {
  CHECK(strips_for(80, 3, 3, 77, 4).strips == 4);
  CHECK(strips_for(80, 3, 3, 78, 4).strips == 5);  // four whole, and 1 mm four times from a fifth
  CHECK(strips_for(80, 3, 3, 38.5, 4).strips == 2);
  CHECK(strips_for(80, 3, 3, 39, 4).strips == 4);  // 38 mm are left of each: too short
}

TEST_CASE("a run wider than a leaf is laid of several leaves, each over its neighbour") {
  StripPlan const plan = strips_for(80, 3, 200, 77, 1);
  CHECK(plan.width == 80);
  CHECK(plan.strips == 3);  // 80 + 77 + 77 = 234, at least 200 and a lap at each side
  CHECK(strips_for(80, 3, 229, 77, 1).strips == 4);
}

TEST_CASE("a leaf no larger than its lap cannot be laid") {
  CHECK_THROWS_AS(strips_for(3, 3, 1, 10, 1), std::logic_error);
}
