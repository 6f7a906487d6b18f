#include "engine/review/sale.h"

#include "engine/job/job.h"
#include "engine/pricing/walk.h"

namespace endband {
namespace {

// Of the offer; of what was agreed or kept beside it, by its mean rate.
Money tax_charged(FrozenQuote const& agreed, Money kept) {
  Money const none{0, agreed.shop.currency};
  std::optional<Outlet> const& outlet = agreed.selling.outlet;
  if (tax_of(agreed.selling).mode == TaxMode::none || (outlet && outlet->collects_tax)) return none;
  Money const quoted = outlet ? agreed.offer.walk.tax_due : agreed.offer.tax;
  Money const more = kept - (outlet ? agreed.offer.walk.price : agreed.offer.goods);
  return quoted + tax_added(more, mean_tax_rate(agreed));
}

}  // namespace

SaleQuoted sale_quoted(FrozenQuote const& agreed, Money kept) {
  Money const none{0, agreed.shop.currency};
  SaleQuoted quoted{sale_costs(agreed),        none, agreed.delivery.carriage, none,
                    tax_charged(agreed, kept), none};
  if (!agreed.selling.outlet) return quoted;
  Walk const& walk = agreed.offer.walk;
  Ratio const factor = exchange_factor(agreed.selling, agreed.shop.currency);
  quoted.fees.minor = round_product(walk.all_fees.minor, factor, Rounding::half_away);
  quoted.exchange = walk.exchange_cost;
  quoted.returns = walk.returns;
  return quoted;
}

Money told_more(std::optional<Money> const& told, Money quoted) {
  return told ? *told - quoted : Money{0, quoted.currency};
}

Money sale_cost(SaleQuoted const& quoted, SaleTaken const& taken) {
  return quoted.whole + told_more(taken.fees, quoted.fees) + told_more(taken.carriage, quoted.carriage) +
         told_more(taken.exchange, quoted.exchange) + told_more(taken.tax, quoted.tax) +
         taken.returned.value_or(Money{0, quoted.whole.currency});
}

}  // namespace endband
