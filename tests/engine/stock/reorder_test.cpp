#include "engine/stock/to_buy.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>

using namespace endband;

// The quantiles of any table of the normal distribution (from memory: 1.645 for 95 %, 1.282 for 90 %); their
// digits were worked out with Python's statistics.NormalDist.
TEST_CASE("the safety stock of one unit of deviation is the normal quantile") {
  UseStatistics const one{0, 1, 1, 0};
  CHECK(safety_stock(one, 0.5) == doctest::Approx(0).epsilon(1e-12));
  CHECK(safety_stock(one, 0.9) == doctest::Approx(1.2815515655446).epsilon(1e-12));
  CHECK(safety_stock(one, 0.95) == doctest::Approx(1.6448536269515).epsilon(1e-12));
  CHECK(safety_stock(one, 0.975) == doctest::Approx(1.9599639845401).epsilon(1e-12));
  CHECK(safety_stock(one, 0.999) == doctest::Approx(3.0902323061678).epsilon(1e-12));
}

TEST_CASE("what is used steadily and comes on time needs no safety stock") {
  CHECK(safety_stock({3, 0, 14, 0}, 0.99) == 0);
  CHECK(reorder_point({3, 0, 14, 0}, 0.99) == 42);
  CHECK(reorder_point({3, 5, 0, 0}, 0.99) == 0);
}

TEST_CASE("use and lead time that both vary add as squares") {
  // L s^2 = 9 x 4, d^2 s_L^2 = 16 x 4: the root of 100.
  UseStatistics const both{4, 2, 9, 2};
  CHECK(safety_stock(both, 0.95) == doctest::Approx(10 * 1.6448536269515).epsilon(1e-12));
  CHECK(reorder_point(both, 0.95) == doctest::Approx(36 + 10 * 1.6448536269515).epsilon(1e-12));
}

TEST_CASE("the size found costs no more to order and to keep than any other") {
  for (double const a_year : {1.0, 40.0, 730.0, 10'000.0})
    for (double const order : {0.5, 10.0, 150.0})
      for (double const keeping : {0.02, 0.75, 3.0}) {
        auto const cost = [&](double size) { return a_year / size * order + size / 2 * keeping; };
        double const size = order_size(a_year, order, keeping);
        for (double const other : {0.5, 0.9, 0.99, 1.01, 1.1, 2.0}) CHECK(cost(size) < cost(size * other));
      }
  CHECK(order_size(0, 10, 1) == 0);
  CHECK(order_size(100, 0, 1) == 0);
}

TEST_CASE(
    "statistics of less than nothing, certainty, and goods that cost nothing to keep are broken contracts") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double endless = std::numeric_limits<double>::infinity();
  for (double const level : {0.49, 1.0, 1.5, -0.1, nan})
    CHECK_THROWS_AS(safety_stock({1, 1, 1, 1}, level), std::logic_error);
  for (double const wrong : {-1.0, nan, endless}) {
    CHECK_THROWS_AS(reorder_point({wrong, 1, 1, 1}, 0.9), std::logic_error);
    CHECK_THROWS_AS(reorder_point({1, wrong, 1, 1}, 0.9), std::logic_error);
    CHECK_THROWS_AS(reorder_point({1, 1, wrong, 1}, 0.9), std::logic_error);
    CHECK_THROWS_AS(reorder_point({1, 1, 1, wrong}, 0.9), std::logic_error);
    CHECK_THROWS_AS(order_size(wrong, 1, 1), std::logic_error);
    CHECK_THROWS_AS(order_size(1, wrong, 1), std::logic_error);
    CHECK_THROWS_AS(order_size(1, 1, wrong), std::logic_error);
  }
  CHECK_THROWS_AS(order_size(1, 1, 0), std::logic_error);
}
