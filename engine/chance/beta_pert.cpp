// The inverse of a beta-PERT distribution at many chances at once: its density is integrated over 512 stripes
// by Simpson's rule, the two outermost by their power series, and turned round by the straight line that the
// density nearly is within a stripe.
#include "engine/chance/draw.h"
#include "engine/fault/fault.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::size_t stripes = 512;
constexpr double width = 1.0 / stripes;
constexpr double furthest = 0x1p42;

class Beta {
 public:
  Beta(double alpha, double beta) : alpha_(alpha), beta_(beta) {
    set_density();
    below_[0] = 0;
    below_[1] = end_stripe(alpha, beta);
    for (std::size_t i = 1; i + 1 < stripes; ++i)
      below_[i + 1] =
          below_[i] + width / 6 * (density_[2 * i] + 4 * density_[2 * i + 1] + density_[2 * i + 2]);
    below_[stripes] = below_[stripes - 1] + end_stripe(beta, alpha);
    for (double& value : below_) value /= below_[stripes];
    below_[stripes] = 1;
  }

  // Where the distribution reaches p, 0 <= p <= 1. `from` is the stripe that an earlier, smaller p lay in.
  double inverse(double p, std::size_t& from) const {
    while (from + 1 < stripes && below_[from + 1] <= p) ++from;
    double const in_stripe = below_[from + 1] - below_[from];
    double const part = in_stripe > 0 ? std::min(1.0, (p - below_[from]) / in_stripe) : 1;
    if (from == 0) return width * std::pow(part, 1 / alpha_);
    if (from == stripes - 1) return 1 - width * std::pow(1 - part, 1 / beta_);
    return (static_cast<double>(from) + along(density_[2 * from], density_[2 * from + 2], part)) * width;
  }

 private:
  void set_density() {
    std::array<double, 2 * stripes + 1> log{};
    for (std::size_t i = 1; i < log.size(); ++i) log[i] = std::log(static_cast<double>(i) * width / 2);
    for (std::size_t i = 1; i + 1 < log.size(); ++i)
      density_[i] = std::exp((alpha_ - 1) * log[i] + (beta_ - 1) * log[log.size() - 1 - i]);
  }

  // The integral of x^(a-1) (1 - x)^(b-1) over the first stripe.
  static double end_stripe(double a, double b) {
    double const second = (b - 1) * width / (a + 1);
    double const third = (b - 1) * (b - 2) * width * width / (2 * (a + 2));
    return std::pow(width, a) * (1 / a - second + third);
  }

  // How far along a stripe a part of its area lies where the density goes straight from `left` to `right`.
  static double along(double left, double right, double part) {
    double const area = part * (left + right);
    double const root = std::sqrt(left * left + (right - left) * area);
    return left + root > 0 ? area / (left + root) : part;
  }

  double alpha_, beta_;
  std::array<double, 2 * stripes + 1> density_{};  // not scaled; at every half stripe
  std::array<double, stripes + 1> below_{};
};

}  // namespace

BetaPertDraw::BetaPertDraw(ThreePoints const& of) {
  if (!(of.low >= 0 && of.low <= of.likely && of.likely <= of.high))
    throw std::logic_error("three points that do not rise");
  if (of.high > furthest) throw Overflow("a time leaves what can be drawn");
  if (of.low == of.high) {
    all_ = first_ = last_ = Inverse(parts + 1, std::llround(of.low));
    return;
  }
  double const whole = of.high - of.low;
  double const alpha = 1 + 4 * (of.likely - of.low) / whole;
  Beta const beta(alpha, 6 - alpha);
  auto const fill = [&](Inverse& inverse, double begin, double step) {
    inverse.reserve(parts + 1);
    std::size_t stripe = 0;
    for (std::size_t i = 0; i <= parts; ++i)
      inverse.push_back(
          std::llround(of.low + whole * beta.inverse(begin + step * static_cast<double>(i), stripe)));
  };
  fill(all_, 0, 0x1p-10);
  fill(first_, 0, 0x1p-20);
  fill(last_, 1 - 0x1p-10, 0x1p-20);
}

}  // namespace endband
