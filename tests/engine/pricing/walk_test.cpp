// One sale walked by hand, fee by fee.
#include "engine/pricing/walk.h"

#include "sheets.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Fee;
using endband::FeeBase;
using endband::FeePer;
using endband::Money;
using endband::Ratio;
using endband::TaxMode;

namespace {

Money usd(std::int64_t minor) { return {minor, currency("USD")}; }

std::int64_t amount(Fee const& fee, std::int64_t base, std::int64_t pieces = 1, int days = 0) {
  return endband::fee_amount(fee, eur(base), pieces, days).minor;
}

Fee share_of(Ratio share) {
  Fee fee;
  fee.steps = {{eur(0), share}};
  fee.fixed = eur(0);
  return fee;
}

}  // namespace

TEST_CASE("a step's share is of the part above it, or of the whole") {
  Fee fee = share_of({10, 100});
  fee.steps.push_back({eur(100'00), {5, 100}});
  CHECK(amount(fee, 99'99) == 10'00);  // 9.999
  CHECK(amount(fee, 150'00) == 12'50);
  fee.on_whole = true;
  CHECK(amount(fee, 99'99) == 10'00);
  CHECK(amount(fee, 100'00) == 5'00);
  CHECK(amount(fee, 150'00) == 7'50);
}

TEST_CASE("the least and the most are of the share, the fixed sum stands beside them") {
  Fee fee = share_of({10, 100});
  fee.least = eur(2'00);
  fee.most = eur(8'00);
  fee.fixed = eur(30);
  CHECK(amount(fee, 0) == 2'30);
  CHECK(amount(fee, 50'00) == 5'30);
  CHECK(amount(fee, 500'00) == 8'30);
}

TEST_CASE("by the piece each equal part is charged, and the sum is rounded once") {
  Fee fee = share_of({10, 100});
  fee.per = FeePer::piece;
  fee.steps.push_back({eur(50'00), {1, 100}});
  fee.fixed = eur(10);
  CHECK(amount(fee, 100'00, 3) == 10'30);  // 33.33... each
  CHECK(amount(fee, 300'00, 3) == 16'80);  // 5.00 + 0.50 each
  fee.most = eur(5'25);
  CHECK(amount(fee, 300'00, 3) == 16'05);
}

TEST_CASE("a listing is paid once, and anew for every further period until it is sold") {
  Fee fee;
  fee.per = FeePer::listing;
  fee.fixed = eur(20);
  CHECK(amount(fee, 100'00, 1, 300) == 20);
  fee.every_days = 120;
  CHECK(endband::periods(fee, 0) == 1);
  CHECK(endband::periods(fee, 120) == 1);
  CHECK(endband::periods(fee, 121) == 2);
  CHECK(endband::periods(fee, 300) == 3);
  CHECK(amount(fee, 100'00, 5, 300) == 60);
}

TEST_CASE("a half minor unit of a fee goes away from zero") {
  CHECK(amount(share_of({5, 1000}), 1'00) == 1);
  CHECK(amount(share_of({5, 1000}), 99) == 0);
}

// 108.00 less 25 % are 81.00; 7 % are within.
TEST_CASE("trade takes its discount off the ticket, and then something may be given away") {
  auto const sheet = costing(30'00);
  auto const delivery = collected();
  endband::SellingRules selling;
  selling.tax = {TaxMode::included, {7, 100}, "VAT", {}};
  selling.outlet.emplace();
  selling.outlet->kind = endband::OutletKind::trade;
  selling.outlet->currency = euro();
  selling.outlet->discount = {1, 4};
  auto const shop = shop_in();
  endband::Sale const sale{sheet, delivery, selling, shop};
  auto const walk = endband::walk(sale, eur(108'00));
  CHECK(walk.goods_shown == eur(81'00));
  CHECK(walk.tax == eur(5'30));  // 5.2990...
  CHECK(walk.goods == eur(75'70));
  CHECK(walk.left == eur(45'70));
  auto const gift = endband::walk(sale, eur(108'00), {1, 10});
  CHECK(gift.discount == eur(35'10));
  CHECK(gift.goods_shown == eur(72'90));
  CHECK(endband::walk(sale, eur(108'00), 1).paid == eur(0));
}

// 1 USD = 0.90 EUR, of which 2 % stay with the exchange: 100.00 USD are 90.00 EUR, 1.80 of them its cost.
TEST_CASE("another currency is converted at the rate, and the spread is a cost beside it") {
  auto const sheet = costing(30'00);
  endband::Delivery const delivery{eur(9'00), "post"};
  endband::SellingRules selling;
  selling.outlet.emplace();
  selling.outlet->currency = currency("USD");
  selling.outlet->exchange = {{9, 10}, {2, 100}};
  auto const shop = shop_in();
  auto const walk = endband::walk({sheet, delivery, selling, shop}, usd(90'00));
  CHECK(walk.carriage_shown == usd(10'00));
  CHECK(walk.paid == usd(100'00));
  CHECK(walk.exchange_cost == eur(1'80));
  CHECK(walk.received == eur(88'20));
  CHECK(walk.price == eur(81'00));
  CHECK(walk.yours == eur(79'20));
}

TEST_CASE("digits of the two currencies are minded") {
  endband::ShopRules const shop = shop_in();
  auto const sheet = costing(30'00);
  auto const delivery = collected();
  endband::SellingRules selling;
  selling.outlet.emplace();
  selling.outlet->currency = currency("JPY");
  selling.outlet->exchange.rate = {625, 100'000};  // 1 JPY = 0.00625 EUR
  CHECK(endband::walk({sheet, delivery, selling, shop}, {16'000, currency("JPY")}).price == eur(100'00));
  selling.outlet->currency = currency("KWD");
  selling.outlet->exchange.rate = {3};  // 1 KWD = 3 EUR
  CHECK(endband::walk({sheet, delivery, selling, shop}, {12'345, currency("KWD")}).price == eur(37'04));
}

TEST_CASE("a total paid in coins is rounded after all fees were reckoned") {
  auto const sheet = costing(30'00);
  auto const delivery = collected();
  endband::SellingRules selling;
  selling.outlet.emplace();
  selling.outlet->currency = euro();
  selling.outlet->cash_step = 5;
  Fee fee = share_of({1, 100});
  fee.base = FeeBase::paid;
  selling.outlet->fees = {fee};
  auto const shop = shop_in();
  auto const walk = endband::walk({sheet, delivery, selling, shop}, eur(49'48));
  CHECK(walk.cash_rounding == eur(2));
  CHECK(walk.paid == eur(49'50));
  CHECK(walk.fees[0] == eur(49));  // of 49.48
  CHECK(walk.yours == eur(49'01));
}

// The book at 7 %, its box at 19 %, half each; carriage at 19 %.
TEST_CASE("lines of one rate are taxed together, and carriage with those of its own") {
  auto const sheet = sheet_of({.parts = {{endband::Part::cover, 50'00}, {endband::Part::box, 50'00}}});
  endband::Delivery const delivery{eur(10'00), "post"};
  auto const shop = shop_in();
  endband::SellingRules selling;
  selling.tax = {TaxMode::added, {7, 100}, "VAT", {}};
  selling.tax.own = {{endband::Component::box, "full", {19, 100}}, {std::nullopt, "full", {19, 100}}};
  auto const added = endband::walk({sheet, delivery, selling, shop}, eur(200'01));
  CHECK(added.tax == eur(27'90));  // 7.00 of 100.01, 20.90 of 110.00
  selling.tax.mode = TaxMode::included;
  auto const included = endband::walk({sheet, delivery, selling, shop}, eur(200'00));
  CHECK(included.carriage_shown == eur(11'90));
  CHECK(included.tax == eur(6'54 + 17'87));  // within 100.00 at 7 %, within 111.90 at 19 %
  CHECK(included.goods == eur(200'00 - 6'54 - 15'97));
}

TEST_CASE("tax that the place pays over never reaches the maker") {
  auto const sheet = costing(30'00);
  auto const delivery = collected();
  auto const shop = shop_in();
  endband::SellingRules selling;
  selling.outlet.emplace();
  selling.outlet->currency = euro();
  selling.outlet->tax_mode = TaxMode::added;
  selling.outlet->tax_rate = {8, 100};
  auto walk = endband::walk({sheet, delivery, selling, shop}, eur(100'00));
  CHECK(walk.payout == eur(108'00));
  CHECK(walk.tax_due == eur(8'00));
  selling.outlet->collects_tax = true;
  walk = endband::walk({sheet, delivery, selling, shop}, eur(100'00));
  CHECK(walk.paid == eur(108'00));
  CHECK(walk.payout == eur(100'00));
  CHECK(walk.tax_due == eur(0));
  CHECK(walk.left == eur(70'00));
}

TEST_CASE("rules outside their ranges and money of another currency break the contract") {
  auto const sheet = costing(30'00);
  auto const delivery = collected();
  auto const shop = shop_in();
  endband::SellingRules selling;
  selling.outlet.emplace();
  selling.outlet->currency = euro();
  auto const at = [&](Money ticket) { return endband::walk({sheet, delivery, selling, shop}, ticket); };
  CHECK_THROWS_AS(at(usd(1)), std::logic_error);
  CHECK_THROWS_AS(at(eur(-1)), std::logic_error);
  selling.outlet->discount = 1;
  CHECK_THROWS_AS(at(eur(1)), std::logic_error);
  selling.outlet->discount = 0;
  selling.outlet->returns.lost = 1;
  CHECK_THROWS_AS(at(eur(1)), std::logic_error);
  selling.outlet->returns.lost = 0;
  selling.outlet->fees = {share_of(1)};
  CHECK_THROWS_AS(at(eur(1)), std::logic_error);
}
