// Work by other hands, each price worked by hand.
#include "engine/commission/outside.h"

#include "quotes.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband::testing;
using endband::Area;
using endband::Outside;
using endband::OutsideBy;
using endband::OutsideKind;
using endband::OutsideMeasures;
using endband::OutsideTerms;
using endband::Ratio;

namespace {

constexpr std::int64_t dm2 = 10'000'000'000;

// Edges of 2.5 dm2, leather of 12 dm2 in one copy; 3 skins for all of them.
OutsideMeasures measures(int copies = 1) { return {{25 * dm2 / 10}, {12 * dm2}, 3, copies}; }

OutsideTerms terms(OutsideBy by, std::int64_t price) {
  OutsideTerms work;
  work.words = "work by another";
  work.price = eur(price);
  work.by = by;
  return work;
}

endband::Money price_of(OutsideTerms const& work, int copies = 1) {
  return outside_of(work, measures(copies), euro()).price;
}

}  // namespace

TEST_CASE("a price for the whole is paid once for each copy") {
  CHECK(price_of(terms(OutsideBy::whole, 85'00)) == eur(85'00));
  CHECK(price_of(terms(OutsideBy::whole, 85'00), 5) == eur(425'00));
}

TEST_CASE("a die is made once, however many copies are printed with it") {
  OutsideTerms die = terms(OutsideBy::whole, 85'00);
  die.kind = OutsideKind::die;
  die.each_copy = false;
  CHECK(price_of(die, 5) == eur(85'00));
}

TEST_CASE("pieces are counted in each copy") {
  OutsideTerms work = terms(OutsideBy::piece, 1'15);
  work.count = 3;
  CHECK(price_of(work) == eur(3'45));
  CHECK(price_of(work, 2) == eur(6'90));
}

TEST_CASE("edges are gilt by their own area, leather is split by that of the cover") {
  OutsideTerms work = terms(OutsideBy::dm2, 3'30);
  work.kind = OutsideKind::edge_gilding;
  CHECK(price_of(work) == eur(8'25));      // 2.5 dm2
  CHECK(price_of(work, 4) == eur(33'00));  // 10 dm2
  work.kind = OutsideKind::splitting;
  CHECK(price_of(work) == eur(39'60));  // 12 dm2
  work.area = Area{dm2 / 4};
  CHECK(price_of(work) == eur(83));  // 0.825, half away from zero
  work.area.reset();
  work.kind = OutsideKind::other;
  CHECK_THROWS_AS(price_of(work), std::logic_error);
}

TEST_CASE("skins are those that the whole order opens") {
  CHECK(price_of(terms(OutsideBy::skin, 12'00)) == eur(36'00));
  CHECK(price_of(terms(OutsideBy::skin, 12'00), 4) == eur(36'00));
}

TEST_CASE("the least charge is for all that goes out together, and carriage comes on top, once") {
  OutsideTerms work = terms(OutsideBy::piece, 4'00);
  work.least_charge = eur(25'00);
  work.carriage = eur(9'00);
  CHECK(price_of(work) == eur(34'00));
  CHECK(price_of(work, 6) == eur(34'00));
  CHECK(price_of(work, 7) == eur(37'00));
}

TEST_CASE("what is not said is nothing in the workshop's currency, and what is said is kept") {
  OutsideTerms work = terms(OutsideBy::skin, 12'00);
  work.supplier = "Fenn Splitting";
  work.redo = Ratio(1, 10);
  work.at_cost = false;
  work.lead = {14 * 86'400};
  Outside const made = outside_of(work, measures(), euro());
  CHECK(made.least_charge == eur(0));
  CHECK(made.carriage == eur(0));
  CHECK(made.supplier == "Fenn Splitting");
  CHECK(made.redo == Ratio(1, 10));
  CHECK_FALSE(made.at_cost);
  CHECK(made.lead.n == 14 * 86'400);
  CHECK(made.quantity.n == 3000);
  CHECK(endband::price_of(made) == made.price);
}

TEST_CASE("what is measured is the edges and the cover of every volume, and the skins of its bill") {
  endband::Structure volume;
  volume.figures.set(endband::FigureId::edges_area, 20'000, endband::Origin::computed);  // 2 dm2
  endband::Piece cover{};
  cover.part = endband::Part::cover;
  cover.material = {1};
  cover.count = 2;
  cover.height = {300'000};
  cover.width = {400'000};  // 12 dm2
  endband::Piece sides = cover;
  sides.material = {2};
  endband::Piece strap = cover;
  strap.part = endband::Part::strap;
  volume.pieces = {cover, sides, strap};
  endband::BookSpec book;
  endband::Bill bill;
  bill.lines = {bill_line(1, endband::Charging::whole, endband::Part::cover)};
  std::vector<endband::Structure> const volumes{volume, volume};
  CHECK(measures_of(volumes, book, bill, 1).skins == 0);  // no leather was chosen
  book.materials[static_cast<std::size_t>(endband::Role::leather)] = {{1}, endband::Origin::said, {}};
  OutsideMeasures const found = measures_of(volumes, book, bill, 3);
  CHECK(found.edges.n == 4 * dm2);
  CHECK(found.leather.n == 48 * dm2);
  CHECK(found.skins == 5);
  CHECK(found.copies == 3);
}
