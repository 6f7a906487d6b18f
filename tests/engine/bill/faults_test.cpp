// What cannot be billed is told all at once, at the place that named the material.
#include "tests/engine/bill/uses.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband;
using uses::cut;
using uses::piece;

namespace {

void choose(BookSpec& spec, Role role, Material const& material, int line) {
  spec.materials[static_cast<std::size_t>(role)] = {
      material.id, Origin::said, {"book.toml", line, 1, std::string(role_row(role).key)}};
}

std::vector<Fault> faults_of(std::vector<Need> needs, BookSpec const& spec, std::vector<Material> rows) {
  Read<Bill> const bill = settle({std::move(needs)}, spec, goods::catalogue(std::move(rows)));
  REQUIRE_FALSE(bill.has_value());
  return bill.error();
}

}  // namespace

TEST_CASE("a cover larger than the rectangle of its skin does not fit, and the fault says both sizes") {
  Material const skin = goods::skin();
  BookSpec spec;
  choose(spec, Role::leather, skin, 7);
  auto const faults =
      faults_of({cut(Item::cover_leather, Part::cover, skin, {piece(1, 300, 500)})}, spec, {skin});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].code == FaultCode::does_not_fit);
  CHECK(faults[0].where.line == 7);
  CHECK(faults[0].where.field == role_row(Role::leather).key);
  CHECK(faults[0].found == "covering of 300 x 500 mm, grain along the first side");
  CHECK(faults[0].expected ==
        "a piece within the rectangle of 720 x 480 mm to count on of a skin of goat-moss");
}

TEST_CASE("a sheet and a roll that are too small are named as what they are") {
  Material const paper = goods::paper();
  Material const mull = goods::mull();
  auto const faults =
      faults_of({cut(Item::text_sheets, Part::text_block, paper, {piece(9, 500, 701, Grain::any)}),
                 cut(Item::panel_linings, Part::spine, mull, {piece(1, 30, 1001)})},
                {}, {paper, mull});
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].found == "paper of the text block of 500 x 701 mm");
  CHECK(faults[0].expected ==
        "a piece within a sheet of 500 x 700 mm of text-rag, grain along the second side");
  CHECK(faults[1].expected == "a piece within the width of 1000 mm of mull-heavy");
}

TEST_CASE("what covers is called a covering, whatever it is, and sides are called sides") {
  Material cloth = goods::mull();
  cloth.kind = MaterialKind::cloth;
  Material const paper = goods::paper();
  auto const faults = faults_of({cut(Item::cover_leather, Part::cover, cloth, {piece(1, 300, 1001)}),
                                 cut(Item::cover_sides, Part::cover, paper, {piece(2, 701, 200)})},
                                {}, {cloth, paper});
  REQUIRE(faults.size() == 2);
  for (auto const& fault : faults) CHECK(fault.code == FaultCode::does_not_fit);
  CHECK(faults[0].found.starts_with("covering of 300 x 1001 mm"));
  CHECK(faults[1].found.starts_with("covering of the sides of 701 x 200 mm"));
}

TEST_CASE("a piece that is a hair too large does not read as if it fitted") {
  Material const paper = goods::paper();
  auto hair = piece(1, 500, 700, Grain::any);
  hair.width.n += 1;
  auto const faults = faults_of({cut(Item::text_sheets, Part::text_block, paper, {hair})}, {}, {paper});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].found == "paper of the text block of 500 x 700.1 mm");
}

TEST_CASE("only the pieces that do not fit are named, each of them") {
  Material const paper = goods::paper();
  auto const faults =
      faults_of({cut(Item::text_sheets, Part::text_block, paper, {piece(9, 328, 230), piece(1, 701, 10)}),
                 cut(Item::endpaper_sheets, Part::endpapers, paper, {piece(1, 10, 501)})},
                {}, {paper});
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].found.find("701 x 10 mm") != std::string::npos);
  CHECK(faults[1].found.find("endpapers of 10 x 501 mm") != std::string::npos);
}

TEST_CASE("pieces of one skin that fit alone but not together are a fault of their own") {
  Material const skin = goods::skin();
  Piece half = piece(2, 400, 460);
  half.skin_group = 1;
  auto const faults = faults_of({cut(Item::cover_leather, Part::cover, skin, {half})}, {}, {skin});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].code == FaultCode::does_not_fit);
  CHECK(faults[0].found == "pieces that must come from one skin");
}

TEST_CASE("every material without a price on the day is told, and what does not fit beside them") {
  Material glue = goods::glue();
  Material skin = goods::skin();
  Material corner = goods::corner();
  glue.price.reset();
  skin.price.reset();
  BookSpec spec;
  choose(spec, Role::spine_adhesive, glue, 4);
  choose(spec, Role::leather, skin, 9);
  auto const faults =
      faults_of({cut(Item::cover_leather, Part::cover, skin, {piece(1, 300, 500)}),
                 uses::of(Item::spine_glue, Part::spine, glue, 5'000, 5'000, HowFound::by_spread),
                 uses::of(corner, 4'000)},
                spec, {glue, skin, corner});
  REQUIRE(faults.size() == 3);
  CHECK(faults[0].code == FaultCode::does_not_fit);
  CHECK(faults[1].code == FaultCode::no_price);
  CHECK(faults[1].found == "goat-moss");
  CHECK(faults[1].where.line == 9);
  CHECK(faults[2].code == FaultCode::no_price);
  CHECK(faults[2].found == "pva-bindery");
  CHECK(faults[2].where.line == 4);
  CHECK(faults[2].expected == "a price of it in force on 2026-11-25");
}

TEST_CASE("a material of two roles is faulted at the role of the part that it was for") {
  Material skin = goods::skin();
  BookSpec spec;
  choose(spec, Role::leather, skin, 3);
  choose(spec, Role::strap_leather, skin, 20);
  auto const faults = faults_of({cut(Item::strap, Part::strap, skin, {piece(1, 721, 25)})}, spec, {skin});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].where.line == 20);
}

TEST_CASE("an underlay's card and an extra are faulted where they were written") {
  Material card = goods::paper(3);
  card.price.reset();
  Material corner = goods::corner();
  corner.price.reset();
  BookSpec spec;
  Underlay underlay;
  underlay.card = card.id;
  underlay.where = {"book.toml", 30, 1, "underlays"};
  spec.underlays = {underlay};
  spec.extra_materials = {{corner.id, amount(goods::whole(4)), {"book.toml", 40, 1, "extra_materials"}}};
  auto const faults = faults_of(
      {cut(Item::underlay_cards, Part::underlays, card, {piece(1, 100, 100)}), uses::of(corner, 4'000)}, spec,
      {card, corner});
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].where.line == 30);
  CHECK(faults[1].where.line == 40);
}
