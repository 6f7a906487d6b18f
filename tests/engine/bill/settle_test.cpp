// Bills worked by hand.
#include "tests/engine/bill/uses.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;
using goods::euros;
using uses::cut;
using uses::piece;
using uses::settled;

namespace {

Material sheets(Charging charging) {
  Material row = goods::paper();
  row.spoil = Ratio(4, 100);
  row.least_spoil = amount(goods::whole(2));
  row.charging = charging;
  return row;
}

BillLine text_paper(Material const& row, std::int64_t count) {
  return settled(row, {cut(Item::text_sheets, Part::text_block, row, {piece(count, 700, 500)})});
}

Material skins(Charging charging) {
  Material row = goods::skin();
  row.spoil = Ratio(3, 100);
  row.charging = charging;
  return row;
}

BillLine cover(Material const& row) {
  return settled(row, {cut(Item::cover_leather, Part::cover, row, {piece(1, 267, 389)})});
}

}  // namespace

// 75 folded sheets, each a bought one; 75 / 0.96 = 78.125. 78.125 of 100 sheets for 64.00 are 50.00.
TEST_CASE("text paper that is bought in the size it is folded in loses nothing but its spoil") {
  BillLine const line = text_paper(sheets(Charging::as_used), 75);
  CHECK(line.how == HowFound::by_yield);
  CHECK(line.net.n == 75'000);
  CHECK(line.cutting_loss.n == 0);
  CHECK(line.spoil.n == 3'125);
  CHECK(line.consumed() == amount(Count{78'125}));
  CHECK(line.opened.n == 79'000);
  CHECK(line.kept.n == 875);
  CHECK(line.pack_remainder.n == 0);
  CHECK(line.charged.n == 78'125);
  CHECK(line.units_opened == 79);
  CHECK(material_cost(line) == euros(5000));
  CHECK(outlay(line) == euros(5000));
}

TEST_CASE("a small job spoils at least the least") {
  BillLine const line = text_paper(sheets(Charging::as_used), 20);
  CHECK(line.spoil.n == 2'000);  // 20 / 0.96 - 20 = 0.834
  CHECK(line.charged.n == 22'000);
}

TEST_CASE("sheets bought for the job are charged in whole packs") {
  BillLine const line = text_paper(sheets(Charging::whole), 75);
  CHECK(line.opened.n == 100'000);
  CHECK(line.kept.n == 875);
  CHECK(line.pack_remainder.n == 21'000);
  CHECK(line.charged.n == 100'000);
  CHECK(line.units_opened == 100);
  CHECK(material_cost(line) == euros(6400));
  CHECK(outlay(line) == euros(6400));
}

// 79 - 0.5 x 0.875, what is kept rounded down to 0.437.
TEST_CASE("whole sheets less their offcuts give back the worth of what is kept, and no more") {
  BillLine const line = text_paper(sheets(Charging::whole_less_offcuts), 75);
  CHECK(line.charged.n == 78'563);
  CHECK(material_cost(line) == euros(5028));
  CHECK(outlay(line) == euros(5056));
}

// 328 x 230 comes four times from 500 x 700: five take 1.25 sheets, of which they fill 5 x 75,440 / 350,000
// = 1.0777.
TEST_CASE("what a yield leaves over of a sheet is cutting loss") {
  Material const row = goods::paper();
  BillLine const line = settled(row, {cut(Item::text_sheets, Part::text_block, row, {piece(5, 328, 230)})});
  CHECK(line.net.n == 1'078);
  CHECK(line.cutting_loss.n == 172);
  CHECK(line.consumed().n == 1'250);
  CHECK(line.units_opened == 2);
  CHECK(line.kept.n == 750);
}

// 0.103863 m2 / 0.68 / 0.97 of a skin of 0.60 m2 for 61.00.
TEST_CASE("leather by area is charged by its usable share and its spoil") {
  BillLine const line = cover(skins(Charging::as_used));
  CHECK(line.how == HowFound::by_usable_rectangle);
  CHECK(line.net.n == 103'863'000'000);
  CHECK(line.cutting_loss.n == 48'876'705'883);
  CHECK(line.spoil.n == 4'723'908'430);
  CHECK(line.charged.n == 157'463'614'313);
  CHECK(line.opened.n == 600'000'000'000);
  CHECK(line.kept.n == 442'536'385'687);
  CHECK(line.units_opened == 1);
  CHECK(material_cost(line) == euros(1601));
}

TEST_CASE("a skin less its offcuts is charged for the rest that keeps no worth") {
  Material row = skins(Charging::whole_less_offcuts);
  BillLine const half = cover(row);
  CHECK(half.charged.n == 378'731'807'157);
  CHECK(material_cost(half) == euros(3850));
  CHECK(outlay(half) == euros(6100));
  row.kept_worth = Ratio(1);
  CHECK(cover(row).charged == cover(row).consumed());
  row.kept_worth = Ratio(3, 2);  // never written up
  CHECK(cover(row).charged == cover(row).consumed());
  row.kept_worth = Ratio(0);
  CHECK(cover(row).charged == cover(row).opened);
}

TEST_CASE("a second skin is opened when the rectangle of one does not hold the pieces") {
  Material const row = goods::skin();
  BillLine const line = settled(row, {cut(Item::cover_leather, Part::cover, row, {piece(2, 400, 300)})});
  CHECK(line.units_opened == 2);
  CHECK(line.opened.n == 1'200'000'000'000);
}

TEST_CASE("a second skin is opened when the area is used up, though the rectangle would do") {
  Material row = goods::skin();
  row.properties.usable_share = Ratio(58, 100);  // 0.348 m2 usable, 720 x 480 = 0.3456
  row.spoil = Ratio(5, 100);
  BillLine const line = settled(row, {cut(Item::cover_leather, Part::cover, row, {piece(1, 720, 480)})});
  CHECK(line.units_opened == 2);
}

// E&R "footage" dt1409: a skin does not give nearly its charged area in cut pieces; a binder's practice is a
// usable share of 0.50 to 0.75 (Y. Miklaf, BOOK_ARTS-L, Jan 2001). A blank of 266.8 x 389.1 mm is 1.117 sq ft
// net.
TEST_CASE("the area that is charged exceeds the area of the blank by the usable share") {
  Material row = goods::skin();
  Piece blank = piece(1, 1, 1);
  blank.height = Length{266'800};
  blank.width = Length{389'100};
  auto const charged_sq_ft = [&](Ratio share) {
    row.properties.usable_share = share;
    BillLine const line = settled(row, {cut(Item::cover_leather, Part::cover, row, {blank})});
    CHECK(static_cast<double>(line.net.n) / 92'903'040'000 == doctest::Approx(1.117).epsilon(0.001));
    return static_cast<double>(line.charged.n) / 92'903'040'000;
  };
  CHECK(charged_sq_ft(Ratio(1, 2)) == doctest::Approx(2.235).epsilon(0.001));
  CHECK(charged_sq_ft(Ratio(3, 4)) == doctest::Approx(1.490).epsilon(0.001));
}

// Five panels of 36 x 55 mm lie in one row across 1.00 m; they cover 9.9 mm of it.
TEST_CASE("linen off a roll is charged by whole rows") {
  Material const row = goods::mull();
  BillLine const line = settled(row, {cut(Item::panel_linings, Part::spine, row, {piece(5, 36, 55)})});
  CHECK(line.how == HowFound::by_yield);
  CHECK(line.net == amount(Length{9'900}));
  CHECK(line.cutting_loss == amount(Length{26'100}));
  CHECK(line.charged == amount(goods::mm(36)));
  CHECK(line.opened == amount(goods::mm(5'000)));
  CHECK(line.kept.n == 0);
  CHECK(line.units_opened == 1);
  CHECK(material_cost(line) == euros(18));  // 36 / 5000 x 24.50 = 0.1764
}

// L 9.14 m, 9 needlefuls, 10.31 m taken; 2 % spoiled.
TEST_CASE("what needlefuls waste of a thread is cutting loss") {
  Material row = goods::thread();
  row.spoil = Ratio(2, 100);
  BillLine const line = settled(
      row, {uses::of(Item::sewing_thread, Part::sewing, row, 9'140'000, 10'310'000, HowFound::by_length)});
  CHECK(line.how == HowFound::by_length);
  CHECK(line.cutting_loss == amount(goods::mm(1'170)));
  CHECK(line.spoil == amount(Length{210'409}));  // 10.31 / 0.98 = 10.520408...
  CHECK(line.opened == amount(goods::mm(250'000)));
  CHECK(line.pack_remainder.n == 250'000'000 - 10'520'409);
  CHECK(line.units_opened == 1);
}

TEST_CASE("what is sold in packs is charged whole when it is bought for the job") {
  Material row = goods::corner();
  CHECK(settled(row, {uses::of(row, 4'000)}).charged.n == 4'000);
  row.charging = Charging::whole;
  BillLine const line = settled(row, {uses::of(row, 9'000)});
  CHECK(line.charged.n == 16'000);
  CHECK(line.units_opened == 2);
  CHECK(line.pack_remainder.n == 7'000);
  CHECK(material_cost(line) == euros(3680));
}

// Gold and Metallic Leaf Specification Sheet (fauxfinishoci.tripod.com): 500 leaves of 3 3/8 in cover 30 sq
// ft net of 39.55, that is 24.1 % lost; 30 sq ft are 379.26 leaves.
TEST_CASE("a pack of leaf covers its published net area at its published loss") {
  Material row = goods::leaf();
  row.spoil = Ratio(163, 675);
  BillLine const line = settled(row, {uses::of(row, 379'259)});
  CHECK(static_cast<double>(line.consumed().n) / 1000 == doctest::Approx(500).epsilon(0.00001));
  CHECK(line.units_opened == 20);
}

TEST_CASE("the uses of a line sum to its net, though each is rounded") {
  Material const row = goods::paper();
  // Each a third of the sheet: 333 and a third thousandths.
  Piece third = piece(1, 700, 1);
  third.width = Length{166'666};
  BillLine const line = settled(row, {cut(Item::text_sheets, Part::text_block, row, {third}),
                                      cut(Item::endpaper_sheets, Part::endpapers, row, {third}),
                                      cut(Item::panel_papers, Part::spine, row, {third})});
  REQUIRE(line.uses.size() == 3);
  CHECK(line.uses[0].net.n == 334);
  CHECK(line.uses[1].net.n == 333);
  CHECK(line.uses[2].net.n == 333);
  CHECK(line.net.n == 1'000);
  CHECK(line.consumed().n == 1'000);
  CHECK(line.units_opened == 1);
}

TEST_CASE("what is cut and what is merely said of one material stand on one line") {
  Material const row = goods::paper();
  BillLine const line = settled(
      row, {cut(Item::text_sheets, Part::text_block, row, {piece(3, 700, 500)}), uses::of(row, 1'500)});
  CHECK(line.how == HowFound::by_yield);
  CHECK(line.net.n == 4'500);
  CHECK(line.opened.n == 5'000);
  CHECK(settled(row, {uses::of(row, 1'500)}).how == HowFound::as_said);
}

TEST_CASE("leather that is said is taken as said, without the usable share") {
  Material const row = goods::skin();
  BillLine const line = settled(row, {uses::of(row, 100'000'000'000)});
  CHECK(line.net == line.consumed());
  CHECK(line.units_opened == 1);
}

TEST_CASE("nothing of a material spoils nothing of it") {
  Material row = sheets(Charging::as_used);
  BillLine const line = settled(row, {uses::of(row, 0)});
  CHECK(line.spoil.n == 0);
  CHECK(line.opened.n == 0);
  CHECK(line.units_opened == 0);
}

TEST_CASE("the unit cost is that of a registered or an unregistered workshop") {
  Material row = goods::corner();
  row.price->purchase_tax = Ratio(19, 100);
  std::vector<Need> const needs{uses::of(row, 8'000)};
  CHECK(material_cost(settled(row, needs, BuyingRules{Ratio(0)})) == euros(2190));  // 18.40 x 1.19 = 21.896
  CHECK(material_cost(settled(row, needs, BuyingRules{Ratio(1)})) == euros(1840));
}

TEST_CASE("what the customer brings is counted and opened but costs nothing, with a price or without") {
  Material const own = skins(Charging::whole_less_offcuts);
  Material theirs = own;
  theirs.price.reset();
  Need need = cut(Item::cover_leather, Part::cover, own, {piece(1, 267, 389)});
  need.customer_supplied = true;
  BillLine const priced = settled(own, {need});
  CHECK(priced.customer_supplied);
  CHECK(priced.charged == cover(own).charged);
  CHECK(material_cost(priced) == euros(0));
  CHECK(outlay(priced) == euros(0));
  Read<Bill> const bill = settle({{need}}, {}, goods::catalogue({theirs, goods::paper()}));
  REQUIRE(bill.has_value());
  BillLine const& line = bill->lines.front();
  CHECK(line.units_opened == 1);
  CHECK(line.opened.n == 508'235'294'118);  // 720 x 480 mm / 0.68, rounded up
  CHECK(material_cost(line) == euros(0));
}

TEST_CASE("goods of the customer's without a price are opened as they are used") {
  Material theirs = goods::corner();
  theirs.price.reset();
  Need need = uses::of(theirs, 4'000);
  need.customer_supplied = true;
  BillLine const line = settled(theirs, {need});
  CHECK(line.opened.n == 4'000);
  CHECK(line.pack_remainder.n == 0);
  CHECK(line.units_opened == 0);
}

TEST_CASE("a line carries the versions and the rules that it was made by") {
  Material row = goods::skin();
  row.ruin_chance = Ratio(3, 100);
  row.price->version = 77;
  BillLine const line = cover(row);
  CHECK(line.material == row.id);
  CHECK(line.material_version == row.version);
  CHECK(line.price_version == 77);
  CHECK(line.ruin_chance == Ratio(3, 100));
  CHECK(line.kept_worth == Ratio(1, 2));
  CHECK(line.unit.minor == 6100);
}

TEST_CASE("needs in another dimension than their material, or a spoil of all, break the contract") {
  Material row = goods::glue();
  Need wrong = uses::of(row, 1'000);
  wrong.net = wrong.taken = amount(goods::whole(1));
  CHECK_THROWS_AS(static_cast<void>(settle({{wrong}}, {}, goods::catalogue({row}))), std::logic_error);
  row.spoil = Ratio(1);
  CHECK_THROWS_AS(static_cast<void>(settle({{uses::of(row, 1'000)}}, {}, goods::catalogue({row}))),
                  std::logic_error);
  row.spoil = Ratio(0);
  row.least_spoil = amount(goods::whole(1));
  CHECK_THROWS_AS(static_cast<void>(settle({{uses::of(row, 1'000)}}, {}, goods::catalogue({row}))),
                  std::logic_error);
}
