#include "quotes.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Commission;
using endband::FigureId;
using endband::FrozenQuote;
using endband::Origin;
using endband::Priced;
using endband::Role;

namespace {

Commission commission() {
  FrozenQuote const made = quote();
  Commission of;
  of.book.title = made.title;
  of.book.binding = made.binding;
  of.book.materials[static_cast<std::size_t>(Role::leather)] = {{3}, Origin::said, {}};
  of.book.materials[static_cast<std::size_t>(Role::ribbon)] = {{1}, Origin::model, {}};
  of.catalogue.on = made.on;
  of.catalogue.materials = {material(1, "a", ""), material(4, "b", ""), material(3, "c", ""),
                            material(2, "d", "")};
  of.shop = made.shop;
  of.selling = made.selling;
  of.goal = made.goal;
  of.delivery = made.delivery;
  return of;
}

Priced priced() {
  FrozenQuote const made = quote();
  Priced priced;
  priced.structure.figures.set(FigureId::arc, 55.6234567, Origin::computed);
  priced.structure.figures.set(FigureId::pages, 300, Origin::said);
  priced.structure.mass = {1'234'567};
  priced.structure.warnings = {{endband::WarningCode::grain_across, 1, 0, 0, {}}};
  priced.bill = made.bill;
  priced.work = made.work;
  priced.outside = made.outside;
  priced.sheet = made.sheet;
  priced.selling = made.selling;
  priced.delivery = made.delivery;
  priced.offer = made.offer;
  return priced;
}

}  // namespace

TEST_CASE("freezing keeps what was said, chosen, found and shown") {
  FrozenQuote const frozen = endband::freeze(commission(), priced(), "endband = 1\n", "raised-cords");
  CHECK(frozen.rules == endband::engine_rules);
  CHECK(endband::date_text(frozen.on) == "2026-11-25");
  CHECK(frozen.title == "The Book of Salt");
  CHECK(frozen.description == "endband = 1\n");
  CHECK(frozen.model_name == "raised-cords");
  CHECK(frozen.mass_mg == 1'234'567);
  CHECK(frozen.warnings.size() == 1);
  REQUIRE(frozen.figures.size() == 2);
  CHECK(frozen.figures[0].id == FigureId::pages);
  CHECK(frozen.figures[0].value_e6 == 300'000'000);
  CHECK(frozen.figures[0].origin == Origin::said);
  CHECK(frozen.figures[1].value_e6 == 55'623'457);
  REQUIRE(frozen.choices.size() == 2);
  CHECK(frozen.choices[0].role == Role::leather);
  CHECK(frozen.choices[1].origin == Origin::model);
}

TEST_CASE("freezing keeps the materials that a row names, by id") {
  FrozenQuote const frozen = endband::freeze(commission(), priced(), "", "");
  REQUIRE(frozen.materials.size() == 3);  // 4 is in the catalogue and in no row
  for (std::size_t i = 0; i < 3; ++i) CHECK(frozen.materials[i].id.value == static_cast<std::int64_t>(i) + 1);
}

TEST_CASE("a frozen quote replays to the same offer from its rows alone") {
  FrozenQuote frozen = endband::freeze(commission(), priced(), "", "");
  CHECK(endband::differs(frozen).empty());
  endband::Offer const before = frozen.offer;
  frozen.sheet = {};
  frozen.offer = {};
  frozen.offer = endband::replay(frozen).value();
  frozen.sheet = endband::cost(frozen.bill, frozen.work, frozen.outside, frozen.shop);
  CHECK(endband::differs(frozen).empty());
  CHECK(frozen.offer.total == before.total);
  CHECK(frozen.offer.margin == before.margin);
}

// The minor units of this quote, worked through by hand from its rows: what replay gives in every later
// program.
TEST_CASE("the minor units of one quote stay what they are") {
  FrozenQuote const made = quote();
  // 3.75, 4.5 and 5 pieces at 12.37; 1.5 h and 2.5 h at 26.40; 4 h at 6.8666...
  CHECK(made.sheet.materials == eur(46'39 + 55'67 + 61'85));
  CHECK(made.sheet.labour == eur(39'60 + 66'00));
  CHECK(made.sheet.overhead == eur(27'47));
  // 3/97 x (46.39 + 1.5 h x 33.2666...) = 2.978...; 4 % of 163.91 + 105.60 + 27.47 + 40.00 + 2.98
  CHECK(made.sheet.allowances == eur(2'98 + 13'60));
  CHECK(made.sheet.earning == eur(353'56));
  CHECK(made.sheet.total == eur(438'56));
  // 353.56 / 0.7 = 505.0857... and 85.00; with 19 % 702.2052, the next of 4.00, 9.00 ... is 704.00
  CHECK(made.offer.ladder.target.price == eur(590'09));
  CHECK(made.offer.goods_shown == eur(704'00));
  CHECK(made.offer.goods == eur(591'60));
  CHECK(made.offer.carriage_shown == eur(14'88));
  CHECK(made.offer.total == eur(718'88));
  CHECK(made.offer.tax == eur(114'78));
  // 40 % of the total are 287.552; what is paid out is 163.91 of materials ... and 125.00 outside
  CHECK(made.offer.deposit == eur(300'00));
}

TEST_CASE("a quote whose goal nobody can meet does not replay") {
  FrozenQuote made = quote();
  made.goal = endband::MarginGoal{{3, 2}};
  CHECK(endband::replay(made).error()[0].code == endband::FaultCode::bad_goal);
}
