#include "engine/job/job.h"

#include <algorithm>

namespace endband {
namespace {

// Work by others stands at cost as it was quoted; what nobody quoted does too.
bool stands_at_cost(FrozenQuote const& agreed, Billed const& bill) {
  auto const quoted = std::find_if(agreed.outside.begin(), agreed.outside.end(),
                                   [&](Outside const& each) { return each.words == bill.words; });
  return quoted == agreed.outside.end() || quoted->at_cost;
}

}  // namespace

Money sale_costs(FrozenQuote const& agreed) {
  if (!agreed.selling.outlet) return {0, agreed.shop.currency};
  return agreed.offer.walk.price - agreed.offer.walk.yours;
}

CostSheet sheet_as_made(FrozenQuote const& agreed, JobRecord const& record) {
  ActualCost const cost = actual_cost(agreed, record);
  Money const none{0, agreed.shop.currency};
  CostSheet sheet;
  sheet.materials = cost.materials;
  sheet.labour = cost.labour;
  sheet.overhead = cost.overhead;
  sheet.outside = cost.outside;
  sheet.allowances = sheet.standing = sheet.outlay = none;
  for (Billed const& bill : record.billed)
    if (stands_at_cost(agreed, bill)) sheet.standing += bill.price;
  sheet.total = cost.total;
  sheet.earning = cost.total - sheet.standing;
  sheet.seconds = Ratio(cost.time.n);
  sheet.part_shares = agreed.sheet.part_shares;
  return sheet;
}

}  // namespace endband
