// A bar in letters.
#include "cli/drawings/figure.h"

#include <algorithm>
#include <cmath>

namespace endband::cli {

std::string bar_text(double value, double low, double high, std::size_t width) {
  std::string bar(width, ' ');
  if (width == 0) return bar;
  bool const whole = std::isfinite(low) && std::isfinite(high) && !std::isnan(value);
  double const least = whole ? std::min({low, high, 0.0}) : 0;
  double const most = whole ? std::max({low, high, 0.0}) : 0;
  // Halved first: the difference of two that are very large would be infinite.
  double const half_span = most / 2 - least / 2;
  double const cells = static_cast<double>(width - 1);
  double zero = half_span > 0 ? std::round(-least / 2 / half_span * cells) : 0;
  // Either side that has something on it keeps a column, where there are three.
  if (width >= 3 && least < 0) zero = std::max(zero, 1.0);
  if (width >= 3 && most > 0) zero = std::min(zero, cells - 1);
  auto const at = static_cast<std::size_t>(zero);
  bar[at] = '|';
  if (!(half_span > 0) || value == 0) return bar;
  double const length = std::round(std::min(std::abs(value) / 2 / half_span, 1.0) * cells);
  auto const count = static_cast<std::size_t>(std::max(length, 1.0));
  if (value > 0)
    std::fill_n(bar.begin() + static_cast<std::ptrdiff_t>(at) + 1, std::min(count, width - 1 - at), '#');
  else
    std::fill_n(bar.begin() + static_cast<std::ptrdiff_t>(at - std::min(count, at)), std::min(count, at),
                '-');
  return bar;
}

}  // namespace endband::cli
