#include "engine/risk/risk.h"

#include "engine/book/operation.h"
#include "engine/labour/hours.h"
#include "tests/cases.h"
#include "tests/engine/costing/bills.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <thread>

using namespace endband::testing;
using doctest::Approx;
using endband::Bill;
using endband::CostSheet;
using endband::FaultCode;
using endband::HoursRisk;
using endband::Money;
using endband::OperationKind;
using endband::Part;
using endband::Ratio;
using endband::Read;
using endband::Risk;
using endband::RiskRules;
using endband::RiskSource;
using endband::RunAll;
using endband::ShopRules;
using endband::Work;
using endband::WorkLine;

namespace {

constexpr std::int64_t hour = 3600;

// At 20.00 an hour and 5.00 of overhead.
ShopRules shop() { return year_of(1'000, 20'000'00, 5'000'00); }

WorkLine between(OperationKind kind, Part part, std::int64_t low, std::int64_t likely, std::int64_t high) {
  WorkLine line = work_line(kind, Ratio(low + 4 * likely + high, 6), part);
  line.low_seconds = low;
  line.high_seconds = high;
  return line;
}

struct Job {
  Bill bill;
  Work work;
  std::vector<endband::Outside> outside;
  ShopRules rules = shop();
  endband::Goal goal = endband::MarginGoal{{25, 100}};
  Money quoted = eur(1'000'00);
  std::vector<endband::Piece> pieces;

  Read<Risk> simulated(RiskRules const& with, RunAll const& run_all = {}) const {
    return endband::simulate({bill, work, outside, pieces, rules, {eur(0), ""}, {}, goal, quoted}, with,
                             run_all);
  }
  CostSheet sheet(std::optional<Money> contingency = {}) const {
    ShopRules plain = rules;
    plain.contingency = 0;
    plain.simulated_contingency = contingency;
    return cost(bill, work, outside, plain);
  }
};

endband::BillLine spoiling(std::int64_t id, std::int64_t net, std::int64_t spoil, std::int64_t price,
                           Part part) {
  endband::BillLine line = bill_line(id, net, price, part);
  line.spoil = pieces(spoil);
  line.opened = line.charged = pieces(net + spoil);
  return line;
}

// Something of everything.
Job a_job() {
  Job job;
  job.bill.lines = {spoiling(1, 1'000, 0, 60'00, Part::cover),
                    spoiling(2, 24'000, 720, 1'10, Part::text_block),
                    spoiling(3, 2'000, 60, 7'00, Part::boards)};
  job.bill.lines[0].ruin_chance = {8, 100};
  job.bill.lines[2].charging = endband::Charging::whole;
  job.work.lines = {between(OperationKind::pare_edges, Part::cover, 6'000, 9'000, 20'000),
                    between(OperationKind::cover_book, Part::cover, 3'000, 3'600, 9'000),
                    between(OperationKind::sew_sections, Part::sewing, 9'000, 12'000, 16'000),
                    work_line(OperationKind::keep_accounts, 600, Part::office)};
  job.work.lines[1].rate = eur(31'00);
  job.work.lines[1].wait_low = {4 * hour};
  job.work.lines[1].wait_high = {12 * hour};
  job.outside = {{"a die", eur(85'00), true, {1, 10}}, {"gild the edges", eur(40'00), false, Ratio(0)}};
  job.rules.contingency = {5, 100};
  return job;
}

double amount(Money money) { return static_cast<double>(money.minor); }

bool same(Risk const& a, Risk const& b) {
  auto const equal = [](endband::RiskQuantile const& p, endband::RiskQuantile const& q) {
    return p.at == q.at && p.work == q.work && p.wait == q.wait && p.cost == q.cost;
  };
  auto const driven = [](endband::RiskDriver const& p, endband::RiskDriver const& q) {
    return p.source == q.source && p.index == q.index && !(p.share < q.share) && !(q.share < p.share);
  };
  return std::equal(a.quantiles.begin(), a.quantiles.end(), b.quantiles.begin(), b.quantiles.end(), equal) &&
         a.mean_work == b.mean_work && a.mean_wait == b.mean_wait && a.mean_cost == b.mean_cost &&
         a.losing == b.losing && a.contingency == b.contingency && a.sure.goods == b.sure.goods &&
         std::equal(a.drivers.begin(), a.drivers.end(), b.drivers.begin(), b.drivers.end(), driven);
}

// Two threads, the last task first.
void two_threads(std::span<std::function<void()> const> tasks) {
  std::size_t const half = tasks.size() / 2;
  std::jthread const other([&] {
    for (std::size_t i = tasks.size(); i > half; --i) tasks[i - 1]();
  });
  for (std::size_t i = 0; i < half; ++i) tasks[i]();
}

}  // namespace

TEST_CASE("the mean of the simulated cost is the sheet's cost without contingency: nothing counts twice") {
  Job const job = a_job();
  constexpr std::int64_t runs = 60'000;
  Risk const risk = job.simulated({.seed = 3, .runs = runs, .confidence = {80, 100}}).value();
  // sd of the cost is no more than half of what lies between 5 and 95 %, of which a normal one has 3.29.
  double const spread = amount(risk.quantiles.back().cost) - amount(risk.quantiles.front().cost);
  double const tolerance = 5 * spread / 2 / std::sqrt(runs) + 5;  // and each line is rounded by itself
  CHECK(std::abs(amount(risk.mean_cost) - amount(job.sheet().total)) < tolerance);
  CHECK(tolerance < 0.005 * amount(job.sheet().total));
  CHECK(job.sheet().allowances.minor > 3 * tolerance);  // or the test could not tell them apart
}

TEST_CASE("with ruin the hands work longer than the quote says, by p / (1 - p) of what is repeated") {
  Job job = a_job();
  constexpr std::int64_t runs = 60'000;
  std::int64_t const mean = job.simulated({.seed = 1, .runs = runs}).value().mean_work.n;
  double repeated = 0;
  for (WorkLine const& line : job.work.lines)
    if (line.part == Part::cover && endband::operation_row(line.kind).repeated_if_ruined)
      repeated += static_cast<double>(round(line.mean_seconds, endband::Rounding::half_away));
  REQUIRE(repeated > hour);
  double const quoted = static_cast<double>(round(job.work.mean_seconds(), endband::Rounding::half_away));
  double const deviation = std::sqrt(endband::hours_of(job.work).variance) + 0.3 * repeated;
  CHECK(std::abs(static_cast<double>(mean) - quoted - repeated * 8 / 92) <
        4.5 * deviation / std::sqrt(runs) + 2);
}

TEST_CASE("the same seed gives the same bytes, on one thread or two, another seed gives others") {
  Job const job = a_job();
  RiskRules const rules{.seed = 11, .runs = 5'000, .confidence = {70, 100}};
  Risk const one = job.simulated(rules).value();
  CHECK(same(one, job.simulated(rules).value()));
  CHECK(same(one, job.simulated(rules, two_threads).value()));
  CHECK_FALSE(same(one, job.simulated({.seed = 12, .runs = 5'000, .confidence = {70, 100}}).value()));
}

// Written down once. Whoever changes a draw changes every stored simulation: then raise engine_rules.
TEST_CASE("the draws of a seed stay what they are") {
  Risk const risk = a_job().simulated({.seed = 1, .runs = 2'000, .confidence = {80, 100}}).value();
  CHECK(risk.mean_work.n == 28'461);
  CHECK(risk.mean_wait.n == 28'560);
  CHECK(risk.mean_cost.minor == 452'01);
  CHECK(risk.contingency.minor == 16'82);
  CHECK(risk.quantiles.front().work.n == 23'140);
  CHECK(risk.quantiles.back().cost.minor == 595'44);
}

TEST_CASE("a job that cannot vary costs what its sheet says in every run") {
  Job job;
  job.bill.lines = {bill_line(1, 1'000, 60'00, Part::cover)};
  job.work.lines = {work_line(OperationKind::pare_edges, 2 * hour, Part::cover)};
  job.outside = {{"a die", eur(85'00), true, Ratio(0)}};
  job.quoted = job.sheet().total;
  Risk const risk = job.simulated({.runs = 100}).value();
  for (auto const& quantile : risk.quantiles) {
    CHECK(quantile.cost == job.sheet().total);
    CHECK(quantile.work.n == 2 * hour);
  }
  CHECK(risk.mean_cost == job.sheet().total);
  CHECK(risk.losing == Ratio(0));
  CHECK(risk.contingency == eur(0));
  CHECK(risk.drivers.empty());
  job.quoted.minor -= 1;
  CHECK(job.simulated({.runs = 100}).value().losing == Ratio(1));
}

// One line of shapes 1 and 5: its time is low + span x (1 - (1 - u)^(1/5)).
TEST_CASE("the quantiles of one line are those of its distribution, and so is what it costs") {
  Job job;
  job.work.lines = {between(OperationKind::pare_edges, Part::cover, 0, 0, 10 * hour)};
  constexpr std::int64_t runs = 50'000;
  Risk const risk = job.simulated({.seed = 5, .runs = runs, .confidence = {90, 100}}).value();
  REQUIRE(risk.quantiles.size() == 6);
  for (auto const& quantile : risk.quantiles) {
    double const p = static_cast<double>(quantile.at.num()) / static_cast<double>(quantile.at.den());
    CAPTURE(p);
    double const exact = 10.0 * hour * (1 - std::pow(1 - p, 0.2));
    double const density = 5 * std::pow(1 - p, 0.8) / (10.0 * hour);
    double const error = std::sqrt(p * (1 - p) / static_cast<double>(runs)) / density;
    CHECK(std::abs(static_cast<double>(quantile.work.n) - exact) < 4.5 * error + 1);
    CHECK(std::abs(amount(quantile.cost) - static_cast<double>(quantile.work.n) * 25'00 / hour) < 2);
  }
  CHECK(risk.quantiles[4].at == Ratio(90, 100));  // the confidence in its place
}

TEST_CASE("the price that is sure carries the simulated contingency and never the plain one beside it") {
  Job const job = a_job();
  RiskRules const rules{.seed = 2, .runs = 4'000, .confidence = {80, 100}};
  Risk const risk = job.simulated(rules).value();
  Money const quantile = risk.quantiles[3].cost;
  REQUIRE(risk.quantiles[3].at == Ratio(80, 100));
  CHECK(std::abs(amount(quantile) - amount(risk.mean_cost) - amount(risk.contingency)) <= 1);
  CHECK(risk.contingency.minor > 0);
  CHECK(risk.sure.goods == least_price(job.sheet(risk.contingency), job.goal).value());
}

TEST_CASE("at the price that is sure, as many runs as asked leave the margin") {
  Job job = a_job();
  job.outside.clear();  // so that all of it earns: what a run may cost is the price less its margin
  RiskRules const rules{.seed = 2, .runs = 4'000, .confidence = {80, 100}};
  Money const sure = job.simulated(rules).value().sure.goods;
  job.quoted = scale(sure, Ratio(75, 100), endband::Rounding::half_away);
  Ratio const without = job.simulated(rules).value().losing;
  // Of the runs, but for ruin: the sheet's mean of it is not quite that of the runs.
  CHECK(without > Ratio(17, 100));
  CHECK(without < Ratio(23, 100));
}

TEST_CASE("a confidence below the mean needs no contingency") {
  CHECK(a_job().simulated({.runs = 2'000, .confidence = {5, 100}}).value().contingency == eur(0));
}

TEST_CASE("the drivers share the variance of the cost, the largest first") {
  Job const job = a_job();
  Risk const risk = job.simulated({.runs = 1'000}).value();
  double all = 0;
  for (std::size_t i = 0; i < risk.drivers.size(); ++i) {
    all += risk.drivers[i].share;
    if (i > 0) CHECK(risk.drivers[i].share <= risk.drivers[i - 1].share);
  }
  CHECK(all == Approx(1).epsilon(1e-12));
  auto const share = [&](RiskSource source, int index) {
    for (auto const& driver : risk.drivers)
      if (driver.source == source && driver.index == index) return driver.share;
    return 0.0;
  };
  CHECK(share(RiskSource::ruin, 0) > 0);
  CHECK(share(RiskSource::redo, 0) > 0);
  CHECK(share(RiskSource::spoil, 1) > 0);
  CHECK(share(RiskSource::spoil, 2) == 0);  // a whole pack is paid for already
  CHECK(share(RiskSource::step, 3) == 0);   // always ten minutes
  // By hand: lines x 25.00 or 36.00 an hour. (mu - low)(high - mu) / 7 of 10,333.3 and 12,166.7 s.
  double const paring = 4'333.333 * 9'666.667 / 7 * std::pow(25'00.0 / hour, 2);
  double const sewing = (12'166.667 - 9'000) * (16'000 - 12'166.667) / 7 * std::pow(25'00.0 / hour, 2);
  CHECK(share(RiskSource::step, 0) / share(RiskSource::step, 2) == Approx(paring / sewing).epsilon(1e-5));
  // 85.00 again with a chance of one in ten: variance p / (1 - p)^2 x price^2.
  CHECK(share(RiskSource::redo, 0) / share(RiskSource::step, 0) ==
        Approx(0.1 / 0.81 * 85'00.0 * 85'00.0 / paring).epsilon(1e-5));
  // 0.72 sheets of 24, one by one, 1.10 each.
  CHECK(share(RiskSource::spoil, 1) / share(RiskSource::step, 0) ==
        Approx(0.72 * 1'10.0 * 1'10.0 / paring).epsilon(1e-5));
}

TEST_CASE("the variance that is driven is that of the runs") {
  Job const job = a_job();
  constexpr std::int64_t runs = 40'000;
  Risk const risk = job.simulated({.seed = 9, .runs = runs}).value();
  double const paring = 4'333.333 * 9'666.667 / 7 * std::pow(25'00.0 / hour, 2);
  auto const first = std::find_if(risk.drivers.begin(), risk.drivers.end(), [](auto const& driver) {
    return driver.source == RiskSource::step && driver.index == 0;
  });
  REQUIRE(first != risk.drivers.end());
  double const variance = paring / first->share;  // of the whole, from closed forms
  // Chances that hold for any distribution of one mode (Vysochanskii and Petunin 1980): 4/9 k^2.
  double const five = amount(risk.quantiles.front().cost);
  double const ninety_five = amount(risk.quantiles.back().cost);
  double const mean = amount(risk.mean_cost);
  double const deviation = std::sqrt(variance);
  CHECK((ninety_five - five) / deviation > 2);
  CHECK((ninety_five - five) / deviation < 4);
  CHECK((mean - five) / deviation < 3);
}

TEST_CASE("spoil goes piece by piece where pieces are cut, and a kept offcut's worth is what it costs") {
  Job job;
  job.bill.lines = {spoiling(1, 2'000, 100, 8'00, Part::boards)};
  job.work.lines = {between(OperationKind::cut_boards, Part::boards, 600, 900, 2'000)};
  auto const share = [&] {
    Risk const risk = job.simulated({.runs = 10}).value();
    for (auto const& driver : risk.drivers)
      if (driver.source == RiskSource::spoil) return driver.share / (1 - driver.share);
    return 0.0;
  };
  double const by_things = share();  // 0.1 of them on average, 8.00 each
  endband::Piece piece{};
  piece.item = endband::Item::boards;
  piece.part = Part::boards;
  piece.material = {1};
  piece.count = 8;
  job.pieces = {piece};
  double const by_pieces = share();  // 0.4 on average, 2.00 each
  CHECK(by_things / by_pieces == Approx(0.1 * 64 / (0.4 * 4)).epsilon(1e-9));
  job.bill.lines[0].charging = endband::Charging::whole_less_offcuts;
  job.bill.lines[0].kept_worth = {1, 2};
  CHECK(by_pieces / share() == Approx(4).epsilon(1e-4));
  job.bill.lines[0].customer_supplied = true;
  CHECK(share() == 0);
}

TEST_CASE("waits are summed and cost nothing") {
  Job job;
  job.work.lines = {work_line(OperationKind::pare_edges, hour, Part::cover),
                    work_line(OperationKind::cover_book, hour, Part::cover)};
  Money const without = job.simulated({.runs = 10}).value().mean_cost;
  job.work.lines[0].wait_low = {8 * hour};
  job.work.lines[0].wait_high = {16 * hour};
  job.work.lines[1].wait_low = job.work.lines[1].wait_high = {hour};
  Risk const risk = job.simulated({.runs = 20'000}).value();
  CHECK(risk.mean_cost == without);
  CHECK(std::abs(static_cast<double>(risk.mean_wait.n - 13 * hour)) <
        4.5 * 8 * hour / std::sqrt(12.0 * 20'000));
  CHECK(risk.quantiles.front().wait.n == Approx((9 + 0.05 * 8) * hour).epsilon(0.01));
  CHECK(risk.quantiles.back().wait.n == Approx((9 + 0.95 * 8) * hour).epsilon(0.01));
}

TEST_CASE("overtime is in every run, and the sheet's own rates are") {
  Job job = a_job();
  job.rules.overtime_seconds = 4 * hour;
  job.rules.overtime_share = {50, 100};
  RiskRules const rules{.seed = 4, .runs = 1'000};
  Money const more = job.simulated(rules).value().mean_cost;
  CHECK(more - a_job().simulated(rules).value().mean_cost == eur(40'00));
}

TEST_CASE("what is asked wrongly is named at once, and a goal that cannot be met") {
  Read<Risk> const wrong = a_job().simulated({.seed = 1, .runs = 0, .confidence = 1});
  REQUIRE_FALSE(wrong.has_value());
  REQUIRE(wrong.error().size() == 2);
  CHECK(wrong.error()[0].code == FaultCode::out_of_range);
  CHECK(wrong.error()[0].where.field == "runs");
  CHECK(wrong.error()[1].where.field == "confidence");
  Job job = a_job();
  job.goal = endband::MarginGoal{1};
  CHECK(job.simulated({.runs = 10}).error().front().code == FaultCode::bad_goal);
  CHECK_FALSE(endband::simulate_hours(job.work, {.runs = -1}).has_value());
}

TEST_CASE("the hours alone are those of the lines, with nothing ruined") {
  Job const job = a_job();
  constexpr std::int64_t runs = 30'000;
  HoursRisk const hours = endband::simulate_hours(job.work, {.runs = runs}).value();
  endband::Hours const closed = endband::hours_of(job.work);
  double const error = closed.deviation() / std::sqrt(runs);
  double const mean = static_cast<double>(closed.mean.num()) / static_cast<double>(closed.mean.den());
  CHECK(std::abs(static_cast<double>(hours.mean.n) - mean) < 4.5 * error + 1);
  CHECK(hours.quantiles[2].work.n == Approx(closed.quantile(0.5)).epsilon(0.03));
  CHECK(hours.quantiles[4].work.n == Approx(closed.quantile(0.95)).epsilon(0.03));
}

TEST_CASE("for any job the quantiles rise, and as many runs lose as cost more than is quoted") {
  CHECK(endband::testing::check_one_in(10, [] {
    Job job = a_job();
    for (WorkLine& line : job.work.lines) {
      std::int64_t const low = *rc::gen::inRange<std::int64_t>(0, 9'000);
      std::int64_t const likely = low + *rc::gen::inRange<std::int64_t>(0, 9'000);
      std::int64_t const high = likely + *rc::gen::inRange<std::int64_t>(0, 9'000);
      line.low_seconds = low;
      line.high_seconds = high;
      line.mean_seconds = {low + 4 * likely + high, 6};
    }
    job.bill.lines[0].ruin_chance = Ratio(*rc::gen::inRange<std::int64_t>(0, 90), 100);
    Ratio const confidence(*rc::gen::inRange<std::int64_t>(1, 100), 100);
    RiskRules const rules{
        .seed = *rc::gen::arbitrary<std::uint64_t>(), .runs = 100, .confidence = confidence};
    Risk const risk = job.simulated(rules).value();
    for (std::size_t i = 1; i < risk.quantiles.size(); ++i) {
      RC_ASSERT(risk.quantiles[i].at > risk.quantiles[i - 1].at);
      RC_ASSERT(risk.quantiles[i].work >= risk.quantiles[i - 1].work);
      RC_ASSERT(risk.quantiles[i].cost >= risk.quantiles[i - 1].cost);
    }
    RC_ASSERT(risk.contingency >= eur(0));
    auto const& chosen = risk.quantiles[*rc::gen::inRange<std::size_t>(0, risk.quantiles.size())];
    job.quoted = eur(chosen.cost.minor + 1);  // a quantile is told to a minor unit
    RC_ASSERT(job.simulated(rules).value().losing <= Ratio(1) - chosen.at);
  }));
}
