#include "any_outlet.h"
#include "tests/cases.h"

#include <doctest/doctest.h>

#include <array>

using namespace endband::testing;
using endband::Dip;
using endband::Fee;
using endband::Money;
using endband::Sale;

namespace {

// 10 % of all below 100.00, 12 % of all from there on.
SaleOf leaping() {
  SaleOf of{costing(30'00), collected(), {}, shop_in()};
  of.selling.outlet.emplace();
  of.selling.outlet->currency = euro();
  Fee fee;
  fee.name = "commission";
  fee.fixed = eur(0);
  fee.steps = {{eur(0), {10, 100}}, {eur(100'00), {12, 100}}};
  fee.on_whole = true;
  of.selling.outlet->fees = {fee};
  return of;
}

}  // namespace

// 99.99 leaves 89.99 (10.00 of fee), 100.00 only 88.00; 102.26 leaves 89.99 again.
TEST_CASE("where a step is of the whole, a higher ticket leaves less for a while") {
  SaleOf const of = leaping();
  auto const found = endband::dips(of.sale(), eur(0), eur(500'00));
  REQUIRE(found.size() == 1);
  CHECK(found[0].fee == "commission");
  CHECK(found[0].first == eur(100'00));
  CHECK(found[0].before == eur(59'99));
  CHECK(found[0].lowest == eur(58'00));
  CHECK(found[0].last == eur(102'25));
  CHECK(endband::dips(of.sale(), eur(100'00), eur(500'00)).empty());
  CHECK(endband::dips(of.sale(), eur(0), eur(99'99)).empty());
  CHECK(endband::dips(of.sale(), eur(0), eur(101'00)).at(0).last == eur(101'00));
}

TEST_CASE("points that are far apart pass over a dip") {
  SaleOf of = leaping();
  of.selling.outlet->points = endband::PricePoints{10'00, 1'00};  // 99.00, 109.00
  CHECK(endband::dips(of.sale(), eur(0), eur(500'00)).empty());
}

TEST_CASE("a share of more than what is added leaves less with every ticket") {
  SaleOf of = leaping();
  Fee& fee = of.selling.outlet->fees[0];
  fee.on_whole = false;
  fee.steps[1].share = {90, 100};
  Fee other = fee;
  other.name = "other";
  other.steps = {{eur(0), {20, 100}}};
  of.selling.outlet->fees.push_back(other);
  auto const found = endband::dips(of.sale(), eur(0), eur(200'00));
  REQUIRE(found.size() == 1);
  CHECK(found[0].fee == "commission");
  CHECK(found[0].last == eur(200'00));
  CHECK(found[0].lowest == endband::walk(of.sale(), eur(200'00)).left);
}

TEST_CASE("steps of the part above, least and most make no dip") {
  SaleOf of = leaping();
  Fee& fee = of.selling.outlet->fees[0];
  fee.on_whole = false;
  fee.least = eur(3'00);
  fee.most = eur(20'00);
  CHECK(endband::dips(of.sale(), eur(0), eur(500'00)).empty());
}

// Against every point: each dip is what it says, and a fall larger than roundings stands in one.
TEST_CASE("dips are where they are said to be") {
  CHECK(endband::testing::check_one_in(10, [] {
    SaleOf const any = any_sale(400);
    endband::Currency const currency = endband::ticket_currency(any.sale());
    if (!any.selling.outlet) return;
    auto const left = [&](std::int64_t ticket) { return endband::walk(any.sale(), {ticket, currency}).left; };
    auto const points = endband::points_of(any.sale().selling, any.sale().sheet.total.currency);
    std::int64_t const first = points.below == 0 ? 0 : points.step - points.below;
    std::int64_t const last = first + points.step * ((600 - first) / points.step);  // the last up to 600
    auto const found = endband::dips(any.sale(), {0, currency}, {600, currency});
    std::vector<bool> inside(700, false);
    for (Dip const& dip : found) {
      RC_ASSERT(left(dip.first.minor - points.step) == dip.before);
      Money lowest = dip.before;
      for (std::int64_t ticket = dip.first.minor; ticket <= dip.last.minor; ticket += points.step) {
        lowest = std::min(lowest, left(ticket));
        inside[static_cast<std::size_t>(ticket)] = true;
      }
      RC_ASSERT(lowest == dip.lowest);
      RC_ASSERT(left(dip.first.minor) < dip.before);
      RC_ASSERT(left(dip.last.minor) < dip.before);
      if (dip.last.minor + points.step <= last) RC_ASSERT(left(dip.last.minor + points.step) >= dip.before);
    }
    // Each rounding of a fee, of tax by rate, of coins and of exchange may take one and more.
    std::int64_t const roundings = 40 + (any.selling.outlet ? 4 * any.selling.outlet->cash_step : 0);
    for (std::int64_t ticket = first + points.step; ticket <= last; ticket += points.step)
      if ((left(ticket - points.step) - left(ticket)).minor > roundings)
        RC_ASSERT(inside[static_cast<std::size_t>(ticket)]);
  }));
}

TEST_CASE("one ticket for two outlets is the least that does for both") {
  CHECK(endband::testing::check_one_in(10, [] {
    SaleOf const a = any_sale(400);
    SaleOf b = a;
    b.selling.outlet = any_outlet(a.shop.currency, 400);
    b.selling.outlet->currency = endband::ticket_currency(a.sale());
    b.selling.outlet->exchange = a.selling.outlet ? a.selling.outlet->exchange : endband::Exchange{};
    for (Fee& fee : b.selling.outlet->fees) {
      endband::Currency const currency = b.selling.outlet->currency;
      fee.fixed.currency = currency;
      if (fee.least) fee.least->currency = currency;
      if (fee.most) fee.most->currency = currency;
    }
    endband::Goal const goal = any_goal(a.shop.currency, 400);
    std::array<Sale, 2> const sales{a.sale(), b.sale()};
    auto const ticket = endband::one_ticket(sales, goal);
    auto const points = endband::points_of(sales[0].selling, a.shop.currency);
    std::int64_t const end = ticket ? std::min<std::int64_t>(ticket->minor, 2000) : 2000;
    auto const both = [&](std::int64_t point) {
      Money const shown{point, endband::ticket_currency(sales[0])};
      return endband::meets(endband::walk(sales[0], shown), sales[0], goal) &&
             endband::meets(endband::walk(sales[1], shown), sales[1], goal);
    };
    if (ticket) RC_ASSERT(both(ticket->minor));
    for (std::int64_t point = points.below == 0 ? 0 : points.step - points.below; point < end;
         point += points.step)
      RC_ASSERT_FALSE(both(point));
  }));
}

TEST_CASE("one ticket is of one currency") {
  SaleOf const a = leaping();
  SaleOf b = a;
  b.selling.outlet->currency = currency("USD");
  std::array<Sale, 2> const sales{a.sale(), b.sale()};
  auto const ticket = endband::one_ticket(sales, endband::MarginGoal{0});
  REQUIRE_FALSE(ticket.has_value());
  CHECK(ticket.error()[0].code == endband::FaultCode::currency_mismatch);
}

TEST_CASE("an outlet that takes all of a price is refused with what it takes") {
  SaleOf of = leaping();
  CHECK(endband::faults_of(*of.selling.outlet, {}).empty());
  Fee fee = of.selling.outlet->fees[0];
  fee.on_whole = false;
  fee.base = endband::FeeBase::paid;
  fee.steps = {{eur(0), {80, 100}}};
  of.selling.outlet->fees.push_back(fee);
  CHECK(endband::faults_of(*of.selling.outlet, {}).empty());  // 92 %
  endband::TaxRules const taxed{endband::TaxMode::added, {20, 100}, "VAT", {}};
  auto const faults = endband::faults_of(*of.selling.outlet, taxed);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].code == endband::FaultCode::bad_goal);
  CHECK(faults[0].found == "108.0 %");  // 12 % + 80 % of 1.20
  of.selling.outlet->fees[1].most = eur(90'00);
  CHECK(endband::faults_of(*of.selling.outlet, taxed).empty());
}

TEST_CASE("a goal that fees and tax leave no room for says what they take together") {
  SaleOf of = leaping();
  auto const refused = endband::least_ticket(of.sale(), endband::MarginGoal{{90, 100}});
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error()[0].code == endband::FaultCode::bad_goal);
  CHECK(refused.error()[0].found == "102.0 %");
  of.selling.tax = {endband::TaxMode::included, {25, 100}, "VAT", {}};
  auto const taxed = endband::least_ticket(of.sale(), endband::MarginGoal{{88, 100}});
  REQUIRE_FALSE(taxed.has_value());
  CHECK(taxed.error()[0].found == "100.0 %");  // a fifth, and 12 % + 88 % of four fifths
}
