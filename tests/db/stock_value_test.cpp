// What goods cost when they leave the shelf, from receipt to the last unit, on a file.
#include "tests/db/shelf.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

// The July of "Spy Who Loves You": opening 150 at 21, sold 120; bought 225 at 27, sold 180; bought 210 at 33.
// Source: OpenStax, Principles of Accounting, Volume 1, 10.3. In cents, a unit being a sheet.
struct July {
  Shelf shelf;
  std::int64_t job = 0, first = 0, second = 0;
  explicit July(std::string_view formula) : shelf(formula), job(shelf.new_job()) {
    write(shelf.workshop, [](Writing& writing) {
      return count(writing, "board", sheets(150), day("2026-07-01"), "", eur(315'000), "").value();
    });
    first = worth(shelf.use(job, "board", sheets(120), "2026-07-05").value());
    shelf.buy("board", sheets(225), 607'500, "2026-07-10");
    second = worth(shelf.use(job, "board", sheets(180), "2026-07-15").value());
    shelf.buy("board", sheets(210), 693'000, "2026-07-25");
  }
};

std::int64_t shelf_on(Workshop& workshop, std::string_view on) {
  return stock_value(workshop, day(on)).shelf.minor;
}

}  // namespace

TEST_CASE("first in, first out takes the oldest at their own cost") {
  July july("first-in-first-out");
  CHECK(july.first == 252'000);
  CHECK(july.second == 468'000);
  CHECK(july.shelf.value_of("board") == 895'500);
  CHECK(july.shelf.quantity_of("board") == sheets(285).n);
  CHECK(check(july.shelf.workshop).empty());
}

TEST_CASE("the moving average takes at what the whole pool costs") {
  July july("moving-average");
  CHECK(july.first == 252'000);
  CHECK(july.second == 473'294);                   // 4,732.941176...
  CHECK(july.shelf.value_of("board") == 890'206);  // 8,902.058823...
  CHECK(july.first + july.second + 890'206 == 1'615'500);
  CHECK(check(july.shelf.workshop).empty());
}

TEST_CASE("the value of a past day stays what it was, and work begun has what left the shelf") {
  for (std::string_view const formula : {"first-in-first-out", "moving-average"}) {
    July july(formula);
    Workshop& workshop = july.shelf.workshop;
    CHECK(shelf_on(workshop, "2026-06-30") == 0);
    CHECK(shelf_on(workshop, "2026-07-04") == 315'000);
    CHECK(shelf_on(workshop, "2026-07-05") == 63'000);
    CHECK(shelf_on(workshop, "2026-07-10") == 670'500);
    CHECK(shelf_on(workshop, "2026-07-31") == july.shelf.value_of("board"));
    CHECK(stock_value(workshop, day("2026-07-14")).in_work == eur(252'000));
    CHECK(stock_value(workshop, day("2026-07-31")).in_work == eur(july.first + july.second));
    CHECK(shelf(workshop, day("2026-07-05")).front().quantity == sheets(30));
  }
}

TEST_CASE("an average that comes out even leaves nothing over") {
  // Solved question at wizedu.com/questions/628894: 3,000 at 0.60, 4,000 at 0.74, sold 4,400, 2,200 at 0.80,
  // sold 2,100.
  Shelf shelf("moving-average");
  std::int64_t const job = shelf.new_job();
  shelf.buy("board", sheets(3000), 180'000, "2026-12-01");
  shelf.buy("board", sheets(4000), 296'000, "2026-12-03");
  CHECK(worth(shelf.use(job, "board", sheets(4400), "2026-12-05").value()) == 299'200);
  CHECK(shelf.value_of("board") == 176'800);
  shelf.buy("board", sheets(2200), 176'000, "2026-12-17");
  CHECK(worth(shelf.use(job, "board", sheets(2100), "2026-12-22").value()) == 154'350);
  CHECK(shelf.value_of("board") == 198'450);
}

TEST_CASE("the first movement fixes the formula") {
  Shelf shelf("moving-average");
  CHECK_FALSE(formula_in_use(shelf.workshop));
  CHECK(check_setting(shelf.workshop, "stock.formula", "first-in-first-out"));
  shelf.buy("board", sheets(10), 1'000, "2026-07-01");
  CHECK(formula_in_use(shelf.workshop) == CostFormula::moving_average);
  CHECK(check_setting(shelf.workshop, "stock.formula", "moving-average"));
  auto const refused = check_setting(shelf.workshop, "stock.formula", "first-in-first-out");
  REQUIRE_FALSE(refused);
  CHECK(refused.error().front().code == FaultCode::rule_refused);
  CHECK_FALSE(check_setting(shelf.workshop, "stock.formula", ""));
}

TEST_CASE("a skin, and what was bought for one job, keep their own cost under the average") {
  Shelf shelf("moving-average");
  std::int64_t const job = shelf.new_job();
  shelf.buy("board", sheets(10), 1'000, "2026-07-01");
  shelf.buy("goat", cm2(6000), 6'600, "2026-07-01");
  shelf.buy("goat", cm2(5000), 5'000, "2026-07-01");
  Parcel parcel = Shelf::parcel("2026-07-02");
  parcel.job = "26-001";
  parcel.lines.push_back(Shelf::line("board", sheets(10), 3'000));
  write(shelf.workshop, [&](Writing& writing) { return receive(writing, parcel).value(); });
  CHECK(on_hand(shelf.workshop, "board")->reserved == sheets(10));
  auto const used = shelf.use(job, "board", sheets(11), "2026-07-03").value();  // its own first
  REQUIRE(used.size() == 2);
  CHECK(used[0].value == 3'000);
  CHECK(used[1].value == 100);
  CHECK(on_hand(shelf.workshop, "board")->reserved == sheets(0));
  CHECK(worth(shelf.use(job, "goat", cm2(5000), "2026-07-03").value()) == 5'000);  // the smaller will do
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("what is written down stays down, and leaves the job's value alone") {
  Shelf shelf;
  shelf.buy("board", sheets(10), 1'000, "2026-07-01");
  auto const down = [&](std::int64_t cents) {
    return write(shelf.workshop, [&](Writing& writing) {
      return write_down(writing, "L1", eur(cents), day("2026-07-02"), "damp");
    });
  };
  CHECK(down(400).value() == Posting{LotId{1}, 0, 600});
  CHECK(shelf.value_of("board") == 400);
  REQUIRE_FALSE(down(500));
  CHECK(down(400).error().front().code == FaultCode::rule_refused);
  CHECK(worth(shelf.use(shelf.new_job(), "board", sheets(10), "2026-07-02").value()) == 400);
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("a pooled lot written down lowers the average of all by just that sum") {
  Shelf shelf("moving-average");
  shelf.buy("board", sheets(10), 1'000, "2026-07-01");
  shelf.buy("board", sheets(10), 2'000, "2026-07-01");
  write(shelf.workshop, [](Writing& writing) {
    return write_down(writing, "L1", eur(500), day("2026-07-02"), "damp").value();
  });
  CHECK(shelf.value_of("board") == 2'000);  // its share stood at 1,500
  CHECK(check(shelf.workshop).empty());
}
