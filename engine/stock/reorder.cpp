// What past use suggests: when to order again, and how much.
#include "engine/stock/to_buy.h"

#include <boost/math/distributions/normal.hpp>

#include <cmath>
#include <stdexcept>

namespace endband {
namespace {

bool at_least_nothing(double value) { return std::isfinite(value) && value >= 0; }

void check(UseStatistics const& use) {
  for (double const value : {use.a_day, use.deviation, use.lead_days, use.lead_deviation})
    if (!at_least_nothing(value)) throw std::logic_error("use and lead time are counted from nothing up");
}

// z: the standard normal variate that is exceeded with the chance 1 - service_level.
double normal_quantile(double service_level) {
  // Below one half the safety stock would be less than nothing. NaN is refused too.
  if (!(service_level >= 0.5 && service_level < 1))
    throw std::logic_error("a service level is at least one half and less than one");
  return boost::math::quantile(boost::math::normal_distribution<double>(), service_level);
}

}  // namespace

double safety_stock(UseStatistics const& use, double service_level) {
  check(use);
  double const of_use = use.lead_days * use.deviation * use.deviation;
  double const of_lead = use.a_day * use.a_day * use.lead_deviation * use.lead_deviation;
  return normal_quantile(service_level) * std::sqrt(of_use + of_lead);
}

double reorder_point(UseStatistics const& use, double service_level) {
  return use.a_day * use.lead_days + safety_stock(use, service_level);
}

double order_size(double a_year, double cost_of_order, double keeping_a_unit_a_year) {
  if (!at_least_nothing(a_year) || !at_least_nothing(cost_of_order) ||
      !at_least_nothing(keeping_a_unit_a_year) || keeping_a_unit_a_year == 0)
    throw std::logic_error(
        "an order size is asked of less than nothing, or of goods that cost nothing to keep");
  return std::sqrt(2 * a_year * cost_of_order / keeping_a_unit_a_year);
}

}  // namespace endband
