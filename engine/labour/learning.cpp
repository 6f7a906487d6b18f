#include "engine/labour/learning.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::int64_t millionths = 1'000'000;

double exponent(LearningCurve const& curve) {
  return std::log2(static_cast<double>(curve.rate.num()) / static_cast<double>(curve.rate.den()));
}

void check(LearningCurve const& curve, std::int64_t n) {
  if (!is_valid(curve)) throw std::logic_error("no such learning curve");
  if (n < 1) throw std::logic_error("learning is counted from the first unit");
}

// The last unit up to n that is faster than the one before it.
std::int64_t last_learned(LearningCurve const& curve, std::int64_t n) {
  return curve.plateau == 0 ? n : std::min(n, curve.plateau);
}

double wright_total(double b, std::int64_t n) { return std::pow(static_cast<double>(n), 1 + b); }

double crawford_total(double b, std::int64_t n) {
  double sum = 0;
  for (std::int64_t unit = 1; unit <= n; ++unit) sum += std::pow(static_cast<double>(unit), b);
  return sum;
}

}  // namespace

std::string_view learning_model_name(LearningModel model) {
  return model == LearningModel::crawford ? "crawford" : "wright";
}

bool is_valid(LearningCurve const& curve) {
  Ratio const least = curve.model == LearningModel::wright ? Ratio(1, 2) : Ratio(0);
  return curve.rate > Ratio(0) && curve.rate >= least && curve.rate <= Ratio(1) && curve.plateau >= 0;
}

double unit_factor(LearningCurve const& curve, std::int64_t n) {
  check(curve, n);
  double const b = exponent(curve);
  std::int64_t const unit = last_learned(curve, n);
  if (curve.model == LearningModel::crawford) return std::pow(static_cast<double>(unit), b);
  return unit == 1 ? 1 : wright_total(b, unit) - wright_total(b, unit - 1);
}

double total_factor(LearningCurve const& curve, std::int64_t n) {
  check(curve, n);
  double const b = exponent(curve);
  std::int64_t const learned = last_learned(curve, n);
  double const total =
      curve.model == LearningModel::crawford ? crawford_total(b, learned) : wright_total(b, learned);
  if (learned == n) return total;
  return total + static_cast<double>(n - learned) * unit_factor(curve, learned);
}

Ratio learned_total(LearningCurve const& curve, std::int64_t n) {
  check(curve, n);
  if (curve.rate == Ratio(1)) return n;
  return {std::llround(total_factor(curve, n) * static_cast<double>(millionths)), millionths};
}

double wright_rate(double first, double total, std::int64_t n) {
  if (!(first > 0 && total > 0) || n < 2) throw std::logic_error("a rate is found from two times");
  auto const units = static_cast<double>(n);
  return std::pow(total / (units * first), 1 / std::log2(units));
}

}  // namespace endband
