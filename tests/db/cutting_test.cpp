// What cutting keeps in the workshop: plans, shapes, and what may be cut of the shelf.
#include "db/cutting.h"

#include "db/stock_ledger.h"
#include "tests/db/undo_bench.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

Shape a_shape() {
  return {.outline = {{0, 0}, {640'000, 0}, {600'000, 900'000}, {20'000, 880'000}},
          .flaws = {{{100'000, 100'000}, {120'000, 100'000}, {110'000, 130'000}}},
          .zones = {{{{0, 0}, {640'000, 0}, {640'000, 100'000}, {0, 100'000}}, 1}}};
}

PlanTable two_plans() {
  PlanTable plans;
  plans[{1, 300'000, 0, 5}] = {cutting::Outcome::planned, 2'000, 1'250, 1'500'000, 1'490'000, false};
  plans[{1, 300'000, 1, -7}] = {cutting::Outcome::impossible, 0, 0, 0, 0, true};
  return plans;
}

std::vector<std::string> marks(std::vector<Cuttable> const& all) {
  std::vector<std::string> marks;
  for (Cuttable const& one : all) marks.push_back(mark_text(one.mark));
  return marks;
}

LotId a_skin(Shelf& shelf) { return shelf.buy("goat", cm2(5200), 5200, "2026-02-01"); }

}  // namespace

TEST_CASE("a plan is kept under its key, once, and only that key finds it") {
  Shelf shelf;
  PlanTable const plans = two_plans();
  for (int twice = 0; twice < 2; ++twice)
    write(shelf.workshop, [&](Writing& writing) { return save_plans(writing, plans), true; });
  std::vector<PlanKey> keys{{1, 300'000, 0, 6}};
  CHECK(find_plans(shelf.workshop, keys).empty());
  for (auto const& [key, facts] : plans) keys.push_back(key);
  CHECK(find_plans(shelf.workshop, keys) == plans);
}

TEST_CASE("the shape of a skin reads back as it was said, and said anew it is another") {
  Shelf shelf;
  LotId const skin = a_skin(shelf);
  CHECK_FALSE(find_shape(shelf.workshop, skin).has_value());
  write(shelf.workshop, [&](Writing& writing) { return save_shape(writing, skin, a_shape()), true; });
  CHECK(find_shape(shelf.workshop, skin) == a_shape());
  Shape other = a_shape();
  other.flaws.clear();
  write(shelf.workshop, [&](Writing& writing) { return save_shape(writing, skin, other), true; });
  CHECK(find_shape(shelf.workshop, skin) == other);
  CHECK(check(shelf.workshop).empty());
  CHECK(take_back(shelf.workshop, newest(shelf.workshop)).has_value());
  CHECK(find_shape(shelf.workshop, skin) == a_shape());
}

TEST_CASE("a shape without an area is our mistake") {
  Shelf shelf;
  LotId const skin = a_skin(shelf);
  CHECK_THROWS_AS(
      write(shelf.workshop, [&](Writing& writing) { return save_shape(writing, skin, {}), true; }),
      std::logic_error);
}

TEST_CASE("what may be cut is the workshop's own, good on the day, and bought for no other job") {
  Shelf shelf;
  shelf.buy("board", sheets(4), 400, "2026-02-01");
  LotId const skin = a_skin(shelf);
  std::int64_t const job = shelf.new_job(), other = shelf.new_job();
  write(shelf.workshop, [&](Writing& writing) {
    Parcel parcel = Shelf::parcel("2026-06-02");
    parcel.job = job_number(shelf.workshop.connection(), other);
    parcel.lines.push_back(Shelf::line("goat", cm2(6000), 6000));
    return receive(writing, parcel).value();
  });
  std::string const mine = job_number(shelf.workshop.connection(), job);
  auto const all = cuttable(shelf.workshop, day("2026-06-03"), mine);
  CHECK(marks(all) == std::vector<std::string>{"L1", "K1"});
  CHECK(all[0].piece.cost == 400'000);
  CHECK(all[0].piece.quantity == 4'000);
  CHECK(all[1].piece.lot == skin.value);
  CHECK(cuttable(shelf.workshop, day("2026-06-03"), job_number(shelf.workshop.connection(), other)).size() ==
        3);
}

TEST_CASE("a skin of which something was cut since it was measured has no known outline") {
  Shelf shelf;
  LotId const skin = a_skin(shelf);
  write(shelf.workshop, [&](Writing& writing) { return save_shape(writing, skin, a_shape()), true; });
  CHECK(cuttable(shelf.workshop, day("2026-06-03"), "").at(0).piece.shape == a_shape());
  std::int64_t const job = shelf.new_job();
  REQUIRE(shelf.use(job, "goat", cm2(1000), "2026-06-02", "K1").has_value());
  CHECK_FALSE(cuttable(shelf.workshop, day("2026-06-03"), "").at(0).piece.shape.has_value());
}

TEST_CASE("the rest of a skin goes back with its shape at its one value, and can be cut again") {
  Shelf shelf;
  LotId const skin = a_skin(shelf);
  std::int64_t const job = shelf.new_job();
  REQUIRE(shelf.use(job, "goat", cm2(5200), "2026-06-02", "K1").has_value());
  write(shelf.workshop, [&](Writing& writing) {
    LotRow const rest =
        keep_rest_of_skin(writing, job, "K1", a_shape(), {cm2(2600).n}, day("2026-06-02"), "drawer 2")
            .value();
    CHECK(rest.parent == "K1");
    CHECK(rest.quantity == cm2(2600));
    CHECK(rest.value.minor == 1300);  // half of its half of 52.00
    CHECK(rest.place == "drawer 2");
    return true;
  });
  auto const all = cuttable(shelf.workshop, day("2026-06-03"), "");
  REQUIRE(all.size() == 1);
  CHECK(all[0].piece.lot != skin.value);
  CHECK(all[0].piece.shape == a_shape());
  CHECK(check(shelf.workshop).empty());
}
