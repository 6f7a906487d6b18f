// Placing against the check, and against a search that tries every moment.
#include "engine/schedule/check.h"
#include "engine/schedule/place.h"
#include "tests/engine/schedule/any_project.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

using namespace endband::schedule;

namespace {

std::vector<int> in_turn(std::size_t count) {
  std::vector<int> order(count);
  std::iota(order.begin(), order.end(), 0);
  return order;
}

// Hours may end before all is done.
bool passes(Project const& project, Plan const& plan) {
  auto const faults = check(project, plan);
  return std::all_of(faults.begin(), faults.end(),
                     [](PlanFault const& fault) { return fault.broken == Broken::not_placed; });
}

// The first start, and of equal ends the first hands, at which the check takes the task beside those before
// it. All ends of the work are tried.
Placed by_trying(Project const& project, std::vector<Placed> const& before) {
  Project part = project;
  part.tasks.resize(before.size() + 1);
  Task const& task = part.tasks.back();
  Plan plan{before};
  for (Link const& link : task.after)
    if (before[static_cast<std::size_t>(link.from)].finish == never) return {never, never, never, -1};
  plan.tasks.emplace_back();
  std::vector<int> hands = task.hands;
  if (hands.empty()) hands.push_back(-1);
  for (Time end = 0; end < 400; ++end)
    for (int one : hands)
      for (Time start = end - task.work; start >= 0; --start) {
        plan.tasks.back() = {start, end, end + task.wait, one};
        if (passes(part, plan)) return plan.tasks.back();
      }
  return {never, never, never, -1};
}

}  // namespace

TEST_CASE("what is placed passes the check, in any order that the links allow") {
  CHECK(rc::check([] {
    Project const project = any_project(any(1, 14));
    Placer placer(project);
    std::vector<int> left = in_turn(project.tasks.size());
    while (!left.empty()) {
      std::vector<int> free;
      for (int task : left) {
        auto const& after = project.tasks[static_cast<std::size_t>(task)].after;
        if (std::all_of(after.begin(), after.end(),
                        [&](Link const& link) { return placer.placed(link.from); }))
          free.push_back(task);
      }
      int const chosen = *rc::gen::elementOf(free);
      placer.place(chosen);
      left.erase(std::find(left.begin(), left.end(), chosen));
    }
    RC_ASSERT(passes(project, placer.plan()));
  }));
}

TEST_CASE("each task is placed where a search over every moment finds it first") {
  CHECK(rc::check([] {
    Project const project = any_project(any(1, 5));
    Plan const plan = place(project, in_turn(project.tasks.size()));
    std::vector<Placed> before;
    for (Placed const& placed : plan.tasks) {
      Placed const tried = by_trying(project, before);
      RC_ASSERT(tried.worked == placed.worked);
      if (project.tasks[before.size()].work > 0) RC_ASSERT(tried.hands == placed.hands);
      before.push_back(placed);
    }
  }));
}
