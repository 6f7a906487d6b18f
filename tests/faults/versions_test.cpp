// What a failing disk does to the making of versions and quotes.
#include "db/listings.h"
#include "db/outlets.h"
#include "db/quotes.h"
#include "engine/pricing/terms_text.h"
#include "tests/db/any_quote.h"
#include "tests/faults/walk.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;
using namespace endband::faults;

TEST_CASE("a setting is set whole or not at all, whatever step of the disk fails") {
  DiskWalk walk([](Workshop&) {});
  CHECK(walk.over([](Workshop& workshop) {
    set_all(workshop, {{"goal.margin", "35 %"}, {"least.charge", "60"}});
  }) > 5);
}

TEST_CASE("a price is written whole or not at all, whatever step of the disk fails") {
  DiskWalk walk(stock_workshop);
  CHECK(walk.over([](Workshop& workshop) {
    std::string const code = material_codes(workshop).front();
    write(workshop, [&](Writing& writing) {
      PackPrice price = price_history(workshop, code).back();
      price.price = price.said = price.price + eur(100);
      return add_price(writing, code, price).value();
    });
  }) > 5);
}

TEST_CASE("a quote is kept whole or not at all, whatever step of the disk fails") {
  DiskWalk walk(stock_workshop);
  CHECK(walk.over([](Workshop& workshop) {
    FrozenQuote const quote = any_quote(workshop, 11);
    write(workshop, [&](Writing& writing) {
      return save_quote(writing, "otter-stage", day("2027-01-31"), quote).value();
    });
  }) > 20);
}

TEST_CASE("an outlet and a listing there are kept whole or not at all, whatever step of the disk fails") {
  DiskWalk walk(stock_workshop);
  CHECK(walk.over([](Workshop& workshop) {
    write(workshop, [&](Writing& writing) {
      set_text(writing, TextOf::outlet, "fair", outlet_example(), day("2026-06-01"));
      ListedCost const cost{eur(100'00), eur(60'00),  eur(0), eur(5'00),
                            1,           Ratio(3600), eur(0), std::vector<Money>(part_count, eur(7))};
      return post_listing(writing, {"fair", std::nullopt, "A book", cost, eur(180'00)}, day("2026-06-02"));
    });
  }) > 5);
}
