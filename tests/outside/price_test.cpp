// Whole invoices from their lines, prices found under percentages and fixed sums, and discounts, as printed.
#include "engine/pricing/walk.h"

#include <doctest/doctest.h>

#include <numeric>
#include <string_view>
#include <vector>

using endband::Money;
using endband::Ratio;
using endband::Rounding;

namespace {

Money money(std::int64_t minor, std::string_view code = "EUR") {
  return {minor, endband::read_currency(code).value()};
}

Ratio percent(std::int64_t whole) { return {whole, 100}; }

std::int64_t sum(std::vector<std::int64_t> const& lines) {
  return std::accumulate(lines.begin(), lines.end(), std::int64_t{0});
}

std::int64_t tax(std::int64_t net, std::int64_t whole_percent) {
  return endband::tax_added(money(net), percent(whole_percent)).minor;
}

// Price x quantity / base quantity, rounded once.
std::int64_t line(Ratio quantity, Ratio price, Ratio base = 1) {
  return endband::round_product(quantity / base, price, Rounding::half_away);
}

// A sale of a book that costs what must be left, so that the goal is to lose nothing.
struct GrossUp {
  endband::CostSheet sheet;
  endband::Delivery delivery;
  endband::SellingRules selling;
  endband::ShopRules shop;

  explicit GrossUp(std::int64_t net) {
    for (Money* each : {&sheet.labour, &sheet.standing, &sheet.outlay}) *each = money(0);
    sheet.earning = sheet.total = money(net);
    delivery.carriage = money(0);
    shop.currency = money(0).currency;
    shop.least_charge = shop.least_hourly = money(0);
    selling.outlet.emplace();
    selling.outlet->currency = shop.currency;
  }
  void takes(Ratio share, std::int64_t fixed = 0, std::int64_t most = 0) {
    endband::Fee fee;
    fee.steps = {{money(0), share}};
    fee.fixed = money(fixed);
    if (most != 0) fee.most = money(most);
    selling.outlet->fees.push_back(fee);
  }
  std::int64_t price() const {
    return endband::least_ticket({sheet, delivery, selling, shop}, endband::ProfitGoal{money(0)})->minor;
  }
  std::int64_t left(std::int64_t price) const {
    return (endband::walk({sheet, delivery, selling, shop}, money(price)).yours).minor;
  }
};

}  // namespace

// CEN, ubl/examples/ubl-tc434-example1.xml: twenty lines, one of them a return, at two rates.
TEST_CASE("an invoice of twenty lines and two rates") {
  std::int64_t const six =
      sum({line(2, 9'95), 9'85, 8'29, line(2, 7'23), 35'00, 35'00, 10'65, 1'55, line(3, 4'79), 8'29,
           line(2, 8'29), 9'95, line(2, 1'65), 3'90, line(6, 17'02), -line(6, 18'33)});
  std::int64_t const twenty_one = sum({10'80, line(2, 3'80), line(2, 4'67), 18'63});
  CHECK(six == 183'23);
  CHECK(twenty_one == 46'37);
  CHECK(tax(six, 6) == 10'99);
  CHECK(tax(twenty_one, 21) == 9'74);
  CHECK(six + twenty_one + tax(six, 6) + tax(twenty_one, 21) == 250'33);
}

// Peppol BIS Billing 3, rules/examples/Allowance-example.xml: every kind of allowance and charge.
TEST_CASE("an invoice with allowances and charges of lines and of the whole") {
  std::int64_t const first = line(10, 450'00 - 40'00) + line(1, 100'00, 100) - 101'00;
  std::int64_t const exempt = line(10, 200'00, 2);
  std::int64_t const third = line(10, 100'00) + line(1, 100'00, 100) - 101'00;
  CHECK(first == 4'000'00);
  CHECK(exempt == 1'000'00);
  CHECK(third == 900'00);
  std::int64_t const charge = endband::scale(money(1'000'00), percent(20), Rounding::half_away).minor;
  std::int64_t const base = first + third + charge - 200'00;
  CHECK(base == 4'900'00);
  std::int64_t const total = base + exempt + tax(base, 25) + tax(exempt, 0);
  CHECK(total == 7'125'00);
  CHECK(total - 1'000'00 == 6'125'00);
}

// The same, base-example.xml and base-negative-inv-correction.xml: all signs turned.
TEST_CASE("an invoice and its correction") {
  for (std::int64_t const sign : {1, -1}) {
    std::int64_t const net = line(7 * sign, 400'00) + line(-3 * sign, 500'00) + sign * 25'00;
    CHECK(net == sign * 1'325'00);
    CHECK(tax(net, 25) == sign * 331'25);
    CHECK(net + tax(net, 25) == sign * 1'656'25);
  }
}

// CEN, ubl/examples/ubl-tc434-example5.xml (DKK): a tenth off and a tenth on, half paid before.
TEST_CASE("an invoice of which half was paid before") {
  std::int64_t const gross = line(1000, 1'10 - 10);
  std::int64_t const first = gross - gross / 10 + gross / 10;
  std::int64_t const second = line(100, 5'00);
  std::int64_t const third = line(500, 5'00);
  std::int64_t const full = first + second - (first + second) / 10 + (first + second) / 10;
  CHECK(full == 1'500'00);
  CHECK(third == 2'500'00);
  std::int64_t const total = full + third + tax(full, 25) + tax(third, 12);
  CHECK(total == 4'675'00);
  CHECK(total - 2'337'50 == 2'337'50);
}

// OpenStax, Contemporary Mathematics, 6.2 "Discounts, Markups, and Sales Tax" (m00058).
TEST_CASE("discounts are those of the textbook") {
  GrossUp of(0);
  auto const sold = [&](std::int64_t ticket, Ratio discount) {
    return endband::walk({of.sheet, of.delivery, of.selling, of.shop}, money(ticket), discount).paid.minor;
  };
  CHECK(sold(75'80, percent(25)) == 56'85);
  CHECK(sold(168'90, percent(30)) == 118'23);
  CHECK(sold(1'200'00, percent(25)) == 900'00);
  CHECK(sold(500'00, percent(10)) == 450'00);
  CHECK(sold(360'00, percent(75)) == 90'00);
}

// docsbay.net, "Grossing-Up Employer-Paid Taxes (PS 3.4-11)": 25 + 6 + 6.2 + 1.45 per cent.
TEST_CASE("a price is grossed up by several percentages at once") {
  GrossUp of(5'000'00);
  for (Ratio const share : {Ratio(25, 100), Ratio(6, 100), Ratio(62, 1000), Ratio(145, 10000)})
    of.takes(share);
  CHECK(of.price() == 8'149'96);
  CHECK(of.left(8'149'96) == 5'000'00);
  auto const walk = endband::walk({of.sheet, of.delivery, of.selling, of.shop}, money(8'149'96));
  CHECK(walk.fees == std::vector<Money>{money(2'037'49), money(489'00), money(505'30), money(118'17)});
}

// slideplayer.com/amp/14813101: 22, 4.5, 6.2 and 1.45 per cent are inferred from the sums printed, 2,338.65 +
// 478.36 + 659.07 + 154.14; then a tax that is capped at 186.00 beside 23.45 per cent, printed as 13,306.34
// with a proof that leaves 10,000.01.
TEST_CASE("a capped percentage is a fixed sum once its cap is reached") {
  GrossUp four(7'000'00);
  for (Ratio const share : {Ratio(22, 100), Ratio(45, 1000), Ratio(62, 1000), Ratio(145, 10000)})
    four.takes(share);
  CHECK(four.left(10'630'22) >= 6'999'99);
  CHECK(four.left(10'630'22) <= 7'000'01);
  GrossUp capped(10'000'00);
  capped.takes({2345, 10000});
  capped.takes({62, 1000}, 0, 186'00);
  std::int64_t const price = capped.price();
  CHECK(price == 13'306'33);  // 3,120.334... are rounded down to 3,120.33: one cent less does
  CHECK(capped.left(price) == 10'000'00);
  CHECK(capped.left(price - 1) < 10'000'00);
  CHECK(capped.left(13'306'34) == 10'000'00);  // the proof printed takes 3,120.33
}

// 105,181 centavos less 3.5 per cent and 1,500 are 99,999.665: the nearest price falls short where a fee is
// not rounded. Rounded, it takes 3,681 of 105,181 and leaves 100,000.
TEST_CASE("a fee that is rounded decides the last minor unit") {
  GrossUp of(1'000'00);
  of.takes({35, 1000}, 15'00);
  std::int64_t const price = of.price();
  CHECK(of.left(price) >= 1'000'00);
  CHECK(of.left(price - 1) < 1'000'00);
  CHECK(price == 1'051'81);
}
