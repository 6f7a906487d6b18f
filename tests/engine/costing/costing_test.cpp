#include "bills.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>

using namespace endband::testing;
using endband::Bill;
using endband::cost;
using endband::CostKind;
using endband::CostSheet;
using endband::OperationKind;
using endband::Part;
using endband::Ratio;
using endband::ShopRules;
using endband::Work;

namespace {

constexpr std::int64_t hour = 3600;

Work hours(Ratio of, Part part = Part::cover) {
  return {{work_line(OperationKind::blind_lines, of * Ratio(hour), part)}};
}

}  // namespace

// OpenStax, Principles of Accounting 2, 4.4 to 4.6 (m68004 to m68006), "Dinosaur Vinyl": overhead of 250,000
// over labour of 100,000 is 2.50 for each of labour; a caption prints 1.50, the amounts use 2.50. Told here
// in hours of 10.00.
TEST_CASE("overhead at a predetermined rate gives the printed job totals") {
  ShopRules const rules = year_of(10'000, 100'000'00, 250'000'00);
  struct Row {
    std::int64_t materials, labour, overhead, total;
  };
  for (Row const row :
       {Row{700'00, 66'00, 165'00, 931'00},      // MAC001
        Row{500'00, 150'00, 375'00, 1025'00},    // TRJ441
        Row{200'00, 150'00, 375'00, 725'00}}) {  // POR143, 1,725 with 1,000 of the month before
    Bill const bill{{bill_line(1, 1000, row.materials, Part::cover)}};
    CostSheet const sheet = cost(bill, hours(Ratio(row.labour, 10'00)), {}, rules);
    CHECK(sheet.materials == eur(row.materials));
    CHECK(sheet.labour == eur(row.labour));
    CHECK(sheet.overhead == eur(row.overhead));
    CHECK(sheet.total == eur(row.total));
  }
}

// The same, MAC001: its materials line by line.
TEST_CASE("the lines of a published job add up to its materials") {
  Bill const bill{{bill_line(1, 1'000, 300'00, Part::cover), bill_line(2, 2'000, 50'00, Part::cover),
                   bill_line(3, 1'000, 60'00, Part::cover), bill_line(4, 1'000, 60'00, Part::cover),
                   bill_line(5, 12'000, 10'00, Part::cover), bill_line(6, 40'000, 1'50, Part::cover)}};
  CHECK(cost(bill, {}, {}, year_of(1, 0, 0)).materials == eur(700'00));
}

// OpenStax, Principles of Accounting 2, 6.1 (m68135), "Musicality": 2,500,000 over 1,250,000 hours is 2.00 an
// hour.
TEST_CASE("overhead by the hour gives the printed full cost of a unit") {
  ShopRules const rules = year_of(1'250'000, 0, 2'500'000'00);
  CHECK(endband::rates_of(rules.basis).overhead * Ratio(hour) == Ratio(2'00));
  struct Row {
    Ratio hours;
    std::int64_t materials, labour, overhead, full;
  };
  for (Row const& row : {Row{{350'000, 140'000}, 3'50, 10'00, 5'00, 18'50},     // Solo
                         Row{{400'000, 100'000}, 6'00, 2'75, 8'00, 16'75},      // Band
                         Row{{500'000, 250'000}, 11'70, 4'30, 4'00, 20'00}}) {  // Orchestra
    // Their labour is paid at three rates; it stands here as a second material.
    Bill const bill{
        {bill_line(1, 1000, row.materials, Part::cover), bill_line(2, 1000, row.labour, Part::cover)}};
    CostSheet const sheet = cost(bill, hours(row.hours), {}, rules);
    CHECK(sheet.overhead == eur(row.overhead));
    CHECK(sheet.total == eur(row.full));
  }
}

// OpenStax, Principles of Accounting 2, 4.8 (m68127), "IFixIT": a part of 42, three hours at 25, overhead as
// much again.
TEST_CASE("a published service job costs what it prints") {
  Bill const bill{{bill_line(1, 1000, 42'00, Part::cover)}};
  CHECK(cost(bill, hours(3), {}, year_of(1'000, 25'000'00, 25'000'00)).total == eur(192'00));
}

TEST_CASE("rates are a year's pay and overhead over the hours that steps charge") {
  endband::RateBasis const basis{eur(24'000'00), eur(6'000'00), eur(9'900'00), {1'100 * hour}};
  CHECK(endband::rates_of(basis).labour * Ratio(hour) == Ratio(30'000'00, 1'100));
  CHECK(endband::rates_of(basis).overhead * Ratio(hour) == Ratio(9'00));
  CHECK_THROWS_AS(endband::rates_of({eur(1), eur(0), eur(0), {0}}), std::logic_error);
}

TEST_CASE("each line is rounded once, half away, and the totals are sums of lines") {
  Bill const bill{
      {bill_line(1, 500, 1, Part::cover), bill_line(2, 500, 1, Part::cover)}};  // two of half a cent
  CostSheet const sheet = cost(bill, {}, {}, year_of(1, 0, 0));
  CHECK(sheet.lines[0].amount == eur(1));
  CHECK(sheet.materials == eur(2));
}

TEST_CASE(
    "lines stand in the order of bill, work, overhead, outside, ruin, contingency, and say where they come "
    "from") {
  Bill bill{{bill_line(1, 1000, 10'00, Part::boards), bill_line(2, 1000, 50'00, Part::cover)}};
  bill.lines[1].ruin_chance = {1, 10};
  ShopRules rules = year_of(1'000, 20'000'00, 5'000'00);
  rules.contingency = {5, 100};
  CostSheet const sheet = cost(bill, hours(1), {{"die", eur(85'00), true}}, rules);
  struct Row {
    CostKind kind;
    Part part;
    int source;
    std::int64_t amount;
  };
  Row const expected[] = {
      {CostKind::material, Part::boards, 0, 10'00},        {CostKind::material, Part::cover, 1, 50'00},
      {CostKind::labour, Part::cover, 0, 20'00},           {CostKind::overhead, Part::whole_book, -1, 5'00},
      {CostKind::outside, Part::whole_book, 0, 85'00},     {CostKind::ruin, Part::cover, 1, 5'56},
      {CostKind::contingency, Part::whole_book, -1, 4'53},
  };
  REQUIRE(sheet.lines.size() == std::size(expected));
  for (std::size_t i = 0; i < sheet.lines.size(); ++i) {
    CAPTURE(i);
    CHECK(sheet.lines[i].kind == expected[i].kind);
    CHECK(sheet.lines[i].part == expected[i].part);
    CHECK(sheet.lines[i].source == expected[i].source);
    CHECK(sheet.lines[i].amount == eur(expected[i].amount));
    CHECK(sheet.lines[i].at_cost == (expected[i].kind == CostKind::outside));
  }
  CHECK(sheet.allowances == eur(5'56 + 4'53));
  CHECK(sheet.earning == eur(95'09));
  CHECK(sheet.standing == eur(85'00));
  CHECK(sheet.total == eur(180'09));
}

TEST_CASE("what the customer supplies costs nothing and is still on the sheet") {
  Bill bill{{bill_line(1, 1000, 50'00, Part::cover)}};
  bill.lines[0].customer_supplied = true;
  bill.lines[0].unit = {};
  bill.lines[0].ruin_chance = {1, 10};
  CostSheet const sheet = cost(bill, {}, {}, year_of(1, 0, 0));
  CHECK(sheet.lines[0].amount == eur(0));
  CHECK(sheet.total == eur(0));
  CHECK(sheet.outlay == eur(0));
}

TEST_CASE("a material with several uses is shared over their parts by what each holds") {
  Bill bill{{bill_line(1, 3'000, 33, Part::cover)}};
  bill.lines[0].uses = {{endband::Item::cover_leather, Part::cover, pieces(2'000)},
                        {endband::Item::strap, Part::strap, pieces(500)},
                        {endband::Item::cover_leather, Part::cover, pieces(500)}};
  CostSheet const sheet = cost(bill, {}, {}, year_of(1, 0, 0));
  CHECK(sheet.total == eur(99));
  CHECK(sheet.by_part(Part::cover) == eur(83));  // 82.5 and 16.5: the tie goes to the part that stands first
  CHECK(sheet.by_part(Part::strap) == eur(16));
}

TEST_CASE("overhead, contingency and outside work that earns belong to the whole book") {
  ShopRules rules = year_of(1'000, 20'000'00, 5'000'00);
  rules.contingency = {10, 100};
  CostSheet const sheet = cost({}, hours(2), {{"edge gilding", eur(60'00), false}}, rules);
  CHECK(sheet.by_part(Part::cover) == eur(40'00));
  CHECK(sheet.by_part(Part::whole_book) == eur(10'00 + 60'00 + 11'00));
}

TEST_CASE("a costly piece is allowed for with the work that would be done again") {
  Bill bill{{bill_line(1, 1000, 60'00, Part::cover)}};
  bill.lines[0].ruin_chance = {4, 100};
  Work const work{
      {work_line(OperationKind::sew_sections, 5 * hour, Part::sewing),     // another part
       work_line(OperationKind::pare_edges, 3 * hour, Part::cover),        // again
       work_line(OperationKind::put_down_endpapers, hour, Part::cover)}};  // of the cover, if repeated
  CostSheet const sheet = cost(bill, work, {}, year_of(1'000, 20'000'00, 5'000'00));
  std::int64_t repeated = 0;
  for (auto const& line : work.lines)
    if (line.part == Part::cover && endband::operation_row(line.kind).repeated_if_ruined)
      repeated += endband::round(line.mean_seconds / Ratio(hour), endband::Rounding::half_away);
  REQUIRE(repeated >= 3);
  Ratio const expected = Ratio(4, 96) * Ratio(60'00 + repeated * 25'00);
  CHECK(sheet.allowances == eur(endband::round(expected, endband::Rounding::half_away)));
}

TEST_CASE(
    "the outlay is what is opened of materials bought for the book, what is consumed of others, and outside "
    "work") {
  Bill bill{{bill_line(1, 1'500, 10'00, Part::cover), bill_line(2, 1'500, 10'00, Part::cover)}};
  bill.lines[1].charging = endband::Charging::whole;
  bill.lines[1].opened = bill.lines[1].charged = pieces(4'000);
  bill.lines[1].pack_remainder = pieces(2'500);
  CostSheet const sheet =
      cost(bill, {}, {{"die", eur(85'00), true}, {"gilding", eur(20'00), false}}, year_of(1, 0, 0));
  CHECK(sheet.outlay == eur(15'00 + 40'00 + 85'00 + 20'00));
}

TEST_CASE("money of another currency is an error of ours, and too much of it overflows") {
  auto const franc = endband::read_currency("CHF").value();
  CHECK_THROWS_AS(cost({}, {}, {{"die", {1, franc}, true}}, year_of(1, 0, 0)), std::logic_error);
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  CHECK_THROWS_AS(cost({}, {}, {{"a", eur(most), true}, {"b", eur(1), true}}, year_of(1, 0, 0)),
                  endband::Overflow);
}

// Done right four times out of five: one in four is paid for again, 1/5 / (4/5).
TEST_CASE("work that may have to be done again has an allowance of its own, which is no outlay") {
  std::vector<endband::Outside> outside{{"gild the edges", eur(80'00), true, Ratio(1, 5)},
                                        {"split the skin", eur(30'01), false, Ratio(1, 2)}};
  CostSheet const sheet = cost({}, {}, outside, year_of(1, 0, 0));
  REQUIRE(sheet.lines.size() == 5);  // overhead, both, both again
  CHECK(sheet.lines[3].kind == CostKind::redo);
  CHECK(sheet.lines[3].source == 0);
  CHECK(sheet.lines[3].amount == eur(20'00));
  CHECK(sheet.lines[3].at_cost);
  CHECK(sheet.lines[4].amount == eur(30'01));
  CHECK(sheet.allowances == eur(50'01));
  CHECK(sheet.standing == eur(100'00));
  CHECK(sheet.earning == eur(60'02));
  CHECK(sheet.outside == eur(110'01));
  CHECK(sheet.outlay == eur(110'01));
  CHECK(sheet.by_part(Part::whole_book) == eur(60'02));
}

TEST_CASE("a line of work is paid at its own rate, and has the workshop's overhead") {
  Work work{{work_line(OperationKind::pare_edges, 2 * hour, Part::cover),
             work_line(OperationKind::pare_edges, 3 * hour, Part::cover)}};
  work.lines[1].rate = eur(12'34);
  Bill bill{{bill_line(1, 1000, 60'00, Part::cover)}};
  bill.lines[0].ruin_chance = {20, 100};
  CostSheet const sheet = cost(bill, work, {}, year_of(1'000, 20'000'00, 5'000'00));
  CHECK(sheet.labour == eur(40'00 + 37'02));
  CHECK(sheet.overhead == eur(25'00));
  CHECK(sheet.allowances == eur((60'00 + 40'00 + 37'02 + 25'00) / 4 + 1));  // 40.505 of them: half away
  work.lines[1].rate = endband::Money{1, endband::read_currency("CHF").value()};
  CHECK_THROWS_AS(cost({}, work, {}, year_of(1, 0, 0)), std::logic_error);
}

TEST_CASE("overtime is the workshop's rate and the share that such hours are paid over it, and earns") {
  ShopRules rules = year_of(1'000, 20'000'00, 5'000'00);
  rules.overtime_seconds = 3 * hour;
  rules.overtime_share = {25, 100};
  CostSheet const sheet = cost({}, hours(10), {{"die", eur(85'00), true}}, rules);
  REQUIRE(sheet.lines.size() == 4);  // labour, overhead, overtime, outside
  CHECK(sheet.lines[2].kind == CostKind::overtime);
  CHECK(sheet.lines[2].amount == eur(15'00));
  CHECK_FALSE(sheet.lines[2].at_cost);
  CHECK(sheet.labour == eur(215'00));
  CHECK(sheet.seconds == Ratio(10 * hour));  // the hours are among those already
  CHECK(sheet.by_part(Part::whole_book) == eur(50'00 + 15'00));
  rules.overtime_share = Ratio(-1, 4);
  CHECK_THROWS_AS(cost({}, {}, {}, rules), std::logic_error);
}

TEST_CASE("a simulated contingency stands instead of the plain share, even where it is nothing") {
  ShopRules rules = year_of(1'000, 20'000'00, 0);
  rules.contingency = {10, 100};
  rules.simulated_contingency = eur(7'77);
  CostSheet const sheet = cost({}, hours(10), {}, rules);
  CHECK(sheet.lines.back().kind == CostKind::contingency);
  CHECK(sheet.total == eur(207'77));
  rules.simulated_contingency = eur(0);
  CHECK(cost({}, hours(10), {}, rules).total == eur(200'00));
  rules.simulated_contingency = eur(-1);
  CHECK_THROWS_AS(cost({}, hours(10), {}, rules), std::logic_error);
}
