#include "engine/commission/order.h"
#include "engine/pricing/walk.h"

#include <algorithm>

namespace endband {
namespace {

Money repairs_in(Offer const& offered) {
  for (OfferLine const& line : offered.lines)
    if (line.component == Component::repairs) return line.shown;
  return {0, offered.goods.currency};
}

Read<Money> repairs_at(RepairTerms const& terms, Ratio WorkLine::*time) {
  Work work = terms.work;
  for (WorkLine& line : work.lines)
    if (line.part == Part::repairs) line.mean_seconds = line.*time;
  CostSheet const sheet = cost(terms.bill, work, terms.outside, terms.shop);
  Read<Offer> const offered = offer(sheet, terms.delivery, terms.selling, terms.goal, terms.shop);
  if (!offered) return tl::unexpected(offered.error());
  return repairs_in(*offered);
}

}  // namespace

Read<std::optional<RepairRange>> repair_range(RepairTerms const& terms, Offer const& offered,
                                              Ratio ceiling_share) {
  bool const repairs = std::any_of(terms.work.lines.begin(), terms.work.lines.end(),
                                   [](WorkLine const& line) { return line.part == Part::repairs; });
  if (!repairs) return std::optional<RepairRange>();
  Read<Money> const low = repairs_at(terms, &WorkLine::low_seconds);
  if (!low) return tl::unexpected(low.error());
  Read<Money> const high = repairs_at(terms, &WorkLine::high_seconds);
  if (!high) return tl::unexpected(high.error());
  Money const likely = repairs_in(offered);
  Money const most = scale(likely, Ratio(1) + ceiling_share, Rounding::up);
  // The point is on the price as the buyer sees it, so no tax comes between.
  PricePoints const points = points_of(terms.selling, terms.shop.currency);
  Money const ceiling = point_at_or_above(most, points, TaxRules{}).shown;
  return RepairRange{ceiling_share, *low, likely, *high, ceiling};
}

}  // namespace endband
