#include "sheets.h"

#include <doctest/doctest.h>

#include <optional>

using namespace endband::testing;
using endband::Component;
using endband::MarkupGoal;
using endband::Offer;
using endband::Part;
using endband::SellingRules;
using endband::TaxMode;

namespace {

SellingRules taxed(TaxMode mode) { return {.points = {}, .tax = {mode, {20, 100}, "VAT"}, .deposit = {}}; }

std::optional<std::int64_t> shown(Offer const& offer, Component component) {
  for (auto const& line : offer.lines)
    if (line.component == component) return line.shown.minor;
  return std::nullopt;
}

}  // namespace

TEST_CASE("parts that a buyer does not see are spread over those that he sees") {
  auto const sheet = sheet_of({.parts = {{Part::text_block, 10'00},
                                         {Part::sewing, 20'00},
                                         {Part::cover, 60'00},
                                         {Part::clasps, 10'00},
                                         {Part::packing, 7'00},
                                         {Part::office, 8'00},
                                         {Part::whole_book, 5'00}}});
  auto const offer = endband::offer(sheet, collected(), {}, MarkupGoal{0}, shop_in()).value();
  CHECK(offer.lines.size() == 3);
  CHECK(shown(offer, Component::text_block) == 36'00);
  CHECK(shown(offer, Component::binding) == 72'00);
  CHECK(shown(offer, Component::furniture) == 12'00);
}

TEST_CASE("lines that do not divide still add up to the price") {
  auto const sheet = sheet_of({.parts = {{Part::text_block, 1}, {Part::cover, 1}, {Part::stone, 1}}});
  endband::ShopRules shop = shop_in();
  shop.least_charge = eur(100'00);
  auto const offer = endband::offer(sheet, collected(), {}, MarkupGoal{0}, shop).value();
  CHECK(shown(offer, Component::text_block) == 33'34);
  CHECK(shown(offer, Component::binding) == 33'33);
  CHECK(shown(offer, Component::stone_setting) == 33'33);
}

TEST_CASE("outside work at cost keeps its own amount, and is shown with tax when that is included") {
  auto const sheet = sheet_of({.parts = {{Part::cover, 100'00}}, .outside_at_cost = 85'00});
  auto const without =
      endband::offer(sheet, collected(), taxed(TaxMode::added), MarkupGoal{1}, shop_in()).value();
  CHECK(shown(without, Component::outside_work) == 85'00);
  CHECK(shown(without, Component::binding) == 200'00);
  auto const with =
      endband::offer(sheet, collected(), taxed(TaxMode::included), MarkupGoal{1}, shop_in()).value();
  CHECK(shown(with, Component::outside_work) == 102'00);
  CHECK(shown(with, Component::binding) == 240'00);
}

TEST_CASE("outside work that earns is marked up like the rest") {
  auto const sheet =
      sheet_of({.parts = {{Part::cover, 100'00}}, .outside_earning = 50'00, .outside_at_cost = 10'00});
  auto const offer = endband::offer(sheet, collected(), {}, MarkupGoal{1}, shop_in()).value();
  CHECK(shown(offer, Component::binding) == 200'00);
  CHECK(shown(offer, Component::outside_work) == 110'00);
}

// 0.28 leaves 0.24 without its tax of 0.04, though 0.24 with 19 % is 0.29.
TEST_CASE("outside work at cost is never shown for more than the price") {
  auto const sheet = sheet_of({.outside_at_cost = 24});
  SellingRules const selling{.points = {}, .tax = {TaxMode::included, {19, 100}, "VAT"}, .deposit = {}};
  auto const offer = endband::offer(sheet, collected(), selling, MarkupGoal{1}, shop_in()).value();
  CHECK(offer.goods_shown == eur(28));
  REQUIRE(shown(offer, Component::outside_work) == 28);
  CHECK_FALSE(shown(offer, Component::binding).has_value());
}

TEST_CASE("a price of nothing but hours beside the bench stands with the binding") {
  auto const sheet = sheet_of({.parts = {{Part::office, 10'00}}});
  auto const offer = endband::offer(sheet, collected(), {}, MarkupGoal{0}, shop_in()).value();
  CHECK(shown(offer, Component::binding) == 10'00);
}

TEST_CASE("every part stands in one component, or in none that a buyer sees") {
  int none = 0;
  for (std::size_t i = 0; i < endband::part_count; ++i)
    if (!endband::component_of(static_cast<Part>(i))) ++none;
  CHECK(none == 3);
  CHECK(endband::component_name(Component::endbands_and_registers) == "endbands-and-registers");
}

TEST_CASE("tax is added once on goods and carriage together") {
  endband::Delivery const post{eur(12'53), "post"};
  auto const offer =
      endband::offer(costing(100'00), post, taxed(TaxMode::added), MarkupGoal{1}, shop_in()).value();
  CHECK(offer.goods_shown == eur(200'00));
  CHECK(offer.carriage_shown == eur(12'53));
  CHECK(offer.tax == eur(42'51));  // 42.506
  CHECK(offer.total == eur(255'04));
}

TEST_CASE("with tax included goods and carriage are what is paid") {
  endband::Delivery const post{eur(12'53), "post"};
  auto const offer =
      endband::offer(costing(100'00), post, taxed(TaxMode::included), MarkupGoal{1}, shop_in()).value();
  CHECK(offer.goods_shown == eur(240'00));
  CHECK(offer.carriage_shown == eur(15'04));  // 15.036
  CHECK(offer.total == eur(255'04));
  CHECK(offer.tax == eur(42'51));
}

TEST_CASE("a workshop without tax shows the net") {
  endband::Delivery const post{eur(12'53), "post"};
  auto const offer =
      endband::offer(costing(100'00), post, taxed(TaxMode::none), MarkupGoal{1}, shop_in()).value();
  CHECK(offer.tax == eur(0));
  CHECK(offer.total == eur(212'53));
}
