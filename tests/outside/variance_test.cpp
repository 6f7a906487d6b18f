// Job cost sheets, overhead by labour, and variances of materials, labour and overhead, as printed in
// OpenStax, Principles of Accounting, volume 2: Managerial Accounting (Franklin, Graybeal, Cooper), chapters
// 4, 6 and 8; the section stands beside each. Costs: less than nothing is favourable.
#include "engine/review/difference.h"
#include "engine/review/year.h"

#include <doctest/doctest.h>

#include <array>
#include <optional>
#include <vector>

namespace {

using endband::Because;
using endband::JobRecord;
using endband::Money;
using endband::OperationKind;
using endband::Ratio;

constexpr std::int64_t hour = 3600;

endband::Currency dollar() { return endband::read_currency("USD").value(); }
Money usd(std::int64_t cents) { return {cents, dollar()}; }
Ratio cents(std::int64_t hundredths) { return {hundredths, 100}; }  // a decimal of two places

// A workshop whose year charges `hours` and pays `labour` for them, with `overhead` beside.
endband::RateBasis basis(Money labour, Money overhead, std::int64_t hours) {
  return {labour, usd(0), overhead, {hours * hour}};
}

endband::FrozenQuote quote_of(endband::RateBasis const& rates) {
  endband::FrozenQuote quote;
  quote.shop.currency = dollar();
  quote.shop.basis = rates;
  quote.delivery.carriage = usd(0);
  return quote;
}

endband::Holding used(std::int64_t material, std::int64_t cents) {
  endband::Holding holding;
  holding.material = {material};
  holding.used = 1000;
  holding.value = usd(cents);
  return holding;
}

JobRecord job_of(std::vector<std::int64_t> const& materials, Ratio hours) {
  JobRecord record;
  record.paid = record.to_pay = usd(0);
  for (std::int64_t const each : materials) record.taken.push_back(used(std::ssize(record.taken) + 1, each));
  record.worked = {{OperationKind::sew_sections, std::nullopt, {(hours * hour).num()}}};
  return record;
}

}  // namespace

// Sections 4.4 to 4.6 (m68004, m68005, m68006): overhead 250,000 on labour of 100,000, 2.50 for each of it.
// The caption of the cost sheet's figure says 1.50; its amounts use 2.50.
TEST_CASE("Dinosaur Vinyl: overhead by labour, the cost sheet of MAC001, the month's four jobs") {
  Money overhead = usd(0);
  for (std::int64_t const each : {5'000'00, 20'000'00, 75'000'00, 90'000'00, 35'000'00, 25'000'00})
    overhead += usd(each);
  CHECK(overhead == usd(250'000'00));
  endband::RateBasis const rates = basis(usd(100'000'00), overhead, 5'000);  // 20.00 an hour
  CHECK(rates_of(rates).overhead / rates_of(rates).labour == Ratio(5, 2));
  endband::FrozenQuote const quote = quote_of(rates);

  // Vinyl, black ink, red, gold, 12 grommets, 40 of framing; 15 + 15 + 2 x 18 of labour.
  JobRecord const mac = job_of({300'00, 2 * 50'00, 60'00, 60'00, 12 * 10'00, 40 * 1'50}, Ratio(66, 20));
  endband::ActualCost const cost = actual_cost(quote, mac);
  CHECK(cost.materials == usd(700'00));
  CHECK(cost.labour == usd(66'00));
  CHECK(cost.overhead == usd(165'00));
  CHECK(cost.total == usd(931'00));
  CHECK(usd(2'000'00) - cost.total == usd(1'069'00));

  struct Job {
    std::int64_t opening, materials, labour, overhead, total;
  };
  static constexpr std::array<Job, 4> jobs{{{1'531'00, 0, 0, 0, 1'531'00},
                                            {1'000'00, 200'00, 150'00, 375'00, 1'725'00},
                                            {0, 700'00, 66'00, 165'00, 931'00},
                                            {0, 500'00, 150'00, 375'00, 1'025'00}}};
  std::array<std::int64_t, 4> totals{};
  Money materials = usd(0), labour = usd(0), applied = usd(0);
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    endband::ActualCost const made =
        actual_cost(quote, job_of({jobs[i].materials}, Ratio(jobs[i].labour, 20'00)));
    CHECK(made.overhead == usd(jobs[i].overhead));
    totals[i] = jobs[i].opening + made.total.minor;
    CHECK(totals[i] == jobs[i].total);
    materials += made.materials;
    labour += made.labour;
    applied += made.overhead;
  }
  CHECK(materials == usd(1'400'00));
  CHECK(labour == usd(366'00));
  CHECK(applied == usd(915'00));
  CHECK(totals[0] + totals[1] + totals[2] + totals[3] == 5'212'00);
  CHECK(totals[1] + totals[2] == 2'656'00);  // manufactured
  CHECK(totals[0] + totals[2] == 2'462'00);  // sold
  CHECK(11'600'00 == 2'500'00 + 10'500'00 - materials.minor);
}

// Section 4.6 (m68006) and its "Kraken Boardsports".
TEST_CASE("overhead is under- or over-applied by what was spent less what was charged") {
  auto const not_covered = [](std::int64_t spent, std::int64_t applied) {
    return endband::look_back(
               {basis(usd(100'000'00), usd(250'000'00), 5'000), 365, usd(spent), usd(applied), {hour}})
        .overhead_not_covered;
  };
  CHECK(not_covered(256'500'00, 250'000'00) == usd(6'500'00));
  CHECK(not_covered(248'000'00, 250'000'00) == usd(-2'000'00));
  std::int64_t const kraken = 25'000'00 + 31'750'00 + 50'000'00 + 17'500'00 + 85'000'00;
  CHECK(kraken == 209'250'00);
  std::int64_t const applied = endband::round_product(Ratio(33'50), 6'240, endband::Rounding::half_away);
  CHECK(applied == 209'040'00);
  CHECK(not_covered(kraken, applied) == usd(210'00));
}

// Section 6.1 (m68135): 2,500,000 over 1,250,000 hours.
TEST_CASE("Musicality: overhead by hours of labour, full cost, margin and markup of three products") {
  endband::RateBasis const rates = basis(usd(0), usd(2'500'000'00), 1'250'000);
  CHECK(rates_of(rates).overhead * Ratio(hour) == Ratio(2'00));
  struct Product {
    std::int64_t hours, units, assigned, overhead, materials, labour, cost, price, profit;
    Ratio margin, markup;  // recomputed
    std::int64_t sold, sales, cost_of_sales, gross;
  };
  std::vector<Product> const products{{350'000,
                                       140'000,
                                       700'000'00,
                                       5'00,
                                       3'50,
                                       10'00,
                                       18'50,
                                       20'00,
                                       1'50,
                                       {75, 1000},
                                       {150, 1850},
                                       150'000,
                                       3'000'000'00,
                                       2'775'000'00,
                                       225'000'00},
                                      {400'000,
                                       100'000,
                                       800'000'00,
                                       8'00,
                                       6'00,
                                       2'75,
                                       16'75,
                                       25'00,
                                       8'25,
                                       {33, 100},
                                       {825, 1675},
                                       110'000,
                                       2'750'000'00,
                                       1'842'500'00,
                                       907'500'00},
                                      {500'000,
                                       250'000,
                                       1'000'000'00,
                                       4'00,
                                       11'70,
                                       4'30,
                                       20'00,
                                       30'00,
                                       10'00,
                                       {1, 3},
                                       {1, 2},
                                       200'000,
                                       6'000'000'00,
                                       4'000'000'00,
                                       2'000'000'00}};
  std::int64_t gross = 0, sales = 0;
  for (Product const& each : products) {
    // All hours of the product as one job of the sheet.
    endband::WorkLine line;
    line.kind = OperationKind::sew_sections;
    line.part = endband::Part::sewing;
    line.mean_seconds = each.hours * hour;
    endband::CostSheet const sheet = endband::cost({}, {{line}}, {}, quote_of(rates).shop);
    CHECK(sheet.overhead == usd(each.assigned));
    std::int64_t const a_unit = sheet.overhead.minor / each.units;
    CHECK(a_unit == each.overhead);
    CHECK(each.materials + each.labour + a_unit == each.cost);
    std::int64_t const profit = each.price - each.cost;
    CHECK(profit == each.profit);
    CHECK(Ratio(profit, each.price) == each.margin);
    CHECK(Ratio(profit, each.cost) == each.markup);
    // A goal of that margin finds the price again.
    endband::CostSheet unit;
    unit.earning = usd(each.cost);
    unit.standing = usd(0);
    CHECK(endband::least_price(unit, endband::MarginGoal{each.margin}).value() == usd(each.price));
    CHECK(endband::least_price(unit, endband::MarkupGoal{each.markup}).value() == usd(each.price));
    CHECK(each.sold * each.price == each.sales);
    CHECK(each.sold * each.cost == each.cost_of_sales);
    CHECK(each.sold * profit == each.gross);
    gross += each.gross;
    sales += each.sales;
  }
  CHECK(gross == 3'132'500'00);
  CHECK(sales == 11'750'000'00);
}

// Section 4.8 (m68127): a part of 42, three hours at 25, overhead as much as labour. Billed: the part at 70
// and three hours at 80; 118 left is recomputed.
TEST_CASE("IFixIT: a job costs less an hour than it is billed at") {
  endband::FrozenQuote const quote = quote_of(basis(usd(25'00), usd(25'00), 1));
  endband::ActualCost const cost = actual_cost(quote, job_of({42'00}, 3));
  CHECK(cost.labour == usd(75'00));
  CHECK(cost.overhead == usd(75'00));
  CHECK(cost.total == usd(192'00));
  Money const billed = usd(70'00 + 3 * 80'00);
  CHECK(billed == usd(310'00));
  CHECK(billed - cost.total == usd(118'00));
  CHECK(billed + usd(50'00) - cost.total == usd(168'00));
}

namespace {

struct Variance {
  char const* name;
  Ratio quantity, price, standard_quantity, standard_price;
  std::optional<Ratio> by_price, by_quantity, total;
};

void check(std::vector<Variance> const& cases) {
  for (Variance const& each : cases) {
    INFO(each.name);
    Ratio const by_price = endband::price_variance(each.quantity, each.price, each.standard_price);
    Ratio const by_quantity =
        endband::quantity_variance(each.quantity, each.standard_quantity, each.standard_price);
    if (each.by_price) CHECK(by_price == *each.by_price);
    if (each.by_quantity) CHECK(by_quantity == *each.by_quantity);
    if (each.total) CHECK(by_price + by_quantity == *each.total);
  }
}

// A job whose bill has one material, or whose work is one step, as a difference sees it.
struct OneLine {
  endband::FrozenQuote quote;
  JobRecord record;
  std::vector<endband::TakenOn> taken;

  OneLine() : quote(quote_of(basis(usd(0), usd(0), 1))) { record.paid = record.to_pay = usd(0); }
  // In thousandths of a unit, at prices of a unit.
  void material(std::int64_t standard, std::int64_t standard_price, std::int64_t actual, std::int64_t price,
                std::int64_t value) {
    endband::BillLine line;
    line.material = {1};
    line.net = line.charged = {endband::Dimension::count, standard};
    line.spoil = line.cutting_loss = {endband::Dimension::count, 0};
    line.unit = {standard_price, {endband::Dimension::count, 1000}, dollar()};
    quote.bill.lines = {line};
    endband::TakenOn row;
    row.material = {1};
    row.quantity = actual;
    row.value = usd(value);
    row.price = endband::UnitCost{price, {endband::Dimension::count, 1000}, dollar()};
    taken = {row};
    record.taken = {used(1, value)};
    record.taken[0].used = actual;
  }
  // Hours quoted at a rate of the line's own, and worked at that of the workshop.
  void labour(std::int64_t standard_hours, std::int64_t standard_rate, std::int64_t hours,
              std::int64_t rate) {
    quote.shop.basis = basis(usd(rate), usd(0), 1);
    work(standard_hours, hours);
    quote.work.lines[0].rate = usd(standard_rate);
  }
  void overhead(std::int64_t standard_hours, std::int64_t hours, std::int64_t rate) {
    quote.shop.basis = basis(usd(0), usd(rate), 1);
    work(standard_hours, hours);
  }
  // As costs.
  std::int64_t by(Because because) {
    quote.sheet = cost(quote.bill, quote.work, {}, quote.shop);
    endband::SaleTaken const sale;
    Money const left = usd(0) - quote.sheet.total;
    endband::Difference const seen =
        endband::difference_of({quote, record, taken, sale, {usd(0), left}, usd(0), usd(0)});
    CHECK(seen.lines.back().amount == usd(0));  // no rounding
    CHECK(seen.left - seen.left_quoted == quote.sheet.total - actual_cost(quote, record).total);
    return -seen.lines.at(static_cast<std::size_t>(because)).amount.minor;
  }

 private:
  void work(std::int64_t standard_hours, std::int64_t hours) {
    endband::WorkLine line;
    line.kind = OperationKind::sew_sections;
    line.part = endband::Part::sewing;
    line.mean_seconds = standard_hours * hour;
    quote.work.lines = {line};
    record.worked = {{OperationKind::sew_sections, std::nullopt, {hours * hour}}};
  }
};

}  // namespace

// Section 8.2 (m68071), Connie's Candy and Biglow; then two more, as named.
TEST_CASE("variances of direct materials") {
  check({{"Connie A", 20, 6, 20, 7, -20, {}, {}},
         {"Connie B", 20, 9, 20, 7, 40, {}, {}},
         {"Connie C", cents(20), 7, cents(25), 7, {}, cents(-35), {}},
         {"Connie D", cents(50), 7, cents(25), 7, {}, cents(175), {}},
         {"Connie E", cents(50), 9, cents(25), 7, 1, cents(175), cents(275)},
         {"Biglow", 89'000, Ratio(74'760, 89'000), 11'000 * 8, cents(85), -890, 850, -40},
         // accountingqa.blogspot.com/2018/11/ex-23-5-direct-materials-variances.html
         {"exercise 23-5", 450, Ratio(2'925, 450), 430, cents(690), -180, 138, -42},
         // qammunity.org/8059627, a secondary copy
         {"183,200 lb", 183'200, cents(580), 185'000, 6, -36'640, -10'800, -47'440}});
  CHECK(Ratio(74'760, 89'000) == cents(84));
  CHECK(Ratio(2'925, 450) == cents(650));
}

TEST_CASE("variances of direct materials, of whole jobs") {
  OneLine connie;
  connie.material(250, 7'00, 500, 9'00, 4'50);
  CHECK(connie.by(Because::material_price) == 1'00);
  CHECK(connie.by(Because::quantity) == 1'75);
  CHECK(connie.by(Because::holding) == 0);
  OneLine biglow;
  biglow.material(88'000'000, 85, 89'000'000, 84, 74'760'00);
  CHECK(biglow.by(Because::material_price) == -890'00);
  CHECK(biglow.by(Because::quantity) == 850'00);
  OneLine exercise;
  exercise.material(430'000, 6'90, 450'000, 6'50, 2'925'00);
  CHECK(exercise.by(Because::material_price) == -180'00);
  CHECK(exercise.by(Because::quantity) == 138'00);
}

// Section 8.3 (m68072). The alternative text of Biglow's solution says 5,650 and 11,900 unfavourable; by its
// own inputs they are 5,600, and 11,900 favourable.
TEST_CASE("variances of direct labour") {
  check(
      {{"Connie A", cents(10), cents(750), cents(10), 8, cents(-5), {}, {}},
       {"Connie B", cents(10), cents(950), cents(10), 8, cents(15), {}, {}},
       {"Connie C", cents(5), 8, cents(10), 8, {}, cents(-40), {}},
       {"Connie D", cents(20), 8, cents(10), 8, {}, cents(80), {}},
       {"Connie E", cents(20), cents(950), cents(10), 8, cents(30), cents(80), cents(110)},
       {"Biglow", 16'000, Ratio(565'600, 16'000), Ratio(11'000) * Ratio(3, 2), 35, 5'600, -17'500, -11'900}});
  CHECK(Ratio(565'600, 16'000) == cents(35'35));
}

TEST_CASE("variances of direct labour, of whole jobs") {
  OneLine biglow;
  biglow.labour(16'500, 35'00, 16'000, 35'35);
  CHECK(biglow.by(Because::rate) == 5'600'00);
  CHECK(biglow.by(Because::time) == -17'500'00);
  OneLine connie;  // a hundredfold, in whole hours
  connie.labour(10, 8'00, 20, 9'50);
  CHECK(connie.by(Because::rate) == 30'00);
  CHECK(connie.by(Because::time) == 80'00);
}

// Section 8.4 (m71412): 2.00 an hour of variable overhead at every level, 6,000 fixed.
TEST_CASE("a flexible budget, and its standard rate at each level") {
  struct Level {
    std::int64_t hours, variable, total;
    Ratio rate;  // printed as 5.33, 5.00 and 4.73
  };
  for (Level const& level :
       {Level{1'800, 3'600'00, 9'600'00, Ratio(16, 3)}, Level{2'000, 4'000'00, 10'000'00, 5},
        Level{2'200, 4'400'00, 10'400'00, Ratio(52, 11)}}) {
    CHECK(level.hours * 2'00 == level.variable);
    CHECK(level.variable + 6'000'00 == level.total);
    CHECK(rates_of(basis(usd(0), usd(level.total), level.hours)).overhead * Ratio(hour) ==
          level.rate * Ratio(100));
  }
}

// Section 8.4. Of the third case the book rounds 3,500 / 1,800 to 1.94 first and prints -108 and -508; from
// its inputs they are -100 and -500. The first total is recomputed.
TEST_CASE("variances of variable overhead") {
  check({{"case 1", 2'500, Ratio(7'000, 2'500), 2'000, 2, 2'000, 1'000, 3'000},
         {"case 2", 2'000, Ratio(3'500, 2'000), 2'000, 2, -500, 0, -500},
         {"case 3", 1'800, Ratio(3'500, 1'800), 2'000, 2, -100, -400, -500}});
}

// The efficiency variance is a job's; the rate variance is the year's, spent less absorbed.
TEST_CASE("variances of variable overhead, of whole jobs and of their year") {
  struct Case {
    std::int64_t hours, spent, by_rate, by_time;
  };
  for (Case const& each : {Case{2'500, 7'000'00, 2'000'00, 1'000'00}, Case{2'000, 3'500'00, -500'00, 0},
                           Case{1'800, 3'500'00, -100'00, -400'00}}) {
    OneLine job;
    job.overhead(2'000, each.hours, 2'00);
    CHECK(job.by(Because::time_overhead) == each.by_time);
    Money const absorbed = actual_cost(job.quote, job.record).overhead;
    CHECK(endband::look_back({job.quote.shop.basis, 365, usd(each.spent), absorbed, {each.hours * hour}})
              .overhead_not_covered == usd(each.by_rate));
  }
}
