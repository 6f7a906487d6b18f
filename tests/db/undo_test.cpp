#include "tests/db/undo_bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

std::string price_on(Workshop& workshop, std::string_view code, std::string_view on) {
  return money_text(find_material(workshop, code, day(on)).value().price.value().price);
}

void set_price(Workshop& workshop, std::string_view code, std::int64_t cents, std::string_view from) {
  write(workshop,
        [&](Writing& writing) { return add_price(writing, code, pack_of_sheets(50, cents, from)).value(); });
}

std::string setting(Workshop& workshop, std::string_view name, std::string_view on) {
  for (Setting const& each : settings(workshop, day(on)))
    if (each.name == name) return each.value;
  return "";
}

QuoteHeader make_quote(Workshop& workshop, std::uint64_t seed) {
  return write(workshop, [&](Writing& writing) {
    return save_quote(writing, "otter-stage", day("2027-01-31"), quote_of_today(workshop, seed)).value();
  });
}

}  // namespace

TEST_CASE("a setting that was set for the first time is unset again") {
  PricedShelf shelf;
  set_all(shelf.workshop, {{"goal.margin", "35 %"}});
  auto const undone = take_back(shelf.workshop, newest(shelf.workshop)).value();
  REQUIRE(undone.size() == 1);
  CHECK(undone[0].what == "goal.margin, from 2026-01-01");
  CHECK(undone[0].now == "35 %");
  CHECK(undone[0].then.empty());
  CHECK(setting(shelf.workshop, "goal.margin", "2026-11-25").empty());
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("a setting stands again as it stood, on every day") {
  PricedShelf shelf;
  set_all(shelf.workshop, {{"goal.margin", "30 %"}}, "2026-01-01");
  set_all(shelf.workshop, {{"goal.margin", "40 %"}}, "2026-06-01");
  std::string const before = standing_state(shelf.workshop);
  set_all(shelf.workshop, {{"goal.margin", "35 %"}}, "2026-03-01");
  REQUIRE(take_back(shelf.workshop, newest(shelf.workshop)));
  CHECK(setting(shelf.workshop, "goal.margin", "2026-04-01") == "30 %");
  CHECK(setting(shelf.workshop, "goal.margin", "2026-06-02") == "40 %");
  CHECK(difference(before, standing_state(shelf.workshop)).empty());
}

TEST_CASE("what an undoing restored goes when that too is taken back") {
  PricedShelf shelf;
  std::string const before = standing_state(shelf.workshop);
  set_all(shelf.workshop, {{"goal.margin", "30 %"}}, "2026-01-01");
  std::int64_t const first = newest(shelf.workshop);
  set_all(shelf.workshop, {{"goal.margin", "40 %"}}, "2026-06-01");
  REQUIRE(take_back(shelf.workshop, newest(shelf.workshop)));
  CHECK(setting(shelf.workshop, "goal.margin", "2026-07-01") == "30 %");
  REQUIRE(take_back(shelf.workshop, first));
  CHECK(setting(shelf.workshop, "goal.margin", "2026-07-01").empty());
  CHECK(difference(before, standing_state(shelf.workshop)).empty());
}

TEST_CASE("a price that another took the place of is refused, and that one is named") {
  PricedShelf shelf;
  set_price(shelf.workshop, "laid-120", 4000, "2026-11-01");
  std::int64_t const first = newest(shelf.workshop);
  set_price(shelf.workshop, "laid-120", 5000, "2026-11-01");
  std::int64_t const second = newest(shelf.workshop);
  CHECK(reasons(take_back(shelf.workshop, first)) ==
        "entry " + std::to_string(first) + ": entry " + std::to_string(second) +
            " (a test) prices laid-120; take that back first: endband workshop undo " +
            std::to_string(second) + "\n");
  REQUIRE(take_back(shelf.workshop, second));
  CHECK(price_on(shelf.workshop, "laid-120", "2026-11-25") == "40.00");
  REQUIRE(take_back(shelf.workshop, first));
  CHECK(price_on(shelf.workshop, "laid-120", "2026-11-25") == "38.00");
}

TEST_CASE("what was written once for good is refused with what helps instead") {
  PricedShelf shelf;
  write(shelf.workshop,
        [](Writing& writing) { return add_material(writing, paper("new"), day("2026-01-01")).value(); });
  std::int64_t const added = newest(shelf.workshop);
  CHECK(reasons(take_back(shelf.workshop, added)).find("endband material change") != std::string::npos);
  set_price(shelf.workshop, "new", 4000, "2026-11-01");
  CHECK(reasons(take_back(shelf.workshop, newest(shelf.workshop))).find("its first price") ==
        std::string::npos);
  CHECK(reasons(take_back(shelf.workshop, newest(shelf.workshop))).find("first price") != std::string::npos);
  write(shelf.workshop, [](Writing& writing) {
    return add_customer(writing, {0, "x", "X", "", "", "", "", day("2026-01-01")}).value();
  });
  CHECK(reasons(take_back(shelf.workshop, newest(shelf.workshop))).find("endband customer change") !=
        std::string::npos);
  CHECK(reasons(take_back(shelf.workshop, 1)).find("it made the workshop") != std::string::npos);
  CHECK(reasons(take_back(shelf.workshop, 999)).find("no such entry") != std::string::npos);
}

TEST_CASE("an undoing and what is undone are refused with the command to type instead") {
  PricedShelf shelf;
  set_all(shelf.workshop, {{"goal.margin", "35 %"}});
  std::int64_t const entry = newest(shelf.workshop);
  REQUIRE(take_back(shelf.workshop, entry));
  std::int64_t const undoing = newest(shelf.workshop);
  CHECK(reasons(take_back(shelf.workshop, undoing)).find("type: endband a test") != std::string::npos);
  CHECK(
      reasons(take_back(shelf.workshop, entry)).find("entry " + std::to_string(undoing) + " took it back") !=
      std::string::npos);
  CHECK(last_standing(shelf.workshop).value().seq == entry - 1);
}

TEST_CASE("a receipt is taken back while nothing was taken from it") {
  PricedShelf shelf;
  std::string const before = standing_state(shelf.workshop);
  shelf.buy("laid-120", sheets(50), 3400, "2026-11-20");
  std::int64_t const receipt = newest(shelf.workshop);
  std::int64_t const job = shelf.new_job();
  REQUIRE(shelf.use(job, "laid-120", sheets(8), "2026-11-21"));
  std::int64_t const use = newest(shelf.workshop);
  CHECK(reasons(take_back(shelf.workshop, receipt))
            .find("entry " + std::to_string(use) + " (a test) takes from L1") != std::string::npos);
  REQUIRE(take_back(shelf.workshop, use));
  CHECK(shelf.quantity_of("laid-120") == 50'000);
  CHECK(shelf.value_of("laid-120") == 3400);
  auto const undone = take_back(shelf.workshop, receipt).value();
  CHECK(undone[0].what == "L1 laid-120");
  CHECK(undone[0].now == "50, worth 34.00");
  CHECK(undone[0].then.empty());
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("a movement is not taken back on a day before its lot moved last") {
  PricedShelf shelf;
  shelf.buy("laid-120", sheets(50), 3400, "2026-11-24");
  CHECK(reasons(take_back(shelf.workshop, newest(shelf.workshop), "2026-11-23")).find("--on 2026-11-24") !=
        std::string::npos);
}

TEST_CASE("at the average a receipt stays once anything was taken at it, from whichever lot") {
  PricedShelf shelf("moving-average");
  shelf.buy("laid-120", sheets(50), 3400, "2026-11-20");
  shelf.buy("laid-120", sheets(50), 5000, "2026-11-20");
  std::int64_t const second = newest(shelf.workshop);
  std::int64_t const job = shelf.new_job();
  REQUIRE(shelf.use(job, "laid-120", sheets(8), "2026-11-21"));
  CHECK(reasons(take_back(shelf.workshop, second)).find("takes laid-120 at the average") !=
        std::string::npos);
}

TEST_CASE("what a count found out stays while what it counted is taken back no more") {
  PricedShelf shelf;
  shelf.buy("laid-120", sheets(50), 3400, "2026-11-20");
  std::int64_t const job = shelf.new_job();
  REQUIRE(shelf.use(job, "laid-120", sheets(8), "2026-11-21"));
  std::int64_t const use = newest(shelf.workshop);
  write(shelf.workshop, [](Writing& writing) {
    return count(writing, "laid-120", sheets(40), day("2026-11-22"), "", std::nullopt, "").value();
  });
  CHECK(reasons(take_back(shelf.workshop, use)).find("counts laid-120") != std::string::npos);
  REQUIRE(take_back(shelf.workshop, newest(shelf.workshop)));
  CHECK(take_back(shelf.workshop, use));
}

TEST_CASE("an acceptance is taken back until something is done for the job, and can be said again") {
  PricedShelf shelf;
  shelf.buy("laid-120", sheets(5000), 340000, "2026-11-20");
  QuoteHeader const quote = make_quote(shelf.workshop, 11);
  std::string const before = standing_state(shelf.workshop);
  auto const accept = [&] {
    write(shelf.workshop, [&](Writing& writing) {
      return quote_accept(writing, quote, day("2026-11-25"), std::nullopt).value();
    });
    return newest(shelf.workshop);
  };
  std::int64_t const accepted = accept();
  REQUIRE(list_jobs(shelf.workshop, true).size() == 1);
  JobHeader const job = list_jobs(shelf.workshop, true).front();
  write(shelf.workshop,
        [&](Writing& writing) { return add_payment(writing, job, eur(100), day("2026-11-25"), "").value(); });
  std::int64_t const paid = newest(shelf.workshop);
  CHECK(reasons(take_back(shelf.workshop, accepted)).find("entry " + std::to_string(paid)) !=
        std::string::npos);
  REQUIRE(take_back(shelf.workshop, paid));
  REQUIRE(take_back(shelf.workshop, accepted));
  CHECK(difference(before, standing_state(shelf.workshop)).empty());
  CHECK(list_jobs(shelf.workshop, true).empty());
  CHECK(check(shelf.workshop).empty());
  accept();
  CHECK(list_jobs(shelf.workshop, true).size() == 1);
}

TEST_CASE("a quote that was made is withdrawn, and its number stays") {
  PricedShelf shelf;
  QuoteHeader const quote = make_quote(shelf.workshop, 11);
  REQUIRE(take_back(shelf.workshop, newest(shelf.workshop)));
  CHECK(quote_state(shelf.workshop, quote.id, quote.valid_until, day("2026-11-25")) == QuoteState::withdrawn);
  CHECK(make_quote(shelf.workshop, 13).number.count == quote.number.count + 1);
}
