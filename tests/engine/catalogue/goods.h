// Invented goods to test with: one material of each way of selling, sound and priced.
#pragma once

#include "engine/catalogue/catalogue.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace goods {

using namespace endband;

inline Currency eur() { return read_currency("EUR").value(); }
inline Money euros(std::int64_t cents) { return {cents, eur()}; }
inline Length mm(std::int64_t millimetres) { return {millimetres * 1000}; }
inline Count whole(std::int64_t pieces) { return {pieces * 1000}; }
inline Date day() { return read_date("2026-11-25").value(); }

inline PackPrice price(Amount pack, std::int64_t cents) {
  PackPrice row;
  row.version = 1;
  row.valid_from = day();
  row.pack = pack;
  row.price = row.said = euros(cents);
  row.carriage = euros(0);
  row.supplier = "Fennwick Paper Store";
  return row;
}

inline Material material(std::int64_t id, std::string code, MaterialKind kind, SoldBy sold_by) {
  Material row;
  row.id = {id};
  row.version = 100 + id;
  row.code = std::move(code);
  row.kind = kind;
  row.sold_by = sold_by;
  row.least_spoil = {dimension_of(sold_by), 0};
  return row;
}

// 500 x 700 mm, the grain along 700; 100 sheets for 64.00.
inline Material paper(std::int64_t id = 1) {
  Material row = material(id, "text-rag", MaterialKind::paper, SoldBy::sheet);
  row.properties.caliper = Thickness{130'000};
  row.properties.grammage_mg = 95'000;
  row.properties.sheet = SheetSize{mm(500), mm(700)};
  row.price = price(amount(whole(100)), 6400);
  return row;
}

// 0.60 m2 of which 68 % are usable, 720 x 480 mm in one rectangle; 61.00 a skin.
inline Material skin(std::int64_t id = 2) {
  Material row = material(id, "goat-moss", MaterialKind::leather, SoldBy::skin);
  row.properties.caliper = Thickness{800'000};
  row.properties.density_kg_m3 = 750;
  row.properties.usable_height = mm(720);
  row.properties.usable_width = mm(480);
  row.properties.usable_share = Ratio(68, 100);
  row.price = price(amount(Area{600'000'000'000}), 6100);
  return row;
}

// 1.00 m wide; 5 m for 24.50.
inline Material mull(std::int64_t id = 3) {
  Material row = material(id, "mull-heavy", MaterialKind::linen, SoldBy::length);
  row.properties.width = mm(1000);
  row.price = price(amount(mm(5000)), 2450);
  return row;
}

// 18/3; 250 m for 13.80.
inline Material thread(std::int64_t id = 4) {
  Material row = material(id, "linen-18-3", MaterialKind::thread, SoldBy::length);
  row.properties.thread = ThreadNumber{18, 3};
  row.price = price(amount(mm(250'000)), 1380);
  return row;
}

// 140 g/m2; 1 kg for 14.50.
inline Material glue(std::int64_t id = 5) {
  Material row = material(id, "pva-bindery", MaterialKind::adhesive, SoldBy::weight);
  row.properties.spread_mg_m2 = 140'000;
  row.price = price(amount(Mass{1'000'000}), 1450);
  return row;
}

// 60 ml/m2; 250 ml for 16.40.
inline Material size(std::int64_t id = 6) {
  Material row = material(id, "size-oil", MaterialKind::gilding_size, SoldBy::volume);
  row.properties.spread_ul_m2 = 60'000;
  row.price = price(amount(Volume{250'000}), 1640);
  return row;
}

// 8 pieces for 18.40.
inline Material corner(std::int64_t id = 7) {
  Material row = material(id, "corner-brass", MaterialKind::corner, SoldBy::piece);
  row.properties.piece_mass = Mass{9'000};
  row.price = price(amount(whole(8)), 1840);
  return row;
}

// Books of 25 leaves of 80 x 80 mm (A.S. Handover, "Gold & Metal Leaf", 10 Feb 2021); 58.00.
inline Material leaf(std::int64_t id = 8) {
  Material row = material(id, "leaf-gold", MaterialKind::metal_leaf, SoldBy::leaf_book);
  row.properties.leaf_side = mm(80);
  row.properties.leaves_a_book = 25;
  row.price = price(amount(whole(25)), 5800);
  return row;
}

inline std::vector<Material> all() {
  return {paper(), skin(), mull(), thread(), glue(), size(), corner(), leaf()};
}

inline Catalogue catalogue(std::vector<Material> rows, BuyingRules buying = {}) {
  std::sort(rows.begin(), rows.end(), [](Material const& a, Material const& b) { return a.code < b.code; });
  return {day(), buying, std::move(rows)};
}

}  // namespace goods
