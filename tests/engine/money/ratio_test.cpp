#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>
#include <type_traits>

using endband::mul_div;
using endband::Overflow;
using endband::Ratio;
using endband::Rounding;

namespace {
constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
}  // namespace

// No float becomes a ratio, not even a whole one.
static_assert(!std::is_constructible_v<Ratio, double>);
static_assert(!std::is_convertible_v<float, Ratio>);
static_assert(std::is_convertible_v<std::int64_t, Ratio>);
static_assert(std::is_convertible_v<int, Ratio>);

TEST_CASE("a ratio is in lowest terms with a positive denominator") {
  CHECK(Ratio(35, 100) == Ratio(7, 20));
  CHECK(Ratio(6, -4).num() == -3);
  CHECK(Ratio(6, -4).den() == 2);
  CHECK(Ratio(0, -9).den() == 1);
  CHECK(Ratio(least, least) == Ratio(1));
  CHECK(Ratio(least, 2).num() == least / 2);
  CHECK(Ratio(least, 1).num() == least);
}

TEST_CASE("a ratio that has no denominator or leaves 64 bits is refused") {
  CHECK_THROWS_AS(Ratio(1, 0), std::domain_error);
  CHECK_THROWS_AS(Ratio(least, -1), Overflow);
  CHECK_THROWS_AS(Ratio(1, least), Overflow);
  CHECK(Ratio(2, least) == Ratio(-1, most / 2 + 1));
}

TEST_CASE("the four operations are exact") {
  CHECK(Ratio(1, 3) + Ratio(1, 6) == Ratio(1, 2));
  CHECK(Ratio(1, 3) - Ratio(1, 2) == Ratio(-1, 6));
  CHECK(Ratio(2, 3) * Ratio(9, 4) == Ratio(3, 2));
  CHECK(Ratio(2, 3) / Ratio(-4, 9) == Ratio(-3, 2));
  CHECK_THROWS_AS(Ratio(2, 3) / Ratio(0), std::domain_error);
}

TEST_CASE("operations whose result fits may pass beyond 64 bits on the way") {
  CHECK(Ratio(most, 3) * Ratio(3, most) == Ratio(1));
  CHECK(Ratio(1, most) + Ratio(1, most) == Ratio(2, most));
  CHECK(Ratio(most, 2) - Ratio(most, 2) == Ratio(0));
  CHECK(Ratio(least) / Ratio(least) == Ratio(1));
  CHECK(Ratio(most, most - 1) < Ratio(most - 1, most - 2));
}

TEST_CASE("a result that leaves 64 bits throws and never wraps") {
  CHECK_THROWS_AS(Ratio(most) + Ratio(1), Overflow);
  CHECK_THROWS_AS(Ratio(least) - Ratio(1), Overflow);
  CHECK_THROWS_AS(Ratio(most) * Ratio(2), Overflow);
  CHECK_THROWS_AS(Ratio(1, most) / Ratio(2), Overflow);
  CHECK_THROWS_AS(Ratio(1, most) + Ratio(1, most - 1), Overflow);
  CHECK_THROWS_AS(Ratio(least) * Ratio(-1), Overflow);
  CHECK_THROWS_AS(Ratio(least) / Ratio(-1), Overflow);
}

TEST_CASE("ratios are ordered by value") {
  CHECK(Ratio(1, 3) < Ratio(1, 2));
  CHECK(Ratio(-1, 2) < Ratio(-1, 3));
  CHECK(Ratio(least) < Ratio(most, 2));
  CHECK(Ratio(most - 1, most) < Ratio(1));
}

TEST_CASE("a product over a divisor is rounded once") {
  CHECK(mul_div(10, 1, 4, Rounding::half_away) == 3);
  CHECK(mul_div(10, 1, -4, Rounding::half_away) == -3);
  CHECK(mul_div(-10, 1, 4, Rounding::half_even) == -2);
  CHECK(mul_div(most, most, most, Rounding::half_away) == most);
  CHECK(mul_div(least, least, least, Rounding::half_away) == least);
  CHECK_THROWS_AS(mul_div(least, 1, -1, Rounding::half_away), Overflow);
  CHECK_THROWS_AS(mul_div(most, 2, 1, Rounding::half_away), Overflow);
  CHECK_THROWS_AS(mul_div(1, 1, 0, Rounding::half_away), std::domain_error);
  CHECK(endband::round_product(Ratio(most, 7), Ratio(7, 2), Rounding::half_away) == most / 2 + 1);
}
