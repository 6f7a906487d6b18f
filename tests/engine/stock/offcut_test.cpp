#include "engine/stock/stock.h"
#include "tests/engine/catalogue/goods.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;
using goods::mm;

namespace {

Fault fault_of(Material const& material, Length height, Length width) {
  auto const read = offcut_amount(material, height, width);
  REQUIRE_FALSE(read.has_value());
  REQUIRE(read.error().size() == 1);
  return read.error()[0];
}

std::int64_t count_of(Material const& material, Length height, Length width) {
  auto const read = offcut_amount(material, height, width);
  REQUIRE(read.has_value());
  CHECK(read->dimension == dimension_of(material.sold_by));
  return read->n;
}

}  // namespace

TEST_CASE("an offcut is worth its share of what the job paid, at the material's rate for offcuts") {
  // A skin of 0.60 m2 for 61.00, 0.15 m2 kept at half: 61.00 x 1/4 x 1/2 = 7.625
  Held const skin{LotId{1}, 600'000'000'000, 6100};
  CHECK(kept_value(skin, 150'000'000'000, Ratio(1, 2)) == 763);
  CHECK(kept_value(skin, 150'000'000'000, Ratio(1)) == 1525);
  CHECK(kept_value(skin, 150'000'000'000, Ratio(0)) == 0);
  CHECK(kept_value(skin, skin.quantity, Ratio(1)) == 6100);
  // Rounded once: 1 x 1/2 x 3/4 is 0.375 and not 3/4 of a half that was rounded up.
  CHECK(kept_value({LotId{1}, 2, 1}, 1, Ratio(3, 4)) == 0);
  CHECK(kept_value({LotId{1}, 999'999'999'999'999, 1'000'000'000}, 333'333'333'333'333,
                   Ratio(1, 999'999'999)) == 0);
  CHECK(kept_value({LotId{1}, 999'999'999'999'999, 1'000'000'000}, 333'333'333'333'333,
                   Ratio(999'999'999, 1'000'000'000)) == 333'333'333);
}

TEST_CASE("an offcut of what the job does not hold, or above its cost, is a broken contract") {
  Held const skin{LotId{1}, 100, 50};
  CHECK_THROWS_AS(kept_value(skin, 0, Ratio(1, 2)), std::logic_error);
  CHECK_THROWS_AS(kept_value(skin, 101, Ratio(1, 2)), std::logic_error);
  CHECK_THROWS_AS(kept_value(skin, 10, Ratio(11, 10)), std::logic_error);
  CHECK_THROWS_AS(kept_value(skin, 10, Ratio(-1, 10)), std::logic_error);
}

TEST_CASE("of a skin its area is kept") {
  CHECK(count_of(goods::skin(), mm(300), mm(200)) == 60'000'000'000);
}

TEST_CASE("of a sheet its share in thousandths is kept, rounded down, at least one, whichever way it lies") {
  Material const paper = goods::paper();  // 500 x 700 mm
  CHECK(count_of(paper, mm(250), mm(700)) == 500);
  CHECK(count_of(paper, mm(700), mm(250)) == 500);
  CHECK(count_of(paper, mm(350), mm(250)) == 250);
  CHECK(count_of(paper, mm(100), mm(100)) == 28);  // 28.57
  CHECK(count_of(paper, mm(10), mm(10)) == 1);     // 0.29
  CHECK(count_of(paper, mm(500), mm(700)) == 1000);
}

TEST_CASE("of a roll its length at the roll's width is kept, rounded down") {
  Material mull = goods::mull();  // 1 m wide
  CHECK(count_of(mull, mm(400), mm(1000)) == 400'000);
  CHECK(count_of(mull, mm(300), mm(200)) == 60'000);
  CHECK(count_of(mull, mm(3000), mm(100)) == 300'000);
  mull.properties.width = mm(700);
  CHECK(count_of(mull, mm(100), mm(100)) == 14'285);  // 14 285.7 um
  CHECK(count_of(mull, Length{1}, Length{1}) == 1);
}

TEST_CASE("an offcut that never came from the sheet or the roll is refused") {
  Fault const sheet = fault_of(goods::paper(), mm(501), mm(600));
  CHECK(sheet.code == FaultCode::does_not_fit);
  CHECK(sheet.found == "501 x 600 mm");
  CHECK(sheet.expected.find("500 x 700 mm") != std::string::npos);
  CHECK(fault_of(goods::paper(), mm(100), mm(701)).code == FaultCode::does_not_fit);
  Fault const roll = fault_of(goods::mull(), mm(1001), mm(1002));
  CHECK(roll.code == FaultCode::does_not_fit);
  CHECK(roll.expected.find("1000 mm") != std::string::npos);
}

TEST_CASE("an offcut with a side of nothing is refused") {
  CHECK(fault_of(goods::skin(), mm(0), mm(200)).code == FaultCode::out_of_range);
  CHECK(fault_of(goods::paper(), mm(100), mm(-1)).code == FaultCode::out_of_range);
}

TEST_CASE("a figure that the material lacks is named") {
  Material paper = goods::paper();
  paper.properties.sheet.reset();
  Fault const sheet = fault_of(paper, mm(100), mm(100));
  CHECK(sheet.code == FaultCode::missing_property);
  CHECK(sheet.found == "text-rag");
  CHECK(sheet.expected == "its sheet");
  Material mull = goods::mull();
  mull.properties.width.reset();
  CHECK(fault_of(mull, mm(100), mm(100)).code == FaultCode::missing_property);
  CHECK(fault_of(mull, mm(100), mm(100)).expected == "its width");
}

TEST_CASE("thread and goods by weight, volume, piece or book of leaf leave no offcut with a size") {
  Material thread = goods::thread();
  thread.properties.width.reset();
  Fault const fault = fault_of(thread, mm(100), mm(100));
  CHECK(fault.code == FaultCode::wrong_unit);
  CHECK(fault.expected.find("linen-18-3") != std::string::npos);
  for (SoldBy const sold_by : {SoldBy::weight, SoldBy::volume, SoldBy::piece, SoldBy::leaf_book}) {
    Material material = goods::paper();
    material.sold_by = sold_by;
    CHECK(fault_of(material, mm(100), mm(100)).code == FaultCode::wrong_unit);
  }
}
