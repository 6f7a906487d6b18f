#include "engine/schedule/chain.h"

#include "engine/schedule/place.h"
#include "tests/engine/schedule/any_project.h"

#include <doctest/doctest.h>

#include <numeric>

using namespace endband::schedule;

namespace {

// Hands 0 and 1 work 9 to 12 and 13 to 17, hours of three days; 2 is a press.
Project bench(std::vector<Task> tasks) {
  Calendar days;
  for (Time day = 0; day < 72; day += 24) {
    days.push_back({day + 9, day + 12});
    days.push_back({day + 13, day + 17});
  }
  return {{days}, {{1, 0}, {1, 0}, {1, -1}}, std::move(tasks)};
}
Task handwork(Time work, Time wait = 0, std::vector<Link> after = {}, std::vector<int> hands = {0}) {
  Task task;
  task.work = work;
  task.wait = wait;
  task.after = std::move(after);
  task.hands = std::move(hands);
  return task;
}
Link after(int from, Time lag = 0) { return {from, LinkKind::finish_start, lag}; }

Plan in_turn(Project const& project) {
  std::vector<int> order(project.tasks.size());
  std::iota(order.begin(), order.end(), 0);
  return place(project, order);
}
Chain chain_of(Project const& project, int task) { return critical_chain(project, in_turn(project), task); }

// Task, why, resource; closed before, work, closed, wait.
void check_link(ChainLink const& link, int task, Because because, int resource, std::array<Time, 4> times) {
  CAPTURE(task);
  CHECK(link.task == task);
  CHECK(link.because == because);
  CHECK(link.resource == resource);
  CHECK(std::array{link.closed_before, link.work, link.closed, link.wait} == times);
}

}  // namespace

TEST_CASE("the leaf before the varnish") {
  // The leaf, 2 hours from 9, dries a day; the varnish comes after it.
  Chain const chain = chain_of(bench({handwork(2, 24), handwork(1, 0, {after(0)})}), 1);
  REQUIRE(chain.links.size() == 2);
  CHECK(chain.begin == 0);
  check_link(chain.links[0], 0, Because::nothing, -1, {9, 2, 0, 24});
  check_link(chain.links[1], 1, Because::link, -1, {0, 1, 0, 0});
}

TEST_CASE("a wait that ends at night: closed hours until morning") {
  Chain const chain = chain_of(bench({handwork(5, 10), handwork(8, 0, {after(0, 1)})}), 1);
  REQUIRE(chain.links.size() == 2);
  check_link(chain.links[0], 0, Because::nothing, -1, {9, 5, 1, 11});  // a wait of 10 and a lag of 1
  check_link(chain.links[1], 1, Because::link, -1, {7, 8, 17, 0});     // from 33 over noon and a night to 58
}

TEST_CASE("hands that are busy with another, and with a helper's work") {
  Chain chain = chain_of(bench({handwork(3), handwork(2)}), 1);
  REQUIRE(chain.links.size() == 2);
  check_link(chain.links[0], 0, Because::nothing, -1, {9, 3, 0, 0});
  check_link(chain.links[1], 1, Because::hands, 0, {1, 2, 0, 0});

  Task helped = handwork(3, 0, {}, {1});
  helped.demands = {{0, 1, false}};
  chain = chain_of(bench({helped, handwork(2)}), 1);
  REQUIRE(chain.links.size() == 2);
  check_link(chain.links[1], 1, Because::hands, 0, {1, 2, 0, 0});
}

TEST_CASE("a press that is held through a wait") {
  Task pressed = handwork(1, 6);
  pressed.demands = {{2, 1, true}};
  Task other = handwork(2, 0, {}, {1});
  other.demands = {{2, 1, false}};
  Chain const chain = chain_of(bench({pressed, other}), 1);
  REQUIRE(chain.links.size() == 2);
  check_link(chain.links[0], 0, Because::nothing, -1, {9, 1, 0, 6});
  check_link(chain.links[1], 1, Because::held, 2, {0, 1 + 1, 16, 0});
}

TEST_CASE("of two that kept it the later, of equal ones the link") {
  Task second = handwork(2, 0, {after(0)});
  Chain chain = chain_of(bench({handwork(1, 5), second, handwork(1, 0, {}, {1})}), 1);
  check_link(chain.links[1], 1, Because::link, -1, {0, 2, 0, 0});
  // Task 1 is at the hands until 17, the wait of task 0 ends at 15.
  chain = chain_of(bench({handwork(1, 5), handwork(6), handwork(2, 0, {after(0)})}), 2);
  REQUIRE(chain.links.size() == 3);
  check_link(chain.links[0], 0, Because::nothing, -1, {9, 1, 0, 0});
  check_link(chain.links[1], 1, Because::hands, 0, {0, 6, 1, 0});
  check_link(chain.links[2], 2, Because::hands, 0, {16, 2, 0, 0});
  chain = chain_of(bench({handwork(2), handwork(1, 0, {after(0)})}), 1);
  CHECK(chain.links[1].because == Because::link);
}

TEST_CASE("a gap that is too small is no chance: what ends it kept the task") {
  // Task 0 to 10, its wait to 11, task 1 from 11 to 12; task 2 of 2 hours has only the hour between.
  Task third = handwork(2);
  third.unbroken = true;
  Chain const chain = chain_of(bench({handwork(1, 1), handwork(1, 0, {after(0)}), third}), 2);
  REQUIRE(chain.links.size() == 3);
  check_link(chain.links[2], 2, Because::hands, 0, {1, 2, 0, 0});
  CHECK(chain.links[1].task == 1);
}

TEST_CASE("unbroken work waits for a stretch that is long enough") {
  Task gilding = handwork(4, 0, {after(0)});
  gilding.unbroken = true;
  Chain chain = chain_of(bench({handwork(5), gilding}), 1);
  REQUIRE(chain.links.size() == 2);
  check_link(chain.links[1], 1, Because::link, -1, {22, 4, 0, 0});
  // From 13, which is its first chance: the hour before it kept it from nothing.
  chain = chain_of(bench({handwork(1), gilding}), 1);
  REQUIRE(chain.links.size() == 1);
  check_link(chain.links[0], 1, Because::nothing, -1, {13, 4, 0, 0});
}

TEST_CASE("a release") {
  Task late = handwork(1);
  late.release = 30;
  Chain const chain = chain_of(bench({late}), 0);
  CHECK(chain.begin == 30);
  check_link(chain.links[0], 0, Because::release, -1, {3, 1, 0, 0});
}

TEST_CASE("links to starts and finishes, and through what takes no time") {
  Task overlapping = handwork(1, 0, {{0, LinkKind::start_start, 2}}, {1});
  Chain chain = chain_of(bench({handwork(6), overlapping}), 1);
  REQUIRE(chain.links.size() == 2);
  check_link(chain.links[0], 0, Because::nothing, -1, {9, 2, 0, 0});
  check_link(chain.links[1], 1, Because::link, -1, {0, 1, 0, 0});

  Task ending = handwork(2, 0, {{0, LinkKind::finish_finish, 1}}, {1});
  chain = chain_of(bench({handwork(6), ending}), 1);  // 9 to 16; so 15 to 17
  REQUIRE(chain.links.size() == 2);
  check_link(chain.links[0], 0, Because::nothing, -1, {9, 5, 1, 0});
  check_link(chain.links[1], 1, Because::link, -1, {0, 2, 0, 0});

  chain = chain_of(bench({handwork(2), handwork(0, 0, {after(0)}), handwork(1, 0, {after(1)}, {1})}), 2);
  REQUIRE(chain.links.size() == 3);
  CHECK(chain.links[1].task == 1);
  CHECK(chain.links[0].work == 2);
}

TEST_CASE("a chain is as long as the task's finish, and goes back in time") {
  CHECK(rc::check([] {
    Project const project = any_project(any(1, 14));
    Plan const plan = in_turn(project);
    int const task = any(0, static_cast<int>(project.tasks.size()) - 1);
    RC_PRE(plan.tasks[at(task)].finish != never);
    Chain const chain = critical_chain(project, plan, task);
    Time sum = chain.begin;
    for (ChainLink const& link : chain.links) {
      sum += link.closed_before + link.work + link.closed + link.wait;
      RC_ASSERT(link.closed_before >= 0);
      RC_ASSERT(link.work >= 0);
      RC_ASSERT(link.closed >= 0);
      RC_ASSERT(link.wait >= 0);
    }
    RC_ASSERT(sum == plan.tasks[at(task)].finish);
    RC_ASSERT(chain.links.back().task == task);
    RC_ASSERT(chain.begin >= 0);
  }));
}

TEST_CASE("a task that something kept starts earlier where there is nothing but its hours") {
  CHECK(rc::check([] {
    Project project = any_project(any(2, 8));
    Plan const plan = in_turn(project);
    int const task = static_cast<int>(project.tasks.size()) - 1;
    RC_PRE(plan.tasks[at(task)].finish != never);
    ChainLink const last = critical_chain(project, plan, task).links.back();
    RC_PRE(last.because != Because::nothing);
    project.tasks[at(task)].after.clear();
    project.tasks[at(task)].release = 0;
    if (plan.tasks[at(task)].hands >= 0) project.tasks[at(task)].hands = {plan.tasks[at(task)].hands};
    Placer alone(project);
    RC_ASSERT(alone.place(task).start < plan.tasks[at(task)].start);
  }));
}
