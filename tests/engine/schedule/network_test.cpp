#include "engine/schedule/network.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband::schedule;

namespace {

Task lasting(Time work, std::vector<Link> after = {}) {
  Task task;
  task.work = work;
  task.after = std::move(after);
  return task;
}
Link after(int from, Time lag = 0) { return {from, LinkKind::finish_start, lag}; }
Link with(int from, Time lag) { return {from, LinkKind::start_start, lag}; }

}  // namespace

TEST_CASE("floats of two ways to one end") {
  // 0 (4) -> 2 (3); 1 (2) -> 2; 1 -> 3 (1).
  Project const project{
      {}, {}, {lasting(4), lasting(2), lasting(3, {after(0), after(1)}), lasting(1, {after(1)})}};
  auto const network = critical_path(project);
  REQUIRE(network);
  CHECK(network->length == 7);
  CHECK(network->tasks[0] == Moments{0, 4, 0, 4, 0, 0});
  CHECK(network->tasks[1] == Moments{0, 2, 2, 4, 2, 0});
  CHECK(network->tasks[2] == Moments{4, 7, 4, 7, 0, 0});
  CHECK(network->tasks[3] == Moments{2, 3, 6, 7, 4, 4});
  CHECK(network->tasks[2].critical());
  CHECK_FALSE(network->tasks[3].critical());
}

TEST_CASE("a wait is part of what a task lasts") {
  Project project{{}, {}, {lasting(2), lasting(1, {after(0)})}};
  project.tasks[0].wait = 10;
  CHECK(critical_path(project)->tasks[1].early_start == 12);
}

TEST_CASE("a release binds, and nothing starts before 0") {
  Project project{{}, {}, {lasting(2), lasting(1, {after(0, -5)}), lasting(1)}};
  project.tasks[2].release = 9;
  auto const network = critical_path(project);
  CHECK(network->tasks[1].early_start == 0);
  CHECK(network->tasks[2].early_start == 9);
  CHECK(network->length == 10);
}

TEST_CASE("a project of no tasks ends at once") {
  CHECK(critical_path({})->length == 0);
  CHECK(link_order({})->empty());
}

TEST_CASE("the order takes the least of what is free") {
  Project const project{{}, {}, {lasting(1, {after(2)}), lasting(1), lasting(1), lasting(1, {after(0)})}};
  CHECK(*link_order(project) == std::vector<int>{1, 2, 0, 3});
}

TEST_CASE("a circle is named task by task") {
  // 3 -> 1 -> 4 -> 3; 0 leads into it, 2 and 5 out of it.
  Project const project{{},
                        {},
                        {lasting(1), lasting(1, {after(3), after(0)}), lasting(1, {after(4)}),
                         lasting(1, {after(4)}), lasting(1, {after(1)}), lasting(1, {after(2)})}};
  auto const order = link_order(project);
  REQUIRE_FALSE(order);
  CHECK(order.error().tasks == std::vector<int>{1, 4, 3});
  CHECK(critical_path(project).error() == order.error());
}

TEST_CASE("a task after itself is a circle of one") {
  Project const project{{}, {}, {lasting(1), lasting(1, {after(1)})}};
  CHECK(link_order(project).error().tasks == std::vector<int>{1});
}

TEST_CASE("a link from no task is against the contract") {
  Project const project{{}, {}, {lasting(1, {after(7)})}};
  CHECK_THROWS_AS((void)link_order(project), std::logic_error);
  CHECK_THROWS_AS((void)earliest_starts(project), std::logic_error);
}

TEST_CASE("greatest lags may lead in circles") {
  // 1 at least 4 after 0, 2 at least 9 after 0, and 2 at most 3 after 1: so 1 waits until 6.
  Project project{{}, {}, {lasting(1), lasting(1, {with(0, 4), with(2, -3)}), lasting(1, {with(0, 9)})}};
  CHECK(*earliest_starts(project) == std::vector<Time>{0, 6, 9});
  // And 2 at least 4 after 1 as well: no starts are such.
  project.tasks[2].after.push_back(with(1, 4));
  auto const starts = earliest_starts(project);
  REQUIRE_FALSE(starts);
  CHECK(starts.error().tasks == std::vector<int>{1, 2});
}
