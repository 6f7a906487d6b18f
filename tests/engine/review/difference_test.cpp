#include "reviews.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;
using namespace endband::testing;

namespace {

// Labour 26.40 an hour, overhead 7.20; no contingency, no chance of ruin, nothing outside, one material
// at 12.37.
FrozenQuote plain_quote() {
  FrozenQuote made = quote_without_results();
  made.bill.lines.resize(1);
  made.bill.lines[0].ruin_chance = 0;
  made.outside.clear();
  made.shop.contingency = 0;
  made.shop.basis = {eur(26'40), eur(0), eur(7'20), {seconds_an_hour}};
  made.sheet = cost(made.bill, made.work, made.outside, made.shop);
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  return made;
}

Finished plain_as_quoted() {
  Finished job(plain_quote());
  job.as_quoted();
  return job;
}

Finished through_an_outlet() {
  FrozenQuote made = plain_quote();
  Outlet outlet;
  outlet.code = "gallery";
  outlet.currency = euro();
  Fee fee;
  fee.name = "commission";
  fee.steps = {{eur(0), Ratio(1, 4)}};
  fee.fixed = eur(0);
  outlet.fees.push_back(fee);
  outlet.returns.change_of_mind = Ratio(1, 10);
  outlet.returns.carriage_back = eur(9'00);
  outlet.returns.insured = outlet.returns.excess = outlet.returns.return_carriage = eur(0);
  made.selling.outlet = outlet;
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  Finished job(made);
  job.as_quoted();
  return job;
}

}  // namespace

TEST_CASE("a job that went as it was quoted shows no difference") {
  Difference const difference = plain_as_quoted().difference();
  CHECK(only(difference, {}));
  CHECK(difference.details.empty());
  CHECK(difference.lines.size() == 16);
  CHECK(because_name(difference.lines.front().because) == "material-price");
  CHECK(because_name(difference.lines.back().because) == "rounding");
}

// 4 taken at 14.00 of that day, which the shelf had at 13.00; 1 of them spoiled, quoted 3.75 with 0.5
// spoiled. Price 4 x (14.00 - 12.37) = 6.52 lost; holding 4 x 1.00 = 4.00 gained; sound 3 - 3.25 = -0.25
// x 12.37 = 3.0925 gained; spoil 0.5 x 12.37 = 6.185 lost. All: 52.00 - 46.39 (46.3875) = 5.61 lost.
TEST_CASE("a material by price since the quote, holding, quantity and spoil") {
  Finished job(plain_quote());
  for (WorkLine const& line : job.agreed.work.lines)
    job.record.worked.push_back(at(line.kind, line.mean_seconds.num()));
  job.take(taken_on(1, 4000, 1000, 52'00, 14'00));
  Difference const difference = job.difference();
  CHECK(only(difference, {{Because::material_price, -652},
                          {Because::holding, 400},
                          {Because::quantity, 309},
                          {Because::spoil, -619},
                          {Because::rounding, 1}}));
  CHECK(whole(difference) == eur(-561));
  CHECK(difference.details.front().because == Because::material_price);
  CHECK(difference.details.front().material == MaterialId{1});
  CHECK(difference.details.front().quoted == pieces(3750));
  CHECK(difference.details.front().taken == pieces(4000));
  CHECK(difference.details.back().because == Because::rounding);
}

TEST_CASE("what went back on the shelf lowers quantity and price alike") {
  Finished job = plain_as_quoted();
  job.take(taken_on(1, -1000, 0, -10'00, 14'00));
  // 3.5 more charged would have cost; kept 1: price -1 x (14.00 - 12.37), holding -10.00 + 14.00,
  // quantity 12.37.
  CHECK(only(job.difference(),
             {{Because::material_price, 163}, {Because::holding, -400}, {Because::quantity, 1237}}));
}

TEST_CASE("without a price of the day only holding and quantity are told apart") {
  Finished job(plain_quote());
  job.record = as_quoted(job.agreed);
  job.record.taken.clear();
  job.take(taken_on(1, 4000, 500, 52'00, {}));
  // 4 x (13.00 - 12.37) = 2.52; 0.25 x 12.37 = 3.0925.
  CHECK(only(job.difference(), {{Because::holding, -252}, {Because::quantity, -309}}));
}

TEST_CASE("a material that nobody quoted is all quantity at the day's price") {
  Finished job = plain_as_quoted();
  job.take(taken_on(9, 2000, 500, 11'00, 5'00));
  CHECK(only(job.difference(), {{Because::quantity, -1000}, {Because::holding, -100}}));
  Finished unknown = plain_as_quoted();
  unknown.take(taken_on(9, 2000, 500, 11'00, {}));
  CHECK(only(unknown.difference(), {{Because::quantity, -1100}}));
}

TEST_CASE("what the customer supplies costs nothing, the workshop's own in its place does") {
  FrozenQuote made = plain_quote();
  made.bill.lines[0].customer_supplied = true;
  made.bill.lines[0].unit = {};
  made.sheet = cost(made.bill, made.work, made.outside, made.shop);
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  Finished job(made);
  job.record = as_quoted(job.agreed);
  job.record.taken.clear();
  job.take(taken_on(1, 3000, 1000, 0, 14'00));
  CHECK(only(job.difference(), {}));
  job.take(taken_on(1, 1000, 0, 13'00, 14'00));
  CHECK(only(job.difference(), {{Because::quantity, -1400}, {Because::holding, 100}}));
}

TEST_CASE("hours by operation, and by part where they were told so") {
  Finished job = plain_as_quoted();  // quoted: pare-edges 1 h 30, sew-sections 2 h 30
  job.record.worked = {at(OperationKind::pare_edges, 3600), at(OperationKind::sew_sections, 4 * 3600)};
  Difference const by_operation = job.difference();
  CHECK(only(by_operation, {{Because::time, -2640}, {Because::time_overhead, -720}}));  // an hour
  DifferenceDetail const& sewing = by_operation.details.front();                        // an hour and a half
  CHECK(sewing.because == Because::time);
  CHECK(sewing.operation == OperationKind::sew_sections);
  CHECK(sewing.amount == eur(-3960));
  CHECK(sewing.quoted_time == Duration{9000});
  CHECK(sewing.worked_time == Duration{4 * 3600});

  job.record.worked = {on(Part::sewing, 4 * 3600), at(OperationKind::pare_edges, 3600)};
  Difference const by_part = job.difference();
  CHECK(only(by_part, {{Because::time, -2640}, {Because::time_overhead, -720}}));
  CHECK(by_part.details.front().part == Part::sewing);
  CHECK_FALSE(by_part.details.front().operation);
}

// Pared 1 h 30 by a person at 40.00 and 1 h by one at the workshop's 26.40: 86.40 for 2.5 h, so 34.56 an
// hour.
TEST_CASE("an hour under a head was quoted at the mean rate of its lines") {
  FrozenQuote made = plain_quote();
  made.work.lines[0].rate = eur(40'00);
  made.work.lines.push_back(work_line(OperationKind::pare_edges, 3600, Part::cover));
  made.shop.overtime_seconds = 3600;
  made.shop.overtime_share = Ratio(1, 2);
  made.sheet = cost(made.bill, made.work, made.outside, made.shop);
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  Finished job(made);
  job.as_quoted();
  job.record.worked = {at(OperationKind::pare_edges, 5 * 3600), at(OperationKind::sew_sections, 9000)};
  // Rate: 5 x (34.56 - 26.40) and the overtime quoted, 13.20. Time: 2.5 x 34.56 and 2.5 x 7.20.
  CHECK(only(job.difference(),
             {{Because::rate, 4080 + 1320}, {Because::time, -8640}, {Because::time_overhead, -1800}}));
}

TEST_CASE("hours that nobody quoted are time at the workshop's rate") {
  Finished job = plain_as_quoted();
  job.record.worked.push_back(at(OperationKind::cover_book, 3600));
  CHECK(only(job.difference(), {{Because::time, -2640}, {Because::time_overhead, -720}}));
}

TEST_CASE("work by others by its words, and allowances that were not needed") {
  Finished job(quote());
  job.as_quoted();
  job.record.billed = {{"A die", eur(100'00)}, {"a courier", eur(12'00)}};
  Difference const difference = job.difference();
  CHECK(of(difference, Because::outside) == eur(85'00 - 100'00 + 40'00 - 12'00));
  CHECK(of(difference, Because::allowances) == job.agreed.sheet.allowances);
  CHECK(job.agreed.sheet.allowances > eur(0));
  std::vector<std::string> words;
  for (DifferenceDetail const& detail : difference.details)
    if (detail.because == Because::outside) words.push_back(detail.words);
  CHECK(words == std::vector<std::string>{"edge gilding", "a die", "a courier"});
}

TEST_CASE("sold by the workshop itself, what is told of the sale stands against nothing quoted") {
  Finished job = plain_as_quoted();
  job.sale = {eur(3'00), eur(15'00), eur(1'50), eur(20'00), job.agreed.offer.tax + eur(4'00)};
  // Carriage was charged at 12.50.
  CHECK(only(job.difference(), {{Because::fees, -300},
                                {Because::carriage, -250},
                                {Because::exchange, -150},
                                {Because::allowances, -2000},
                                {Because::tax, -400}}));
}

TEST_CASE("through an outlet, fees as told against those quoted, and returns only where there were some") {
  Finished job = through_an_outlet();
  Walk const& walk = job.agreed.offer.walk;
  REQUIRE(walk.all_fees > eur(0));
  REQUIRE(walk.returns > eur(0));
  CHECK(only(job.difference(), {{Because::allowances, walk.returns.minor}}));
  CHECK(job.difference().left == walk.left + walk.returns);
  job.sale.fees = walk.all_fees - eur(5'00);
  job.sale.returned = walk.returns + eur(30'00);
  job.sale.tax = walk.tax_due;
  CHECK(only(job.difference(), {{Because::fees, 500}, {Because::allowances, -3000}}));
}

TEST_CASE("a lower price, a job called off and a change are told apart") {
  Finished job = plain_as_quoted();
  job.kept = job.price - eur(50'00);
  CHECK(only(job.difference(), {{Because::given_away, -5000}}));
  // First agreed on at 20.00 less, to leave 8.00 less than the book as it was changed.
  job.first = {job.price - eur(20'00), job.first.left - eur(8'00)};
  CHECK(only(job.difference(), {{Because::given_away, -5000}, {Because::variations, 800}}));
}

TEST_CASE("tax told of a job called off stands against the tax of what was kept") {
  Finished job = plain_as_quoted();
  job.kept = eur(100'00);
  Money const less = job.price - job.kept;
  job.sale.tax = job.agreed.offer.tax - tax_added(less, Ratio(19, 100)) + eur(1'00);
  CHECK(of(job.difference(), Because::tax) == eur(-100));
}

TEST_CASE("days that do not sum to what the job holds are a fault of ours") {
  Finished job = plain_as_quoted();
  job.taken.front().value += eur(1);
  CHECK_THROWS_AS(job.difference(), std::logic_error);
  job = plain_as_quoted();
  job.taken.front().quantity += 1;
  CHECK_THROWS_AS(job.difference(), std::logic_error);
  job = plain_as_quoted();
  job.taken.push_back(taken_on(8, 1, 0, 1, {}));
  CHECK_THROWS_AS(job.difference(), std::logic_error);
}
