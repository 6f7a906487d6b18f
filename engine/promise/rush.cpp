// What would have to give for an order to be ready by a day.
#include "engine/promise/hours.h"
#include "engine/promise/promise.h"
#include "engine/schedule/calendar.h"

#include <algorithm>

namespace endband {
namespace {

using schedule::Time;

constexpr Time half_hour = 1'800;

Duration most_overtime(Bench const& bench) {
  Duration most;
  for (Person const& person : bench.people) most = std::max(most, person.overtime);
  return most;
}

// Hands at work outside their usual hours, until the order is ready.
Duration overtime_worked(Bench const& bench, BenchPlan const& plan, Time ready) {
  Duration sum;
  int const days = static_cast<int>(ready / day_seconds) + 1;
  for (std::size_t person = 0; person < bench.people.size(); ++person) {
    schedule::Calendar const usual = calendar_of(bench.people[person], plan.now.on, days, {});
    for (schedule::Placed const& placed : plan.plan.tasks) {
      if (placed.hands != static_cast<int>(person)) continue;
      Time const until = std::min(placed.worked, ready);
      schedule::Calendar const& longer = plan.project.calendars[person];
      sum.n += schedule::open_between(longer, placed.start, until) -
               schedule::open_between(usual, placed.start, until);
    }
  }
  return sum;
}

Read<std::optional<Rush::Overtime>> least_overtime(OnBench const& on, int order, Date by) {
  Duration const most = most_overtime(on.bench);
  for (Duration a_day{half_hour}; a_day <= most; a_day.n += half_hour) {
    auto const plan = plan_bench(on, {.overtime = a_day});
    if (!plan) return tl::unexpected(plan.error());
    auto const ready = ready_by(on.orders, *plan, order);
    if (ready && ready->sure <= by)
      return Rush::Overtime{a_day, overtime_worked(on.bench, *plan, ready->ready), ready->half,
                            ready->four_fifths, ready->sure};
  }
  return std::nullopt;
}

Read<void> go_first(OnBench const& on, BenchPlan const& plan, int order, Rush& rush) {
  auto const first = plan_bench(on, {.first = order});
  if (!first) return tl::unexpected(first.error());
  auto const ready = ready_by(on.orders, *first, order);
  if (ready) rush.sure_if_first = ready->sure;
  for (int other = 0; other < static_cast<int>(on.orders.size()); ++other) {
    auto const due = on.orders[static_cast<std::size_t>(other)].due;
    if (other == order || !due) continue;
    auto const was = ready_by(on.orders, plan, other);
    auto const becomes = ready_by(on.orders, *first, other);
    if (was && becomes && was->sure <= *due && becomes->sure > *due)
      rush.displaced.push_back({other, was->sure, becomes->sure, *due});
  }
  return {};
}

}  // namespace

Read<Rush> rush(OnBench const& on, BenchPlan const& plan, int order, Date by) {
  Rush rush;
  auto const ready = ready_by(on.orders, plan, order);
  if (!ready) {
    rush.stands = true;
    rush.chance = 1;
    return rush;
  }
  rush.stands = ready->sure <= by;
  rush.chance = chance_by(on.orders, plan, *ready, by);
  rush.sure_if_first = ready->sure;
  if (rush.stands) return rush;
  auto overtime = least_overtime(on, order, by);
  if (!overtime) return tl::unexpected(std::move(overtime.error()));
  rush.overtime = *overtime;
  if (auto const done = go_first(on, plan, order, rush); !done) return tl::unexpected(done.error());
  return rush;
}

}  // namespace endband
