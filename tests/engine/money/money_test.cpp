#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <array>
#include <limits>
#include <stdexcept>
#include <type_traits>

using endband::Currency;
using endband::Money;
using endband::Overflow;
using endband::Ratio;
using endband::Rounding;

namespace {

constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();

Currency eur() { return endband::read_currency("EUR").value(); }
Currency gbp() { return endband::read_currency("GBP").value(); }
Money euros(std::int64_t minor) { return {minor, eur()}; }

std::vector<std::int64_t> minors(std::vector<Money> const& parts) {
  std::vector<std::int64_t> result;
  for (Money const& part : parts) result.push_back(part.minor);
  return result;
}
std::vector<std::int64_t> shared(std::int64_t whole, std::vector<std::int64_t> const& weights) {
  return minors(endband::share(euros(whole), weights));
}

template <class Number>
concept makes_money = requires(Number n, Currency c) {
  Money{n, c};
};
template <class Number>
concept adds_to_money = requires(Money m, Number n) {
  m + n;
};
template <class Number>
concept scales_money = requires(Money m, Number n) {
  scale(m, n, Rounding::half_away);
};

}  // namespace

// Money never meets a float, and a bare number is no money.
static_assert(makes_money<std::int64_t>);
static_assert(!makes_money<double>);
static_assert(!makes_money<float>);
static_assert(!adds_to_money<std::int64_t>);
static_assert(!adds_to_money<double>);
static_assert(scales_money<Ratio>);
static_assert(!scales_money<double>);

TEST_CASE("money of one currency adds, subtracts, negates and compares") {
  CHECK(euros(1250) + euros(-50) == euros(1200));
  CHECK(euros(1250) - euros(2000) == euros(-750));
  CHECK(-euros(5) == euros(-5));
  Money total = euros(1);
  total += euros(2);
  CHECK(total == euros(3));
  CHECK(euros(1) < euros(2));
}

TEST_CASE("money of two currencies never meets") {
  Money const pound{100, gbp()};
  CHECK_THROWS_AS(euros(100) + pound, std::logic_error);
  CHECK_THROWS_AS(euros(100) - pound, std::logic_error);
  CHECK_THROWS_AS(static_cast<void>(euros(100) < pound), std::logic_error);
  CHECK_THROWS_AS(endband::sum(std::array{euros(1)}, gbp()), std::logic_error);
  CHECK(euros(100) != pound);
}

TEST_CASE("money that leaves 64 bits throws and never wraps") {
  CHECK_THROWS_AS(euros(most) + euros(1), Overflow);
  CHECK_THROWS_AS(euros(least) - euros(1), Overflow);
  CHECK_THROWS_AS(-euros(least), Overflow);
  CHECK_THROWS_AS(scale(euros(most), Ratio(2), Rounding::half_away), Overflow);
  CHECK_THROWS_AS(round_to(euros(most), 5, Rounding::up), Overflow);
  CHECK_THROWS_AS(endband::sum(std::array{euros(most), euros(1)}, eur()), Overflow);
}

TEST_CASE("a sum has to fit at its end only") {
  CHECK(endband::sum(std::array{euros(most), euros(most), euros(-most)}, eur()) == euros(most));
  CHECK(endband::sum({}, eur()) == euros(0));
}

TEST_CASE("scaling rounds once, as named") {
  CHECK(scale(euros(1), Ratio(1, 2), Rounding::half_away) == euros(1));
  CHECK(scale(euros(1), Ratio(1, 2), Rounding::half_even) == euros(0));
  CHECK(scale(euros(-1), Ratio(1, 2), Rounding::half_away) == euros(-1));
  CHECK(scale(euros(-1), Ratio(1, 2), Rounding::up) == euros(0));
  CHECK(scale(euros(1000), Ratio(1, 3), Rounding::away) == euros(334));
}

TEST_CASE("rounding to a step needs a step") {
  CHECK(round_to(euros(1233), 5, Rounding::half_away) == euros(1235));
  CHECK(round_to(euros(1233), 100, Rounding::up) == euros(1300));
  CHECK_THROWS_AS(round_to(euros(1), 0, Rounding::half_away), std::invalid_argument);
  CHECK_THROWS_AS(round_to(euros(1), -5, Rounding::half_away), std::invalid_argument);
}

TEST_CASE("shares sum to the whole and a tie goes to the first") {
  CHECK(shared(100, {1, 1, 1}) == std::vector<std::int64_t>{34, 33, 33});
  CHECK(shared(-100, {1, 1, 1}) == std::vector<std::int64_t>{-34, -33, -33});
  CHECK(shared(0, {3, 4}) == std::vector<std::int64_t>{0, 0});
}

TEST_CASE("a zero weight gets nothing even when a unit is left over") {
  CHECK(shared(1, {0, 1, 1}) == std::vector<std::int64_t>{0, 1, 0});
  CHECK(shared(7, {0, 0, 5}) == std::vector<std::int64_t>{0, 0, 7});
}

TEST_CASE("shares of the largest amounts by the largest weights are exact") {
  CHECK(shared(least, {1}) == std::vector<std::int64_t>{least});
  CHECK(shared(most, {most, most}) == std::vector<std::int64_t>{most / 2 + 1, most / 2});
  CHECK(shared(least, {most, most}) == std::vector<std::int64_t>{least / 2, least / 2});
}

TEST_CASE("a share needs weights that are not negative and not all zero") {
  CHECK_THROWS_AS(shared(1, {}), std::logic_error);
  CHECK_THROWS_AS(shared(1, {0, 0}), std::logic_error);
  CHECK_THROWS_AS(shared(1, {2, -1}), std::logic_error);
}
