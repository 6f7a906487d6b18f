// The stages in order, from a book described by hand to its offer.
#include "tests/engine/commission/orders.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband::testing;
using endband::Commission;
using endband::FaultCode;
using endband::FrozenQuote;
using endband::Money;
using endband::Priced;
using endband::Ratio;
using endband::Read;

namespace {

// A book with everything, at prices in steps of 5.00.
Commission commission() {
  Commission of = an_order(1);
  of.book = endband::fixtures::sample_spec_with_everything(of.catalogue);
  of.shop.least_charge = eur(190'00);
  of.selling.points = {500, 0};
  of.selling.deposit.step = 1000;
  of.outside = {{"a die", eur(85'00), true}};
  return of;
}

void take_step_away(Commission& of, endband::OperationKind kind) {
  std::erase_if(of.steps.steps, [&](endband::Step const& step) { return step.kind == kind; });
}

}  // namespace

TEST_CASE("a book with everything is priced from its description to its offer") {
  Priced const priced = endband::price(commission()).value();
  CHECK(priced.work.lines.size() == priced.structure.operations.size());
  CHECK(priced.sheet.lines.size() > priced.bill.lines.size() + priced.work.lines.size());
  CHECK(priced.offer.margin >= Ratio(18, 100));
  CHECK(priced.offer.goods_shown.minor % 500 == 0);
  CHECK(priced.offer.lines.size() == endband::component_count - 2);  // no box, no repairs
}

TEST_CASE("the same commission gives the same quote, and the quote replays to itself") {
  Commission const of = commission();
  FrozenQuote const once = endband::freeze(of, endband::price(of).value(), "endband = 1", "");
  FrozenQuote twice = endband::freeze(of, endband::price(of).value(), "endband = 1", "");
  CHECK(endband::differs(once).empty());
  twice.sheet = once.sheet;
  twice.offer = once.offer;
  CHECK(endband::differs(twice).empty());
}

TEST_CASE("a dearer material or a slower step of any sort never makes the book cheaper") {
  Commission const of = commission();
  Priced const priced = endband::price(of).value();
  Money const before = priced.sheet.total;
  for (auto const& line : priced.bill.lines) {
    Commission dearer = of;
    auto const row = std::find_if(dearer.catalogue.materials.begin(), dearer.catalogue.materials.end(),
                                  [&](endband::Material const& m) { return m.id == line.material; });
    row->price->price.minor += 10'000'00;
    CAPTURE(row->code);
    CHECK(endband::price(dearer).value().sheet.total > before);
  }
  for (std::size_t i = 0; i < of.steps.steps.size(); ++i) {
    Commission slower = of;
    slower.steps.steps[i].each.likely.n += 600;
    slower.steps.steps[i].each.high.n += 600;
    CAPTURE(endband::operation_row(slower.steps.steps[i].kind).name);
    CHECK(endband::price(slower).value().sheet.total >= before);
  }
}

TEST_CASE("what the customer supplies comes off the price and stays on the bill") {
  Commission of = commission();
  Priced const before = endband::price(of).value();
  auto const goat = of.catalogue.find("goat")->id;
  of.book.customer_supplies = {goat};
  Priced const after = endband::price(of).value();
  CHECK(after.bill.lines.size() == before.bill.lines.size());
  CHECK(after.sheet.materials < before.sheet.materials);
  CHECK(after.sheet.labour == before.sheet.labour);
}

TEST_CASE("what the bill and the work refuse is told together") {
  Commission of = commission();
  take_step_away(of, endband::OperationKind::round_spine);
  auto const thread = std::find_if(of.catalogue.materials.begin(), of.catalogue.materials.end(),
                                   [](endband::Material const& row) { return row.code == "thread-18-3"; });
  thread->price.reset();
  Read<Priced> const priced = endband::price(of);
  REQUIRE_FALSE(priced.has_value());
  REQUIRE(priced.error().size() == 2);
  CHECK(priced.error()[0].code == FaultCode::no_price);
  CHECK(priced.error()[1].code == FaultCode::missing_step);
}

TEST_CASE("costs out of the range of money are a fault, and so is a goal that cannot be met") {
  Commission of = commission();
  of.goal = endband::MarginGoal{1};
  CHECK(endband::price(of).error()[0].code == FaultCode::bad_goal);
  of = commission();
  of.shop.basis.pay_wanted = of.shop.basis.overhead = eur(4'000'000'000'000'000'000);
  of.shop.basis.hours_charged = {1};
  CHECK(endband::price(of).error()[0].code == FaultCode::too_large);
}
