// Orders as tasks of one project.
#pragma once

#include "engine/promise/promise.h"

#include <vector>

namespace endband {

struct BenchTasks {
  schedule::Project project;
  std::vector<BenchTask> tasks;
  std::vector<std::vector<int>>
      of_order;  // the tasks of each order, each after those it waits for: longest way first
};
struct Reach {
  int days = 0;       // of the calendars
  Duration overtime;  // a day, of each who may work so much
  bool low_times = false;
};
// Faults as of plan_bench.
Read<BenchTasks> tasks_of(Bench const& bench, StepLibrary const& library,
                          std::vector<BenchOrder> const& orders, BenchNow now, Reach reach);

}  // namespace endband
