// The independent check of a plan: it shares nothing with what made it but the project's types. A plan with a
// fault is a fault of the program, never shown.
#pragma once

#include "engine/schedule/project.h"

#include <string_view>
#include <vector>

namespace endband::schedule {

enum class Broken : std::uint8_t {
  count,           // not one place for each task
  not_placed,      // a task has no place
  negative_start,  // before time begins
  release,
  link,      // other: the task it is linked from
  hands,     // none, not one of those who may do it, or some where none are wanted
  work,      // more or less open time between start and end than the work takes
  calendar,  // begins or ends in closed hours
  unbroken,  // broken off where its hands close, though it fits into one stretch
  wait,      // does not finish when the wait after the work has ended
  capacity,  // other: the resource of which more is held than there is, from the start of this task on
};
std::string_view broken_name(Broken broken);  // "negative-start"

struct PlanFault {
  Broken broken;
  int task = -1;
  int other = -1;
  friend bool operator==(PlanFault const&, PlanFault const&) = default;
};

// Empty: the plan is right. Every rule is looked at, also after the first fault, but for what is not placed.
std::vector<PlanFault> check(Project const& project, Plan const& plan);

}  // namespace endband::schedule
