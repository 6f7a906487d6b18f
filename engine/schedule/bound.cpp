#include "engine/schedule/network.h"
#include "engine/schedule/solve.h"

#include <algorithm>
#include <stdexcept>
#include <vector>

namespace endband::schedule {

namespace {

// What must at least pass before a task starts and finishes, and after. Apart from the critical path, because
// closed hours make a task longer than its work and wait: one that must finish late may start early, and one
// that started early may finish late.
struct Ways {
  std::vector<Time> to_start, to_finish;      // from the project's start
  std::vector<Time> from_start, from_finish;  // to the project's end
};

bool has_hours(Project const& project, Task const& task) {
  auto const keeps_hours = [&](int resource) {
    return project.resources[static_cast<std::size_t>(resource)].calendar >= 0;
  };
  return std::any_of(task.hands.begin(), task.hands.end(), keeps_hours) ||
         std::any_of(task.demands.begin(), task.demands.end(),
                     [&](Demand const& demand) { return keeps_hours(demand.resource); });
}

void lead_to(Project const& project, std::size_t i, Ways& ways) {
  Task const& task = project.tasks[i];
  Time start = std::max<Time>(0, task.release), finish = 0;
  for (Link const& link : task.after) {
    auto const from = static_cast<std::size_t>(link.from);
    if (link.kind == LinkKind::finish_start) start = std::max(start, ways.to_finish[from] + link.lag);
    if (link.kind == LinkKind::start_start) start = std::max(start, ways.to_start[from] + link.lag);
    if (link.kind == LinkKind::finish_finish) finish = std::max(finish, ways.to_finish[from] + link.lag);
  }
  if (!has_hours(project, task)) start = std::max(start, finish - lasts(task));
  ways.to_start[i] = start;
  ways.to_finish[i] = std::max(finish, start + lasts(task));
}

// Of a task whose own ways are found, those of what comes before it.
void lead_from(Project const& project, std::size_t i, Ways& ways) {
  Task const& task = project.tasks[i];
  ways.from_start[i] = std::max(ways.from_start[i], ways.from_finish[i] + lasts(task));
  for (Link const& link : task.after) {
    auto const from = static_cast<std::size_t>(link.from);
    Task const& before = project.tasks[from];
    Time const of_task =
        link.lag + (link.kind == LinkKind::finish_finish ? ways.from_finish : ways.from_start)[i];
    if (link.kind != LinkKind::start_start) {
      ways.from_finish[from] = std::max(ways.from_finish[from], of_task);
      continue;
    }
    ways.from_start[from] = std::max(ways.from_start[from], of_task);
    if (!has_hours(project, before))
      ways.from_finish[from] = std::max(ways.from_finish[from], of_task - lasts(before));
  }
}

Ways least_ways(Project const& project) {
  auto const order = link_order(project);
  if (!order) throw std::logic_error("the links lead in a circle");
  std::vector<Time> const none(project.tasks.size(), 0);
  Ways ways{none, none, none, none};
  for (int const task : *order) lead_to(project, static_cast<std::size_t>(task), ways);
  for (auto task = order->rbegin(); task != order->rend(); ++task)
    lead_from(project, static_cast<std::size_t>(*task), ways);
  return ways;
}

// A task that holds a resource: nothing holds it before `head`, nothing less than `tail` comes after.
struct Holding {
  Time head, tail;
  Time length;
  std::int64_t amount;
};

std::vector<Holding> holding(Project const& project, Ways const& ways, int resource) {
  std::vector<Holding> all;
  for (std::size_t i = 0; i < project.tasks.size(); ++i) {
    Task const& task = project.tasks[i];
    auto const add = [&](Time length, std::int64_t amount) {
      all.push_back({ways.to_start[i], ways.from_finish[i] + (lasts(task) - length), length, amount});
    };
    if (task.hands.size() == 1 && task.hands[0] == resource) add(task.work, 1);
    for (Demand const& demand : task.demands)
      if (demand.resource == resource) add(demand.through_wait ? lasts(task) : task.work, demand.amount);
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
  Ways const ways = least_ways(project);
  Time best = 0;
  for (Time const finish : ways.to_finish) best = std::max(best, finish);
  for (std::size_t i = 0; i < project.resources.size(); ++i) {
    std::int64_t const capacity = project.resources[i].capacity;
    if (capacity <= 0) continue;
    std::vector<Holding> all = holding(project, ways, static_cast<int>(i));
    best = std::max(best, least_of(all, capacity));
    // Of those that take more than half of it no two can be at once.
    std::erase_if(all, [&](Holding const& one) { return 2 * one.amount <= capacity; });
    for (Holding& one : all) one.amount = capacity;
    best = std::max(best, least_of(std::move(all), capacity));
  }
  return best;
}

}  // namespace endband::schedule
