#include "records.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband;
using namespace endband::testing;

namespace {

std::int64_t drawn(std::int64_t least, std::int64_t most) {
  return *rc::gen::inRange<std::int64_t>(least, most + 1);
}

JobRecord any_record() {
  JobRecord record = nothing_yet();
  for (std::int64_t material = 1; material <= 4; ++material)
    if (drawn(0, 2) != 0) record.taken.push_back(taken(material, drawn(1, 9'000), drawn(0, 900'00)));
  for (OperationKind const kind : {OperationKind::pare_edges, OperationKind::sew_sections,
                                   OperationKind::cover_book, OperationKind::draw_proof})
    if (drawn(0, 1) != 0) record.worked.push_back(at(kind, drawn(1, 40'000)));
  for (Part const part : {Part::cover, Part::sewing, Part::office})
    if (drawn(0, 3) == 0) record.worked.push_back(on(part, drawn(1, 40'000)));
  if (drawn(0, 1) != 0) record.billed.push_back({"a die", eur(drawn(0, 200'00))});
  record.paid = eur(drawn(0, 2'000'00));
  return record;
}

FrozenQuote any_quote() {
  FrozenQuote made = quote_without_results();
  for (WorkLine& line : made.work.lines) line.mean_seconds = Ratio(drawn(0, 600'000), 6 * drawn(1, 3));
  made.work.lines.push_back(work_line(OperationKind::cover_book, drawn(1, 20'000), Part::cover));
  made.work.lines.push_back(work_line(OperationKind::pare_edges, drawn(1, 20'000), Part::strap));
  made.selling.tax.mode = static_cast<TaxMode>(drawn(0, 2));
  made.selling.tax.rate = Ratio(drawn(0, 30), 100);
  made.sheet = cost(made.bill, made.work, made.outside, made.shop);
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  return made;
}

}  // namespace

TEST_CASE("the rows beside the quote sum to what was quoted and to what it cost") {
  CHECK(rc::check("sums", [] {
    FrozenQuote const agreed = any_quote();
    JobRecord const record = any_record();
    ActualCost const cost = actual_cost(agreed, record);
    Money quoted = eur(0), value = eur(0);
    for (MaterialBeside const& row : materials_beside(agreed, record)) {
      quoted += row.quoted_cost;
      value += row.taken_value;
    }
    std::int64_t quoted_seconds = 0, worked = 0;
    for (WorkBeside const& row : work_beside(agreed, record)) {
      RC_ASSERT(row.quoted.n >= 0);
      RC_ASSERT(row.operation.has_value() != row.part.has_value());
      quoted_seconds += row.quoted.n;
      worked += row.worked.n;
    }
    RC_ASSERT(quoted == agreed.sheet.materials);
    RC_ASSERT(value == cost.materials);
    RC_ASSERT(quoted_seconds == round(agreed.sheet.seconds, Rounding::half_away));
    RC_ASSERT(worked == cost.time.n);
    RC_ASSERT(cost.total == cost.materials + cost.labour + cost.overhead + cost.outside);
  }));
}

TEST_CASE("an unchanged book is an unchanged price, whatever was done") {
  CHECK(rc::check("no change", [] {
    FrozenQuote const agreed = any_quote();
    Change const change =
        priced_change(agreed, agreed.offer.goods, agreed.sheet, agreed, any_record()).value();
    RC_ASSERT(change.difference == eur(0));
    RC_ASSERT(change.thrown_price == eur(0));
    RC_ASSERT(to_pay_after(agreed, agreed.offer.total, agreed, change) == agreed.offer.total);
  }));
}

TEST_CASE("no more is thrown away than the job took, nor is anything when it took nothing") {
  CHECK(rc::check("thrown away", [] {
    FrozenQuote const before = any_quote();
    FrozenQuote after = any_quote();
    after.bill.lines.resize(static_cast<std::size_t>(drawn(0, 3)));
    JobRecord const record = any_record();
    ActualCost const cost = actual_cost(before, record);
    auto const change = priced_change(before, eur(100'000'00), before.sheet, after, record);
    RC_ASSERT(change.has_value());
    RC_ASSERT(change->thrown_goods >= eur(0));
    RC_ASSERT(change->thrown_goods <= cost.materials);
    RC_ASSERT(change->thrown_hours <= cost.labour + cost.overhead);
    RC_ASSERT(change->thrown_price >= change->thrown_goods + change->thrown_hours + change->thrown_outside);
    auto const fresh = priced_change(before, eur(100'000'00), before.sheet, after, nothing_yet());
    RC_ASSERT(fresh->thrown_price == eur(0));
    RC_ASSERT(change->difference - change->thrown_price == fresh->difference);
  }));
}

TEST_CASE("what was paid is what is kept, its tax and what goes back, less what is still due") {
  CHECK(rc::check("settled", [] {
    FrozenQuote const agreed = any_quote();
    JobRecord const record = any_record();
    std::optional<Money> keeps;
    if (drawn(0, 1) != 0) keeps = eur(drawn(0, 3'000'00));
    Settlement const settled = settle_cancelled(agreed, record, keeps);
    RC_ASSERT(settled.paid == settled.keeps + settled.tax + settled.to_give_back - settled.still_due);
    RC_ASSERT(settled.to_give_back >= eur(0));
    RC_ASSERT(settled.still_due >= eur(0));
    RC_ASSERT(settled.to_give_back == eur(0) || settled.still_due == eur(0));
    RC_ASSERT(settled.keeps == keeps.value_or(settled.cost.total));
  }));
}
