#include "records.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

namespace {

// The sheet and offer anew, after a change of what they follow from.
FrozenQuote priced(FrozenQuote quote) {
  quote.sheet = cost(quote.bill, quote.work, quote.outside, quote.shop);
  quote.offer = offer(quote.sheet, quote.delivery, quote.selling, quote.goal, quote.shop).value();
  return quote;
}

Change changed(FrozenQuote const& before, FrozenQuote const& after, JobRecord const& record) {
  return priced_change(before, before.offer.goods, before.sheet, after, record).value();
}

FrozenQuote without_goat() {
  FrozenQuote after = quote();
  after.bill.lines.erase(after.bill.lines.begin());
  return priced(after);
}

}  // namespace

TEST_CASE("the same book on the same day changes nothing, however far the job is") {
  for (TaxMode const mode : {TaxMode::none, TaxMode::added, TaxMode::included}) {
    FrozenQuote same = quote();
    same.selling.tax.mode = mode;
    same = priced(same);
    for (JobRecord const& record : {nothing_yet(), as_quoted(same)}) {
      Change const change = changed(same, same, record);
      CHECK(change.difference == eur(0));
      CHECK(change.thrown_price == eur(0));
      CHECK(change.price == same.offer.goods);
      CHECK(to_pay_after(same, same.offer.total, same, change) == same.offer.total);
    }
  }
}

TEST_CASE("a price given away stays given away") {
  FrozenQuote const same = quote();
  Change const change = priced_change(same, eur(321'00), same.sheet, same, nothing_yet()).value();
  CHECK(change.price == eur(321'00));
}

TEST_CASE("goods taken that the new book does not need are charged at the value posted") {
  JobRecord record = nothing_yet();
  record.taken = {taken(1, 3000, 40'00), taken(2, 1000, 10'00)};
  Change const change = changed(quote(), without_goat(), record);
  CHECK(change.thrown_goods == eur(40'00));
  CHECK(change.thrown_hours == eur(0));
  CHECK(change.thrown_price == eur(57'15));                 // / (1 - 30 %) is 57.142..., rounded up
  CHECK(change.difference < eur(0) + change.thrown_price);  // the goat itself is no longer paid for
}

TEST_CASE("what was taken beyond the old book's need is the workshop's own doing") {
  JobRecord record = nothing_yet();
  record.taken = {taken(1, 7500, 100'00)};  // twice the 3.75 needed
  CHECK(changed(quote(), without_goat(), record).thrown_goods == eur(50'00));
}

TEST_CASE("what still goes into the new book is not thrown away") {
  FrozenQuote after = quote();
  BillLine& goat = after.bill.lines[0];
  goat.net = pieces(1000);
  goat.opened = goat.consumed() + goat.kept + goat.pack_remainder;
  goat.charged = goat.consumed();  // 1.75
  JobRecord record = nothing_yet();
  record.taken = {taken(1, 3750, 75'00)};
  CHECK(changed(quote(), priced(after), record).thrown_goods == eur(40'00));  // 2.00 of 3.75
  record.taken = {taken(1, 1700, 34'00)};
  CHECK(changed(quote(), priced(after), record).thrown_goods == eur(0));
}

TEST_CASE("hours of no more use are charged at rate and overhead, no more than were quoted") {
  FrozenQuote after = quote();
  after.work.lines.erase(after.work.lines.begin());  // 90 minutes of paring
  after = priced(after);
  JobRecord record = nothing_yet();
  record.worked = {at(OperationKind::pare_edges, 3'600)};
  CHECK(changed(quote(), after, record).thrown_hours == eur(26'40 + 6'87));
  record.worked = {at(OperationKind::pare_edges, 36'000)};
  CHECK(changed(quote(), after, record).thrown_hours == eur(39'60 + 10'30));
  record.worked = {on(Part::cover, 3'600)};  // told of the part, of which the paring is all there is
  CHECK(changed(quote(), after, record).thrown_hours == eur(26'40 + 6'87));
  record.worked = {at(OperationKind::sew_sections, 3'600)};
  CHECK(changed(quote(), after, record).thrown_hours == eur(0));
}

TEST_CASE("a die that was billed for the old title is paid at what it cost") {
  FrozenQuote after = quote();
  after.outside.erase(after.outside.begin());
  after = priced(after);
  JobRecord record = nothing_yet();
  CHECK(changed(quote(), after, record).thrown_outside == eur(0));
  record.billed = {{"A die", eur(60'00)}};
  Change const change = changed(quote(), after, record);
  CHECK(change.thrown_outside == eur(60'00));
  CHECK(change.thrown_price == eur(60'00));
  record.billed = {{"a die", eur(60'00)}, {"a die", eur(60'00)}};
  CHECK(changed(quote(), after, record).thrown_outside == eur(85'00));  // as quoted, no more
}

TEST_CASE("dearer materials raise the price by the goal agreed on, not by the new quote's") {
  FrozenQuote after = quote();
  after.outside.push_back(outside("more gilding", eur(70'00), false));
  after.shop.contingency = Ratio(0);
  after.goal = MarginGoal{Ratio(0)};
  FrozenQuote before = quote();
  before.shop.contingency = Ratio(0);
  Change const change = changed(priced(before), priced(after), nothing_yet());
  CHECK(change.new_cost - change.old_cost == eur(70'00));
  CHECK(change.difference == eur(100'00));  // 70.00 / (1 - 30 %)
}

TEST_CASE("tax of a change follows how the quote was taxed") {
  FrozenQuote before = quote();
  Change change;
  change.difference = eur(100'00);
  change.price = eur(500'00);
  CHECK(to_pay_after(before, eur(490'88), before, change) == eur(490'88 + 119'00));
  FrozenQuote dearer_post = before;
  dearer_post.delivery.carriage = before.delivery.carriage + eur(10'00);
  CHECK(to_pay_after(before, eur(490'88), dearer_post, change) == eur(490'88 + 119'00 + 11'90));
  before.selling.tax.mode = TaxMode::added;
  CHECK(to_pay_after(before, eur(1), before, change) == eur(609'88));  // (500.00 + 12.50) x 1.19 is 609.875
  before.selling.tax.mode = TaxMode::none;
  CHECK(to_pay_after(before, eur(1), before, change) == eur(512'50));
}

TEST_CASE("a change that takes away more than was agreed is refused") {
  auto const change = priced_change(quote(), eur(1'00), quote().sheet, without_goat(), nothing_yet());
  REQUIRE_FALSE(change.has_value());
  CHECK(change.error().front().code == FaultCode::rule_refused);
}

TEST_CASE("a change of a book that is to leave a sum is charged at what it costs") {
  FrozenQuote agreed = quote();
  agreed.goal = endband::LeaveGoal{eur(900'00)};
  agreed.offer = offer(agreed.sheet, agreed.delivery, agreed.selling, agreed.goal, agreed.shop).value();
  FrozenQuote now = agreed;
  now.outside.push_back(outside("a second die", eur(40'00), true));
  now.sheet = cost(now.bill, now.work, now.outside, now.shop);
  auto const change = endband::priced_change(agreed, eur(900'00), agreed.sheet, now, {}).value();
  CHECK(change.difference == now.sheet.total - agreed.sheet.total);
  CHECK(change.difference == eur(40'00));
}

TEST_CASE("a change of a book that goes through an outlet bears its fees") {
  FrozenQuote agreed = quote();
  endband::Outlet place;
  place.currency = euro();
  endband::Fee fee;
  fee.steps = {{eur(0), {10, 100}}};
  fee.fixed = eur(0);
  place.fees = {fee};
  agreed.selling.tax = {};
  agreed.selling.outlet = place;
  agreed.goal = endband::ProfitGoal{eur(100'00)};
  FrozenQuote now = agreed;
  now.outside.push_back(outside("a second die", eur(90'00), true));
  now.sheet = cost(now.bill, now.work, now.outside, now.shop);
  auto const change = endband::priced_change(agreed, eur(900'00), agreed.sheet, now, {}).value();
  CHECK(change.difference == eur(100'00));  // of which the place takes a tenth
}
