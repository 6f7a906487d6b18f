// All orders on one bench.
#include "engine/promise/hours.h"
#include "engine/promise/promise.h"
#include "engine/promise/tasks.h"
#include "engine/schedule/place.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

namespace endband {
namespace {

using schedule::Time;

// Which order is placed when: the first as tried, jobs by the day they are due, then the book asked about.
std::vector<int> sequence_of(std::vector<BenchOrder> const& orders, int first) {
  std::vector<int> sequence(orders.size());
  std::iota(sequence.begin(), sequence.end(), 0);
  auto const rank = [&](int index) {
    BenchOrder const& order = orders[static_cast<std::size_t>(index)];
    bool const goes_first = index == first;
    return std::tuple(!goes_first, order.asked, !order.due.has_value(), order.due.value_or(Date{}), index);
  };
  std::sort(sequence.begin(), sequence.end(), [&](int a, int b) { return rank(a) < rank(b); });
  return sequence;
}

bool all_placed(schedule::Plan const& plan) {
  return std::none_of(plan.tasks.begin(), plan.tasks.end(),
                      [](schedule::Placed const& placed) { return placed.finish == schedule::never; });
}

schedule::Plan placed(BenchTasks const& made, std::vector<int> const& sequence) {
  schedule::Placer placer(made.project);
  for (int const order : sequence)
    for (int const task : made.of_order[static_cast<std::size_t>(order)]) placer.place(task);
  return placer.plan();
}

}  // namespace

Read<BenchPlan> plan_bench(OnBench const& on, Trial trial) {
  std::vector<int> const sequence = sequence_of(on.orders, trial.first);
  constexpr std::array days{200, 1'000, 3'652};
  for (int const reach : days) {
    auto made = tasks_of(on.bench, on.library, on.orders, on.now, {reach, trial.overtime, trial.low_times});
    if (!made) return tl::unexpected(std::move(made.error()));
    schedule::Plan plan = placed(*made, sequence);
    if (all_placed(plan))
      return BenchPlan{on.now, std::move(made->project), std::move(made->tasks), std::move(plan), sequence};
  }
  return refuse({FaultCode::rule_refused,
                 {"bench", 0, 0, "hours"},
                 "",
                 "hours in which all that is to be done can be done within ten years",
                 {}});
}

}  // namespace endband
