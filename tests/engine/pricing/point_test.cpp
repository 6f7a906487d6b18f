#include "sheets.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>

using namespace endband::testing;
using endband::point_at_or_above;
using endband::PricePoints;
using endband::TaxMode;
using endband::TaxRules;

namespace {

std::int64_t shown(std::int64_t least, PricePoints points, TaxRules const& tax = {}) {
  return point_at_or_above(eur(least), points, tax).shown.minor;
}
TaxRules const included{TaxMode::included, {19, 100}, "VAT"};
TaxRules const added{TaxMode::added, {19, 100}, "VAT"};

}  // namespace

TEST_CASE("the points of 10.00 less 1.00 are 9.00, 19.00, 29.00") {
  PricePoints const nines{10'00, 1'00};
  CHECK(shown(0, nines) == 9'00);
  CHECK(shown(9'00, nines) == 9'00);
  CHECK(shown(9'01, nines) == 19'00);
  CHECK(shown(284'13, nines) == 289'00);
}

TEST_CASE("without points every minor unit is one") {
  CHECK(shown(0, {}) == 0);
  CHECK(shown(284'13, {}) == 284'13);
}

TEST_CASE("tax that is added leaves the point on the price without it") {
  auto const point = point_at_or_above(eur(284'13), {5'00, 0}, added);
  CHECK(point.shown == eur(285'00));
  CHECK(point.net == eur(285'00));
  CHECK(point.tax == eur(54'15));
}

TEST_CASE("tax that is included puts the point on the price with it") {
  auto const point = point_at_or_above(eur(284'13), {5'00, 0}, included);
  CHECK(point.shown == eur(340'00));  // 338.11 with tax, and the next point
  CHECK(point.tax == eur(54'29));
  CHECK(point.net == eur(285'71));
}

// The net of 1.18 is 0.99 and of 1.19 is 1.00; that of 1.20 is 1.01: some nets are skipped, none falls.
TEST_CASE("the least gross price of a net") {
  CHECK(shown(99, {}, included) == 1'18);
  CHECK(shown(1'00, {}, included) == 1'19);
  CHECK(shown(1'01, {}, included) == 1'20);
}

TEST_CASE("points out of the range of money overflow, and rules out of their range are errors of ours") {
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  CHECK_THROWS_AS(shown(most, {10'00, 1'00}), endband::Overflow);
  CHECK_THROWS_AS(shown(most, {}, included), endband::Overflow);
  CHECK_THROWS_AS(shown(1, {0, 0}), std::logic_error);
  CHECK_THROWS_AS(shown(1, {10, 10}), std::logic_error);
  CHECK_THROWS_AS(shown(1, {10, -1}), std::logic_error);
  CHECK_THROWS_AS(shown(1, {}, {TaxMode::added, {101, 100}, "VAT"}), std::logic_error);
  CHECK_THROWS_AS(shown(1, {}, {TaxMode::added, {-1, 100}, "VAT"}), std::logic_error);
}
