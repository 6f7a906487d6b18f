#include "tests/engine/catalogue/goods.h"

#include <doctest/doctest.h>

#include <functional>
#include <map>

using namespace endband;

namespace {

Where const here{"material add", 0, 0, ""};

// field -> code of every fault; two of one field would show as a smaller map.
std::map<std::string, FaultCode> faults_of(Material const& row) {
  std::vector<Fault> const faults = check_material(row, here);
  std::map<std::string, FaultCode> found;
  for (Fault const& fault : faults) {
    CHECK(fault.where.source == "material add");
    CHECK_FALSE(fault.expected.empty());
    found.emplace(fault.where.field, fault.code);
  }
  CHECK(found.size() == faults.size());
  return found;
}

using Found = std::map<std::string, FaultCode>;
Found changed(Material row, std::function<void(Material&)> const& change) {
  change(row);
  return faults_of(row);
}
Found one(std::string const& field, FaultCode code) { return {{field, code}}; }

}  // namespace

TEST_CASE("sound goods of each way of selling have no fault") {
  for (Material const& row : goods::all()) {
    CAPTURE(row.code);
    CHECK(faults_of(row).empty());
  }
}

TEST_CASE("a material without a price is checked as well, and needs none") {
  CHECK(changed(goods::paper(), [](Material& row) { row.price.reset(); }).empty());
}

TEST_CASE("each kind refuses to be sold in a way that it is not, and names the ways that it is") {
  for (KindRow const& kind : kind_table())
    for (int i = 0; i <= static_cast<int>(SoldBy::leaf_book); ++i) {
      Material const row = goods::material(1, "any", kind.kind, static_cast<SoldBy>(i));
      bool const may = std::find(kind.sold_by.begin(), kind.sold_by.end(), row.sold_by) != kind.sold_by.end();
      CAPTURE(kind.name);
      CAPTURE(sold_by_name(row.sold_by));
      std::vector<Fault> const faults = check_material(row, here);
      auto const refusal = std::find_if(faults.begin(), faults.end(), [](Fault const& fault) {
        return fault.code == FaultCode::contradiction && fault.where.field == "sold-by";
      });
      CHECK((refusal == faults.end()) == may);
      if (refusal == faults.end()) continue;
      CHECK(refusal->found == sold_by_name(row.sold_by));
      CHECK(refusal->expected.find(sold_by_name(kind.sold_by.front())) != std::string::npos);
    }
}

TEST_CASE("a property that the kind or the way of selling needs is missed by name") {
  CHECK(changed(goods::paper(), [](Material& row) { row.properties.caliper.reset(); }) ==
        one("caliper", FaultCode::missing_property));
  CHECK(changed(goods::paper(), [](Material& row) { row.properties.sheet.reset(); }) ==
        one("sheet", FaultCode::missing_property));
  CHECK(changed(goods::skin(), [](Material& row) { row.properties.usable_width.reset(); }) ==
        one("usable", FaultCode::missing_property));
  CHECK(changed(goods::skin(), [](Material& row) { row.properties.usable_share.reset(); }) ==
        one("usable-share", FaultCode::missing_property));
  CHECK(changed(goods::mull(), [](Material& row) { row.properties.width.reset(); }) ==
        one("width", FaultCode::missing_property));
  CHECK(changed(goods::thread(), [](Material& row) { row.properties.thread.reset(); }) ==
        one("thread", FaultCode::missing_property));
  CHECK(changed(goods::corner(), [](Material& row) { row.properties.piece_mass.reset(); }) ==
        one("piece-mass", FaultCode::missing_property));
  CHECK(changed(goods::leaf(), [](Material& row) { row.properties.leaf_side.reset(); }) ==
        one("leaf-side", FaultCode::missing_property));
  CHECK(changed(goods::leaf(), [](Material& row) { row.properties.leaves_a_book.reset(); }) ==
        one("leaves-a-book", FaultCode::missing_property));
}

TEST_CASE("a spread is needed by the measure that the adhesive is sold by") {
  auto const swap_spread = [](Material& row) {
    std::swap(row.properties.spread_mg_m2, row.properties.spread_ul_m2);
  };
  CHECK(changed(goods::glue(), swap_spread) == one("spread", FaultCode::missing_property));
  CHECK(changed(goods::size(), swap_spread) == one("spread", FaultCode::missing_property));
}

TEST_CASE("a figure that follows from two others is not missed") {
  auto const by_density = [](Material& row) {
    row.properties.grammage_mg.reset();
    row.properties.density_kg_m3 = 730;
  };
  CHECK(changed(goods::paper(), by_density).empty());
  auto const by_caliper = [](Material& row) {
    row.properties.thread.reset();
    row.properties.caliper = Thickness{620'000};
  };
  CHECK(changed(goods::thread(), by_caliper).empty());
  auto const by_weight = [&](Material& row) {
    by_caliper(row);
    row.sold_by = SoldBy::weight;
    row.least_spoil = amount(Mass{0});
    row.price.reset();
  };
  CHECK(changed(goods::thread(), by_weight) == one("thread", FaultCode::missing_property));
}

TEST_CASE("shares have their ranges") {
  for (Ratio const share : {Ratio(-1, 100), Ratio(91, 100), Ratio(1), Ratio(3)}) {
    CHECK(changed(goods::glue(), [&](Material& row) { row.spoil = share; }) ==
          one("spoil", FaultCode::out_of_range));
    CHECK(changed(goods::glue(), [&](Material& row) { row.ruin_chance = share; }) ==
          one("ruin", FaultCode::out_of_range));
  }
  CHECK(changed(goods::glue(), [](Material& row) { row.spoil = row.ruin_chance = Ratio(9, 10); }).empty());
  CHECK(changed(goods::paper(), [](Material& row) { row.kept_worth = Ratio(101, 100); }) ==
        one("kept-worth", FaultCode::out_of_range));
  CHECK(changed(goods::paper(), [](Material& row) { row.kept_worth = Ratio(1); }).empty());
  for (Ratio const share : {Ratio(0), Ratio(101, 100)})
    CHECK(changed(goods::skin(), [&](Material& row) {
            row.properties.usable_share = share;
          }).count("usable-share") == 1);
}

TEST_CASE("absurd properties are out of range") {
  auto const paper = [](auto change) { return changed(goods::paper(), change); };
  CHECK(paper([](Material& row) { row.properties.caliper = Thickness{0}; }) ==
        one("caliper", FaultCode::out_of_range));
  CHECK(paper([](Material& row) { row.properties.caliper = Thickness{100'000'001}; }) ==
        one("caliper", FaultCode::out_of_range));
  CHECK(paper([](Material& row) { row.properties.grammage_mg = 0; }) ==
        one("grammage", FaultCode::out_of_range));
  CHECK(paper([](Material& row) { row.properties.grammage_mg = -95'000; }) ==
        one("grammage", FaultCode::out_of_range));
  CHECK(paper([](Material& row) { row.properties.density_kg_m3 = 30'000; }) ==
        one("density", FaultCode::out_of_range));
  CHECK(paper([](Material& row) { row.properties.sheet->first = {0}; }) ==
        one("sheet", FaultCode::out_of_range));
  CHECK(paper([](Material& row) { row.properties.sheet->second = goods::mm(10'001); }) ==
        one("sheet", FaultCode::out_of_range));
  CHECK(changed(goods::thread(), [](Material& row) { row.properties.thread->ply = 0; }) ==
        one("thread", FaultCode::out_of_range));
  CHECK(changed(goods::glue(), [](Material& row) { row.properties.spread_mg_m2 = 0; }) ==
        one("spread", FaultCode::out_of_range));
  CHECK(changed(goods::glue(), [](Material& row) { row.properties.solids = Ratio(0); }) ==
        one("solids", FaultCode::out_of_range));
  CHECK(changed(goods::corner(), [](Material& row) { row.properties.piece_mass = Mass{0}; }) ==
        one("piece-mass", FaultCode::out_of_range));
}

TEST_CASE("a pack is of the material's own dimension and holds something") {
  CHECK(changed(goods::glue(), [](Material& row) { row.price->pack = amount(Volume{250'000}); }) ==
        one("pack", FaultCode::wrong_unit));
  CHECK(changed(goods::glue(), [](Material& row) { row.price->pack.n = 0; }) ==
        one("pack", FaultCode::out_of_range));
  CHECK(changed(goods::glue(), [](Material& row) { row.least_spoil = amount(goods::whole(2)); }) ==
        one("least-spoil", FaultCode::wrong_unit));
  CHECK(changed(goods::glue(), [](Material& row) { row.least_spoil.n = -1; }) ==
        one("least-spoil", FaultCode::out_of_range));
}

TEST_CASE("leaf comes in whole books") {
  CHECK(changed(goods::leaf(), [](Material& row) { row.price->pack = amount(goods::whole(500)); }).empty());
  CHECK(changed(goods::leaf(), [](Material& row) { row.price->pack = amount(goods::whole(30)); }) ==
        one("pack", FaultCode::contradiction));
}

// 0.60 m2 x 68 % = 0.408 m2, less than 720 x 600 mm.
TEST_CASE("the rectangle to count on lies within the usable share of the skin") {
  CHECK(changed(goods::skin(), [](Material& row) { row.properties.usable_width = goods::mm(566); }).empty());
  CHECK(changed(goods::skin(), [](Material& row) { row.properties.usable_width = goods::mm(567); }) ==
        one("usable", FaultCode::contradiction));
}

TEST_CASE("money of a price is of one currency and not negative") {
  CHECK(changed(goods::glue(), [](Material& row) { row.price->price.minor = -1; }) ==
        one("price", FaultCode::out_of_range));
  CHECK(changed(goods::glue(), [](Material& row) {
          row.price->carriage = {0, read_currency("GBP").value()};
        }) == one("carriage", FaultCode::currency_mismatch));
  CHECK(changed(goods::glue(), [](Material& row) { row.price->duty = Ratio(-1, 100); }) ==
        one("duty", FaultCode::out_of_range));
  CHECK(changed(goods::glue(), [](Material& row) { row.price->purchase_tax = Ratio(11, 10); }) ==
        one("tax", FaultCode::out_of_range));
  CHECK(changed(goods::glue(), [](Material& row) { row.price->rate = Ratio(0); }) ==
        one("rate", FaultCode::out_of_range));
}

TEST_CASE("only sheets and skins leave offcuts that are kept") {
  auto const less_offcuts = [](Material& row) { row.charging = Charging::whole_less_offcuts; };
  CHECK(changed(goods::paper(), less_offcuts).empty());
  CHECK(changed(goods::skin(), less_offcuts).empty());
  CHECK(changed(goods::thread(), less_offcuts) == one("charging", FaultCode::contradiction));
  CHECK(changed(goods::glue(), less_offcuts) == one("charging", FaultCode::contradiction));
}

TEST_CASE("all faults of a material are told at once") {
  Material row = goods::material(1, "wrong", MaterialKind::ribbon, SoldBy::skin);
  row.spoil = Ratio(2);
  row.properties.caliper = Thickness{-1};
  row.price = goods::price(amount(goods::mm(25'000)), -100);
  CHECK(faults_of(row) == Found{{"sold-by", FaultCode::contradiction},
                                {"width", FaultCode::missing_property},
                                {"usable", FaultCode::missing_property},
                                {"usable-share", FaultCode::missing_property},
                                {"caliper", FaultCode::out_of_range},
                                {"spoil", FaultCode::out_of_range},
                                {"pack", FaultCode::wrong_unit},
                                {"price", FaultCode::out_of_range}});
}
