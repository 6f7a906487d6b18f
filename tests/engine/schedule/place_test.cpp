#include "engine/schedule/place.h"

#include <doctest/doctest.h>

#include <numeric>
#include <stdexcept>

using namespace endband::schedule;

namespace {

// Two days of two stretches: 9 to 12 and 13 to 17, in hours.
Calendar const two_days{{9, 12}, {13, 17}, {33, 36}, {37, 41}};

Task handwork(Time work, std::vector<int> hands = {0}) {
  Task task;
  task.work = work;
  task.hands = std::move(hands);
  return task;
}
Task waiting(Time work) { return handwork(work, {}); }

Project bench(std::vector<Task> tasks) {
  return {{two_days, {{13, 17}, {37, 41}}}, {{1, 0}, {1, 1}, {2, -1}}, std::move(tasks)};
}
constexpr int press = 2;  // two at once, always open

Plan in_turn(Project const& project) {
  std::vector<int> order(project.tasks.size());
  std::iota(order.begin(), order.end(), 0);
  return place(project, order);
}

}  // namespace

TEST_CASE("work stops where its hands close and goes on") {
  CHECK(in_turn(bench({handwork(4)})).tasks[0] == Placed{9, 14, 14, 0});
  CHECK(in_turn(bench({handwork(8)})).tasks[0] == Placed{9, 34, 34, 0});
  CHECK(in_turn(bench({handwork(3)})).tasks[0] == Placed{9, 12, 12, 0});  // to closing, not to opening
}

TEST_CASE("a wait runs overnight") {
  Task glued = handwork(2);
  glued.wait = 20;
  CHECK(in_turn(bench({glued})).tasks[0] == Placed{9, 11, 31, 0});
}

TEST_CASE("without hands work runs around the clock") {
  CHECK(in_turn(bench({waiting(30)})).tasks[0] == Placed{0, 30, 30, -1});
}

TEST_CASE("the start is where work can begin, not in closed hours") {
  Task later = handwork(1);
  later.release = 12;
  CHECK(in_turn(bench({later})).tasks[0].start == 13);
}

TEST_CASE("unbroken work waits for a stretch it fits into") {
  Task gilding = handwork(4);
  gilding.unbroken = true;
  CHECK(in_turn(bench({gilding})).tasks[0] == Placed{13, 17, 17, 0});
  CHECK(in_turn(bench({handwork(1), gilding})).tasks[1].start == 13);
  CHECK(in_turn(bench({handwork(4), gilding})).tasks[1].start == 37);
  gilding.work = 5;  // fits nowhere: it is broken off like any
  CHECK(in_turn(bench({gilding})).tasks[0] == Placed{9, 15, 15, 0});
}

TEST_CASE("one pair of hands does one thing at a time, and fills the gap of a wait") {
  Task first = handwork(1), second = handwork(1);
  first.wait = 4;
  second.after = {{0, LinkKind::finish_start, 0}};
  Plan const plan = in_turn(bench({first, second, handwork(2)}));
  CHECK(plan.tasks[0] == Placed{9, 10, 14, 0});
  CHECK(plan.tasks[1] == Placed{14, 15, 15, 0});
  CHECK(plan.tasks[2] == Placed{10, 12, 12, 0});
  // 4 more hours do not fit before 14.
  CHECK(in_turn(bench({first, second, handwork(4)})).tasks[2] == Placed{15, 35, 35, 0});
}

TEST_CASE("of several hands those that end first, then the first listed") {
  CHECK(in_turn(bench({handwork(2, {1, 0})})).tasks[0] == Placed{9, 11, 11, 0});
  CHECK(in_turn(bench({handwork(9, {0, 1}), handwork(1, {0, 1})})).tasks[1] == Placed{13, 14, 14, 1});
  Task afternoon = handwork(2, {1, 0});
  afternoon.release = 13;
  CHECK(in_turn(bench({afternoon})).tasks[0].hands == 1);
  afternoon.hands = {0, 1};
  CHECK(in_turn(bench({afternoon})).tasks[0].hands == 0);
}

TEST_CASE("what is demanded is held overnight, and through the wait only if so said") {
  Task pressed = handwork(8, {0});
  pressed.wait = 10;
  pressed.demands = {{press, 2, false}};
  Task other = waiting(5);
  other.demands = {{press, 1, false}};
  other.release = 5;
  CHECK(in_turn(bench({pressed, other})).tasks[1].start == 34);
  pressed.demands[0].through_wait = true;
  CHECK(in_turn(bench({pressed, other})).tasks[1].start == 44);
  other.work = 9;  // just fits before
  other.release = 0;
  CHECK(in_turn(bench({pressed, other})).tasks[1].start == 0);
  pressed.demands[0].amount = 1;
  other.work = 50;
  CHECK(in_turn(bench({pressed, other})).tasks[1].start == 0);
}

TEST_CASE("demands of one resource add up") {
  Task both = waiting(3);
  both.wait = 4;
  both.demands = {{press, 1, false}, {press, 1, true}};
  Task one = waiting(2);
  one.demands = {{press, 1, false}};
  CHECK(in_turn(bench({both, one})).tasks[1].start == 3);
  both.demands[0].amount = 2;
  CHECK(in_turn(bench({both})).tasks[0].finish == never);
}

TEST_CASE("work goes on only while what it demands is open too") {
  Task helped = handwork(5);
  helped.demands = {{1, 1, false}};
  CHECK(in_turn(bench({helped})).tasks[0] == Placed{13, 38, 38, 0});
  Task alone = waiting(2);
  alone.demands = {{1, 1, false}};
  CHECK(in_turn(bench({alone})).tasks[0] == Placed{13, 15, 15, -1});
}

TEST_CASE("links with lags") {
  Task const first = waiting(10);
  auto const second = [&](LinkKind kind, Time lag, Time work = 3) {
    Task task = waiting(work);
    task.after = {{0, kind, lag}};
    return in_turn(bench({first, task})).tasks[1].start;
  };
  CHECK(second(LinkKind::finish_start, 2) == 12);
  CHECK(second(LinkKind::finish_start, -4) == 6);
  CHECK(second(LinkKind::finish_start, -40) == 0);
  CHECK(second(LinkKind::start_start, 2) == 2);
  CHECK(second(LinkKind::finish_finish, 2) == 9);
  CHECK(second(LinkKind::finish_finish, 2, 30) == 0);
}

TEST_CASE("finish to finish with hands that close") {
  Task const first = waiting(20);
  auto const second = [&](Time lag, Time work) {
    Task task = handwork(work);
    task.after = {{0, LinkKind::finish_finish, lag}};
    return in_turn(bench({first, task})).tasks[1];
  };
  CHECK(second(-3, 2) == Placed{15, 17, 17, 0});  // ends at closing
  CHECK(second(0, 2) == Placed{16, 34, 34, 0});   // an hour before closing, an hour after opening
  CHECK(second(15, 2) == Placed{33, 35, 35, 0});
  CHECK(second(16, 3) == Placed{33, 36, 36, 0});
  CHECK(second(-10, 6) == Placed{9, 16, 16, 0});
  CHECK(second(25, 1).finish == never);
}

TEST_CASE("what its hands have no hours for is never done, nor what is linked from it") {
  Task late = handwork(1);
  late.after = {{0, LinkKind::start_start, 0}};
  Plan const plan = in_turn(bench({handwork(20), late, handwork(14)}));
  CHECK(plan.tasks[0] == Placed{never, never, never, -1});
  CHECK(plan.tasks[1].start == never);
  CHECK(plan.tasks[2].finish == 41);
  CHECK(plan.finish() == never);
}

TEST_CASE("what takes no time is done at any hour, and holds nothing") {
  Task mark = handwork(0);
  mark.release = 20;
  mark.demands = {{press, 2, false}};
  Task pressing = waiting(100);
  pressing.demands = {{press, 2, false}};
  CHECK(in_turn(bench({pressing, mark})).tasks[1] == Placed{20, 20, 20, 0});
}

TEST_CASE("a copy goes on from what is placed, tasks may be added") {
  Project project = bench({handwork(2), handwork(2)});
  Placer agreed(project);
  agreed.place(0);
  Placer asked = agreed;
  CHECK(asked.place(1).start == 11);
  project.tasks.push_back(handwork(1));
  CHECK(agreed.place(2).start == 11);
  CHECK(asked.place(2).start == 14);
  CHECK(asked.placed(1));
  CHECK_FALSE(agreed.placed(1));
}

TEST_CASE("an order that is none is against the contract") {
  Task second = handwork(1);
  second.after = {{0, LinkKind::finish_start, 0}};
  Project const project = bench({handwork(1), second});
  CHECK_THROWS_AS(place(project, std::vector{1, 0}), std::logic_error);
  CHECK_THROWS_AS(place(project, std::vector{0, 0}), std::logic_error);
  CHECK_THROWS_AS(place(project, std::vector{0}), std::logic_error);
  CHECK_THROWS_AS(place(project, std::vector{0, 2}), std::logic_error);
}
