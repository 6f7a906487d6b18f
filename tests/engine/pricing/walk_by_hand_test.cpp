// The sale of tests/hand/price_walk.py, which was worked by hand in fractions: each line that it prints.
#include "engine/pricing/walk.h"
#include "sheets.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Component;
using endband::Duration;
using endband::Fee;
using endband::FeeBase;
using endband::FeePer;
using endband::Money;
using endband::Outlet;
using endband::Part;
using endband::TaxMode;

namespace {

Money chf(std::int64_t minor) { return {minor, currency("CHF")}; }

Fee listing() {
  Fee fee;
  fee.name = "listing";
  fee.per = FeePer::listing;
  fee.fixed = chf(25);
  fee.every_days = 100;
  fee.kept = true;
  return fee;
}

Fee commission() {
  Fee fee;
  fee.name = "commission";
  fee.fixed = chf(0);
  fee.steps = {{chf(0), {9, 100}}, {chf(200'00), {6, 100}}};
  return fee;
}

Fee payment() {
  Fee fee;
  fee.name = "payment";
  fee.base = FeeBase::paid;
  fee.steps = {{chf(0), {32, 1000}}};
  fee.fixed = chf(45);
  fee.payment = true;
  fee.kept = true;
  return fee;
}

Outlet place() {
  Outlet outlet;
  outlet.kind = endband::OutletKind::marketplace;
  outlet.currency = currency("CHF");
  outlet.exchange = {{104, 100}, {15, 1000}};
  outlet.fees = {listing(), commission(), payment()};
  outlet.days_to_sell = 290;
  outlet.returns.change_of_mind = {4, 100};
  outlet.returns.carriage_back = eur(9'50);
  outlet.returns.handling = Duration{1800};
  outlet.returns.loss_of_value = {12, 100};
  outlet.returns.fault = {1, 100};
  outlet.returns.mending = Duration{3 * 3600};
  outlet.returns.lost = {5, 1000};
  outlet.returns.insured = eur(150'00);
  outlet.returns.excess = eur(25'00);
  return outlet;
}

}  // namespace

TEST_CASE("a price is walked as it was worked by hand") {
  auto const sheet = sheet_of({.parts = {{Part::cover, 140'00}, {Part::box, 60'00}, {Part::packing, 15'00}}});
  endband::Delivery const delivery{eur(12'40), "post"};
  auto shop = shop_in();
  shop.basis = {eur(36'000'00), eur(0), eur(9'000'00), Duration{1200 * 3600}};
  endband::SellingRules selling;
  selling.tax = {TaxMode::included, {7, 100}, "VAT", {}};
  selling.tax.own = {{Component::box, "full", {19, 100}}, {std::nullopt, "full", {19, 100}}};
  selling.outlet = place();
  auto const walk = endband::walk({sheet, delivery, selling, shop}, chf(480'00));
  CHECK(walk.goods_shown == chf(480'00));
  CHECK(walk.carriage_shown == chf(14'18));
  CHECK(walk.tax == chf(47'24));
  CHECK(walk.paid == chf(494'18));
  CHECK(walk.goods == chf(435'03));
  REQUIRE(walk.fees.size() == 3);
  CHECK(walk.fees[0] == chf(75));
  CHECK(walk.fees[1] == chf(32'10));
  CHECK(walk.fees[2] == chf(16'26));
  CHECK(walk.all_fees == chf(49'11));
  CHECK(walk.payout == chf(445'07));
  CHECK(walk.exchange_cost == eur(6'94));
  CHECK(walk.received == eur(455'93));
  CHECK(walk.tax_due == eur(49'13));
  CHECK(walk.carriage == eur(12'40));
  CHECK(walk.yours == eur(394'40));
  CHECK(walk.price == eur(452'43));
  CHECK(walk.returns == eur(6'33));
  CHECK(walk.cost == eur(215'00));
  CHECK(walk.left == eur(173'07));
}
