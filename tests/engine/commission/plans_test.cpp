// Pricing again asks no solver: whatever it costs, the same book is the same request.
#include "engine/cutting/asked.h"
#include "tests/engine/commission/orders.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Commission;
using endband::CutRequest;
using endband::HowFound;
using endband::Priced;

namespace {

// How many requests are not in the table, which is how often a solver would be asked.
int unplanned(Commission const& of) {
  int count = 0;
  for (CutRequest const& request : endband::requests_of(of))
    if (!of.plans.contains(endband::plan_key(request, of.cutting.work))) ++count;
  return count;
}

void plan_all(Commission& of) {
  for (CutRequest const& request : endband::requests_of(of))
    of.plans.emplace(endband::plan_key(request, of.cutting.work),
                     endband::plan_to_buy(request, {of.cutting.work, {}}));
}

}  // namespace

TEST_CASE("every plan that an order makes can be made again from its key") {
  for (int const copies : {1, 2, 5}) {
    Commission of = an_order(copies);
    plan_all(of);
    for (auto const& [key, facts] : of.plans) {
      auto const asked = endband::asked_by(key);
      REQUIRE(asked.has_value());
      CHECK(endband::plan_to_buy(asked->request, {asked->work, {}}) == facts);
    }
  }
}

TEST_CASE(
    "a thousand prices of one book, each with other costs and wishes, are made from the plans of the first") {
  Commission of = an_order(2);
  CHECK(unplanned(of) > 3);
  plan_all(of);
  Priced const first = endband::price_for_quote(of).value();
  int asked = 0, by_plan = 0;
  for (int round = 0; round < 1000; ++round) {
    for (auto& material : of.catalogue.materials)
      if (material.price) material.price->price.minor += 1 + round % 7;
    of.shop.basis.overhead.minor += round;
    asked += unplanned(of);
  }
  CHECK(asked == 0);
  Priced const last = endband::price_for_quote(of).value();
  CHECK(last.sheet.total > first.sheet.total);
  for (auto const& line : last.bill.lines) by_plan += line.how == HowFound::by_plan ? 1 : 0;
  CHECK(by_plan >= 3);
}

TEST_CASE("with plans every line of the bill still adds up") {
  Commission of = an_order(3);
  plan_all(of);
  Priced const priced = endband::price_for_quote(of).value();
  CHECK(endband::differs(endband::freeze(of, priced, "endband = 1", "")) == "");
}
