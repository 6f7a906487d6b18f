// What is left to do of an order after what was recorded of it.
#pragma once

#include "engine/promise/promise.h"
#include "engine/promise/step_order.h"

#include <bitset>
#include <vector>

namespace endband {

// For each line of the order's work. A line whose hours are done, but nothing after it was begun, keeps its
// wait.
struct LineLeft {
  bool to_do = true;
  schedule::Time work = 0;  // seconds of hands
};
std::vector<LineLeft> what_is_left(BenchOrder const& order, StepLibrary const& library);

std::bitset<operation_count> operations_of(Work const& work);

}  // namespace endband
