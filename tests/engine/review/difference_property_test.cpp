#include "reviews.h"
#include "tests/cases.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband;
using namespace endband::testing;

namespace {

std::int64_t drawn(std::int64_t least, std::int64_t most) {
  return *rc::gen::inRange<std::int64_t>(least, most + 1);
}
bool coin() { return drawn(0, 1) == 1; }

BillLine any_line(std::int64_t id) {
  BillLine line = bill_line(id, static_cast<Charging>(drawn(0, 2)), coin() ? Part::cover : Part::boards);
  line.unit = {drawn(0, 90'000), pieces(drawn(1, 50'000)), euro()};
  line.spoil = pieces(drawn(0, 900));
  line.opened = line.net + line.spoil + line.cutting_loss + line.kept + line.pack_remainder;
  if (line.charging == Charging::as_used) line.charged = line.consumed();
  if (line.charging == Charging::whole) line.charged = line.opened;
  if (coin()) line.ruin_chance = Ratio(drawn(0, 50), 100);
  if (drawn(0, 3) == 0) {
    line.customer_supplied = true;
    line.unit = {};
  }
  return line;
}

// A whole skin, in areas of a size that quantities really have.
BillLine whole_skin(std::int64_t id) {
  static constexpr std::int64_t dm2 = 10'000'000'000;
  BillLine line;
  line.material = {id};
  line.charging = Charging::whole;
  auto const area = [](std::int64_t n) { return Amount{Dimension::area, n}; };
  line.net = area(drawn(1, 20) * dm2);
  line.spoil = area(drawn(0, 3) * dm2);
  line.cutting_loss = area(drawn(0, 9) * dm2);
  line.opened = line.charged = area(65 * dm2);
  line.kept = line.opened - line.consumed();
  line.pack_remainder = area(0);
  line.units_opened = 1;
  line.uses = {{Item::cover_leather, Part::cover, line.net}};
  line.unit = {drawn(1, 200'00), area(drawn(40 * dm2, 70 * dm2)), euro()};
  return line;
}

Outlet any_outlet() {
  Outlet outlet;
  outlet.code = "fair";
  outlet.currency = euro();
  outlet.kind = static_cast<OutletKind>(drawn(0, 3));
  outlet.collects_tax = coin();
  outlet.cash_step = coin() ? 5 : 1;
  outlet.exchange.spread = Ratio(drawn(0, 5), 100);
  if (outlet.kind == OutletKind::trade) outlet.discount = Ratio(drawn(0, 40), 100);
  Fee fee;
  fee.name = "its share";
  fee.base = static_cast<FeeBase>(drawn(0, 3));
  fee.steps = {{eur(0), Ratio(drawn(0, 20), 100)}};
  fee.fixed = eur(drawn(0, 300));
  outlet.fees.push_back(fee);
  outlet.returns.change_of_mind = Ratio(drawn(0, 9), 100);
  outlet.returns.fault = Ratio(drawn(0, 9), 100);
  outlet.returns.handling = Duration{drawn(0, 3600)};
  for (Money* each : {&outlet.returns.carriage_back, &outlet.returns.insured, &outlet.returns.excess,
                      &outlet.returns.return_carriage})
    *each = eur(drawn(0, 900));
  return outlet;
}

FrozenQuote any_quote() {
  FrozenQuote made = quote_without_results();
  made.bill.lines.clear();
  for (std::int64_t id = 1; id <= 4; ++id)
    if (coin()) made.bill.lines.push_back(any_line(id));
  if (coin()) made.bill.lines.push_back(whole_skin(5));
  for (WorkLine& line : made.work.lines) line.mean_seconds = Ratio(drawn(0, 600'000), 6 * drawn(1, 1000));
  made.work.lines.push_back(work_line(OperationKind::cover_book, drawn(1, 20'000), Part::cover));
  made.work.lines.push_back(work_line(OperationKind::pare_edges, drawn(1, 20'000), Part::strap));
  for (WorkLine& line : made.work.lines)
    if (drawn(0, 2) == 0) line.rate = eur(drawn(0, 9'000));
  if (coin()) made.outside[0].redo = Ratio(drawn(0, 50), 100);
  made.shop.basis = {
      eur(drawn(0, 4'000'000)), eur(drawn(0, 900'000)), eur(drawn(0, 900'000)), {3600 * drawn(1, 1500)}};
  made.shop.overtime_seconds = Ratio(drawn(0, 9000), 7);
  made.shop.overtime_share = Ratio(drawn(0, 50), 100);
  if (coin()) made.shop.simulated_contingency = eur(drawn(0, 90'00));
  made.selling.tax.mode = static_cast<TaxMode>(drawn(0, 2));
  made.selling.tax.rate = Ratio(drawn(0, 30), 100);
  if (coin()) made.selling.outlet = any_outlet();
  if (coin()) made.selling.discount = Discount{Ratio(drawn(0, 100), 100), "a gift"};
  made.goal = ProfitGoal{eur(drawn(0, 300'00))};
  made.sheet = cost(made.bill, made.work, made.outside, made.shop);
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  return made;
}

void take_any(Finished& job, std::int64_t material, Dimension dimension, std::int64_t most) {
  for (std::int64_t n = drawn(0, 3); n > 0; --n) {
    std::int64_t const quantity = drawn(-most / 3, most);
    TakenOn row = taken_on(material, quantity, quantity > 0 ? drawn(0, quantity) : 0,
                           quantity > 0 ? drawn(0, 90'00) : -drawn(0, 20'00), {});
    if (coin()) row.price = UnitCost{drawn(0, 90'00), {dimension, drawn(1, most)}, euro()};
    job.take(row);
  }
}

Finished any_job() {
  Finished job(any_quote());
  for (std::int64_t id = 1; id <= 6; ++id) take_any(job, id, Dimension::count, 9'000);
  take_any(job, 5, Dimension::area, 900'000'000'000);
  for (OperationKind const kind : {OperationKind::pare_edges, OperationKind::sew_sections,
                                   OperationKind::cover_book, OperationKind::draw_proof})
    if (coin()) job.record.worked.push_back(at(kind, drawn(1, 40'000)));
  for (Part const part : {Part::cover, Part::sewing, Part::strap, Part::office})
    if (drawn(0, 3) == 0) job.record.worked.push_back(on(part, drawn(1, 40'000)));
  for (std::string const words : {"a die", "A DIE", "edge gilding", "a courier"})
    if (coin()) job.record.billed.push_back({words, eur(drawn(-20'00, 200'00))});
  for (std::optional<Money>* each :
       {&job.sale.fees, &job.sale.carriage, &job.sale.exchange, &job.sale.returned, &job.sale.tax})
    if (coin()) *each = eur(drawn(0, 90'00));
  if (coin()) job.first.left = eur(drawn(-90'00, 900'00));
  if (coin()) job.price = eur(drawn(0, 2'000'00));
  job.kept = coin() ? job.price : eur(drawn(0, 2'000'00));
  return job;
}

// Kept, less what the sale took, less what the job cost: worked out without its parts.
Money left_by_hand(Finished const& job) {
  FrozenQuote const& agreed = job.agreed;
  Money left = job.kept - actual_cost(agreed, job.record).total - sale_costs(agreed);
  bool const outlet = agreed.selling.outlet.has_value();
  Walk const& walk = agreed.offer.walk;
  if (job.sale.fees) left = left - *job.sale.fees + (outlet ? walk.all_fees : eur(0));
  if (job.sale.exchange) left = left - *job.sale.exchange + (outlet ? walk.exchange_cost : eur(0));
  if (job.sale.carriage) left = left - *job.sale.carriage + agreed.delivery.carriage;
  if (job.sale.returned) left = left - *job.sale.returned;
  return left;
}

void sums_to_the_whole(Finished const& job) {
  Difference const difference = job.difference();
  Money sum = eur(0), of_details = eur(0);
  for (DifferenceLine const& line : difference.lines) sum += line.amount;
  for (DifferenceDetail const& detail : difference.details) of_details += detail.amount;
  RC_ASSERT(sum == difference.left - difference.left_quoted);
  RC_ASSERT(of_details == sum);
  RC_ASSERT(difference.left_quoted == job.first.left);
  if (!job.sale.tax) RC_ASSERT(difference.left == left_by_hand(job));
  // No more than half a minor unit for every amount that is rounded: a line of cost, or a detail of it.
  std::int64_t const rounded = std::ssize(job.agreed.sheet.lines) +
                               3 * (std::ssize(job.agreed.work.lines) + 9) +
                               4 * (std::ssize(job.agreed.bill.lines) + 7);
  RC_ASSERT(std::abs(of(difference, Because::rounding).minor) <= rounded / 2 + 2);
}

}  // namespace

TEST_CASE("the parts sum to the whole difference, whatever happened") {
  // Ten jobs each: a thousand.
  CHECK(endband::testing::check_one_in(10, [] {
    for (int i = 0; i < 10; ++i) sums_to_the_whole(any_job());
  }));
}
