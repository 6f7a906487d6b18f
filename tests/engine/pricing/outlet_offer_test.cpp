// Offers through an outlet: the ladder by brute force, what the buyer sees, and that an outlet which takes
// nothing changes nothing.
#include "any_outlet.h"
#include "tests/cases.h"

#include <doctest/doctest.h>

#include <functional>

using namespace endband::testing;
using endband::Money;
using endband::Offer;
using endband::Ratio;
using endband::Rung;
using endband::TaxMode;
using endband::Walk;

namespace {

Money sum_of(Offer const& offer, Money endband::OfferLine::*member) {
  Money total{0, offer.goods.currency};
  for (auto const& line : offer.lines) total += line.*member;
  return total;
}

endband::Read<Offer> offered(SaleOf const& of, endband::Goal const& goal) {
  return endband::offer(of.sheet, of.delivery, of.selling, goal, of.shop);
}

// The rung of the first ticket of all whose walk `meets`.
void check_rung(Rung const& rung, SaleOf const& of, std::function<bool(Walk const&)> const& meets) {
  for (std::int64_t ticket = 0;; ++ticket) {
    Walk const walk = endband::walk(of.sale(), {ticket, endband::ticket_currency(of.sale())});
    if (!meets(walk)) continue;
    RC_ASSERT(rung.price == walk.price);
    RC_ASSERT(rung.left == walk.left);
    return;
  }
}

std::int64_t hourly_of(Rung const& rung, endband::CostSheet const& sheet) {
  if (sheet.seconds == Ratio(0)) return 0;
  return endband::round(Ratio((rung.left + sheet.labour).minor * 3600) / sheet.seconds,
                        endband::Rounding::half_away);
}

}  // namespace

TEST_CASE("each rung through an outlet is that of the first ticket that pays it") {
  CHECK(endband::testing::check_one_in(100, [] {
    SaleOf of = any_sale(300);
    if (!of.selling.outlet) of.selling.outlet = any_outlet(of.shop.currency, 300);
    endband::Goal const goal = any_goal(of.shop.currency, 300);
    auto const offer = offered(of, goal);
    if (!offer || offer->walk.ticket.minor > 4000) return;
    auto const& ladder = offer->ladder;
    Ratio const hours = of.sheet.seconds / Ratio(3600);
    Money const away =
        of.sheet.outlay + endband::scale(of.shop.least_hourly, hours, endband::Rounding::half_away);
    check_rung(ladder.cash_floor, of, [&](Walk const& w) { return w.yours - w.returns >= of.sheet.outlay; });
    check_rung(ladder.walk_away, of, [&](Walk const& w) { return w.yours - w.returns >= away; });
    check_rung(ladder.full_cost, of, [](Walk const& w) { return w.left.minor >= 0; });
    SaleOf free = of;
    free.shop.least_charge = {0, of.shop.currency};
    check_rung(ladder.target, of, [&](Walk const& w) { return endband::meets(w, free.sale(), goal); });
    for (Rung const* rung : {&ladder.cash_floor, &ladder.walk_away, &ladder.full_cost, &ladder.asked})
      RC_ASSERT(rung->hourly.minor == hourly_of(*rung, of.sheet));
    RC_ASSERT(offer->walk.ticket == endband::least_ticket(of.sale(), goal).value());
  }));
}

TEST_CASE("what is shown through an outlet adds up to the last minor unit") {
  CHECK(rc::check([] {
    SaleOf of = any_sale(1200);
    if (coin()) of.selling.discount = endband::Discount{any_share(100), "a friend"};
    of.selling.deposit = {any_share(100), 1 + up_to(50), {up_to(200), of.shop.currency}};
    Money const ticket{up_to(5000), endband::ticket_currency(of.sale())};
    auto const at =
        endband::offer_at(ticket, of.sheet, of.delivery, of.selling, endband::MarginGoal{0}, of.shop);
    if (!at) return;
    Money const none{0, ticket.currency};
    bool const added = endband::tax_of(of.selling).mode == TaxMode::added;
    RC_ASSERT(sum_of(*at, &endband::OfferLine::shown) == ticket);
    SaleOf undiscounted = of;
    if (of.selling.outlet) undiscounted.selling.outlet->discount = 0;
    RC_ASSERT(sum_of(*at, &endband::OfferLine::net) == endband::walk(undiscounted.sale(), ticket).goods);
    RC_ASSERT(at->goods_shown + at->walk.discount == ticket);
    RC_ASSERT(at->total ==
              at->goods_shown + at->carriage_shown + (added ? at->tax : none) + at->walk.cash_rounding);
    RC_ASSERT(at->deposit + at->balance == at->total);
    for (auto const& line : at->lines) RC_ASSERT(line.shown.minor >= 0);
  }));
}

// Of carriage the tax may be a minor unit apart: see offer.cpp.
TEST_CASE("an outlet that takes nothing changes nothing") {
  CHECK(rc::check([] {
    SaleOf of = any_sale(1200);
    of.selling.outlet.reset();
    of.selling.tax.own.clear();
    of.delivery = collected(of.shop.currency);
    std::int64_t const step = 1 + up_to(300);
    of.selling.points = {step, up_to(step - 1)};
    of.selling.deposit = {any_share(100), 1 + up_to(100)};
    if (coin()) of.selling.discount = endband::Discount{any_share(50), "a friend"};
    endband::Goal const goal = any_goal(of.shop.currency, 1200);
    Offer const without = offered(of, goal).value();
    of.selling.outlet.emplace();
    of.selling.outlet->currency = of.shop.currency;
    Offer const with = offered(of, goal).value();
    RC_ASSERT(with.walk == without.walk);
    RC_ASSERT(with.goods == without.goods);
    RC_ASSERT(with.total == without.total);
    RC_ASSERT(with.deposit == without.deposit);
    RC_ASSERT(with.left == without.left);
    RC_ASSERT(with.margin == without.margin);
    RC_ASSERT(with.ladder.target.price == without.ladder.target.price);
    RC_ASSERT(with.ladder.full_cost.price == without.ladder.full_cost.price);
    RC_ASSERT(with.ladder.cash_floor.price == without.ladder.cash_floor.price);
    RC_ASSERT(with.ladder.asked.price == without.ladder.asked.price);
    RC_ASSERT(with.lines.size() == without.lines.size());
    for (std::size_t i = 0; i < with.lines.size(); ++i) {
      RC_ASSERT(with.lines[i].net == without.lines[i].net);
      RC_ASSERT(with.lines[i].shown == without.lines[i].shown);
    }
  }));
}

TEST_CASE("a discount is off the price that was found, and its lines are before it") {
  SaleOf of{costing(80'00), collected(), {}, shop_in()};
  of.selling.discount = endband::Discount{{1, 10}, "for the guild"};
  auto const offer = offered(of, endband::MarginGoal{{20, 100}}).value();
  CHECK(offer.ladder.target.price == eur(100'00));
  CHECK(offer.lines.at(0).shown == eur(100'00));
  CHECK(offer.goods == eur(90'00));
  CHECK(offer.left == eur(10'00));
  CHECK(offer.ladder.asked.price == eur(90'00));
  CHECK(offer.total == eur(90'00));
  of.selling.discount->share = 1;
  CHECK(offered(of, endband::MarginGoal{{20, 100}}).value().total == eur(0));
}

TEST_CASE("the deposit covers the first hours too, in the buyer's money") {
  SaleOf of{costing(80'00), collected(), {}, shop_in()};
  of.sheet.outlay = eur(10'00);
  of.selling.deposit = {0, 1, eur(5'00)};
  CHECK(offered(of, endband::MarkupGoal{1}).value().deposit == eur(15'00));
  of.selling.outlet.emplace();
  of.selling.outlet->currency = currency("USD");
  of.selling.outlet->exchange.rate = {7, 10};
  auto const offer = offered(of, endband::MarkupGoal{1}).value();
  CHECK(offer.deposit == Money{21'43, currency("USD")});  // 15.00 / 0.7 = 21.428...
}

TEST_CASE("goals that are sums of money, where nothing is taken") {
  auto const sheet =
      sheet_of({.parts = {{endband::Part::cover, 80'00}}, .labour = 200'00, .seconds = 36'000});
  CHECK(endband::least_price(sheet, endband::ProfitGoal{eur(50'00)}).value() == eur(330'00));
  CHECK(endband::least_price(sheet, endband::HourlyGoal{eur(25'01)}).value() == eur(330'10));
  CHECK(endband::least_price(sheet, endband::LeaveGoal{eur(300'00)}).value() == eur(300'00));
}

TEST_CASE("a price named by somebody is offered whatever it leaves") {
  SaleOf const of{costing(80'00), collected(), {}, shop_in()};
  auto const at = [&](std::int64_t ticket) {
    return endband::offer_at(eur(ticket), of.sheet, of.delivery, of.selling, endband::MarginGoal{{20, 100}},
                             of.shop)
        .value();
  };
  CHECK(at(70'00).left == eur(-10'00));
  CHECK(at(70'00).ladder.target.price == eur(100'00));
  CHECK(at(0).margin == Ratio(0));
}
