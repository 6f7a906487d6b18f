#include "sheets.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::MarginGoal;
using endband::Offer;
using endband::Part;
using endband::Ratio;
using endband::Rung;

namespace {

void check_rung(Rung const& rung, std::int64_t price, std::int64_t left, std::int64_t hourly) {
  CHECK(rung.price == eur(price));
  CHECK(rung.left == eur(left));
  CHECK(rung.hourly == eur(hourly));
}

// Materials 80.00, ten hours at 20.00, of which 60.00 are paid out for this book.
endband::CostSheet ten_hours() {
  return sheet_of({.parts = {{Part::cover, 80'00}}, .labour = 200'00, .outlay = 60'00, .seconds = 36'000});
}

}  // namespace

TEST_CASE("the ladder climbs from what is paid out to what is asked") {
  endband::ShopRules shop = shop_in();
  shop.least_hourly = eur(12'00);
  auto const offer =
      endband::offer(ten_hours(), collected(), {.points = {10'00, 1'00}, .tax = {}, .deposit = {}},
                     MarginGoal{{30, 100}}, shop)
          .value();
  check_rung(offer.ladder.cash_floor, 60'00, -220'00, -2'00);  // (60 - 80) / 10 h
  check_rung(offer.ladder.walk_away, 180'00, -100'00, 10'00);
  check_rung(offer.ladder.full_cost, 280'00, 0, 20'00);
  check_rung(offer.ladder.target, 400'00, 120'00, 32'00);
  check_rung(offer.ladder.asked, 409'00, 129'00, 32'90);
  CHECK(offer.goods == eur(409'00));
  CHECK(offer.left == eur(129'00));
  CHECK(offer.margin == Ratio(129, 409));
}

TEST_CASE("the least charge of the workshop holds for a small book") {
  endband::ShopRules shop = shop_in();
  shop.least_charge = eur(35'00);
  auto const offer = endband::offer(costing(10'00), collected(), {}, MarginGoal{{1, 2}}, shop).value();
  CHECK(offer.ladder.target.price == eur(20'00));
  CHECK(offer.ladder.asked.price == eur(35'00));
}

TEST_CASE("the least charge is without tax") {
  endband::ShopRules shop = shop_in();
  shop.least_charge = eur(35'00);
  endband::SellingRules const selling{
      .points = {}, .tax = {endband::TaxMode::included, {20, 100}, "VAT"}, .deposit = {}};
  auto const offer = endband::offer(costing(10'00), collected(), selling, MarginGoal{{1, 2}}, shop).value();
  CHECK(offer.goods_shown == eur(42'00));
}

TEST_CASE("a book without hours earns nothing an hour") {
  auto const offer = endband::offer(costing(10'00), collected(), {}, MarginGoal{{1, 2}}, shop_in()).value();
  CHECK(offer.ladder.asked.hourly == eur(0));
}

// OpenStax, Principles of Accounting 2, 6.1 (m68135): gross profit a unit of Solo, Band and Orchestra.
TEST_CASE("what is left is the price less the full cost") {
  struct Row {
    std::int64_t cost, price, left;
  };
  for (Row const row : {Row{18'50, 20'00, 1'50}, Row{16'75, 25'00, 8'25}, Row{20'00, 30'00, 10'00}}) {
    auto const goal = MarginGoal{Ratio(row.left, row.price)};
    auto const offer = endband::offer(costing(row.cost), collected(), {}, goal, shop_in()).value();
    CHECK(offer.goods == eur(row.price));
    CHECK(offer.left == eur(row.left));
    CHECK(offer.margin == goal.margin);
  }
}

TEST_CASE("the margin is of what earns") {
  auto const sheet = sheet_of({.parts = {{Part::cover, 100'00}}, .outside_at_cost = 85'00});
  auto const offer = endband::offer(sheet, collected(), {}, MarginGoal{{1, 2}}, shop_in()).value();
  CHECK(offer.goods == eur(285'00));
  CHECK(offer.left == eur(100'00));
  CHECK(offer.margin == Ratio(1, 2));
}
