#include "tests/engine/stock/wanting.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;
using goods::euros;
using goods::whole;
using wanting::in_days;
using wanting::Shop;
using Jobs = std::vector<std::string>;

namespace {

std::int64_t sheets(std::int64_t n) { return whole(n).n; }
constexpr std::int64_t dm2 = 10'000'000'000;

Buy only(Shop const& shop) {
  auto const buys = shop.buys();
  REQUIRE(buys.size() == 1);
  return buys[0];
}

// Paper by packs of 100 for 64.00.
Shop with_paper(std::optional<std::int64_t> lead_days = 5) {
  Shop shop;
  shop.sells(goods::paper()).lead_days = lead_days;
  return shop;
}

}  // namespace

TEST_CASE("nothing is bought of what lies there") {
  Shop shop = with_paper();
  shop.holds(sheets(30));
  shop.holds(sheets(30));
  shop.wants("26-014", sheets(60), in_days(9));
  CHECK(shop.buys().empty());
  shop.wants("26-015", 1, in_days(9));
  CHECK(shop.buys().size() == 1);
}

TEST_CASE("two jobs' want of paper, less the shelf, is bought in whole packs for the first day it lacks") {
  Shop shop = with_paper();
  shop.materials[0].material.price->purchase_tax = Ratio(20, 100);
  shop.holds(sheets(30));
  shop.wants("26-015", sheets(120), in_days(20));
  shop.wants("26-014", sheets(20), in_days(10));
  Buy const buy = only(shop);
  CHECK(buy.material == shop.materials[0].material.id);
  CHECK(buy.supplier == "Fennwick Paper Store");
  CHECK(buy.wanted == sheets(140));
  CHECK(buy.on_shelf == sheets(30));
  CHECK(buy.dead == 0);
  CHECK(buy.short_of == sheets(110));
  CHECK(buy.packs == 2);
  CHECK(buy.quantity == amount(whole(200)));
  CHECK(buy.landed == euros(2 * 7680));  // 64.00 and 20 % tax, borne
  CHECK(buy.priced);
  CHECK_FALSE(buy.for_reorder);
  CHECK(buy.jobs == Jobs{"26-015"});  // the first is served
  CHECK(buy.needed_on == in_days(20));
  CHECK(buy.order_by == in_days(15));
  CHECK_FALSE(buy.too_late);
  CHECK(buy.one_batch == 0);
}

TEST_CASE("the tax that comes back is not in what packs cost landed") {
  Shop shop = with_paper();
  shop.materials[0].material.price->purchase_tax = Ratio(20, 100);
  shop.buying.tax_recovered = Ratio(1);
  shop.wants("26-014", sheets(101), in_days(10));
  CHECK(only(shop).landed == euros(2 * 6400));
}

TEST_CASE("a whole pack short is one pack, and a sheet more is two") {
  Shop shop = with_paper();
  shop.wants("26-014", sheets(100), in_days(9));
  CHECK(only(shop).packs == 1);
  shop.wanted[0].quantity += 1;
  CHECK(only(shop).packs == 2);
}

TEST_CASE("an order is too late when its day is past, on its day it is not") {
  Shop shop = with_paper(5);
  shop.wants("26-014", sheets(1), in_days(5));
  CHECK(only(shop).order_by == in_days(0));
  CHECK_FALSE(only(shop).too_late);
  shop.wanted[0].needed_on = in_days(4);
  CHECK(only(shop).order_by == in_days(-1));
  CHECK(only(shop).too_late);
}

TEST_CASE("without a lead time there is no day to order by") {
  Shop shop = with_paper(std::nullopt);
  shop.wants("26-014", sheets(1), in_days(2));
  CHECK_FALSE(only(shop).order_by.has_value());
  CHECK_FALSE(only(shop).too_late);
  CHECK(only(shop).needed_on == in_days(2));
}

TEST_CASE("without a price the want is still told, and nothing is counted in packs") {
  Shop shop = with_paper();
  shop.materials[0].material.price.reset();
  shop.wants("26-014", sheets(7), in_days(9));
  Buy const buy = only(shop);
  CHECK_FALSE(buy.priced);
  CHECK(buy.supplier.empty());
  CHECK(buy.short_of == sheets(7));
  CHECK(buy.packs == 0);
  CHECK(buy.quantity == Amount{Dimension::count, 0});
  CHECK(buy.landed == Money{});
}

TEST_CASE("what does not keep until the day it is needed counts as absent, and is said to be") {
  Shop shop = with_paper();
  shop.holds(sheets(40), in_days(9));
  shop.holds(sheets(10), in_days(10));
  shop.wants("26-014", sheets(30), in_days(10));
  Buy const buy = only(shop);
  CHECK(buy.on_shelf == sheets(10));  // good on that very day
  CHECK(buy.dead == sheets(40));
  CHECK(buy.short_of == sheets(20));
}

TEST_CASE("what is dead today does not serve a job that was due before") {
  Shop shop = with_paper();
  shop.holds(sheets(40), in_days(-1));
  shop.wants("26-014", sheets(30), in_days(-3));
  CHECK(only(shop).short_of == sheets(30));
  CHECK(only(shop).too_late);
}

TEST_CASE("the earlier job takes what goes bad first, whatever the order they are named in") {
  Shop shop = with_paper();
  shop.holds(sheets(10), in_days(30));
  shop.holds(sheets(10), in_days(6));
  shop.wants("26-015", sheets(10), in_days(20));
  shop.wants("26-014", sheets(10), in_days(5));
  CHECK(shop.buys().empty());
}

TEST_CASE("what was bought for a job serves it first, and no other") {
  Shop shop = with_paper();
  shop.holds(sheets(10));
  shop.holds(sheets(10)).job = "26-014";
  shop.wants("26-014", sheets(10), in_days(5));
  shop.wants("26-015", sheets(10), in_days(6));
  CHECK(shop.buys().empty());
  shop.wanted[1].quantity = sheets(11);
  shop.wanted[0].quantity = sheets(3);
  CHECK(only(shop).jobs == Jobs{"26-015"});
  CHECK(only(shop).short_of == sheets(1));
}

TEST_CASE("goods of another material do not serve") {
  Shop shop = with_paper();
  shop.sells(goods::skin(22));
  shop.holds(sheets(10)).material = {22};
  shop.holds(sheets(10)).material = {99};
  shop.wants("26-014", sheets(10), in_days(5));
  CHECK(only(shop).on_shelf == 0);
  CHECK(only(shop).dead == 0);
}

TEST_CASE("at the reorder point or below, as many packs are bought as leave more") {
  Shop shop = with_paper(5);
  shop.materials[0].supply.reorder_at = sheets(150);
  shop.holds(sheets(151));
  CHECK(shop.buys().empty());

  shop.shelf[0].quantity = sheets(150);
  Buy const at = only(shop);
  CHECK(at.for_reorder);
  CHECK(at.wanted == sheets(150));
  CHECK(at.on_shelf == sheets(150));
  CHECK(at.short_of == 0);
  CHECK(at.packs == 1);
  CHECK(at.jobs.empty());
  CHECK(at.order_by == in_days(0));
  CHECK(at.needed_on == in_days(5));
  CHECK_FALSE(at.too_late);

  shop.shelf[0].quantity = sheets(51);
  CHECK(only(shop).short_of == sheets(99));
  CHECK(only(shop).packs == 1);
  shop.shelf[0].quantity = sheets(50);  // one pack would leave just 150 again
  CHECK(only(shop).packs == 2);
}

TEST_CASE("the order size is bought at the reorder point, in whole packs, and more where it is not enough") {
  Shop shop = with_paper();
  shop.materials[0].supply.reorder_at = sheets(150);
  shop.materials[0].supply.order_size = sheets(250);
  shop.holds(sheets(140));
  CHECK(only(shop).short_of == sheets(10));
  CHECK(only(shop).packs == 3);
  shop.wants("26-014", sheets(500), in_days(9));
  CHECK(only(shop).short_of == sheets(510));
  CHECK(only(shop).packs == 6);
}

TEST_CASE("an order size without a reorder point asks for nothing") {
  Shop shop = with_paper();
  shop.materials[0].supply.order_size = sheets(250);
  CHECK(shop.buys().empty());
  shop.wants("26-014", sheets(1), in_days(9));
  CHECK(only(shop).packs == 1);
}

TEST_CASE("jobs that bring the shelf down to its point are the day of the order for the shelf") {
  Shop shop = with_paper(5);
  shop.materials[0].supply.reorder_at = sheets(20);
  shop.holds(sheets(60));
  shop.wants("26-014", sheets(30), in_days(10));
  CHECK(shop.buys().empty());
  shop.wants("26-015", sheets(20), in_days(40));
  Buy const buy = only(shop);
  CHECK(buy.for_reorder);
  CHECK(buy.jobs.empty());
  CHECK(buy.wanted == sheets(70));
  CHECK(buy.on_shelf == sheets(60));
  CHECK(buy.short_of == sheets(10));
  CHECK(buy.order_by == in_days(40));
  CHECK(buy.needed_on == in_days(45));
  shop.wants("26-016", sheets(5), in_days(60));  // it was low before
  CHECK(only(shop).order_by == in_days(40));
}

TEST_CASE("a job that comes up short gives the day when it is before the shelf's") {
  Shop shop = with_paper(5);
  shop.materials[0].supply.reorder_at = sheets(20);
  shop.holds(sheets(60));
  shop.wants("26-014", sheets(70), in_days(10));
  Buy const buy = only(shop);
  CHECK(buy.for_reorder);
  CHECK(buy.jobs == Jobs{"26-014"});
  CHECK(buy.short_of == sheets(30));  // 10 for the job, 20 for the shelf
  CHECK(buy.needed_on == in_days(10));
  CHECK(buy.order_by == in_days(5));
}

TEST_CASE("what dies before an order would arrive, or is bound to a job, does not hold up the shelf") {
  Shop shop = with_paper(5);
  shop.materials[0].supply.reorder_at = sheets(20);
  shop.holds(sheets(100), in_days(4));
  shop.holds(sheets(100)).job = "26-014";
  Buy const buy = only(shop);
  CHECK(buy.on_shelf == 0);
  CHECK(buy.dead == sheets(100));
  CHECK(buy.short_of == sheets(20));
  shop.shelf[0].good_until = in_days(5);
  CHECK(shop.buys().empty());
}

namespace {

// Skins of 60 dm2 for 61.00.
Shop with_skins() {
  Shop shop;
  shop.sells(goods::skin()).lead_days = 14;
  return shop;
}

}  // namespace

TEST_CASE("three covers that are to match want three skins of one batch, each large enough") {
  Shop shop = with_skins();
  shop.holds(60 * dm2, {}, "B7");
  shop.holds(60 * dm2, {}, "B7");
  shop.holds(60 * dm2, {}, "B8");
  shop.wants("26-014", 120 * dm2, in_days(30), 3);
  Buy const buy = only(shop);
  CHECK(buy.one_batch == 3);
  CHECK(buy.on_shelf == 0);
  CHECK(buy.short_of == 120 * dm2);
  CHECK(buy.packs == 3);  // two would hold the area, not the covers
  CHECK(buy.landed == euros(3 * 6100));

  OnShelf& third = shop.holds(40 * dm2 - 1, {}, "B7");
  CHECK(only(shop).one_batch == 3);  // too small
  third.quantity = 40 * dm2;
  CHECK(shop.buys().empty());
}

TEST_CASE("a set takes from the batch that has it, and leaves the others") {
  Shop shop = with_skins();
  shop.holds(60 * dm2, {}, "B7");
  shop.holds(60 * dm2, {}, "B8");
  shop.holds(60 * dm2, {}, "B8");
  shop.wants("26-014", 120 * dm2, in_days(30), 2);
  shop.wants("26-015", 60 * dm2, in_days(31), 1);
  CHECK(shop.buys().empty());
  shop.wants("26-016", dm2, in_days(32));
  CHECK(only(shop).jobs == Jobs{"26-016"});
}

TEST_CASE("skins of no known batch do not match, one alone matches itself") {
  Shop shop = with_skins();
  shop.holds(60 * dm2);
  shop.holds(60 * dm2);
  shop.wants("26-014", 60 * dm2, in_days(30), 1);
  CHECK(shop.buys().empty());
  shop.wanted[0].of_one_batch = 2;
  CHECK(only(shop).one_batch == 2);
}

TEST_CASE("a large skin is one item, however many covers it would make") {
  Shop shop = with_skins();
  shop.holds(200 * dm2, {}, "B7");
  shop.wants("26-014", 40 * dm2, in_days(30), 2);
  CHECK(only(shop).one_batch == 2);
}

TEST_CASE("cloth of one roll makes a set, two rolls of two batches do not") {
  Shop shop;
  shop.sells(goods::mull());
  shop.holds(1'000'000, {}, "R1");
  shop.holds(500'000, {}, "R2");
  shop.wants("26-014", 1'500'000, in_days(30), 3);
  CHECK(only(shop).one_batch == 3);
  CHECK(only(shop).packs == 1);  // 5 m on one roll
  shop.shelf[0].quantity = 1'500'000;
  CHECK(shop.buys().empty());
}

TEST_CASE("a set of which one skin dies too soon is no set") {
  Shop shop = with_skins();
  shop.holds(60 * dm2, in_days(29), "B7");
  shop.holds(60 * dm2, {}, "B7");
  shop.wants("26-014", 100 * dm2, in_days(30), 2);
  CHECK(only(shop).one_batch == 2);
  CHECK(only(shop).dead == 60 * dm2);
}

TEST_CASE("by supplier, then the day to order by, then code") {
  Shop shop;
  auto const add = [&shop](std::int64_t id, char const* code, char const* supplier,
                           std::optional<std::int64_t> lead) {
    Material material = goods::paper(id);
    material.code = code;
    material.price->supplier = supplier;
    shop.sells(material).lead_days = lead;
    shop.wants("26-014", 1, in_days(20)).material = {id};
  };
  add(1, "c", "Orchard Mill", 30);
  add(2, "b", "Fennwick", 5);
  add(3, "d", "Fennwick", std::nullopt);
  add(4, "a", "Orchard Mill", 30);
  add(5, "e", "Fennwick", 40);
  std::vector<std::int64_t> order;
  for (Buy const& buy : shop.buys()) order.push_back(buy.material.value);
  CHECK(order == std::vector<std::int64_t>{5, 2, 3, 4, 1});
}

TEST_CASE("a want of nothing, or of what is not known, and a pack of nothing are broken contracts") {
  Shop shop = with_paper();
  shop.wants("26-014", 0, in_days(1));
  CHECK_THROWS_AS(shop.buys(), std::logic_error);
  shop.wanted[0].quantity = 1;
  shop.wanted[0].of_one_batch = -1;
  CHECK_THROWS_AS(shop.buys(), std::logic_error);
  shop.wanted[0].of_one_batch = 0;
  shop.wanted[0].material = {99};
  CHECK_THROWS_AS(shop.buys(), std::logic_error);
  shop.wanted[0].material = shop.materials[0].material.id;
  shop.materials[0].material.price->pack.n = 0;
  CHECK_THROWS_AS(shop.buys(), std::logic_error);
}
