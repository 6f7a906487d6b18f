// Random small projects with calendars, several hands, demands and links of every kind.
#pragma once

#include "engine/schedule/project.h"

#include <rapidcheck.h>

namespace endband::schedule {

inline std::size_t at(int index) { return static_cast<std::size_t>(index); }
inline int any(int least, int most) { return *rc::gen::inRange(least, most + 1); }

inline Calendar any_calendar(int stretches) {
  Calendar calendar;
  Time at = any(0, 5);
  for (int i = 0; i < stretches; ++i) {
    Time const end = at + any(1, 6);
    calendar.push_back({at, end});
    at = end + any(1, 8);
  }
  return calendar;
}

// Resources 0 and 1 are hands, 2 and 3 places; only links to earlier tasks, so that the tasks are in an
// order.
inline Project any_project(int tasks) {
  Project project;
  for (int i = 0; i < 2; ++i) project.calendars.push_back(any_calendar(24));
  project.resources = {{1, any(-1, 1)}, {1, any(-1, 1)}, {any(1, 3), any(0, 3) == 0 ? 0 : -1}, {1, -1}};
  for (int i = 0; i < tasks; ++i) {
    Task task;
    task.work = any(0, 7);
    task.wait = any(0, 2) == 0 ? any(0, 9) : 0;
    int const hands = any(0, 3);
    if (hands == 1 || hands == 2) task.hands = {hands - 1};
    if (hands == 3) task.hands = {1, 0};
    task.unbroken = any(0, 2) == 0;
    if (any(0, 1) == 0) task.demands.push_back({2, any(1, project.resources[2].capacity), any(0, 1) == 0});
    if (any(0, 3) == 0) task.demands.push_back({3, 1, any(0, 1) == 0});
    task.release = any(0, 4) == 0 ? any(0, 30) : 0;
    for (int k = any(0, 2); k > 0 && i > 0; --k)
      task.after.push_back({any(0, i - 1), static_cast<LinkKind>(any(0, 2)), any(-4, 6)});
    project.tasks.push_back(std::move(task));
  }
  return project;
}

}  // namespace endband::schedule
