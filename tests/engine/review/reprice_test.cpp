#include "repricing.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

namespace {

Repriced again(FrozenQuote const& quote, Commission const& now, StepLibrary const& quoted_with) {
  return repriced(quote, today_of(now, quoted_with));
}

void same_as_quoted(FrozenQuote const& quote, Repriced const& seen) {
  CHECK(seen.cost_now == quote.sheet.total);
  CHECK(seen.cost_then == quote.sheet.total);
  CHECK(seen.left_now == quote.offer.left);
  CHECK(seen.left_then == quote.offer.left);
  CHECK(seen.ticket_then == quote.offer.walk.ticket);
  CHECK(seen.price == (quote.selling.outlet ? quote.offer.walk.price : quote.offer.goods));
  CHECK_FALSE(seen.below_goal);
  CHECK_FALSE(seen.ticket);
  CHECK(seen.under == (quote.offer.left.minor < 0));
  CHECK_FALSE(seen.largest);
  CHECK_FALSE(seen.not_priced);
}

// Costs 100.00 an hour, one line at 10.00: 200.00 and a price of 300.00 at a third.
struct SmallBook {
  FrozenQuote quote;
  Catalogue catalogue;
  StepLibrary steps;

  SmallBook() : quote(quote_without_results()) {
    quote.bill.lines.resize(1);
    BillLine& line = quote.bill.lines[0];
    line.ruin_chance = 0;
    line.charged = line.net = pieces(10'000);
    line.unit = {10'00, pieces(1000), euro()};
    quote.outside.clear();
    quote.work.lines = {work_line(OperationKind::sew_sections, 3600, Part::sewing)};
    quote.work.lines[0].count = {3'000};
    quote.shop.basis = {eur(80'00), eur(0), eur(20'00), {seconds_an_hour}};
    quote.shop.contingency = 0;
    quote.shop.least_charge = eur(0);
    quote.selling.points = {1, 0};
    quote.selling.tax = {};
    quote.goal = MarginGoal{{1, 3}};
    finish();
    catalogue.materials = {material(1, "goat-green", "")};
    catalogue.materials[0].price = PackPrice{};
    PackPrice& price = *catalogue.materials[0].price;
    price.pack = pieces(1000);
    price.price = price.said = eur(10'00);
    price.carriage = eur(0);
    Step step;
    step.version = 31;
    step.kind = OperationKind::sew_sections;
    step.set_up = {{600}, {600}, {600}};
    step.each = {{1000}, {1000}, {1000}};
    steps.steps = {step};
  }
  void finish() {
    quote.sheet = cost(quote.bill, quote.work, quote.outside, quote.shop);
    quote.offer = offer(quote.sheet, quote.delivery, quote.selling, quote.goal, quote.shop).value();
  }
  Today today() const { return {catalogue, steps, quote.shop, {{30, Ratio(600), Ratio(1000)}}}; }
  Repriced supposing(std::string_view what) const {
    Today now = today();
    REQUIRE(now.suppose(what).has_value());
    return repriced(quote, now);
  }
};

Outlet market() {
  Outlet outlet;
  outlet.code = "market";
  outlet.kind = OutletKind::marketplace;
  outlet.currency = euro();
  Fee fee;
  fee.name = "commission";
  fee.steps = {{eur(0), Ratio(12, 100)}};
  fee.fixed = eur(30);
  outlet.fees.push_back(fee);
  outlet.returns.change_of_mind = Ratio(3, 100);
  outlet.returns.handling = Duration{1800};
  outlet.returns.lost = Ratio(1, 100);
  outlet.returns.carriage_back = outlet.returns.insured = outlet.returns.excess =
      outlet.returns.return_carriage = eur(0);
  return outlet;
}

}  // namespace

TEST_CASE("where nothing changed a quote costs and leaves what it did, to the minor unit") {
  for (bool const everything : {false, true}) {
    for (int const copies : {1, 4}) {
      Commission of = a_book(everything, copies);
      for (Material& material : of.catalogue.materials)
        material.ruin_chance = Ratio(material.id.value % 4, 50);
      material_of(of, "goat").charging = Charging::whole;
      same_as_quoted(quoted(of), again(quoted(of), of, of.steps));
      same_as_quoted(quoted(of), again(light(quoted(of)), of, of.steps));
      of.selling.outlet = market();
      same_as_quoted(quoted(of), again(light(quoted(of)), of, of.steps));
      of.selling.discount = Discount{Ratio(1, 10), "a friend"};
      same_as_quoted(quoted(of), again(light(quoted(of)), of, of.steps));
      of.selling.outlet.reset();
      of.selling.tax.own = {{Component::box, "books", Ratio(7, 100)}, {std::nullopt, "post", Ratio(5, 100)}};
      same_as_quoted(quoted(of), again(light(quoted(of)), of, of.steps));
      of.selling.discount = Discount{Ratio(1), "a gift"};
      same_as_quoted(quoted(of), again(light(quoted(of)), of, of.steps));
      of.shop.overtime_seconds = 5000;
      of.shop.overtime_share = Ratio(1, 2);
      of.shop.simulated_contingency = eur(31'17);
      same_as_quoted(quoted(of), again(light(quoted(of)), of, of.steps));
    }
  }
}

TEST_CASE("a dearer material costs its quantity more, and is the change that did it") {
  SmallBook const book;
  REQUIRE(book.quote.sheet.total == eur(200'00));
  REQUIRE(book.quote.offer.goods == eur(300'00));
  Repriced const dearer = book.supposing("goat-green=+5.00");  // 10 pieces
  CHECK(dearer.cost_now == eur(250'00));
  CHECK(dearer.left_now == eur(50'00));
  CHECK_FALSE(dearer.under);
  CHECK(dearer.below_goal);
  CHECK(dearer.ticket == eur(375'00));
  REQUIRE(dearer.largest);  // of what only fell below its goal, too
  CHECK(dearer.largest->dearer == eur(50'00));
  CHECK_FALSE(dearer.alone);
  Repriced const under = book.supposing("goat-green=+150%");
  CHECK(under.cost_now == eur(350'00));
  CHECK(under.left_now == eur(-50'00));
  CHECK(under.under);
  REQUIRE(under.largest);
  CHECK(under.largest->kind == ChangeKind::material);
  CHECK(under.largest->material == MaterialId{1});
  CHECK(under.largest->dearer == eur(150'00));
  CHECK(under.alone);
}

TEST_CASE("an hour paid better, an hour that bears more, a step that takes longer") {
  SmallBook const book;
  CHECK(book.supposing("rate=+2.00").cost_now == eur(202'00));
  CHECK(book.supposing("rate=-10%").cost_now == eur(192'00));
  CHECK(book.supposing("overhead=+0.50").cost_now == eur(200'50));
  CHECK(book.supposing("step.sew-sections=+10%").cost_now == eur(210'00));
  CHECK(book.supposing("step.sew-sections = -100%").cost_now == eur(100'00));
  // Once set up for 600 s and 3 x 1000 s: an hour, as it was quoted; now 1200 and 3 x 1000.
  SmallBook longer;
  longer.steps.steps[0].set_up = {{1200}, {1200}, {1200}};
  CHECK(repriced(longer.quote, longer.today()).cost_now == eur(216'66));
}

TEST_CASE("of several the largest is named, and whether it is enough alone") {
  SmallBook const book;
  Today now = book.today();
  for (char const* const what : {"goat-green=+60%", "rate=+40.00", "overhead=+20.00"})
    REQUIRE(now.suppose(what).has_value());
  Repriced const seen = repriced(book.quote, now);
  CHECK(seen.left_now == eur(-20'00));
  REQUIRE(seen.largest);
  CHECK(seen.largest->kind == ChangeKind::material);
  CHECK(seen.largest->dearer == eur(60'00));
  CHECK_FALSE(seen.alone);
  REQUIRE(now.suppose("rate=+61.00").has_value());
  Repriced const by_rate = repriced(book.quote, now);
  CHECK(by_rate.largest->kind == ChangeKind::rate);
  CHECK(by_rate.largest->dearer == eur(101'00));
  CHECK(by_rate.alone);
  REQUIRE(now.suppose("overhead=+90.00").has_value());
  CHECK(repriced(book.quote, now).largest->kind == ChangeKind::overhead);
  REQUIRE(now.suppose("step.sew-sections=+150%").has_value());
  Repriced const by_step = repriced(book.quote, now);
  CHECK(by_step.largest->kind == ChangeKind::step);
  CHECK(by_step.largest->operation == OperationKind::sew_sections);
  CHECK(by_step.largest->dearer == eur(150'00));
}

TEST_CASE("a contingency said anew is a change of the rules") {
  SmallBook const book;
  ShopRules shop = book.quote.shop;
  shop.contingency = Ratio(3, 4);
  Repriced const seen =
      repriced(book.quote, {book.catalogue, book.steps, shop, {{30, Ratio(600), Ratio(1000)}}});
  CHECK(seen.cost_now == eur(350'00));
  REQUIRE(seen.largest);
  CHECK(seen.largest->kind == ChangeKind::rules);
  CHECK(seen.largest->dearer == eur(150'00));
  CHECK(seen.alone);
}

TEST_CASE("what was under already was brought there by no change") {
  SmallBook book;
  book.quote.selling.discount = Discount{Ratio(1, 2), "a friend"};
  book.finish();
  REQUIRE(book.quote.offer.left == eur(-50'00));
  Repriced const same = repriced(book.quote, book.today());
  CHECK(same.under);
  CHECK_FALSE(same.largest);
  CHECK_FALSE(same.below_goal);  // the discount was given, not lost
  Repriced const dearer = book.supposing("goat-green=+10%");
  CHECK(dearer.largest->dearer == eur(10'00));
  CHECK_FALSE(dearer.alone);
  CHECK(dearer.ticket == eur(315'00));
}

TEST_CASE("a simulated contingency stays the share of the cost that it was") {
  SmallBook book;
  book.quote.shop.simulated_contingency = eur(20'00);  // of 200.00
  book.finish();
  CHECK(book.supposing("goat-green=+50%").cost_now == eur(250'00 + 25'00));
  ShopRules shop = book.quote.shop;
  shop.simulated_contingency.reset();
  shop.contingency = Ratio(1, 2);  // does not stand beside it
  CHECK(repriced(book.quote, {book.catalogue, book.steps, shop, {{30, Ratio(600), Ratio(1000)}}}).cost_now ==
        eur(220'00));
}

TEST_CASE("the least charge of today lifts a price, and costs nothing") {
  SmallBook const book;
  ShopRules shop = book.quote.shop;
  shop.least_charge = eur(333'00);
  Repriced const seen =
      repriced(book.quote, {book.catalogue, book.steps, shop, {{30, Ratio(600), Ratio(1000)}}});
  CHECK(seen.cost_now == eur(200'00));
  CHECK(seen.below_goal);
  CHECK(seen.ticket == eur(333'00));
}

TEST_CASE("without a price of today a material stays at the old one, and so with one in another unit") {
  SmallBook book;
  book.catalogue.materials[0].price->pack = {Dimension::area, 1000};
  CHECK(repriced(book.quote, book.today()).not_priced);
  CHECK(repriced(book.quote, book.today()).cost_now == eur(200'00));
  book.catalogue.materials[0].price.reset();
  CHECK(repriced(book.quote, book.today()).not_priced);
  book.catalogue.materials.clear();
  CHECK(repriced(book.quote, book.today()).not_priced);
  book.quote.bill.lines[0].customer_supplied = true;
  book.quote.bill.lines[0].unit = {};
  book.finish();
  CHECK_FALSE(repriced(book.quote, book.today()).not_priced);
}

TEST_CASE("another pack at another price is another unit cost") {
  SmallBook book;
  book.catalogue.materials[0].price->pack = pieces(4000);
  book.catalogue.materials[0].price->price = eur(44'00);
  CHECK(repriced(book.quote, book.today()).cost_now == eur(210'00));
}

TEST_CASE("work takes what it took where nobody knows what its step was or is") {
  SmallBook book;
  book.steps.steps[0].each = {{9000}, {9000}, {9000}};
  book.quote.work.lines[0].step_version = 0;  // extra work
  CHECK(repriced(book.quote, book.today()).cost_now == eur(200'00));
  book.quote.work.lines[0].step_version = 77;  // no such version
  CHECK(repriced(book.quote, book.today()).cost_now == eur(200'00));
  book.quote.work.lines[0].step_version = 30;
  CHECK(repriced(book.quote, book.today()).cost_now > eur(800'00));
  book.steps.steps.clear();
  CHECK(repriced(book.quote, book.today()).cost_now == eur(200'00));
}

TEST_CASE("a step is set up with its first line, what was learned stays learned") {
  SmallBook book;
  WorkLine second = work_line(OperationKind::sew_sections, 2000, Part::sewing);
  second.count = {2'000};
  book.quote.work.lines.push_back(second);
  book.finish();
  book.steps.steps[0].set_up = {{1200}, {1200}, {1200}};
  CHECK(repriced(book.quote, book.today()).cost_now == book.quote.sheet.total + eur(16'66));
  // 1800 s of 3600 s: half of 4200 s now.
  book.quote.work.lines.resize(1);
  book.quote.work.lines[0].mean_seconds = 1800;
  book.finish();
  CHECK(repriced(book.quote, book.today()).cost_now == eur(100'00 + 46'67 + 11'67));
}

TEST_CASE("through an outlet what is left is walked from the old ticket, and the new one back") {
  SmallBook book;
  book.quote.selling.outlet = market();
  book.finish();
  Repriced const seen = book.supposing("goat-green=+50%");
  CostSheet const sheet = [&] {
    Bill bill = book.quote.bill;
    bill.lines[0].unit.minor = 15'00;
    return cost(bill, book.quote.work, {}, book.quote.shop);
  }();
  FrozenQuote const& quote = book.quote;
  CHECK(seen.cost_now == eur(250'00));
  CHECK(
      seen.left_now ==
      offer_at(quote.offer.walk.ticket, sheet, quote.delivery, quote.selling, quote.goal, quote.shop)->left);
  CHECK(seen.below_goal);
  CHECK(seen.ticket == offer(sheet, quote.delivery, quote.selling, quote.goal, quote.shop)->walk.ticket);
}

TEST_CASE("a supposition in another form is refused with the form") {
  SmallBook const book;
  Today now = book.today();
  for (char const* const what :
       {"", "=", "rate", "rate=", "rate=2.00", "rate=+", "rate=+-2", "rate=++2", "rate=+2.001", "rate=+abc",
        "rate=+10 percent", "goat-green=+%", "goat-green=12%", "=+2.00"}) {
    INFO(what);
    Read<void> const read = now.suppose(what);
    REQUIRE_FALSE(read.has_value());
    bool const form = read.error().front().code == FaultCode::bad_value;
    CHECK((form ||
           (std::string_view(what) == "=+2.00" && read.error().front().code == FaultCode::unknown_code)));
    CHECK_FALSE(read.error().front().expected.empty());
  }
  CHECK(now.suppose("step.sew-sections=+60.00").error().front().code == FaultCode::bad_value);
  for (char const* const what :
       {"rate=-80.01", "overhead=-101%", "goat-green=-10.01", "step.sew-sections=-101%"}) {
    INFO(what);
    CHECK(now.suppose(what).error().front().code == FaultCode::bad_value);
  }
  CHECK(now.suppose("rate=-80.00").has_value());
  CHECK(now.suppose("overhead=-100%").has_value());
  CHECK(repriced(book.quote, now).cost_now == eur(100'00));
}

TEST_CASE("a name that nobody knows is refused with those that may have been meant") {
  SmallBook const book;
  Today now = book.today();
  auto const near = [&](char const* what) {
    Read<void> const read = now.suppose(what);
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error().front().code == FaultCode::unknown_code);
    REQUIRE_FALSE(read.error().front().near.empty());
    return read.error().front().near.front();
  };
  CHECK(near("goat-gren=+12%") == "goat-green");
  CHECK(near("rat=+2.00") == "rate");
  CHECK(near("overhed=+2.00") == "overhead");
  CHECK(near("step.sew-section=+10%") == "step.sew-sections");
  CHECK(now.suppose("step.pare-edges=+10%").error().front().code == FaultCode::unknown_code);  // not timed
  SmallBook unpriced;
  unpriced.catalogue.materials[0].price.reset();
  Today other = unpriced.today();
  CHECK(other.suppose("goat-green=+10%").error().front().code == FaultCode::no_price);
}

TEST_CASE("a supposition that leaves the range of money is refused") {
  SmallBook const book;
  Today now = book.today();
  CHECK(now.suppose("goat-green=+92233720368547758.00").error().front().code == FaultCode::too_large);
  CHECK(repriced(book.quote, now).cost_now == eur(200'00));
}
