// The method of the largest remainder (A. Hamilton's) on published cases.
#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <vector>

namespace {

using Parts = std::vector<std::int64_t>;

Parts shared(std::int64_t whole, Parts const& weights) {
  Parts result;
  for (auto const& part : endband::share({whole, endband::read_currency("EUR").value()}, weights))
    result.push_back(part.minor);
  return result;
}

}  // namespace

// electowiki.org, "Hamilton method" (oldid 9372): the census of 1790, 60 seats; VA MA PA NC NY MD CT SC NJ NH
// VT GA KY RI DE.
TEST_CASE("the House of 1790 has its sixty seats") {
  CHECK(shared(60, {630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236, 179570, 141822, 85533,
                    70835, 68705, 68446, 55540}) == Parts{11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1});
}

// OpenStax, Contemporary Mathematics, section 11.4 (m00028). The largest-remainder line of the first two is
// worked out here: the book shows that rounding each quota gives 71 lights for 70.
TEST_CASE("seventy lights go to three parks by their acres") {
  CHECK(shared(70, {15, 9, 10}) == Parts{31, 18, 21});
}

TEST_CASE("twenty-seven aircraft go to six bases by their pilots") {
  CHECK(shared(27, {13, 12, 5, 16, 7, 9}) == Parts{6, 5, 2, 7, 3, 4});
}

// The same section gives 87 and 1 by a further rule, at least one each, which a share of money does not have.
TEST_CASE("the smallest of five schools gets none of 616") {
  CHECK(shared(616, {46310, 224230, 20, 16560, 38450}) == Parts{88, 424, 0, 31, 73});
}

// M. Foemmel's conundrum, in M. Fowler's Patterns of Enterprise Application Architecture, "Money": 5 cents by
// 70 and 30 %.
TEST_CASE("five cents by seventy and thirty per cent: the tie goes to the first") {
  CHECK(shared(5, {70, 30}) == Parts{4, 1});
  CHECK(shared(5, {30, 70}) == Parts{2, 3});
}

// moneyphp, doc/features/allocation.rst
TEST_CASE("eight by three") { CHECK(shared(800, {1, 1, 1}) == Parts{267, 267, 266}); }

// dzone.com, "Solving Foemmel's conundrum": floors 205.51, 719.31, 51.37, 51.37 and three cents over; the
// largest-remainder line is worked out here.
TEST_CASE("the cents over go to the largest remainders") {
  CHECK(shared(102759, {20, 70, 5, 5}) == Parts{20552, 71931, 5138, 5138});
}
