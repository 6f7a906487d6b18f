// Copies and volumes from a book described by hand to what they are asked for.
#include "engine/commission/commission.h"
#include "tests/engine/commission/orders.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband::testing;
using endband::Commission;
using endband::Priced;
using endband::Ratio;
using endband::SetVolume;

namespace {

Commission set_of_two() {
  Commission of = an_order(1);
  SetVolume first, second;
  first.title = "Volume the first";
  second.title = "Volume the second";
  second.said.set(endband::FigureId::pages_wanted, 160, endband::Origin::said);
  of.book.volumes = {first, second};
  return of;
}

}  // namespace

TEST_CASE("a quote keeps the price of one, of those asked for and of one more") {
  Priced const three = endband::price_for_quote(an_order(3)).value();
  REQUIRE(three.copies.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    int const copies = std::array{1, 3, 4}[i];
    Priced const alone = endband::price(an_order(copies)).value();
    CHECK(three.copies[i].copies == copies);
    CHECK(three.copies[i].shown == alone.offer.goods_shown);
    CHECK(three.copies[i].cost == alone.sheet.total);
    CHECK(three.copies[i].seconds == alone.sheet.seconds);
  }
  CHECK(three.copies[1].shown == three.offer.goods_shown);
  CHECK(endband::differs(endband::freeze(an_order(3), three, "", "")) == "");
}

TEST_CASE("of one copy there is one and one more") {
  Priced const one = endband::price_for_quote(an_order(1)).value();
  REQUIRE(one.copies.size() == 2);
  CHECK(one.copies[0].copies == 1);
  CHECK(one.copies[1].copies == 2);
}

TEST_CASE("copies share the set-up of each step and the office, and cost less than as many orders") {
  Priced const one = endband::price(an_order(1)).value();
  Priced const ten = endband::price(an_order(10)).value();
  CHECK(ten.work.lines.size() == one.work.lines.size());
  CHECK(ten.sheet.seconds < one.sheet.seconds * Ratio(10));
  CHECK(ten.sheet.total.minor < 10 * one.sheet.total.minor);
  CHECK(ten.sheet.total > one.sheet.total);
}

TEST_CASE(
    "a set costs more than its first volume and less than two orders, and says how large each volume is") {
  Priced const one = endband::price(an_order(1)).value();
  Priced const set = endband::price(set_of_two()).value();
  CHECK(set.sheet.total > one.sheet.total);
  CHECK(set.sheet.total.minor < 2 * one.sheet.total.minor);
  REQUIRE(set.volumes.size() == 2);
  CHECK(set.volumes[0].title == "Volume the first");
  CHECK(set.volumes[0].pages == 300);
  CHECK(set.volumes[1].pages == 160);
  CHECK(set.volumes[1].thickness < set.volumes[0].thickness);
  CHECK(set.volumes[1].mass < set.volumes[0].mass);
  CHECK(set.volumes[0].height == one.structure.closed_height);
}

TEST_CASE("copies of a set are priced like copies of a book") {
  Commission two_sets = set_of_two();
  two_sets.book.copies = 2;
  Priced const once = endband::price(set_of_two()).value();
  Priced const twice = endband::price(two_sets).value();
  CHECK(twice.sheet.total > once.sheet.total);
  CHECK(twice.sheet.total.minor < 2 * once.sheet.total.minor);
  CHECK(twice.volumes.size() == 2);
}

TEST_CASE("what is in custody is kept and costs nothing") {
  Commission of = an_order(1);
  of.custody = {{"an old psalter", "boards loose", eur(4'000'00)}, {"a letter", "", {}}};
  Priced const with = endband::price_for_quote(of).value();
  CHECK(with.sheet.total == endband::price(an_order(1)).value().sheet.total);
  endband::FrozenQuote const quote = endband::freeze(of, with, "", "");
  REQUIRE(quote.custody.size() == 2);
  CHECK(quote.custody[0].declared == eur(4'000'00));
  CHECK_FALSE(endband::for_buyer(quote).custody[1].declared.has_value());
}
