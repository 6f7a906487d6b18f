#include "engine/pricing/points.h"
#include "engine/pricing/pricing.h"

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

void check_tax(TaxRules const& tax) {
  if (tax.rate < Ratio(0) || tax.rate > Ratio(1)) throw std::logic_error("a tax rate outside 0 to 1");
}

PointPrice priced(std::int64_t shown, Currency currency, TaxRules const& tax) {
  Money const price{shown, currency};
  switch (tax.mode) {
    case TaxMode::none: return {price, price, {0, currency}};
    case TaxMode::added: return {price, price, tax_added(price, tax.rate)};
    case TaxMode::included: break;
  }
  Money const within = tax_within(price, tax.rate);
  return {price, price - within, within};
}

}  // namespace

// The net of a point never falls from one point to the next: one minor unit more shown is r / (1 + r) < 1
// more tax, so at most one more when rounded. It strays from shown / (1 + r) by half a minor unit, so the
// least point lies within (1 + r) of least x (1 + r): start at the last point up to that product and test
// downward, then upward.
PointPrice point_at_or_above(Money least_net, PricePoints const& points, TaxRules const& tax) {
  check(points);
  check_tax(tax);
  std::int64_t const least = std::max<std::int64_t>(0, least_net.minor);
  bool const included = tax.mode == TaxMode::included;
  std::int64_t const near =
      included ? checked_add(least, tax_added({least, least_net.currency}, tax.rate).minor) : least;
  PointPrice point = priced(point_up_to(near, points), least_net.currency, tax);
  while (point.net.minor >= least && point.shown.minor - points.step >= first_point(points)) {
    PointPrice const lower = priced(point.shown.minor - points.step, least_net.currency, tax);
    if (lower.net.minor < least) break;
    point = lower;
  }
  while (point.net.minor < least)
    point = priced(checked_add(point.shown.minor, points.step), least_net.currency, tax);
  return point;
}

}  // namespace endband
