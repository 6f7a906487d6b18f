#include "engine/job/job.h"

namespace endband {

ActualCost actual_cost(FrozenQuote const& agreed, JobRecord const& record) {
  Currency const currency = agreed.shop.currency;
  Rates const rates = rates_of(agreed.shop.basis);
  Money const none{0, currency};
  ActualCost cost{none, none, none, none, none, {}};
  for (Holding const& holding : record.taken) cost.materials += holding.value;
  for (Worked const& worked : record.worked) cost.time += worked.time;
  for (Billed const& bill : record.billed) cost.outside += bill.price;
  Ratio const seconds(cost.time.n);
  cost.labour = {round_product(seconds, rates.labour, Rounding::half_away), currency};
  cost.overhead = {round_product(seconds, rates.overhead, Rounding::half_away), currency};
  cost.total = cost.materials + cost.labour + cost.overhead + cost.outside;
  return cost;
}

}  // namespace endband
