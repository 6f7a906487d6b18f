// Margin and markup. The published tables are of costs and prices alone: the goal must give the price
// printed.
#include "sheets.h"

#include <doctest/doctest.h>

#include <limits>

using namespace endband::testing;
using endband::Ratio;

namespace {

std::int64_t with_markup(std::int64_t cost, Ratio markup) {
  return endband::least_price(costing(cost), endband::MarkupGoal{markup}).value().minor;
}
std::int64_t with_margin(std::int64_t cost, Ratio margin) {
  return endband::least_price(costing(cost), endband::MarginGoal{margin}).value().minor;
}

}  // namespace

// OpenStax, Contemporary Mathematics, 6.2 "Discounts, Markups, and Sales Tax" (m00058). The line of 125 %
// prints "(1 + 2.25) = 3.25" on the way; its answer, 11.80 = 26.55 / 2.25, is right.
TEST_CASE("a markup on cost gives the printed retail prices") {
  CHECK(with_markup(62'00, {15, 100}) == 71'30);
  CHECK(with_markup(750'00, {45, 100}) == 1087'50);
  CHECK(with_markup(1'30, {60, 100}) == 2'08);
  CHECK(with_markup(90'00, {15, 100}) == 103'50);
  CHECK(with_markup(5'20, {470, 520}) == 9'90);  // printed as 90.38 %
  CHECK(with_markup(480'00, {75, 100}) == 840'00);
  CHECK(with_markup(8'85, {20, 100}) == 10'62);
  CHECK(with_markup(11'80, {125, 100}) == 26'55);
  CHECK(with_markup(25'00, {18, 100}) == 29'50);
}

// OpenStax, Principles of Accounting 2, 9.4 (m68079): cost-plus on variable and on full cost.
TEST_CASE("cost-plus prices are those of the textbook") {
  CHECK(with_markup(10'00, {30, 100}) == 13'00);
  CHECK(with_markup(12'00, {30, 100}) == 15'60);
  CHECK(with_markup(8'00, {20, 100}) == 9'60);
  CHECK(with_markup(9'00, {20, 100}) == 10'80);
}

// brrinc.org/mark-up_and_gross_profit.html: a cost of 3.00 at 4.50; and its table, in whole percent, cut
// rather than rounded (40 % gives 28, exactly 28.571...).
TEST_CASE("a markup and its margin ask the same price") {
  CHECK(with_markup(3'00, {50, 100}) == 4'50);
  CHECK(with_margin(3'00, {1, 3}) == 4'50);
  struct Row {
    int markup, margin;  // whole percent
  };
  for (Row const row : {Row{25, 20}, Row{33, 25}, Row{40, 28}, Row{50, 33}, Row{75, 43}, Row{100, 50},
                        Row{150, 60}, Row{200, 67}, Row{300, 75}}) {
    CAPTURE(row.markup);
    Ratio const markup(row.markup, 100);
    Ratio const margin = markup / (Ratio(1) + markup);
    std::int64_t const percent = endband::round(margin * Ratio(100), endband::Rounding::half_away);
    CHECK(row.margin <= percent);
    CHECK(percent <= row.margin + 1);
    for (std::int64_t const cost : {1, 99, 1'234'567})
      CHECK(with_markup(cost, markup) == with_margin(cost, margin));
  }
}

// Business Mathematics 8-2, as quoted at questionai.com: of the price 25 %, with 7 of markup; 31.00 at 40 %.
TEST_CASE("a margin is of the price, not of the cost") {
  CHECK(with_margin(21'00, {25, 100}) == 28'00);
  CHECK(with_margin(18'60, {40, 100}) == 31'00);
  CHECK(with_margin(18'50, {75, 1000}) ==
        20'00);                                   // OpenStax, Principles of Accounting 2, 6.1 (m68135): Solo,
  CHECK(with_margin(16'75, {33, 100}) == 25'00);  // Band
  CHECK(with_margin(20'00, {1, 3}) == 30'00);     // and Orchestra
}

// Grossing up is a margin of the fees' share: docsbay.net "Grossing-Up Employer-Paid Taxes (PS 3.4-11)",
// slideplayer.com/amp/14813101. The nearest price may fall short: 7,000 / 0.6585 = 10,630.2202... is printed
// as 10,630.22, of which 65.85 % are 6,999.9999.
TEST_CASE("a price that falls short by a fraction of a cent is not enough") {
  CHECK(with_margin(5'000'00, {3865, 10000}) == 8'149'96);
  CHECK(with_margin(10'186'00, {2345, 10000}) == 13'306'34);
  CHECK(with_margin(7'000'00, {3415, 10000}) == 10'630'23);
  CHECK(with_margin(101'500, {35, 1000}) == 105'182);  // 105,181 centavos leave 99,999.665 of 100,000
}

TEST_CASE("what stands at cost carries no margin") {
  auto const sheet = sheet_of({.parts = {{endband::Part::cover, 100'00}}, .outside_at_cost = 85'00});
  CHECK(endband::least_price(sheet, endband::MarginGoal{{1, 2}}).value() == eur(285'00));
  CHECK(endband::least_price(sheet, endband::MarkupGoal{{1, 2}}).value() == eur(235'00));
}

TEST_CASE("a goal that no price can meet is refused") {
  using endband::FaultCode;
  auto const refused = [](endband::Goal const& goal) {
    auto const price = endband::least_price(costing(100), goal);
    REQUIRE_FALSE(price.has_value());
    REQUIRE(price.error().size() == 1);
    CHECK(price.error()[0].code == FaultCode::bad_goal);
    return price.error()[0];
  };
  CHECK(refused(endband::MarginGoal{1}).found == "100.0 %");
  CHECK(refused(endband::MarginGoal{{3, 2}}).where.field == "margin");
  CHECK(refused(endband::MarginGoal{{-1, 100}}).where.field == "margin");
  CHECK(refused(endband::MarkupGoal{{-1, 100}}).where.field == "markup");
  CHECK(with_margin(100, 0) == 100);
  CHECK(with_markup(100, 0) == 100);
}

TEST_CASE("a price out of the range of money is a fault of an offer") {
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  auto const offered = endband::offer(costing(most / 2), collected(), {}, endband::MarkupGoal{2}, shop_in());
  REQUIRE_FALSE(offered.has_value());
  CHECK(offered.error()[0].code == endband::FaultCode::too_large);
}
