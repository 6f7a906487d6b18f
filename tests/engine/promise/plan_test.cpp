#include "engine/schedule/check.h"
#include "tests/engine/promise/one_press.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace endband;
using namespace endband::one_press;
using enum OperationKind;

namespace {

struct On {
  Bench bench = one_press::bench();
  StepLibrary library = one_press::library();
  std::vector<BenchOrder> orders;
  OnBench it(Duration from = {}) const { return {bench, library, orders, {monday, from}}; }
};

schedule::Placed placed(BenchPlan const& plan, std::vector<BenchOrder> const& orders, int order,
                        OperationKind kind) {
  for (std::size_t i = 0; i < plan.tasks.size(); ++i) {
    BenchTask const& task = plan.tasks[i];
    if (task.order == order && task.kind == TaskKind::operation &&
        orders[static_cast<std::size_t>(order)].work.lines[static_cast<std::size_t>(task.source)].kind ==
            kind)
      return plan.plan.tasks[i];
  }
  FAIL("the order has no such task");
  return {};
}

}  // namespace

// Worked by hand. A is due first and has the bench to itself: folded Mon 09:00-11:00, put in the press
// 11:00-11:30 and there until 23:30, sewn Tue 09:00-12:00, pressed 13:00-13:15 until Wed 13:15, packed until
// 13:45 and taken to the post until 14:45. B folds Mon 11:30-12:00 and 13:00-14:30. The press is A's from Tue
// 13:00, and before it Ada sews A: B's turn is Wed 14:45-15:15. Sewn Thu 09:00-12:00, pressed 13:00-13:15
// until Fri 13:15, packed until 13:45, posted until 14:45. C folds Mon 14:30-16:30; the press is free again
// Fri 13:15, Ada at 14:45. Sewn Mon 7, pressed 13:00-13:15 until Tue 8, 13:15; packed and posted until 14:45.
// D is asked about. Monday has half an hour left and on Tuesday A is sewn: it folds Tue 13:15-15:15, and
// waits for the press until Tue 8, and for Ada until 14:45. Sewn Wed 9, pressed until Thu 10, 13:15, packed
// until 13:45.
TEST_CASE("three jobs and a book asked about share one press and one pair of hands") {
  On on;
  // The order in which they were accepted says nothing.
  on.orders = {order("C", monday + std::chrono::days(10)), asked("D"),
               order("A", monday + std::chrono::days(4)), order("B", monday + std::chrono::days(6))};
  auto const plan = plan_bench(on.it());
  REQUIRE(plan.has_value());
  CHECK(schedule::check(plan->project, plan->plan).empty());
  enum { c, d, a, b };
  struct Row {
    int order;
    OperationKind kind;
    schedule::Time start, worked, finish;
  };
  for (Row const& row : {Row{a, fold_sheets, at(0, 9), at(0, 11), at(0, 11)},
                         Row{a, press_sections, at(0, 11), at(0, 11, 30), at(0, 23, 30)},
                         Row{a, sew_pamphlet, at(1, 9), at(1, 12), at(1, 12)},
                         Row{a, final_press, at(1, 13), at(1, 13, 15), at(2, 13, 15)},
                         Row{a, pack_parcel, at(2, 13, 15), at(2, 13, 45), at(2, 13, 45)},
                         Row{b, fold_sheets, at(0, 11, 30), at(0, 14, 30), at(0, 14, 30)},
                         Row{b, press_sections, at(2, 14, 45), at(2, 15, 15), at(3, 3, 15)},
                         Row{b, sew_pamphlet, at(3, 9), at(3, 12), at(3, 12)},
                         Row{b, final_press, at(3, 13), at(3, 13, 15), at(4, 13, 15)},
                         Row{c, fold_sheets, at(0, 14, 30), at(0, 16, 30), at(0, 16, 30)},
                         Row{c, press_sections, at(4, 14, 45), at(4, 15, 15), at(5, 3, 15)},
                         Row{c, sew_pamphlet, at(7, 9), at(7, 12), at(7, 12)},
                         Row{c, final_press, at(7, 13), at(7, 13, 15), at(8, 13, 15)},
                         Row{d, fold_sheets, at(1, 13, 15), at(1, 15, 15), at(1, 15, 15)},
                         Row{d, press_sections, at(8, 14, 45), at(8, 15, 15), at(9, 3, 15)},
                         Row{d, sew_pamphlet, at(9, 9), at(9, 12), at(9, 12)},
                         Row{d, final_press, at(9, 13), at(9, 13, 15), at(10, 13, 15)},
                         Row{d, pack_parcel, at(10, 13, 15), at(10, 13, 45), at(10, 13, 45)}}) {
    CAPTURE(row.order);
    CAPTURE(operation_row(row.kind).name);
    schedule::Placed const is = placed(*plan, on.orders, row.order, row.kind);
    CHECK(is.start == row.start);
    CHECK(is.worked == row.worked);
    CHECK(is.finish == row.finish);
  }
  CHECK(ready_at(*plan, on.orders, d) == at(10, 13, 45));  // not the hour to the post
  auto const ready = ready_by(on.orders, *plan, d);
  REQUIRE(ready.has_value());
  CHECK(ready->half == monday + std::chrono::days(10));
  CHECK(ready->sure == ready->half);  // nothing varies
  CHECK(ready->hands == Duration{2 * hour + 30 * minute + 3 * hour + 15 * minute + 30 * minute + hour});
}

TEST_CASE("what was recorded is not planned again") {
  On on;
  on.orders = {order("A")};
  auto const ready_with = [&](std::vector<Worked> worked) {
    on.orders[0].worked = std::move(worked);
    return ready_at(plan_bench(on.it()).value(), on.orders, 0);
  };
  CHECK(ready_with({}) == at(2, 13, 45));
  SUBCASE("an hour of the folding: the press is reached an hour earlier, the evening is the same") {
    CHECK(ready_with({{fold_sheets, std::nullopt, Duration{hour}, false}}) == at(2, 13, 45));
    auto const plan = plan_bench(on.it()).value();
    CHECK(placed(plan, on.orders, 0, press_sections).start == at(0, 10));
  }
  SUBCASE("sewing was begun: folding and the first pressing are past") {
    // Two of three hours are left of nothing but the sewing: Mon 09:00-11:00, pressed from 11:00 until Tue
    // 11:15, packed until 11:45.
    CHECK(ready_with({{sew_pamphlet, std::nullopt, Duration{hour}, false}}) == at(1, 11, 45));
  }
  SUBCASE("hours told of a part go to its operations in their order") {
    CHECK(ready_with({{std::nullopt, Part::text_block, Duration{2 * hour + 10 * minute}, false}}) ==
          ready_with({{fold_sheets, std::nullopt, Duration{2 * hour}, false},
                      {press_sections, std::nullopt, Duration{10 * minute}, false}}));
  }
  SUBCASE("a step that is done keeps its wait until something after it is begun") {
    // In the press from now on: Mon 00:00 to 12:00; sewn 13:00-16:00, pressed 16:00-16:15 until Tue 16:15,
    // packed until 16:45.
    CHECK(ready_with({{press_sections, std::nullopt, Duration{30 * minute}, false}}) == at(1, 16, 45));
  }
  SUBCASE("said to be finished, however little it took") {
    CHECK(ready_with({{sew_pamphlet, std::nullopt, Duration{hour}, true}}) == at(1, 9, 45));
  }
  SUBCASE("all is done but the post") {
    CHECK_FALSE(ready_with({{pack_parcel, std::nullopt, Duration{30 * minute}, false}}).has_value());
    CHECK_FALSE(ready_by(on.orders, plan_bench(on.it()).value(), 0).has_value());
  }
}

TEST_CASE("a job that waits for its customer stands aside") {
  On on;
  on.orders = {order("A", monday + std::chrono::days(4)), asked("D")};
  on.orders[0].waits_for_customer = true;
  auto const plan = plan_bench(on.it()).value();
  CHECK_FALSE(ready_at(plan, on.orders, 0).has_value());
  CHECK(ready_at(plan, on.orders, 1) == at(2, 13, 45));
}

TEST_CASE("goods on their way hold back what is made of them, and work by others what comes after it") {
  On on;
  on.orders = {order("A")};
  SUBCASE("thread for the sewing in three days: sewn Thu 09:00-12:00") {
    on.orders[0].goods = {{"linen", Duration{3 * day}, {Part::sewing}}};
    auto const plan = plan_bench(on.it()).value();
    CHECK(placed(plan, on.orders, 0, fold_sheets).start == at(0, 9));
    CHECK(placed(plan, on.orders, 0, sew_pamphlet).start == at(3, 9));
  }
  SUBCASE("a stone is set by another after the last pressing, two days") {
    on.orders[0].outside = {{"a stone", OutsideKind::stone_setting, Duration{2 * day}}};
    auto const plan = plan_bench(on.it()).value();
    // Pressed until Wed 13:15, away until Fri 13:15.
    CHECK(placed(plan, on.orders, 0, pack_parcel).start == at(4, 13, 15));
  }
}

TEST_CASE("what cannot be planned is refused by name") {
  On on;
  on.orders = {order("A")};
  auto const refused = [&] {
    auto const plan = plan_bench(on.it());
    REQUIRE_FALSE(plan.has_value());
    REQUIRE(plan.error().size() == 1);
    return plan.error().front();
  };
  SUBCASE("nobody works here") {
    on.bench.people.clear();
    CHECK(refused().code == FaultCode::missing_setting);
  }
  SUBCASE("a step that nobody here may do") {
    on.library.steps[2].who = {"bea", "cato"};
    Fault const fault = refused();
    CHECK(fault.code == FaultCode::unknown_code);
    CHECK(fault.where.field == "sew-pamphlet");
    CHECK(fault.found == "bea cato");
  }
  SUBCASE("a press that the bench does not have, or has none of") {
    on.bench.places[0].count = 0;
    CHECK(plan_bench(on.it()).error().size() == 2);
    CHECK(plan_bench(on.it()).error()[0].where.field == "press-sections");
    CHECK(plan_bench(on.it()).error()[0].found == "press");
  }
  SUBCASE("steps in a circle") {
    on.library.steps[0].after = {sew_pamphlet};
    Fault const fault = refused();
    CHECK(fault.code == FaultCode::rule_refused);
    CHECK(fault.found.find("fold-sheets") != std::string::npos);
    CHECK(fault.found.find("sew-pamphlet") != std::string::npos);
  }
  SUBCASE("no hours in any week") {
    for (auto& stretches : on.bench.people[0].week) stretches.clear();
    CHECK(refused().code == FaultCode::rule_refused);
  }
}

TEST_CASE("days off and overtime") {
  On on;
  on.orders = {order("A")};
  SUBCASE("Tuesday is off: sewn on Wednesday") {
    on.bench.people[0].off = {{monday + std::chrono::days(1), monday + std::chrono::days(1)}};
    CHECK(ready_at(plan_bench(on.it()).value(), on.orders, 0) == at(3, 13, 45));
  }
  SUBCASE("a plan of the afternoon begins in the afternoon") {
    auto const plan = plan_bench(on.it(Duration{14 * hour})).value();
    CHECK(placed(plan, on.orders, 0, fold_sheets).start == at(0, 14));
  }
}

TEST_CASE("what would have to give") {
  On on;
  on.bench.people[0].overtime = Duration{3 * hour};
  on.orders = {order("A", monday + std::chrono::days(2)), asked("D")};
  auto const plan = plan_bench(on.it()).value();
  // D is pressed after A: from Wed 14:45; ready on Friday.
  auto const friday = monday + std::chrono::days(4);
  REQUIRE(ready_by(on.orders, plan, 1)->sure == friday);
  SUBCASE("nothing, by Friday") {
    auto const way = rush(on.it(), plan, 1, friday).value();
    CHECK(way.stands);
    CHECK(way.chance == 1);
    CHECK_FALSE(way.overtime.has_value());
    CHECK(way.displaced.empty());
  }
  SUBCASE("by Wednesday it would have to go before A, which is then late") {
    auto const way = rush(on.it(), plan, 1, monday + std::chrono::days(2)).value();
    CHECK_FALSE(way.stands);
    CHECK(way.chance == 0);
    CHECK(way.sure_if_first == monday + std::chrono::days(2));
    REQUIRE(way.displaced.size() == 1);
    CHECK(way.displaced[0].order == 0);
    CHECK(way.displaced[0].was == monday + std::chrono::days(2));
    CHECK(way.displaced[0].becomes == friday);
  }
}

// Folded Mon 09:00-11:00 and in the press until 23:30; nine hours of sewing are Tue 09:00-17:00 without its
// lunch and Wed 09:00-11:00, packed until 11:30. On Tuesday evening it can be ready with 17:00-19:30 more:
// two hours and a half.
TEST_CASE("overtime is the least that makes it sure, and counted where it is worked") {
  On on;
  on.bench.people[0].overtime = Duration{3 * hour};
  on.orders = {asked("D")};
  on.orders[0].work.lines[2] = line(sew_pamphlet, Part::sewing, 9 * hour);
  on.orders[0].work.lines.erase(on.orders[0].work.lines.begin() + 3);  // no last pressing
  auto const plan = plan_bench(on.it()).value();
  REQUIRE(ready_at(plan, on.orders, 0) == at(2, 11, 30));
  auto const tuesday = monday + std::chrono::days(1);
  auto const way = rush(on.it(), plan, 0, tuesday).value();
  CHECK_FALSE(way.stands);
  REQUIRE(way.overtime.has_value());
  CHECK(way.overtime->a_day == Duration{2 * hour + 30 * minute});
  CHECK(way.overtime->in_all == Duration{2 * hour + 30 * minute});
  CHECK(way.overtime->sure == tuesday);
  on.bench.people[0].overtime = Duration{2 * hour};
  CHECK_FALSE(rush(on.it(), plan, 0, tuesday).value().overtime.has_value());
}

TEST_CASE("what varies makes the sure day later, never the even one, and a day more is surer") {
  On on;
  on.orders = {asked("D")};
  WorkLine& sewing = on.orders[0].work.lines[2];
  sewing.low_seconds = Ratio(hour);
  sewing.high_seconds = Ratio(25 * hour);  // likely (6 x 5 - 1 - 25) / 4 = 1 h
  sewing.mean_seconds = Ratio(5 * hour);
  auto const plan = plan_bench(on.it()).value();
  auto const ready = ready_by(on.orders, plan, 0);
  REQUIRE(ready.has_value());
  CHECK(ready->half == monday + std::chrono::days(2));
  // Beta-PERT: (mean - low)(high - mean) / 7 = 4 h x 20 h / 7, so 3.38 h; 1.645 of them are 5 h 34 min of
  // hands after Wed 15:45, which end on Thursday at 14:19.
  CHECK(ready->deviation_s == doctest::Approx(std::sqrt(4.0 * 20 / 7) * hour));
  CHECK(ready->sure == monday + std::chrono::days(3));
  double before = 0;
  for (int days = 0; days < 9; ++days) {
    double const chance = chance_by(on.orders, plan, *ready, monday + std::chrono::days(days));
    CHECK(chance >= before);
    before = chance;
    if (monday + std::chrono::days(days) >= ready->sure) CHECK(chance >= 0.95);
    if (monday + std::chrono::days(days) < ready->sure) CHECK(chance < 0.95);
  }
  CHECK(before > 0.99);
}

TEST_CASE(
    "low times are never ready later than means here, and the sure day is one on which somebody works") {
  On on;
  on.orders = {asked("D")};
  for (WorkLine& each : on.orders[0].work.lines) {
    each.low_seconds = each.mean_seconds * Ratio(1, 2);
    each.high_seconds = each.mean_seconds * Ratio(3);
    each.wait_high = Duration{each.wait_low.n * 3};
  }
  auto const plan = plan_bench(on.it()).value();
  auto const low = plan_bench(on.it(), {.low_times = true}).value();
  CHECK(*ready_at(low, on.orders, 0) < *ready_at(plan, on.orders, 0));
  auto const ready = ready_by(on.orders, plan, 0);
  for (Date const on_day : {ready->half, ready->four_fifths, ready->sure})
    CHECK(std::chrono::weekday(on_day).iso_encoding() <= 5);
}

TEST_CASE("who works around the clock is planned around the clock") {
  On on;
  for (auto& stretches : on.bench.people[0].week) stretches = {{0, day}};
  on.orders = {order("A")};
  // Folded Mon 00:00-02:00, pressed 02:00-02:30 until 14:30, sewn until 17:30, pressed until Tue 17:45,
  // packed until 18:15.
  CHECK(ready_at(plan_bench(on.it()).value(), on.orders, 0) == at(1, 18, 15));
  on.bench.people[0].week[0] = {{9 * hour, 22 * hour}};
  on.bench.people[0].overtime = Duration{4 * hour};
  CHECK(plan_bench(on.it(), {.overtime = Duration{4 * hour}}).has_value());  // until midnight, and on
}
