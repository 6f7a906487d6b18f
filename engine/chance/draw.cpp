#include "engine/chance/draw.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace endband {

std::int64_t draw_triangular(ThreePoints const& of, std::uint64_t bits) {
  double const p = uniform(bits);
  return std::llround(p == 0 ? of.low : triangular_quantile(of, p));
}

std::int64_t draw_geometric(double p, std::uint64_t bits) {
  if (!(p >= 0 && p < 1)) throw std::logic_error("a chance is from 0 to less than 1");
  double const u = 1 - uniform(bits);  // more than 0
  if (u > p) return 0;
  return static_cast<std::int64_t>(std::log(u) / std::log(p));
}

PoissonDraw::PoissonDraw(double mean) {
  if (!(mean >= 0 && mean <= 1e6)) throw std::logic_error("a mean is from 0 to a million");
  // Beyond this lies less than 2^-53.
  auto const most = static_cast<std::int64_t>(std::ceil(mean + 12 * std::sqrt(mean) + 30));
  double chance_log = -mean;  // ln of e^-mean mean^k / k!
  double sum = 0;
  for (std::int64_t k = 0; k < most && sum < 1; ++k) {
    if (k > 0) chance_log += std::log(mean / static_cast<double>(k));
    sum += std::exp(chance_log);
    below_.push_back(static_cast<std::uint64_t>(std::min(sum, 1.0) * 0x1p53));
  }
  below_.back() = std::uint64_t{1} << 53;
}

std::int64_t PoissonDraw::at(std::uint64_t bits) const {
  return std::upper_bound(below_.begin(), below_.end(), bits >> 11) - below_.begin();
}

}  // namespace endband
