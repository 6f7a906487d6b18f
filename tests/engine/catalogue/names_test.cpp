#include "tests/engine/catalogue/goods.h"

#include <doctest/doctest.h>

#include <set>
#include <stdexcept>

using namespace endband;

TEST_CASE("every kind of material is found by its name and has a row of its own") {
  std::set<std::string_view> names;
  for (KindRow const& row : kind_table()) {
    CAPTURE(row.name);
    CHECK(kind_named(row.name) == row.kind);
    CHECK(&kind_row(row.kind) == &row);
    CHECK_FALSE(row.what.empty());
    CHECK_FALSE(row.sold_by.empty());
    names.insert(row.name);
  }
  CHECK(names.size() == kind_table().size());
  CHECK(kind_named("metal-leaf") == MaterialKind::metal_leaf);
  CHECK_FALSE(kind_named("metal_leaf").has_value());
  CHECK_FALSE(kind_named("").has_value());
}

TEST_CASE("ways of selling, chargings and properties have names that read back") {
  for (int i = 0; i <= static_cast<int>(SoldBy::leaf_book); ++i) {
    auto const way = static_cast<SoldBy>(i);
    CHECK(sold_by_named(sold_by_name(way)) == way);
  }
  CHECK(sold_by_named("leaf-book") == SoldBy::leaf_book);
  CHECK_FALSE(sold_by_named("leaf book").has_value());
  for (int i = 0; i <= static_cast<int>(Charging::whole); ++i) {
    auto const charging = static_cast<Charging>(i);
    CHECK(charging_named(charging_name(charging)) == charging);
  }
  CHECK(charging_named("whole-less-offcuts") == Charging::whole_less_offcuts);
  CHECK_FALSE(charging_named("by-plan").has_value());
  CHECK(property_name(Property::caliper) == "caliper");
  CHECK(property_name(Property::piece_mass) == "piece-mass");
  CHECK(property_name(Property::depth) == "depth");
}

TEST_CASE("the way of selling fixes what a material is counted in") {
  CHECK(dimension_of(SoldBy::sheet) == Dimension::count);
  CHECK(dimension_of(SoldBy::pad) == Dimension::count);
  CHECK(dimension_of(SoldBy::skin) == Dimension::area);
  CHECK(dimension_of(SoldBy::length) == Dimension::length);
  CHECK(dimension_of(SoldBy::weight) == Dimension::mass);
  CHECK(dimension_of(SoldBy::volume) == Dimension::volume);
  CHECK(dimension_of(SoldBy::piece) == Dimension::count);
  CHECK(dimension_of(SoldBy::leaf_book) == Dimension::count);
}

TEST_CASE("a material is found by its code and by its id") {
  Catalogue const catalogue = goods::catalogue(goods::all());
  for (Material const& row : catalogue.materials) {
    CHECK(catalogue.find(row.code) == &row);
    CHECK(&catalogue.at(row.id) == &row);
  }
  CHECK(catalogue.find("goat-mos") == nullptr);
  CHECK(catalogue.find("zebra") == nullptr);
  CHECK(catalogue.find("") == nullptr);
  CHECK(Catalogue{}.find("goat-moss") == nullptr);
  CHECK_THROWS_AS(static_cast<void>(catalogue.at(MaterialId{99})), std::out_of_range);
}
