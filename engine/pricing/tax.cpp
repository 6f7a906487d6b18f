#include "engine/pricing/tax.h"

#include "engine/measure/measure.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace endband {

std::string_view tax_mode_name(TaxMode mode) {
  static constexpr std::array<std::string_view, 3> names{"none", "added", "included"};
  return names.at(static_cast<std::size_t>(mode));
}

Ratio TaxRules::rate_of(std::optional<Component> component) const {
  auto const line =
      std::find_if(own.begin(), own.end(), [&](TaxOfLine const& row) { return row.component == component; });
  return line == own.end() ? rate : line->rate;
}

Money tax_added(Money net, Ratio rate) { return scale(net, rate, Rounding::half_away); }

// r / (1 + r) of n/d is n / (d + n).
Money tax_within(Money gross, Ratio rate) {
  std::int64_t const whole = checked_add(rate.den(), rate.num());
  return {mul_div(gross.minor, rate.num(), whole, Rounding::half_away), gross.currency};
}

}  // namespace endband
