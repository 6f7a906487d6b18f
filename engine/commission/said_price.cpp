#include "engine/commission/said_price.h"

#include "engine/pricing/walk.h"

namespace endband {
namespace {

// The workshop's own points where the price stands on one of them.
PricePoints points_for(Money price, PricePoints own) {
  if ((price.minor + own.below) % own.step == 0) return own;
  for (std::int64_t const step : {100, 50, 10, 5})
    if (price.minor % step == 0) return {step, 0};
  return {1, 0};
}

}  // namespace

Read<Commission> at_price(Commission commission, Money price) {
  Currency const currency = commission.shop.currency;
  PricePoints const points = points_for(price, points_of(commission.selling, currency));
  commission.selling.points = points;
  if (commission.selling.outlet) commission.selling.outlet->points = points;
  commission.shop.least_charge = {0, currency};
  commission.goal = ProfitGoal{{0, currency}};
  auto const priced = endband::price(commission);
  if (!priced) return tl::unexpected(priced.error());
  Walk const there = walk({priced->sheet, priced->delivery, priced->selling, commission.shop}, price);
  bool const plain = nothing_is_taken(commission.selling);
  commission.goal = ProfitGoal{plain ? there.price - priced->sheet.total : there.left};
  return commission;
}

}  // namespace endband
