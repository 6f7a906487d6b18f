// A price that is said is the price that the offer comes to, whatever it leaves.
#include "engine/commission/said_price.h"

#include "orders.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

namespace {

Money shown(Commission const& commission) { return price(commission).value().offer.goods_shown; }

}  // namespace

TEST_CASE("the offer is the price that was said: on a point, off it, above and below the cost") {
  Commission const order = an_order(1);
  for (Money const said : {eur(480'00), eur(479'50), eur(1234'56), eur(10'00), eur(99'999'99)})
    CHECK(shown(at_price(order, said).value()) == said);
}

TEST_CASE("the workshop's own points stay where the price stands on one of them") {
  Commission order = an_order(1);
  order.selling.points = {10'00, 1'00};
  CHECK(at_price(order, eur(499'00)).value().selling.points == PricePoints{10'00, 1'00});
  CHECK(at_price(order, eur(500'00)).value().selling.points.step == 100);
  CHECK(shown(at_price(order, eur(499'00)).value()) == eur(499'00));
  CHECK(shown(at_price(order, eur(500'00)).value()) == eur(500'00));
}

TEST_CASE("a least charge does not lift a price that was said") {
  Commission order = an_order(1);
  order.shop.least_charge = eur(900'00);
  CHECK(shown(at_price(order, eur(300'00)).value()) == eur(300'00));
}

TEST_CASE("through an outlet the ticket is the price that was said") {
  Commission order = an_order(1);
  Outlet outlet;
  outlet.currency = euro();
  Fee fee;
  fee.name = "commission";
  fee.steps = {{eur(0), {12, 100}}};
  outlet.fees.push_back(fee);
  outlet.points = {1, 0};
  order.selling.outlet = outlet;
  auto const priced = price(at_price(order, eur(777'00)).value()).value();
  CHECK(priced.offer.walk.ticket == eur(777'00));
  CHECK(priced.offer.walk.all_fees.minor > 0);
}

TEST_CASE("classes of tax of one's own, sold by the workshop itself") {
  Commission order = an_order(1);
  order.selling.tax.own.push_back({Component::binding, "binding", {7, 100}});
  CHECK(shown(at_price(order, eur(512'00)).value()) == eur(512'00));
}
