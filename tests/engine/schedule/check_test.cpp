// A good plan broken field by field: each is refused by its name.
#include "engine/schedule/check.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband::schedule;

namespace {

// Hands 0 and 1 work 9 to 12 and 13 to 17, hours; resource 2 is a press for two, 3 a drying place.
Project project() {
  Project project;
  project.calendars = {{{9, 12}, {13, 17}, {33, 36}, {37, 41}}};
  project.resources = {{1, 0}, {1, 0}, {2, -1}, {1, -1}};
  Task sewing, pressing, leaf, varnish, edges;
  sewing.work = 2;
  sewing.hands = {0};
  pressing.work = 3;
  pressing.wait = 10;
  pressing.hands = {0, 1};
  pressing.demands = {{2, 2, true}};
  pressing.after = {{0, LinkKind::finish_start, 0}};
  leaf.work = 3;
  leaf.hands = {1};
  leaf.unbroken = true;
  leaf.release = 8;
  leaf.demands = {{3, 1, false}};
  varnish.work = 20;
  varnish.after = {{2, LinkKind::finish_start, 2}, {1, LinkKind::start_start, 1}};
  edges.work = 5;
  edges.hands = {1};
  edges.after = {{0, LinkKind::finish_finish, 1}};
  project.tasks = {sewing, pressing, leaf, varnish, edges};
  return project;
}
Plan plan() { return {{{9, 11, 11, 0}, {11, 15, 25, 0}, {9, 12, 12, 1}, {14, 34, 34, -1}, {13, 34, 34, 1}}}; }

std::vector<PlanFault> after(Placed change, std::size_t task) {
  Plan changed = plan();
  changed.tasks[task] = change;
  return check(project(), changed);
}
bool names(std::vector<PlanFault> const& faults, Broken broken, int task, int other = -1) {
  return std::find(faults.begin(), faults.end(), PlanFault{broken, task, other}) != faults.end();
}

}  // namespace

TEST_CASE("the good plan passes") { CHECK(check(project(), plan()).empty()); }

TEST_CASE("a plan of other tasks") {
  Plan changed = plan();
  changed.tasks.pop_back();
  CHECK(check(project(), changed) == std::vector<PlanFault>{{Broken::count, -1, -1}});
}

TEST_CASE("a task that is not placed") {
  CHECK(names(after({never, never, never, -1}, 4), Broken::not_placed, 4));
}

TEST_CASE("a start before time begins") {
  CHECK(names(after({-6, 14, 14, -1}, 3), Broken::negative_start, 3));
}

TEST_CASE("a start before the release") { CHECK(names(after({7, 11, 11, 1}, 2), Broken::release, 2)); }

TEST_CASE("links") {
  CHECK(names(after({10, 14, 24, 0}, 1), Broken::link, 1, 0));
  CHECK(names(after({13, 33, 33, -1}, 3), Broken::link, 3, 2));
  auto late = project();
  late.tasks[3].after[1].lag = 4;
  CHECK(check(late, plan()) == std::vector<PlanFault>{{Broken::link, 3, 1}});
  late = project();
  late.tasks[4].after[0].lag = 24;
  CHECK(check(late, plan()) == std::vector<PlanFault>{{Broken::link, 4, 0}});
  late.tasks[4].after[0].lag = 23;
  CHECK(check(late, plan()).empty());
}

TEST_CASE("hands") {
  CHECK(after({9, 11, 11, 1}, 0).front() == PlanFault{Broken::hands, 0, -1});
  CHECK(names(after({9, 11, 11, -1}, 0), Broken::hands, 0));
  CHECK(names(after({9, 11, 11, 9}, 0), Broken::hands, 0));
  CHECK(names(after({14, 34, 34, 0}, 3), Broken::hands, 3));
}

TEST_CASE("too little and too much work") {
  CHECK(after({9, 10, 10, 0}, 0) == std::vector<PlanFault>{{Broken::work, 0, -1}});
  CHECK(names(after({9, 14, 14, 0}, 0), Broken::work, 0));
  CHECK(after({14, 33, 33, -1}, 3) == std::vector<PlanFault>{{Broken::work, 3, -1}});
  CHECK(after({14, 35, 35, -1}, 3) == std::vector<PlanFault>{{Broken::work, 3, -1}});
}

TEST_CASE("closed hours") {
  CHECK(names(after({9, 13, 13, 1}, 2), Broken::calendar, 2));  // it had ended at 12
  CHECK(names(after({8, 12, 12, 1}, 2), Broken::calendar, 2));
  CHECK(after({12, 34, 34, 1}, 4).front() == PlanFault{Broken::calendar, 4, -1});  // it began at 13
}

TEST_CASE("broken off") {
  CHECK(names(after({10, 14, 14, 1}, 2), Broken::unbroken, 2));
  auto longer = project();
  longer.tasks[2].work = 5;  // fits nowhere, so it may be broken off
  Plan const broken{{{9, 11, 11, 0}, {11, 15, 25, 0}, {9, 15, 15, 1}, {17, 37, 37, -1}, {15, 36, 36, 1}}};
  CHECK(check(longer, broken).empty());
}

TEST_CASE("the wait") {
  CHECK(after({11, 15, 24, 0}, 1) == std::vector<PlanFault>{{Broken::wait, 1, -1}});
  CHECK(after({11, 15, 26, 0}, 1) == std::vector<PlanFault>{{Broken::wait, 1, -1}});
}

TEST_CASE("capacity of hands and places, at every moment") {
  CHECK(names(after({10, 15, 15, 1}, 4), Broken::capacity, 4, 1));
  auto more = project();
  more.tasks[3].demands = {{2, 1, false}};
  CHECK(check(more, plan()) == std::vector<PlanFault>{{Broken::capacity, 3, 2}});
  more.tasks[1].demands[0].through_wait = false;  // pressed from 11 to 15, varnished from 14
  CHECK(check(more, plan()) == std::vector<PlanFault>{{Broken::capacity, 3, 2}});
  more.tasks[1].demands[0].amount = 1;
  CHECK(check(more, plan()).empty());
  // A hold that begins later meets one that is still on.
  more = project();
  more.tasks[4].demands = {{3, 1, true}};
  more.tasks[3].demands = {{3, 1, false}};
  CHECK(check(more, plan()) == std::vector<PlanFault>{{Broken::capacity, 3, 3}});
}

TEST_CASE("what is demanded must be open too") {
  auto closed = project();
  closed.resources[3].calendar = 0;
  closed.tasks[3].demands = {{3, 1, false}};
  CHECK(names(check(closed, plan()), Broken::work, 3));
}

TEST_CASE("every kind has a name of its own") {
  std::vector<std::string_view> names;
  for (int i = 0; i <= static_cast<int>(Broken::capacity); ++i)
    names.push_back(broken_name(static_cast<Broken>(i)));
  std::sort(names.begin(), names.end());
  CHECK(std::unique(names.begin(), names.end()) == names.end());
  CHECK_FALSE(names.front().empty());
}
