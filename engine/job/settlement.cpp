#include "engine/job/job.h"
#include "engine/pricing/walk.h"

#include <algorithm>
#include <stdexcept>

namespace endband {

Ratio mean_tax_rate(FrozenQuote const& quote) {
  TaxRules const tax = tax_of(quote.selling);
  Money const net = quote.offer.goods + quote.offer.carriage;
  if (tax.own.empty() || net.minor == 0) return tax.rate;
  return {quote.offer.tax.minor, net.minor};
}

Settlement settle_cancelled(FrozenQuote const& agreed, JobRecord const& record, std::optional<Money> keeps) {
  if (keeps && keeps->minor < 0) throw std::logic_error("less than nothing is kept");
  TaxRules const tax = tax_of(agreed.selling);
  Money const none{0, agreed.shop.currency};
  Settlement settled;
  settled.cost = actual_cost(agreed, record);
  settled.keeps = keeps.value_or(std::max(settled.cost.total, none));
  settled.tax = tax.mode == TaxMode::none ? none : tax_added(settled.keeps, mean_tax_rate(agreed));
  settled.paid = record.paid;
  Money const over = settled.paid - settled.keeps - settled.tax;
  settled.to_give_back = std::max(over, none);
  settled.still_due = std::max(-over, none);
  return settled;
}

}  // namespace endband
