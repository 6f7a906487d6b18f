#include "engine/review/reprice.h"

#include "engine/labour/seconds.h"
#include "engine/pricing/walk.h"
#include "engine/review/changes.h"

#include <bitset>
#include <stdexcept>

namespace endband {
namespace {

void set_prices(QuoteNow& now, Today::Held const& today) {
  for (std::size_t i = 0; i < now.bill.lines.size(); ++i) {
    BillLine& line = now.bill.lines[i];
    if (line.customer_supplied) continue;
    UnitCost const* const unit = today.price_of(line.material);
    if (unit == nullptr || unit->pack.dimension != line.charged.dimension) {
      now.not_priced = true;
      continue;
    }
    if (unit->minor == line.unit.minor && unit->pack.n == line.unit.pack.n) continue;
    line.unit = *unit;
    now.lines.push_back(i);
  }
}

// What it took x what it would take now / then: to 1/6000 s, as what copies learn, so that sums stay short.
Ratio scaled(Ratio took, Ratio then, Ratio now) {
  if (took == then) return now;
  if (then == Ratio(0)) return took;
  std::array<Product, 1> const parts{{{took, now, Ratio(1) / then, SecondsSum::denominator}}};
  return {round_sum(parts, Rounding::half_away), SecondsSum::denominator};
}

void set_times(QuoteNow& now, Today::Held const& today) {
  std::bitset<operation_count> seen;
  for (std::size_t i = 0; i < now.work.lines.size(); ++i) {
    WorkLine& line = now.work.lines[i];
    auto const kind = static_cast<std::size_t>(line.kind);
    bool const first = !seen[kind];
    seen.set(kind);
    StepNow const* const step = line.step_version == 0 ? nullptr : today.step_of(line.kind);
    StepTimes const* const then = step == nullptr ? nullptr : today.times_of(line.step_version);
    if (then == nullptr || (then->set_up == step->set_up && then->each == step->each)) continue;
    Ratio const seconds = scaled(line.mean_seconds, time_of(then->set_up, then->each, line.count, first),
                                 time_of(step->set_up, step->each, line.count, first));
    if (seconds == line.mean_seconds) continue;
    line.mean_seconds = seconds;
    now.steps.push_back(i);
  }
}

Money ticket_of(FrozenQuote const& quote) {
  bool const kept = quote.selling.outlet || quote.selling.discount;
  return kept ? quote.offer.walk.ticket : quote.offer.goods_shown;
}

Money price_of(FrozenQuote const& quote) {
  return quote.selling.outlet ? quote.offer.walk.price : quote.offer.goods;
}

Money left_of(FrozenQuote const& quote, CostSheet const& sheet, ShopRules const& shop) {
  if (nothing_is_taken(quote.selling)) return quote.offer.goods - sheet.total;
  Ratio const given_away = quote.selling.discount ? quote.selling.discount->share : Ratio(0);
  return walk({sheet, quote.delivery, quote.selling, shop}, ticket_of(quote), given_away).left;
}

// The least ticket is found only where the one quoted does not do.
void compare_with_goal(FrozenQuote const& quote, CostSheet const& sheet, ShopRules const& shop,
                       Repriced& result) {
  Money const ticket = result.ticket_then;
  if (!nothing_is_taken(quote.selling)) {
    Sale const sale{sheet, quote.delivery, quote.selling, shop};
    result.below_goal = !meets(walk(sale, ticket), sale, quote.goal);
    if (!result.below_goal) return;
    if (Read<Money> const least = least_ticket(sale, quote.goal)) result.ticket = *least;
    return;
  }
  Read<Money> const target = least_price(sheet, quote.goal);
  result.below_goal = !target;
  if (!target) return;
  Money const least = std::max(*target, shop.least_charge);
  PointPrice const point = point_at_or_above(least, quote.selling.points, quote.selling.tax);
  result.below_goal = point.shown > ticket;
  if (result.below_goal) result.ticket = point.shown;
}

}  // namespace

QuoteNow quote_now(FrozenQuote const& quote, Today::Held const& today) {
  QuoteNow now{quote.bill, quote.work, today.shop, {}, {}, false};
  now.shop.overtime_seconds = quote.shop.overtime_seconds;
  now.shop.overtime_share = quote.shop.overtime_share;
  now.shop.simulated_contingency = quote.shop.simulated_contingency;
  set_prices(now, today);
  set_times(now, today);
  return now;
}

CostSheet cost_again(FrozenQuote const& quote, Bill const& bill, Work const& work, ShopRules shop) {
  if (!quote.shop.simulated_contingency) return cost(bill, work, quote.outside, shop);
  Money const simulated = *quote.shop.simulated_contingency;
  Money const earned_then = quote.sheet.earning - simulated;
  shop.simulated_contingency = Money{0, shop.currency};
  CostSheet sheet = cost(bill, work, quote.outside, shop);
  Money contingency = simulated;
  if (earned_then.minor > 0)
    contingency.minor = mul_div(simulated.minor, sheet.earning.minor, earned_then.minor, Rounding::half_away);
  sheet.lines.back().amount = contingency;
  for (Money* sum : {&sheet.allowances, &sheet.earning, &sheet.total,
                     &sheet.part_shares[static_cast<std::size_t>(Part::whole_book)]})
    *sum += contingency;
  return sheet;
}

Repriced repriced(FrozenQuote const& quote, Today const& today) {
  QuoteNow const now = quote_now(quote, today.held());
  CostSheet const sheet = cost_again(quote, now.bill, now.work, now.shop);
  Repriced result;
  result.cost_then = quote.sheet.total;
  result.cost_now = sheet.total;
  result.price = price_of(quote);
  result.ticket_then = ticket_of(quote);
  result.left_then = quote.offer.left;
  result.left_now = left_of(quote, sheet, now.shop);
  result.under = result.left_now.minor < 0;
  result.not_priced = now.not_priced;
  compare_with_goal(quote, sheet, now.shop, result);
  if (!result.under && !(result.below_goal && result.cost_now > result.cost_then)) return result;
  std::optional<Largest> const largest = largest_change(quote, now);
  if (!largest) return result;
  result.largest = largest->change;
  result.alone = result.left_then.minor >= 0 && left_of(quote, largest->sheet, largest->shop).minor < 0;
  return result;
}

}  // namespace endband
