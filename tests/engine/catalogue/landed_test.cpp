// What a pack costs on the shelf, worked by hand.
#include "tests/engine/catalogue/goods.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;

namespace {

// 36.00 of another currency at 1.17: 42.12. Carriage 3.50, duty 2 %, purchase tax 19 %.
PackPrice from_abroad() {
  PackPrice row = goods::price(amount(Area{1'114'836'480'000}), 4212);  // 12 sq ft
  row.said = {3600, read_currency("GBP").value()};
  row.rate = Ratio(117, 100);
  row.carriage = goods::euros(350);
  row.duty = Ratio(2, 100);
  row.purchase_tax = Ratio(19, 100);
  return row;
}

}  // namespace

// duty = 42.12 x 0.02 = 0.8424; tax = (42.12 + 3.50 + 0.84) x 0.19 = 8.8274.
TEST_CASE("an unregistered workshop bears all the purchase tax") {
  Landed const landed = landed_cost(from_abroad(), BuyingRules{Ratio(0)});
  CHECK(landed.price == goods::euros(4212));
  CHECK(landed.carriage == goods::euros(350));
  CHECK(landed.duty == goods::euros(84));
  CHECK(landed.tax == goods::euros(883));
  CHECK(landed.tax_borne == goods::euros(883));
  CHECK(landed.total == goods::euros(5529));
}

TEST_CASE("a registered workshop gets the purchase tax back, but not the duty") {
  Landed const landed = landed_cost(from_abroad(), BuyingRules{Ratio(1)});
  CHECK(landed.tax == goods::euros(883));
  CHECK(landed.tax_borne == goods::euros(0));
  CHECK(landed.total == goods::euros(4646));
}

// Half of 8.83 is 4.415: 4.42 come back, 4.41 stay.
TEST_CASE("what comes back of the tax is rounded, and what stays is the rest") {
  Landed const landed = landed_cost(from_abroad(), BuyingRules{Ratio(1, 2)});
  CHECK(landed.tax_borne == goods::euros(441));
  CHECK(landed.total == goods::euros(5087));
}

// 2.50 x 0.01 = 0.025 and 10.50 x 0.05 = 0.525: halves go away from zero.
TEST_CASE("each part is rounded by itself, a half away from zero") {
  PackPrice row = goods::price(amount(goods::whole(1)), 250);
  row.duty = Ratio(1, 100);
  CHECK(landed_cost(row, {}).duty == goods::euros(3));
  row = goods::price(amount(goods::whole(1)), 1050);
  row.purchase_tax = Ratio(5, 100);
  CHECK(landed_cost(row, {}).tax == goods::euros(53));
}

TEST_CASE("a price in a currency without minor units lands in whole ones") {
  Currency const jpy = read_currency("JPY").value();
  PackPrice row = goods::price(amount(goods::whole(10)), 0);
  row.price = row.said = {1234, jpy};
  row.carriage = {0, jpy};
  row.purchase_tax = Ratio(10, 100);
  CHECK(landed_cost(row, {}).total == Money{1357, jpy});  // 1234 + 123.4
}

// 12.90 for 500 g: 48 g are 1.2384.
TEST_CASE("a part of a pack costs its share of the landed total") {
  Material hide = goods::glue();
  hide.price = goods::price(amount(Mass{500'000}), 1290);
  UnitCost const unit = unit_cost(hide, {});
  CHECK(unit.minor == 1290);
  CHECK(unit.pack == amount(Mass{500'000}));
  CHECK(cost_of(unit, amount(Mass{48'000})) == goods::euros(124));
  CHECK(cost_of(unit, amount(Mass{500'000})) == goods::euros(1290));
  CHECK(cost_of(unit, amount(Mass{0})) == goods::euros(0));
}

TEST_CASE("half a minor unit of cost is taken away from zero") {
  UnitCost const unit{1, amount(goods::whole(2)), goods::eur()};
  CHECK(cost_of(unit, amount(goods::whole(1))) == goods::euros(1));
  CHECK(cost_of(unit, amount(Count{999})) == goods::euros(0));
}

TEST_CASE("a quantity is never priced in another dimension than its pack") {
  UnitCost const unit = unit_cost(goods::glue(), {});
  CHECK_THROWS_AS(static_cast<void>(cost_of(unit, amount(Volume{1000}))), std::logic_error);
}

TEST_CASE("a unit cost is asked only of what has a price of a pack that holds something") {
  Material row = goods::glue();
  row.price.reset();
  CHECK_THROWS_AS(static_cast<void>(unit_cost(row, {})), std::logic_error);
  row.price = goods::price(amount(Mass{0}), 100);
  CHECK_THROWS_AS(static_cast<void>(unit_cost(row, {})), std::logic_error);
}

TEST_CASE("goods that were a gift cost nothing") {
  Material row = goods::glue();
  row.price = goods::price(amount(Mass{1'000'000}), 0);
  CHECK(cost_of(unit_cost(row, {}), amount(Mass{50'000})) == goods::euros(0));
}
