#include "db/materials.h"

#include "db/connection.h"
#include "tests/db/bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

struct Made {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));

  void add(Material const& material, std::string_view from = "2026-01-01") {
    write(workshop, [&](Writing& writing) { return add_material(writing, material, day(from)).value(); });
  }
  Read<std::int64_t> price(std::string_view code, PackPrice const& price) {
    return write(workshop, [&](Writing& writing) { return add_price(writing, code, price); });
  }
  Catalogue load(std::vector<std::string> const& codes, std::string_view on) {
    return load_catalogue(workshop, codes, day(on), {}).value();
  }
};

Material skin_with_everything() {
  Material m;
  m.code = "goat-green";
  m.name = "Goat, green, 0.9 \"O'Hara\" 🐐";
  m.buyer_words = "green goatskin";
  m.kind = MaterialKind::leather;
  m.sold_by = SoldBy::skin;
  Properties& p = m.properties;
  p.caliper = Thickness{900'000};
  p.grammage_mg = 600'000;
  p.density_kg_m3 = 700;
  p.sheet = SheetSize{{640'000}, {900'000}};
  p.thread = ThreadNumber{18, 3};
  p.leaf_side = Length{80'000};
  p.leaves_a_book = 25;
  p.usable_height = Length{700'000};
  p.usable_width = Length{500'000};
  p.usable_share = Ratio(65, 100);
  p.spread_mg_m2 = 150'000;
  p.spread_ul_m2 = 80'000;
  p.solids = Ratio(1, 2);
  p.piece_mass = Mass{12'000};
  p.width = Length{10'000};
  p.height = Length{60'000};
  p.depth = Length{40'000};
  m.flags = {true, true, true};
  m.spoil = Ratio(1, 3);
  m.least_spoil = {Dimension::area, 12'345};
  m.ruin_chance = Ratio(3, 100);
  m.charging = Charging::whole_less_offcuts;
  m.kept_worth = Ratio(2, 5);
  return m;
}

void check_same(Material const& a, Material const& b) {
  CHECK(a.code == b.code);
  CHECK(a.name == b.name);
  CHECK(a.buyer_words == b.buyer_words);
  CHECK(a.kind == b.kind);
  CHECK(a.sold_by == b.sold_by);
  Properties const &p = a.properties, &q = b.properties;
  CHECK(p.caliper == q.caliper);
  CHECK(p.grammage_mg == q.grammage_mg);
  CHECK(p.density_kg_m3 == q.density_kg_m3);
  CHECK(p.sheet == q.sheet);
  CHECK(p.thread == q.thread);
  CHECK(p.leaf_side == q.leaf_side);
  CHECK(p.leaves_a_book == q.leaves_a_book);
  CHECK(p.usable_height == q.usable_height);
  CHECK(p.usable_width == q.usable_width);
  CHECK(p.usable_share == q.usable_share);
  CHECK(p.spread_mg_m2 == q.spread_mg_m2);
  CHECK(p.spread_ul_m2 == q.spread_ul_m2);
  CHECK(p.solids == q.solids);
  CHECK(p.piece_mass == q.piece_mass);
  CHECK(p.width == q.width);
  CHECK(p.height == q.height);
  CHECK(p.depth == q.depth);
  CHECK(a.flags.restricted == b.flags.restricted);
  CHECK(a.flags.not_for_copper_alloys == b.flags.not_for_copper_alloys);
  CHECK(a.flags.tarnishes == b.flags.tarnishes);
  CHECK(a.spoil == b.spoil);
  CHECK(a.least_spoil == b.least_spoil);
  CHECK(a.ruin_chance == b.ruin_chance);
  CHECK(a.charging == b.charging);
  CHECK(a.kept_worth == b.kept_worth);
}

}  // namespace

TEST_CASE("a material comes back field for field, with all properties and with none but its own") {
  Made bench;
  bench.add(skin_with_everything());
  bench.add(paper("laid-120"));
  check_same(find_material(bench.workshop, "goat-green", day("2026-05-01")).value(), skin_with_everything());
  check_same(find_material(bench.workshop, "laid-120", day("2026-05-01")).value(), paper("laid-120"));
}

TEST_CASE("a price comes back field for field") {
  Made bench;
  bench.add(paper("laid-120"));
  PackPrice price = pack_of_sheets(50, 4212, "2026-02-01");
  price.said = {3600, read_currency("GBP").value()};
  price.rate = Ratio(117, 100);
  price.carriage = eur(350);
  price.duty = Ratio(3, 1000);
  std::int64_t const version = bench.price("laid-120", price).value();
  PackPrice const back = bench.load({"laid-120"}, "2026-02-01").materials.at(0).price.value();
  CHECK(back.version == version);
  CHECK(back.valid_from == price.valid_from);
  CHECK(back.pack == price.pack);
  CHECK(back.price == price.price);
  CHECK(back.said == price.said);
  CHECK(back.rate == price.rate);
  CHECK(back.carriage == price.carriage);
  CHECK(back.duty == price.duty);
  CHECK(back.purchase_tax == price.purchase_tax);
  CHECK(back.supplier == price.supplier);
}

TEST_CASE("properties and price are those in force on the day") {
  Made bench;
  bench.add(paper("laid-120"), "2026-02-01");
  Material heavier = paper("laid-120");
  heavier.properties.grammage_mg = 130'000;
  write(bench.workshop, [&](Writing& w) { return change_material(w, heavier, day("2026-06-01")).value(); });
  REQUIRE(bench.price("laid-120", pack_of_sheets(50, 4200, "2026-03-01")));
  REQUIRE(bench.price("laid-120", pack_of_sheets(50, 4900, "2026-07-01")));
  REQUIRE(bench.price("laid-120", pack_of_sheets(50, 4800, "2026-07-01")));  // the later entry of one day

  std::vector<std::string> const codes{"laid-120"};
  CHECK_FALSE(load_catalogue(bench.workshop, codes, day("2026-01-31"), {}).has_value());
  CHECK_FALSE(bench.load(codes, "2026-02-28").materials[0].price.has_value());
  CHECK(bench.load(codes, "2026-05-31").materials[0].properties.grammage_mg == 120'000);
  CHECK(bench.load(codes, "2026-06-01").materials[0].properties.grammage_mg == 130'000);
  CHECK(bench.load(codes, "2026-06-30").materials[0].price->price == eur(4200));
  CHECK(bench.load(codes, "2026-07-01").materials[0].price->price == eur(4800));
  CHECK(price_history(bench.workshop, "laid-120").size() == 3);
  CHECK(price_history(bench.workshop, "laid-120").front().price == eur(4200));
}

TEST_CASE("a catalogue has the rows that are named, once each and by code") {
  Made bench;
  for (std::string const code : {"b", "a", "c"}) bench.add(paper(code));
  Catalogue const catalogue =
      load_catalogue(bench.workshop, std::vector<std::string>{"c", "a", "c"}, day("2026-05-01"), {Ratio(1)})
          .value();
  REQUIRE(catalogue.materials.size() == 2);
  CHECK(catalogue.find("a") == &catalogue.materials[0]);
  CHECK(catalogue.find("b") == nullptr);
  CHECK(catalogue.on == day("2026-05-01"));
  CHECK(catalogue.buying.tax_recovered == Ratio(1));
}

TEST_CASE("all unknown materials are told at once, with what may have been meant") {
  Made bench;
  for (std::string const code : {"goat-black", "laid-120"}) bench.add(paper(code));
  auto const loaded = load_catalogue(
      bench.workshop, std::vector<std::string>{"goat-blak", "laid-120", "lead-120"}, day("2026-05-01"), {});
  REQUIRE_FALSE(loaded.has_value());
  REQUIRE(loaded.error().size() == 2);
  CHECK(loaded.error()[0].code == FaultCode::unknown_material);
  CHECK(loaded.error()[0].found == "goat-blak");
  CHECK(loaded.error()[0].near == std::vector<std::string>{"goat-black"});
  CHECK(loaded.error()[1].near == std::vector<std::string>{"laid-120"});
}

TEST_CASE(
    "on a day before it was known a material is missed with the day from which it is, and still found by its "
    "id") {
  Made bench;
  bench.add(paper("laid-120"), "2026-03-02");
  auto const early = find_material(bench.workshop, "laid-120", day("2026-03-01"));
  REQUIRE_FALSE(early);
  CHECK(early.error().front().near.empty());
  CHECK(early.error().front().expected == "a day from 2026-03-02 on, when it is first known");
  CHECK(known_from(bench.workshop, "laid-120") == day("2026-03-02"));
  CHECK_FALSE(known_from(bench.workshop, "laid-121"));
  MaterialId const id = find_material(bench.workshop, "laid-120", day("2026-03-02")).value().id;
  for (char const* on : {"2026-01-01", "2026-03-02", "2026-09-01"})
    CHECK(known_material(bench.workshop, id, day(on)).code == "laid-120");
}

TEST_CASE("what cannot be is refused, and nothing is kept") {
  Made bench;
  bench.add(paper("laid-120"));
  Writing writing(bench.workshop, info());
  CHECK(add_material(writing, paper("laid-120"), day("2026-01-01")).error().front().code ==
        FaultCode::already_exists);
  CHECK(add_material(writing, paper("Laid 120"), day("2026-01-01")).error().front().code ==
        FaultCode::bad_value);
  Material thin = paper("thin");
  thin.properties.caliper.reset();
  thin.spoil = Ratio(1);
  CHECK(add_material(writing, thin, day("2026-01-01")).error().size() == 2);
  CHECK(change_material(writing, paper("laid-121"), day("2026-01-01")).error().front().near ==
        std::vector<std::string>{"laid-120"});
  Material by_weight = paper("laid-120");
  by_weight.kind = MaterialKind::sundry;
  by_weight.sold_by = SoldBy::weight;
  by_weight.least_spoil = {};
  CHECK(change_material(writing, by_weight, day("2026-01-01")).error().back().code ==
        FaultCode::rule_refused);
  CHECK(add_price(writing, "laid-121", pack_of_sheets(50, 4200, "2026-01-01")).error().front().code ==
        FaultCode::unknown_material);
  PackPrice wrong = pack_of_sheets(50, 4200, "2026-01-01");
  wrong.pack = {Dimension::mass, 1000};
  CHECK(add_price(writing, "laid-120", wrong).error().front().code == FaultCode::wrong_unit);
  wrong = pack_of_sheets(50, 4200, "2026-01-01");
  wrong.price = wrong.said = {4200, read_currency("GBP").value()};
  CHECK(add_price(writing, "laid-120", wrong).error().front().code == FaultCode::currency_mismatch);
  wrong = pack_of_sheets(50, 4200, "2026-01-01");
  wrong.said = eur(4100);
  CHECK(add_price(writing, "laid-120", wrong).error().front().code == FaultCode::contradiction);
  CHECK(list_materials(bench.workshop, day("2026-05-01"), std::nullopt).size() == 1);
}

TEST_CASE("a list can be of one kind") {
  Made bench;
  bench.add(paper("laid-120"));
  bench.add(skin_with_everything());
  CHECK(list_materials(bench.workshop, day("2026-05-01"), std::nullopt).size() == 2);
  auto const leathers = list_materials(bench.workshop, day("2026-05-01"), MaterialKind::leather);
  REQUIRE(leathers.size() == 1);
  CHECK(leathers[0].code == "goat-green");
  CHECK(material_codes(bench.workshop) == std::vector<std::string>{"goat-green", "laid-120"});
}

TEST_CASE("versions and entries are never changed or deleted, not even by a replacing insert") {
  Made bench;
  bench.add(paper("laid-120"));
  REQUIRE(bench.price("laid-120", pack_of_sheets(50, 4200, "2026-03-01")));
  SQLite::Database& database = bench.workshop.connection().database;
  for (std::string const table :
       {"entry", "material", "material_version", "price_version", "setting_version"}) {
    CAPTURE(table);
    std::string const any = table == "entry" ? "command = ''" : "entry = 1";
    CHECK_THROWS_WITH(database.exec("UPDATE " + table + " SET " + any), (table + " is written once").c_str());
    CHECK_THROWS_WITH(database.exec("DELETE FROM " + table), (table + " is written once").c_str());
    CHECK_THROWS_WITH(database.exec("REPLACE INTO " + table + " SELECT * FROM " + table),
                      (table + " is written once").c_str());
  }
}
