#include "engine/schedule/network.h"
#include "engine/schedule/solve.h"

#include <algorithm>
#include <stdexcept>

namespace endband::schedule {

namespace {

// A task that holds a resource: nothing holds it before `head`, nothing less than `tail` comes after.
struct Holding {
  Time head, tail;
  Time length;
  std::int64_t amount;
};

std::vector<Holding> holding(Project const& project, Network const& network, int resource) {
  std::vector<Holding> all;
  for (std::size_t i = 0; i < project.tasks.size(); ++i) {
    Task const& task = project.tasks[i];
    Moments const& moments = network.tasks[i];
    Time const tail = network.length - moments.late_finish;
    auto const add = [&](Time length, std::int64_t amount) {
      all.push_back({moments.early_start, tail + (task.work + task.wait - length), length, amount});
    };
    if (task.hands.size() == 1 && task.hands[0] == resource) add(task.work, 1);
    for (Demand const& demand : task.demands)
      if (demand.resource == resource)
        add(demand.through_wait ? task.work + task.wait : task.work, demand.amount);
  }
  std::erase_if(all, [](Holding const& one) { return one.length == 0 || one.amount <= 0; });
  return all;
}

// For every least tail, taken in turn, those that have it, by falling head: the least head, the work shared
// by the capacity, the least tail (J. Carlier and E. Pinson's heads and tails, with amounts).
Time least_of(std::vector<Holding> all, std::int64_t capacity) {
  std::sort(all.begin(), all.end(), [](Holding const& a, Holding const& b) { return a.head > b.head; });
  Time best = 0;
  for (Holding const& last : all) {
    std::int64_t work = 0;
    for (Holding const& one : all) {
      if (one.tail < last.tail) continue;
      work += one.length * one.amount;
      best = std::max(best, one.head + (work + capacity - 1) / capacity + last.tail);
    }
  }
  return best;
}

}  // namespace

Time least_finish(Project const& project) {
  auto const network = critical_path(project);
  if (!network) throw std::logic_error("the links lead in a circle");
  Time best = network->length;
  for (std::size_t i = 0; i < project.resources.size(); ++i) {
    std::int64_t const capacity = project.resources[i].capacity;
    if (capacity <= 0) continue;
    std::vector<Holding> all = holding(project, *network, static_cast<int>(i));
    best = std::max(best, least_of(all, capacity));
    // Of those that take more than half of it no two can be at once.
    std::erase_if(all, [&](Holding const& one) { return 2 * one.amount <= capacity; });
    for (Holding& one : all) one.amount = capacity;
    best = std::max(best, least_of(std::move(all), capacity));
  }
  return best;
}

}  // namespace endband::schedule
