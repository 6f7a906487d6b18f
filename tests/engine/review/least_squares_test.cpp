#include "engine/review/least_squares.h"

#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>

using doctest::Approx;
using endband::Fit;
using endband::least_squares;
using endband::Observed;

namespace {

constexpr double exactly = 1e-13;

}  // namespace

TEST_CASE("A straight line through five points, worked by hand") {
  // x 1..5, y 2 4 5 4 5: slope 6/10, intercept 4 - 0.6 x 3, squares left 2.4 of 6
  Fit const fit = least_squares({2, {1, 1, 1, 2, 1, 3, 1, 4, 1, 5}, {2, 4, 5, 4, 5}});
  CHECK(fit.estimate[0] == Approx(2.2).epsilon(exactly));
  CHECK(fit.estimate[1] == Approx(0.6).epsilon(exactly));
  CHECK(fit.residual == Approx(std::sqrt(0.8)).epsilon(exactly));
  CHECK(fit.deviation[1] == Approx(std::sqrt(0.8 / 10)).epsilon(exactly));
  CHECK(fit.deviation[0] == Approx(std::sqrt(0.8 * (1. / 5 + 9. / 10))).epsilon(exactly));
  CHECK(fit.r_squared == Approx(0.6).epsilon(exactly));
  CHECK(fit.freedom == 3);
}

TEST_CASE("A mean is a regression on ones alone") {
  Fit const fit = least_squares({1, {1, 1, 1, 1}, {3, 5, 7, 13}});
  CHECK(fit.estimate[0] == Approx(7).epsilon(exactly));
  CHECK(fit.residual == Approx(std::sqrt(56. / 3)).epsilon(exactly));
  CHECK(fit.deviation[0] == Approx(std::sqrt(14. / 3)).epsilon(exactly));
  CHECK(fit.r_squared == Approx(0));
  // each residual over 1 - 1/4, with weight 1/4: the root of 56 over 3
  CHECK(fit.uneven[0] == Approx(std::sqrt(56.) / 3).epsilon(exactly));
}

TEST_CASE("Noise that differs between two groups is each group's own") {
  // 1, 3 and 6, 8, 7, 7: in a group of n, squares left / (n - 1)^2; the difference has both
  Fit const fit = least_squares({2, {1, 0, 1, 0, 1, 1, 1, 1, 1, 1, 1, 1}, {1, 3, 6, 8, 7, 7}});
  CHECK(fit.estimate[1] == Approx(5).epsilon(exactly));
  CHECK(fit.uneven[0] == Approx(std::sqrt(2.)).epsilon(exactly));
  CHECK(fit.uneven[1] == Approx(std::sqrt(2. + 2. / 9)).epsilon(exactly));
}

TEST_CASE("Without a constant the share explained is about nothing") {
  // b = (3 + 4 + 21) / 14, left 1 + 4 + 1 of 9 + 4 + 49
  Fit const fit = least_squares({1, {1, 2, 3}, {3, 2, 7}});
  CHECK(fit.estimate[0] == Approx(2).epsilon(exactly));
  CHECK(fit.r_squared == Approx(1 - 6. / 62).epsilon(exactly));
}

TEST_CASE("A penalty shrinks by its closed form") {
  // one column without a constant: b = x'y / (x'x + penalty), freedom n - x'x / (x'x + penalty)
  std::vector<double> const penalty{6};
  Fit const fit = least_squares({1, {1, 2, 3}, {3, 2, 7}}, penalty);
  CHECK(fit.estimate[0] == Approx(28. / 20).epsilon(exactly));
  CHECK(fit.freedom == Approx(3 - 14. / 20).epsilon(exactly));
  double const left = std::pow(3 - 1.4, 2) + std::pow(2 - 2.8, 2) + std::pow(7 - 4.2, 2);
  CHECK(fit.residual == Approx(std::sqrt(left / 2.3)).epsilon(exactly));
  CHECK(fit.deviation[0] == Approx(std::sqrt(left / 2.3 / 20)).epsilon(exactly));
}

TEST_CASE("Two groups: the constant is not shrunk, their difference is") {
  // y 1, 3 | 6, 8, 7, 7: centred x'x = 2 x 4 / 6, x'y = x'x (7 - 2)
  Observed const observed{2, {1, 0, 1, 0, 1, 1, 1, 1, 1, 1, 1, 1}, {1, 3, 6, 8, 7, 7}};
  std::vector<double> const penalty{0, 2. / 3};
  Fit const fit = least_squares(observed, penalty);
  double const slope = 5 * (8. / 6) / (8. / 6 + 2. / 3);
  CHECK(fit.estimate[1] == Approx(slope).epsilon(exactly));
  CHECK(fit.estimate[0] == Approx(32. / 6 - slope * 4 / 6).epsilon(exactly));
  CHECK(fit.freedom == Approx(6 - 1 - 2. / 3).epsilon(exactly));
  CHECK(fit.deviation[1] == Approx(fit.residual * std::sqrt(0.5)).epsilon(exactly));
  CHECK(fit.deviation[0] == Approx(fit.residual * std::sqrt(1. / 6 + 4. / 9 * 0.5)).epsilon(exactly));
}

TEST_CASE("Columns that depend on each other are refused unless they are shrunk") {
  Observed const twice{3, {1, 0, 0, 1, 1, 1, 1, 0, 0, 1, 1, 1, 1, 1, 1}, {1, 2, 2, 4, 3}};
  CHECK_THROWS_AS(least_squares(twice), std::domain_error);
  std::vector<double> const penalties{0, 1, 1};
  Fit const fit = least_squares(twice, penalties);
  CHECK(fit.estimate[1] == Approx(fit.estimate[2]).epsilon(exactly));
  Observed const constant{2, {1, 0.1, 1, 0.1, 1, 0.1, 1, 0.1}, {1, 2, 2, 4}};
  CHECK_THROWS_AS(least_squares(constant), std::domain_error);
  Observed const nothing{2, {1, 0, 1, 0, 1, 0}, {1, 2, 2}};
  CHECK_THROWS_AS(least_squares(nothing), std::domain_error);
}

TEST_CASE("Sizes that disagree are refused, and so are too few rows") {
  CHECK_THROWS_AS(least_squares({2, {1, 2, 3}, {1, 2}}), std::logic_error);
  CHECK_THROWS_AS(least_squares({2, {1, 2, 3, 5}, {1, 2}}), std::logic_error);
  CHECK_THROWS_AS(least_squares({0, {}, {}}), std::logic_error);
  std::vector<double> const one{1}, under{0, -1};
  Observed const line{2, {1, 1, 1, 2, 1, 3}, {1, 2, 4}};
  CHECK_THROWS_AS(least_squares(line, one), std::logic_error);
  CHECK_THROWS_AS(least_squares(line, under), std::logic_error);
}
