#include "engine/chance/three_points.h"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace endband {
namespace {

constexpr double shapes = 6;        // alpha + beta of every beta-PERT
constexpr double gamma_of_6 = 120;  // Gamma(alpha + beta)

struct Shape {
  double alpha, beta;
};

Shape shape_of(ThreePoints const& of) {
  double const alpha = 1 + 4 * (of.likely - of.low) / (of.high - of.low);
  return {alpha, shapes - alpha};
}

double square(double x) { return x * x; }

// The continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8) by Lentz's method
// (1976, as Thompson and Barnett modified it).
double beta_fraction(double x, Shape const& shape) {
  constexpr double tiny = 1e-300;
  auto const kept = [](double value) { return std::abs(value) < tiny ? tiny : value; };
  double const a = shape.alpha;
  double const b = shape.beta;
  double c = 1;
  double d = 1 / kept(1 - (a + b) * x / (a + 1));
  double value = d;
  for (int m = 1; m <= 300; ++m) {
    double const even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    value *= d * c;
    double const odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    value *= d * c;
    if (std::abs(d * c - 1) < 4 * std::numeric_limits<double>::epsilon()) break;
  }
  return value;
}

// The regularised incomplete beta function I_x(alpha, beta), 0 < x < 1.
double beta_cdf(double x, Shape const& shape) {
  double const power = std::pow(x, shape.alpha) * std::pow(1 - x, shape.beta) * gamma_of_6 /
                       (std::tgamma(shape.alpha) * std::tgamma(shape.beta));
  if (x < (shape.alpha + 1) / (shapes + 2)) return power * beta_fraction(x, shape) / shape.alpha;
  return 1 - power * beta_fraction(1 - x, {shape.beta, shape.alpha}) / shape.beta;
}

void check_chance(double p) {
  if (!(p > 0 && p < 1)) throw std::logic_error("a quantile is asked at more than 0 and less than 1");
}

// Where a rising function reaches p between low and high, to the last bit that halving finds.
template <class Function>
double reached(double p, double low, double high, Function const& rising) {
  for (int i = 0; i < 200; ++i) {
    double const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    (rising(middle) < p ? low : high) = middle;
  }
  return high;
}

}  // namespace

double triangular_mean(ThreePoints const& of) { return (of.low + of.likely + of.high) / 3; }

double triangular_variance(ThreePoints const& of) {
  double const left = of.likely - of.low;
  double const whole = of.high - of.low;
  return (square(whole) + square(left) - whole * left) / 18;  // the same, of points moved to low = 0
}

double triangular_quantile(ThreePoints const& of, double p) {
  check_chance(p);
  double const whole = of.high - of.low;
  double const left = of.likely - of.low;
  if (p * whole < left) return of.low + std::sqrt(p * whole * left);
  return of.high - std::sqrt((1 - p) * whole * (of.high - of.likely));
}

double pert_mean(ThreePoints const& of) { return (of.low + 4 * of.likely + of.high) / 6; }

double pert_variance(ThreePoints const& of) {
  double const mean = pert_mean(of);
  return (mean - of.low) * (of.high - mean) / 7;
}

double pert_cdf(ThreePoints const& of, double x) {
  if (x >= of.high) return 1;
  if (x <= of.low) return 0;
  return beta_cdf((x - of.low) / (of.high - of.low), shape_of(of));
}

double pert_quantile(ThreePoints const& of, double p) {
  check_chance(p);
  if (of.high <= of.low) return of.low;
  return reached(p, of.low, of.high, [&](double x) { return pert_cdf(of, x); });
}

double classic_variance(ThreePoints const& of) { return square((of.high - of.low) / 6); }

double normal_cdf(double z) { return std::erfc(-z / std::sqrt(2.0)) / 2; }

double normal_quantile(double p) {
  check_chance(p);
  if (p > 0.5) return -normal_quantile(1 - p);  // so that both tails are found alike
  return p == 0.5 ? 0 : reached(p, -40, 0, normal_cdf);
}

double variance_of_sum(std::span<double const> deviations, double correlation) {
  double sum = 0;
  double squares = 0;
  for (double const deviation : deviations) {
    sum += deviation;
    squares += square(deviation);
  }
  return squares + correlation * (square(sum) - squares);
}

}  // namespace endband
