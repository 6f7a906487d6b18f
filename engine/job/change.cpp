#include "engine/job/heads.h"
#include "engine/pricing/walk.h"

#include <algorithm>
#include <utility>

namespace endband {
namespace {

std::int64_t needed_of(Bill const& bill, MaterialId material) {
  BillLine const* const line = line_of(bill, material);
  return line == nullptr ? 0 : needed(*line).n;
}

// What is held beyond what the new book needs, but no more than the old one needed, at its share of the value
// posted.
Money thrown_goods(Bill const& before, Bill const& after, JobRecord const& record, Currency currency) {
  Money thrown{0, currency};
  for (Holding const& holding : record.taken) {
    std::int64_t const held = holding.quantity();
    std::int64_t const of_no_use =
        std::min(held, needed_of(before, holding.material)) - needed_of(after, holding.material);
    if (held > 0 && of_no_use > 0 && holding.value.minor > 0)
      thrown += Money{value_of_part(holding.value.minor, held, of_no_use), currency};
  }
  return thrown;
}

// Two quotes may put an operation in different parts; hours told by part are compared by part in both.
Ratio quoted_under(std::vector<HeadTimes> const& all, Head const& head) {
  auto const found =
      std::find_if(all.begin(), all.end(), [&](HeadTimes const& each) { return each.head == head; });
  return found == all.end() ? Ratio(0) : found->quoted.total();
}

Money thrown_hours(FrozenQuote const& before, FrozenQuote const& after, JobRecord const& record) {
  Heads const heads(record.worked);
  std::vector<HeadTimes> const now = times_by_head(heads, after.work, {});
  SecondsSum thrown;
  for (HeadTimes const& times : times_by_head(heads, before.work, record.worked)) {
    Ratio const useful = std::min(Ratio(times.worked), times.quoted.total());
    Ratio const still = quoted_under(now, times.head);
    if (useful > still) thrown.add(useful - still);
  }
  Rates const rates = rates_of(before.shop.basis);
  return {checked_add(round_product(thrown.total(), rates.labour, Rounding::half_away),
                      round_product(thrown.total(), rates.overhead, Rounding::half_away)),
          before.shop.currency};
}

struct ThrownOutside {
  Money earning, standing;
};
ThrownOutside thrown_outside(FrozenQuote const& before, FrozenQuote const& after, JobRecord const& record) {
  Money const none{0, before.shop.currency};
  ThrownOutside thrown{none, none};
  for (Outside const& old : before.outside) {
    auto const same = [&](auto const& other) { return same_words(other.words, old.words); };
    if (std::any_of(after.outside.begin(), after.outside.end(), same)) continue;
    Money billed = none;
    for (Billed const& bill : record.billed)
      if (same(bill)) billed += bill.price;
    (old.at_cost ? thrown.standing : thrown.earning) += std::clamp(billed, none, std::max(none, old.price));
  }
  return thrown;
}

CostSheet only(Money earning, Money standing) {
  CostSheet sheet;
  sheet.earning = earning;
  sheet.standing = standing;
  return sheet;
}

// At the goal's share of what earns. A goal that is a sum of money is reached by the new price already, and
// what is thrown away is charged at what it cost.
Read<Money> price_of_thrown(CostSheet const& thrown, Goal const& goal) {
  if (std::holds_alternative<MarginGoal>(goal) || std::holds_alternative<MarkupGoal>(goal))
    return least_price(thrown, goal);
  return thrown.earning + thrown.standing;
}

// What a book is worth at the goal: through the outlet that it was agreed for, before anything given away. A
// sum that was to be the maker's says nothing of cost: then what changes is charged at what it costs.
Read<Money> price_at_goal(CostSheet const& sheet, FrozenQuote const& agreed) {
  bool const sum = std::holds_alternative<LeaveGoal>(agreed.goal);
  Goal const goal = sum ? Goal(ProfitGoal{{0, sheet.total.currency}}) : agreed.goal;
  if (!agreed.selling.outlet) return least_price(sheet, goal);
  SellingRules selling = agreed.selling;
  selling.discount.reset();
  Read<Offer> const offered = offer(sheet, agreed.delivery, selling, goal, agreed.shop);
  if (!offered) return tl::unexpected(offered.error());
  return offered->ladder.target.price;
}

}  // namespace

Amount needed(BillLine const& line) {
  return line.charging == Charging::as_used ? line.consumed() : line.opened;
}

Read<Change> priced_change(FrozenQuote const& agreed, Money agreed_price, CostSheet const& old_today,
                           FrozenQuote const& now, JobRecord const& record) {
  ThrownOutside const outside = thrown_outside(agreed, now, record);
  Change change;
  change.old_cost = old_today.total;
  change.new_cost = now.sheet.total;
  change.thrown_goods = thrown_goods(agreed.bill, now.bill, record, agreed.shop.currency);
  change.thrown_hours = thrown_hours(agreed, now, record);
  change.thrown_outside = outside.earning + outside.standing;
  CostSheet const thrown =
      only(change.thrown_goods + change.thrown_hours + outside.earning, outside.standing);
  Read<Money> const old_price = price_at_goal(old_today, agreed);
  Read<Money> const new_price = price_at_goal(now.sheet, agreed);
  Read<Money> const thrown_price = price_of_thrown(thrown, agreed.goal);
  for (Read<Money> const* price : {&old_price, &new_price, &thrown_price})
    if (!*price) return tl::unexpected(price->error());
  change.thrown_price = *thrown_price;
  change.difference = *new_price - *old_price + *thrown_price;
  change.price = agreed_price + change.difference;
  if (change.price.minor < 0)
    return refuse({FaultCode::rule_refused,
                   {"job vary", 0, 0, "price"},
                   money_text(change.price),
                   "the change takes away more than was agreed, " + money_text(agreed_price),
                   {}});
  return change;
}

Money to_pay_after(FrozenQuote const& agreed, Money to_pay, FrozenQuote const& now, Change const& change) {
  TaxRules const tax = tax_of(now.selling);
  Ratio const rate = mean_tax_rate(now);
  Money const whole = change.price + now.delivery.carriage;
  if (tax.mode == TaxMode::none) return whole;
  if (tax.mode == TaxMode::added) return whole + tax_added(whole, rate);
  Money const more = change.difference + now.delivery.carriage - agreed.delivery.carriage;
  return to_pay + more + tax_added(more, rate);
}

}  // namespace endband
