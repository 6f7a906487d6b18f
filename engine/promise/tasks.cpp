#include "engine/promise/tasks.h"

#include "engine/promise/hours.h"
#include "engine/promise/left.h"
#include "engine/promise/step_order.h"
#include "engine/schedule/network.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace endband {
namespace {

using schedule::Task;
using schedule::Time;

std::size_t index_of(OperationKind kind) { return static_cast<std::size_t>(kind); }

Where step_where(OperationKind kind) { return {"steps", 0, 0, std::string(operation_row(kind).name)}; }

// People are the first resources, places the next.
schedule::Project resources_of(Bench const& bench, BenchNow now, Reach reach) {
  schedule::Project project;
  for (Person const& person : bench.people) {
    project.resources.push_back({1, static_cast<int>(project.calendars.size())});
    project.calendars.push_back(
        calendar_of(person, now.on, reach.days, std::min(person.overtime, reach.overtime)));
  }
  for (Place const& place : bench.places) project.resources.push_back({place.count, -1});
  return project;
}

// Whose hands, which place: a step as resources.
class Means {
 public:
  Means(Bench const& bench, StepLibrary const& library) : bench_(bench), steps_(library) {
    for (int i = 0; i < static_cast<int>(bench.people.size()); ++i) everyone_.push_back(i);
  }

  void give(OperationKind kind, Task& task, std::vector<Fault>& faults) const {
    Step const* const step = steps_.find(kind);
    task.hands = step == nullptr || step->who.empty() ? everyone_ : people(*step, faults);
    if (step == nullptr || step->place.empty()) return;
    Place const* const place = bench_.place(step->place);
    if (place == nullptr || place->count < 1)
      return add(faults, {FaultCode::unknown_code,
                          step_where(kind),
                          step->place,
                          "a press or place that the bench has",
                          {}});
    task.demands.push_back(
        {static_cast<int>(everyone_.size() + static_cast<std::size_t>(place - bench_.places.data())), 1,
         true});
  }

 private:
  // One step may stand in many orders; its fault is told once.
  static void add(std::vector<Fault>& faults, Fault fault) {
    bool const told = std::any_of(faults.begin(), faults.end(), [&](Fault const& known) {
      return known.where.field == fault.where.field && known.found == fault.found;
    });
    if (!told) faults.push_back(std::move(fault));
  }

  std::vector<int> people(Step const& step, std::vector<Fault>& faults) const {
    std::vector<int> found;
    std::string named;
    for (std::string const& code : step.who) {
      if (Person const* const person = bench_.person(code))
        found.push_back(static_cast<int>(person - bench_.people.data()));
      named += (named.empty() ? "" : " ") + code;
    }
    if (found.empty())
      add(faults,
          {FaultCode::unknown_code, step_where(step.kind), named, "somebody of the bench who may do it", {}});
    return found;
  }

  Bench const& bench_;
  StepIndex steps_;
  std::vector<int> everyone_;
};

// One order's tasks, appended to the project.
class Adding {
 public:
  Adding(BenchTasks& to, BenchOrder const& order, int index, StepLibrary const& library, BenchNow now,
         bool low_times)
      : to_(to),
        order_(order),
        index_(index),
        now_(now),
        low_times_(low_times),
        left_(what_is_left(order, library)),
        steps_(library, to_do()),
        of_kind_(operation_count) {}

  void add(Means const& means, std::vector<Fault>& faults) {
    add_operations(means, faults);
    for (std::size_t i = 0; i < order_.outside.size(); ++i) add_outside(static_cast<int>(i));
    for (std::size_t i = 0; i < order_.goods.size(); ++i) add_goods(static_cast<int>(i));
  }

 private:
  std::bitset<operation_count> to_do() const {
    std::bitset<operation_count> kinds;
    for (std::size_t i = 0; i < left_.size(); ++i)
      if (left_[i].to_do) kinds.set(index_of(order_.work.lines[i].kind));
    return kinds;
  }

  // Of what is left, as much as the low time is of the mean.
  static Ratio low_share(WorkLine const& line) {
    return line.mean_seconds == Ratio(0) ? Ratio(1) : line.low_seconds / line.mean_seconds;
  }

  int push(TaskKind kind, int source, Task task) {
    task.release = now_.from.n;
    int const number = static_cast<int>(to_.project.tasks.size());
    to_.project.tasks.push_back(std::move(task));
    to_.tasks.push_back({kind, index_, source});
    to_.of_order.back().push_back(number);
    return number;
  }

  void add_operations(Means const& means, std::vector<Fault>& faults) {
    for (std::size_t i = 0; i < left_.size(); ++i) {
      if (!left_[i].to_do) continue;
      WorkLine const& line = order_.work.lines[i];
      Task task;
      task.work =
          low_times_ ? round_product(Ratio(left_[i].work), low_share(line), Rounding::up) : left_[i].work;
      task.wait = low_times_ ? line.wait_low.n : (line.wait_low.n + line.wait_high.n) / 2;
      // What is wet does not wait for the morning.
      task.unbroken = task.wait > 0 || must_set(line.kind);
      means.give(line.kind, task, faults);
      if (task.work == 0) task.hands.clear();
      of_kind_[index_of(line.kind)].push_back(
          push(TaskKind::operation, static_cast<int>(i), std::move(task)));
    }
    for (std::size_t kind = 0; kind < operation_count; ++kind)
      for (int const task : of_kind_[kind])
        for (OperationKind const before : steps_.before(static_cast<OperationKind>(kind))) link(before, task);
  }

  void link(OperationKind before, int task) {
    for (int const first : of_kind_[index_of(before)])
      to_.project.tasks[static_cast<std::size_t>(task)].after.push_back({first});
  }

  // What the order does not have hands on to what comes after it, at the latest to the end.
  void add_outside(int source) {
    AwaitedWork const& awaited = order_.outside[static_cast<std::size_t>(source)];
    Task task;
    task.wait = awaited.lead.n;
    int const number = push(TaskKind::outside, source, std::move(task));
    OutsideOrder const order = outside_order(awaited.kind);
    for (OperationKind const before : steps_.nearest(order.after)) link(before, number);
    hold_back(order.before, number);
    hold_back(outside_order(OutsideKind::other).before, number);
  }

  void add_goods(int source) {
    AwaitedGoods const& awaited = order_.goods[static_cast<std::size_t>(source)];
    Task task;
    task.wait = awaited.lead.n;
    int const number = push(TaskKind::goods, source, std::move(task));
    link(OperationKind::order_materials, number);
    for (std::size_t i = 0; i < to_.tasks.size(); ++i) {
      BenchTask const& other = to_.tasks[i];
      if (other.order != index_ || other.kind != TaskKind::operation) continue;
      Part const part = order_.work.lines[static_cast<std::size_t>(other.source)].part;
      if (std::find(awaited.parts.begin(), awaited.parts.end(), part) != awaited.parts.end())
        to_.project.tasks[i].after.push_back({number});
    }
  }

  void hold_back(std::span<OperationKind const> kinds, int number) {
    for (OperationKind const kind : kinds)
      for (int const task : of_kind_[index_of(kind)])
        to_.project.tasks[static_cast<std::size_t>(task)].after.push_back({number});
  }

  BenchTasks& to_;
  BenchOrder const& order_;
  int index_;
  BenchNow now_;
  bool low_times_;
  std::vector<LineLeft> left_;
  StepOrder steps_;
  std::vector<std::vector<int>> of_kind_;
};

// Working time passes slower than the clock: so many seconds of the week, about, for one of work.
Time clock_for_work(Bench const& bench) {
  Time most = 1;
  for (Person const& person : bench.people) most = std::max(most, length_of(person.week).n);
  return std::max<Time>(1, 7 * day_seconds / most);
}

// From the start of each task to the end of what waits for it; `order`: each task after those it is linked
// from.
std::vector<Time> ways_to_the_end(schedule::Project const& project, std::vector<int> const& order,
                                  Time slow) {
  std::vector<Time> way(project.tasks.size());
  for (std::size_t i = order.size(); i-- > 0;) {
    auto const number = static_cast<std::size_t>(order[i]);
    Task const& task = project.tasks[number];
    way[number] += task.work * slow + task.wait;
    for (schedule::Link const& link : task.after) {
      Time& before = way[static_cast<std::size_t>(link.from)];
      before = std::max(before, way[number]);
    }
  }
  return way;
}

// Sorts the tasks of each order; what comes before another never has the shorter way. An order whose tasks
// wait for each other in a circle is told.
std::optional<int> longest_way_first(BenchTasks& made, Time slow) {
  auto const order = schedule::link_order(made.project);
  if (!order) return made.tasks[static_cast<std::size_t>(order.error().tasks.front())].order;
  std::vector<Time> const way = ways_to_the_end(made.project, *order, slow);
  std::vector<std::size_t> place(order->size());
  for (std::size_t i = 0; i < order->size(); ++i) place[static_cast<std::size_t>((*order)[i])] = i;
  auto const rank = [&](int task) {
    auto const number = static_cast<std::size_t>(task);
    return std::pair(-way[number], place[number]);
  };
  for (std::vector<int>& tasks : made.of_order)
    std::sort(tasks.begin(), tasks.end(), [&](int a, int b) { return rank(a) < rank(b); });
  return std::nullopt;
}

Read<void> no_circle(StepLibrary const& library) {
  auto const circle = circle_of(library);
  if (circle.empty()) return {};
  std::string told;
  for (OperationKind const kind : circle) told += std::string(operation_row(kind).name) + " before ";
  told += operation_row(circle.front()).name;
  return refuse({FaultCode::rule_refused, step_where(circle.front()), told, "steps without a circle", {}});
}

}  // namespace

Read<BenchTasks> tasks_of(Bench const& bench, StepLibrary const& library,
                          std::vector<BenchOrder> const& orders, BenchNow now, Reach reach) {
  if (auto const sound = no_circle(library); !sound) return tl::unexpected(sound.error());
  if (bench.people.empty())
    return refuse({FaultCode::missing_setting,
                   {"bench", 0, 0, "people"},
                   "",
                   "bench set CODE --hours \"Mon-Fri 09:00-12:30 13:30-17:00\"",
                   {}});
  BenchTasks made{resources_of(bench, now, reach), {}, {}};
  Means const means(bench, library);
  std::vector<Fault> faults;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    made.of_order.emplace_back();
    if (orders[i].waits_for_customer) continue;
    Adding(made, orders[i], static_cast<int>(i), library, now, reach.low_times).add(means, faults);
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  if (auto const circle = longest_way_first(made, clock_for_work(bench)))
    return refuse({FaultCode::rule_refused,
                   {"steps", 0, 0, "after"},
                   orders[static_cast<std::size_t>(*circle)].name,
                   "steps that do not come before work by others which comes before them",
                   {}});
  return made;
}

}  // namespace endband
