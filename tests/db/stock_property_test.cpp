// Whatever is done to a shelf, in whatever order: nothing is lost, nothing falls below nothing, and the check
// agrees.
#include "tests/db/shelf.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <map>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

// One command of a random month; a refused one must change nothing.
void one_command(Shelf& shelf, std::vector<std::int64_t> const& jobs, Date on) {
  bool const skin = *rc::gen::inRange(0, 3) == 0;
  std::string const code = skin ? "goat" : "board";
  std::int64_t const n = *rc::gen::inRange<std::int64_t>(1, 9000);
  Amount const amount{skin ? Dimension::area : Dimension::count, skin ? n * 100'000'000 / 3 : n};
  std::int64_t const job = *rc::gen::elementOf(jobs);
  std::string const mark =
      (*rc::gen::arbitrary<bool>() ? "L" : "K") + std::to_string(*rc::gen::inRange(1, 6));
  Money const money = eur(*rc::gen::inRange<std::int64_t>(0, 5000));
  MovementKind const kind =
      *rc::gen::element(MovementKind::used, MovementKind::cut_away, MovementKind::spoiled);
  int const what = *rc::gen::inRange(0, 12);
  Writing writing(shelf.workshop, info());
  bool done = false;
  if (what < 3) {
    Parcel parcel = Shelf::parcel(date_text(on));
    parcel.terms.carriage = money;
    parcel.terms.purchase_tax = Ratio(7, 100);
    if (what == 1) parcel.job = job == jobs.front() ? "26-001" : "26-002";
    parcel.lines = {Shelf::line(code, amount, money.minor), Shelf::line("board", sheets(1), 3 * money.minor)};
    done = receive(writing, parcel).has_value();
  } else if (what < 6) {
    std::string const from = what == 5 ? mark : "";
    done = take_for_job(writing, job, code, from, amount, kind, on, "").has_value();
  } else if (what == 6) {
    done = give_back_from_job(writing, job, code, "", amount, on).has_value();
  } else if (what == 7) {
    done = keep_offcut(writing, job, code, "", Length{n * 50}, Length{n * 40}, on, "").has_value();
  } else if (what == 8) {
    done = count(writing, code, amount, on, "", money, "").has_value();
  } else if (what == 9) {
    done = scrap(writing, *rc::gen::arbitrary<bool>() ? code : mark, amount, on, "torn").has_value();
  } else if (what == 10) {
    done = write_down(writing, mark, money, on, "damp").has_value();
  } else if (auto const row = on_hand(shelf.workshop, code)) {
    done = reserve(writing, job, row->material, amount, skin ? 1 : 0, on).has_value();
  }
  if (done) writing.commit();
}

}  // namespace

TEST_CASE("nothing is lost, whatever is done in whatever order") {
  CHECK(rc::check("what came in is what went out and what lies there", [] {
    std::string const formula = *rc::gen::element<std::string>("first-in-first-out", "moving-average");
    Shelf shelf(formula);
    std::vector<std::int64_t> const jobs{shelf.new_job(), shelf.new_job()};
    Date on = day("2026-07-01");
    int const commands = *rc::gen::inRange(1, 30);
    for (int i = 0; i < commands; ++i) {
      on += std::chrono::days(*rc::gen::inRange(0, 3));
      one_command(shelf, jobs, on);
    }
    std::map<std::string, std::pair<std::int64_t, std::int64_t>> sums;
    std::int64_t value = 0;
    for (MovementRow const& row : movements(shelf.workshop, std::nullopt, 10'000)) {
      sums[row.code].first += row.quantity;
      sums[row.code].second += row.value;
      value += row.value;
    }
    std::map<std::string, std::int64_t> of_lots;
    for (LotRow const& row : lots(shelf.workshop, std::nullopt, true)) {
      RC_ASSERT(row.quantity.n >= 0);
      of_lots[row.code] += row.quantity.n;
    }
    for (ShelfRow const& row : db::shelf(shelf.workshop, std::nullopt)) {
      RC_ASSERT(row.quantity.n == sums[row.code].first);
      RC_ASSERT(row.value.minor == sums[row.code].second);
      RC_ASSERT(row.quantity.n == of_lots[row.code]);
      RC_ASSERT(row.quantity.n > 0 || row.value.minor == 0);
    }
    RC_ASSERT(stock_value(shelf.workshop, on).shelf.minor == value);
    for (Fault const& fault : check(shelf.workshop))
      RC_FAIL(fault.where.field + " " + fault.found + ": " + fault.expected);
  }));
}
