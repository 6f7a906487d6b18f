// A past quote at other prices against the same book priced anew with them: two ways to one sheet.
#include "repricing.h"
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

Outlet any_outlet() {
  Outlet outlet;
  outlet.code = "fair";
  outlet.currency = euro();
  outlet.collects_tax = coin();
  outlet.cash_step = coin() ? 5 : 1;
  Fee fee;
  fee.name = "its share";
  fee.steps = {{eur(0), Ratio(drawn(0, 20), 100)}, {eur(200'00), Ratio(drawn(0, 20), 100)}};
  fee.fixed = eur(drawn(0, 300));
  outlet.fees.push_back(fee);
  outlet.returns.change_of_mind = Ratio(drawn(0, 9), 100);
  outlet.returns.lost = Ratio(drawn(0, 9), 100);
  outlet.returns.handling = Duration{drawn(0, 3600)};
  for (Money* each : {&outlet.returns.carriage_back, &outlet.returns.insured, &outlet.returns.excess,
                      &outlet.returns.return_carriage})
    *each = eur(drawn(0, 900));
  return outlet;
}

Commission any_book() {
  Commission of = a_book(coin());
  std::int64_t const seed = drawn(1, 1'000'000);
  for (Material& material : of.catalogue.materials) {
    std::int64_t const own = seed * (17 + material.id.value) % 9973;
    material.price->price.minor = 1 + own % 4000;
    material.charging = static_cast<Charging>(own % 3);
    if (own % 4 == 0) material.ruin_chance = Ratio(own % 40, 100);
  }
  for (Step& step : of.steps.steps) {
    std::int64_t const own = seed * (31 + step.version) % 997;
    step.set_up.likely.n = 60 + own % 180;
    step.each.likely.n = 30 + own % 60;
  }
  of.shop.contingency = Ratio(drawn(0, 20), 100);
  of.shop.least_charge = eur(drawn(0, 900'00));
  of.selling.points = {drawn(1, 500), 0};
  of.selling.tax = {static_cast<TaxMode>(drawn(0, 2)), Ratio(drawn(0, 25), 100), "VAT"};
  if (coin())
    of.selling.tax.own = {{Component::box, "box", Ratio(drawn(0, 25), 100)},
                          {Component::binding, "of goods", Ratio(drawn(0, 25), 100)}};
  if (coin()) of.selling.outlet = any_outlet();
  if (coin()) of.selling.discount = Discount{Ratio(drawn(0, 40), 100), "a friend"};
  of.goal = MarginGoal{Ratio(drawn(0, 20), 100)};
  return of;
}

// A change of one thing.
using Change1 = std::function<void(Commission&)>;

std::vector<Change1> any_changes(Commission const& of) {
  std::vector<Change1> changes;
  for (std::int64_t n = drawn(0, 4); n > 0; --n) {
    auto const which = static_cast<std::size_t>(drawn(0, std::ssize(of.catalogue.materials) - 1));
    std::int64_t const minor = drawn(1, 9'000);
    changes.emplace_back([=](Commission& c) { c.catalogue.materials[which].price->price.minor = minor; });
  }
  for (std::int64_t n = drawn(0, 3); n > 0; --n) {
    auto const which = static_cast<std::size_t>(drawn(0, std::ssize(of.steps.steps) - 1));
    std::int64_t const set_up = drawn(0, 900), each = drawn(0, 900);
    changes.emplace_back([=](Commission& c) {
      c.steps.steps[which].version += 1000;
      c.steps.steps[which].set_up = {{set_up}, {set_up}, {set_up + 60}};
      c.steps.steps[which].each = {{each}, {each + 7}, {each + 100}};
    });
  }
  std::int64_t const pay = drawn(10'000'00, 60'000'00), overhead = drawn(0, 30'000'00), share = drawn(0, 20);
  if (coin()) changes.emplace_back([=](Commission& c) { c.shop.basis.pay_wanted = eur(pay); });
  if (coin()) changes.emplace_back([=](Commission& c) { c.shop.basis.overhead = eur(overhead); });
  if (coin()) changes.emplace_back([=](Commission& c) { c.shop.contingency = Ratio(share, 100); });
  return changes;
}

}  // namespace

TEST_CASE("a quote repriced is the book priced anew") {
  CHECK(endband::testing::check_one_in(10, [] {
    Commission const then = any_book();
    FrozenQuote const quote = light(quoted(then));
    Commission now = then;
    for (Change1 const& change : any_changes(then)) change(now);
    Priced const anew = price(now).value();
    Repriced const seen = repriced(quote, today_of(now, then.steps));
    RC_ASSERT(seen.cost_now == anew.sheet.total);
    Offer const old_ticket =
        offer_at(seen.ticket_then, anew.sheet, anew.delivery, anew.selling, now.goal, now.shop).value();
    RC_ASSERT(seen.left_now == old_ticket.left);
    RC_ASSERT(seen.under == (old_ticket.left.minor < 0));
    if (seen.below_goal) RC_ASSERT(seen.ticket == anew.offer.walk.ticket);
    if (!seen.below_goal) RC_ASSERT(anew.offer.walk.ticket <= seen.ticket_then);
    RC_ASSERT_FALSE(seen.not_priced);
  }));
}

TEST_CASE("the change named adds more than any other alone would") {
  CHECK(endband::testing::check_one_in(100, [] {
    Commission const then = any_book();
    FrozenQuote quote = light(quoted(then));
    quote.offer.goods = eur(0);  // under, whatever changes
    if (quote.selling.outlet || !quote.selling.tax.own.empty()) return;
    Commission now = then;
    std::vector<Change1> const changes = any_changes(then);
    for (Change1 const& change : changes) change(now);
    // Two changes may be of one material or step: then only the whole of them is known to Today.
    Money most = eur(0);
    for (std::size_t i = 0; i < then.catalogue.materials.size(); ++i) {
      Commission alone = then;
      alone.catalogue.materials[i] = now.catalogue.materials[i];
      if (alone.catalogue.materials[i].price->price != then.catalogue.materials[i].price->price)
        most = std::max(most, price(alone)->sheet.total - quote.sheet.total);
    }
    for (std::size_t i = 0; i < then.steps.steps.size(); ++i) {
      Commission alone = then;
      alone.steps.steps[i] = now.steps.steps[i];
      if (alone.steps.steps[i].version != then.steps.steps[i].version)
        most = std::max(most, price(alone)->sheet.total - quote.sheet.total);
    }
    for (int which = 0; which < 3; ++which) {
      Commission alone = then;
      if (which == 0) alone.shop.basis.pay_wanted = now.shop.basis.pay_wanted;
      if (which == 1) alone.shop.basis.overhead = now.shop.basis.overhead;
      if (which == 2) alone.shop.contingency = now.shop.contingency;
      most = std::max(most, price(alone)->sheet.total - quote.sheet.total);
    }
    Repriced const seen = repriced(quote, today_of(now, then.steps));
    RC_ASSERT(seen.under);
    RC_ASSERT((seen.largest ? seen.largest->dearer : eur(0)) == most);
  }));
}
