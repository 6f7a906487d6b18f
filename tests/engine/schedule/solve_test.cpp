#include "engine/schedule/solve.h"

#include "engine/schedule/builder.h"
#include "engine/schedule/check.h"
#include "engine/schedule/network.h"
#include "engine/schedule/place.h"
#include "tests/engine/schedule/any_project.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <stdexcept>

using namespace endband::schedule;

namespace {

// Always open, links that only say "after": the kind that published instances are of.
Project any_plain_project(int tasks) {
  Project project;
  project.resources = {{any(1, 4), -1}, {any(1, 4), -1}};
  for (int i = 0; i < tasks; ++i) {
    Task task;
    task.work = any(0, 6);
    for (int k = 0; k < 2; ++k)
      if (any(0, 2) > 0) task.demands.push_back({k, any(1, project.resources[at(k)].capacity), false});
    for (int k = any(0, 2); k > 0 && i > 0; --k)
      task.after.push_back({any(0, i - 1), LinkKind::finish_start, any(0, 3) == 0 ? any(0, 3) : 0});
    project.tasks.push_back(std::move(task));
  }
  return project;
}

bool allowed(Project const& project, std::vector<int> const& order) {
  std::vector<bool> before(order.size());
  for (int task : order) {
    for (Link const& link : project.tasks[at(task)].after)
      if (!before[at(link.from)]) return false;
    before[at(task)] = true;
  }
  return true;
}

Time best_of_all_orders(Project const& project) {
  std::vector<int> order(project.tasks.size());
  std::iota(order.begin(), order.end(), 0);
  Time best = never;
  do
    if (allowed(project, order)) best = std::min(best, place(project, order).finish());
  while (std::next_permutation(order.begin(), order.end()));
  return best;
}

}  // namespace

TEST_CASE("tiny projects are solved as well as by any order, and never below the bound") {
  CHECK(rc::check([] {
    Project const project = any_plain_project(any(1, 6));
    Solved const solved = solve(project, {1'000, 1});
    RC_ASSERT(check(project, solved.plan).empty());
    Time const best = best_of_all_orders(project);
    RC_ASSERT(solved.plan.finish() == best);
    RC_ASSERT(solved.bound <= solved.plan.finish());
    // Bred where there are more than 300 orders: not always the best, but never better.
    Solved const bred = solve(project, {300, 1});
    RC_ASSERT(check(project, bred.plan).empty());
    RC_ASSERT(bred.plan.finish() >= best);
  }));
}

// Breeding lists settles on 24 here; found by random projects.
TEST_CASE("where the budget is enough for every order, each is tried once") {
  Calendar hours{{1, 4}, {11, 16}, {18, 20}, {26, 28}};
  Project project{{hours}, {{1, 0}, {1, -1}, {1, -1}}, {}};
  auto const task = [&](Time work, Time wait, bool by_hand, Time release, bool through_wait) {
    Task made;
    made.work = work;
    made.wait = wait;
    if (by_hand) made.hands = {0};
    made.release = release;
    made.demands = {{1, 1, through_wait}};
    project.tasks.push_back(made);
  };
  task(4, 0, true, 0, true);
  task(1, 0, true, 4, true);
  task(1, 7, false, 0, false);
  task(2, 0, false, 2, true);
  task(4, 0, false, 0, true);
  for (Task& each : project.tasks)
    each.unbroken = &each != project.tasks.data() && &each != &project.tasks[4];
  project.tasks[4].demands.push_back({2, 1, true});
  project.tasks[2].after = {{1, LinkKind::start_start, 2}, {0, LinkKind::finish_finish, 2}};
  Solved const solved = solve(project, {1'000, 1});
  CHECK(solved.plan.finish() == 22);
  CHECK(solved.schedules == 40);  // of 5! orders those in which two tasks come before a third
}

TEST_CASE("so are tiny projects with hours, hands and lags") {
  CHECK(rc::check([] {
    Project const project = any_project(any(1, 5));
    Solved const solved = solve(project, {1'000, 1});
    for (PlanFault const& fault : check(project, solved.plan)) RC_ASSERT(fault.broken == Broken::not_placed);
    RC_ASSERT(solved.plan.finish() == best_of_all_orders(project));
    RC_ASSERT(solved.bound <= solved.plan.finish());
  }));
}

TEST_CASE("what must finish late may start early where its hands close meanwhile, and the bound knows it") {
  Project project{{{{0, 1}, {4, 20}}}, {{1, 0}}, {}};
  project.tasks.resize(3);
  project.tasks[0].work = 5;
  project.tasks[1].work = 2;  // from 0 to 1, and from 4 to 5
  project.tasks[1].hands = {0};
  project.tasks[1].after = {{0, LinkKind::finish_finish, 0}};
  project.tasks[2].work = 5;
  project.tasks[2].after = {{1, LinkKind::start_start, 0}};
  Plan const by_hand{{{0, 5, 5, -1}, {0, 5, 5, 0}, {0, 5, 5, -1}}};
  CHECK(check(project, by_hand).empty());
  CHECK(least_finish(project) == 5);
  // With hands that are always there it starts at 3.
  project.resources[0].calendar = -1;
  CHECK(least_finish(project) == 8);
}

TEST_CASE("the fast form places as one task after another, and from the end as the project turned round") {
  CHECK(rc::check([] {
    Project const project = any_plain_project(any(1, 30));
    auto const order = *link_order(project);
    auto const builder = builder_of(project);
    RC_ASSERT(builder->from_both_ends());
    Plan const placed = place(project, order);
    RC_ASSERT(builder->plan(order, End::first).tasks == placed.tasks);
    Built const built = builder->build(order, End::first);
    RC_ASSERT(built.length.finish == placed.finish());
    Plan const from_end = builder->plan(built.next, End::last);
    RC_ASSERT(check(project, from_end).empty());
    RC_ASSERT(from_end.finish() <= placed.finish());
  }));
}

TEST_CASE("larger ones pass the check, within the bound") {
  CHECK(rc::check([] {
    Project const project = any_plain_project(any(20, 40));
    Solved const solved = solve(project, {60, 3});
    RC_ASSERT(check(project, solved.plan).empty());
    RC_ASSERT(solved.bound <= solved.plan.finish());
  }));
}

TEST_CASE("the same seed gives the same plan, and the budget is kept") {
  Project project{{}, {{2, -1}}, {}};
  for (int i = 0; i < 30; ++i) {
    Task task;
    task.work = 1 + i * 7 % 5;
    task.demands = {{0, 1 + i % 2, false}};
    if (i > 4) task.after = {{i - 5, LinkKind::finish_start, i % 4 == 0 ? 9 : 0}};
    project.tasks.push_back(task);
  }
  Solved const one = solve(project, {500, 7}), two = solve(project, {500, 7});
  CHECK(one.plan.tasks == two.plan.tasks);
  CHECK(one.schedules == two.schedules);
  CHECK(one.schedules <= 500);
  CHECK(solve(project, {1, 7}).schedules == 1);
  CHECK(check(project, solve(project, {1, 7}).plan).empty());
}

TEST_CASE("what is proved stops at once") {
  Project project{{}, {{1, -1}}, {}};
  for (int i = 0; i < 5; ++i) {
    Task task;
    task.work = 2;
    task.demands = {{0, 1, false}};
    project.tasks.push_back(task);
  }
  Solved const solved = solve(project);
  CHECK(solved.bound == 10);
  CHECK(solved.proved());
  CHECK(solved.schedules == 1);
}

TEST_CASE("the bound: heads, shared work and tails") {
  Task first, wide, wide_too, last;
  first.work = 3;
  wide.work = 4;
  wide.demands = {{0, 2, false}};
  wide.after = {{0, LinkKind::finish_start, 0}};
  wide_too = wide;
  wide_too.work = 5;
  last.work = 2;
  last.after = {{1, LinkKind::finish_start, 0}, {2, LinkKind::finish_start, 0}};
  // Two of three at once is no sharing: 3 + 4 + 5 + 2. The path alone takes 10, the shared work 3 + 6 + 2.
  Project const project{{}, {{3, -1}}, {first, wide, wide_too, last}};
  CHECK(critical_path(project)->length == 10);
  CHECK(least_finish(project) == 14);
  CHECK(solve(project).plan.finish() == 14);
}

TEST_CASE("no tasks, and links in a circle") {
  CHECK(solve({}).plan.tasks.empty());
  CHECK(solve({}).proved());
  Task round;
  round.work = 1;
  round.after = {{0, LinkKind::finish_start, 0}};
  Project const circle{{}, {}, {round}};
  CHECK_THROWS_AS(solve(circle), std::logic_error);
}

TEST_CASE("as much as can be is done where the hours are too few") {
  Task work;
  work.work = 5;
  work.hands = {0};
  Task rest = work;
  rest.work = 3;
  Project const project{{{{0, 8}}}, {{1, 0}}, {work, rest, work}};
  Solved const solved = solve(project, {100, 1});
  CHECK(std::count_if(solved.plan.tasks.begin(), solved.plan.tasks.end(),
                      [](Placed const& task) { return task.finish == never; }) == 1);
  CHECK_FALSE(solved.proved());
}
