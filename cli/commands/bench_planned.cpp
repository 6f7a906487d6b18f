#include "cli/commands/bench_planned.h"

#include "cli/words/values.h"
#include "engine/promise/hours.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

namespace endband::cli {
namespace {

using schedule::Time;

BenchTask const& bench_task(BenchPlanned const& planned, int task) {
  return planned.plan.tasks[static_cast<std::size_t>(task)];
}

BenchOrder const& order_of(BenchPlanned const& planned, int task) {
  return planned.seen.orders[static_cast<std::size_t>(bench_task(planned, task).order)];
}

// Hours up to a day and a half, then days.
std::string span_words(Time seconds) {
  constexpr Time hours_up_to = 36 * 3'600;
  if (seconds <= hours_up_to) return hours_words(Ratio(seconds));
  return fmt::format("{:.1f} days", static_cast<double>(seconds) / static_cast<double>(day_seconds));
}

// What the way to the end of an order is made of.
struct Way {
  Time hands = 0, before = 0, waits = 0, goods = 0, others = 0, closed = 0;
  std::vector<std::string> orders_before;  // on the way, in its order
  Time longest_wait = 0;
  int longest = -1;  // task that it follows
  std::string goods_name, others_name;
};

void add_own(BenchPlanned const& planned, schedule::ChainLink const& link, Way& way) {
  BenchTask const& task = bench_task(planned, link.task);
  BenchOrder const& order = order_of(planned, link.task);
  auto const source = static_cast<std::size_t>(task.source);
  switch (task.kind) {
    case TaskKind::operation:
      way.hands += link.work;
      way.waits += link.wait;
      if (link.wait > way.longest_wait) {
        way.longest_wait = link.wait;
        way.longest = link.task;
      }
      break;
    case TaskKind::goods:
      way.goods += link.wait;
      way.goods_name = order.goods[source].code;
      break;
    case TaskKind::outside:
      way.others += link.wait;
      way.others_name = order.outside[source].words;
      break;
  }
}

Way way_of(BenchPlanned const& planned, int order) {
  Way way;
  for (schedule::ChainLink const& link : planned.ready[static_cast<std::size_t>(order)]->chain.links) {
    way.closed += link.closed + link.closed_before;
    if (bench_task(planned, link.task).order == order) {
      add_own(planned, link, way);
      continue;
    }
    way.before += link.work + link.wait;
    std::string const& name = order_of(planned, link.task).name;
    if (std::ranges::find(way.orders_before, name) == way.orders_before.end())
      way.orders_before.push_back(name);
  }
  return way;
}

// The largest share but for nights and days off.
std::string what_it_is(BenchPlanned const& planned, Way const& way) {
  Time const most = std::max({way.hands, way.before, way.waits, way.goods, way.others});
  if (most == way.hands) return "It is the hours at this book";
  if (most == way.waits)
    return fmt::format("It is what presses and dries, not the hours: longest after \"{}\"",
                       task_words(planned, way.longest));
  if (most == way.before)
    return fmt::format("It is the work that goes before it, {}", listed_few(way.orders_before));
  if (most == way.goods) return fmt::format("It is {}, which is on its way", way.goods_name);
  return fmt::format("It is work by others, {}", way.others_name);
}

std::vector<ChartBar> bars_of(BenchPlanned const& planned, int order) {
  std::vector<ChartBar> bars;
  for (std::size_t i = 0; i < planned.plan.tasks.size(); ++i) {
    BenchTask const& task = planned.plan.tasks[i];
    if (task.order != order) continue;
    schedule::Placed const& placed = planned.plan.plan.tasks[i];
    if (task.kind != TaskKind::operation) {
      bars.push_back({placed.start, placed.finish, BarKind::others});
      continue;
    }
    bars.push_back({placed.worked, placed.finish, BarKind::waits});
    if (placed.hands < 0) continue;
    int const calendar = planned.plan.project.resources[static_cast<std::size_t>(placed.hands)].calendar;
    for (schedule::Open const& open : planned.plan.project.calendars[static_cast<std::size_t>(calendar)])
      if (open.begin < placed.worked && open.end > placed.start)
        bars.push_back(
            {std::max(open.begin, placed.start), std::min(open.end, placed.worked), BarKind::hands});
  }
  return bars;
}

// When anybody works, until the end of the chart.
std::vector<schedule::Open> open_hours(BenchPlan const& plan, Time until) {
  std::vector<schedule::Open> all;
  for (schedule::Calendar const& calendar : plan.project.calendars)
    for (schedule::Open const& open : calendar)
      if (open.begin < until) all.push_back(open);
  std::ranges::sort(all, {}, &schedule::Open::begin);
  std::vector<schedule::Open> merged;
  for (schedule::Open const& open : all) {
    if (!merged.empty() && open.begin <= merged.back().end)
      merged.back().end = std::max(merged.back().end, open.end);
    else
      merged.push_back(open);
  }
  return merged;
}

}  // namespace

Read<BenchPlanned> plan_seen(BenchSeen seen, Date on) {
  BenchPlanned planned{std::move(seen), {}, {}};
  auto plan = plan_bench({planned.seen.bench, planned.seen.steps, planned.seen.orders, {on, {}}});
  if (!plan) return tl::unexpected(std::move(plan.error()));
  planned.plan = std::move(*plan);
  for (int order = 0; order < static_cast<int>(planned.seen.orders.size()); ++order)
    planned.ready.push_back(ready_by(planned.seen.orders, planned.plan, order));
  return planned;
}

std::string task_words(BenchPlanned const& planned, int task) {
  BenchTask const& of = bench_task(planned, task);
  BenchOrder const& order = order_of(planned, task);
  auto const source = static_cast<std::size_t>(of.source);
  switch (of.kind) {
    case TaskKind::operation: {
      WorkLine const& line = order.work.lines[source];
      return line.words.empty() ? std::string(operation_row(line.kind).what) : line.words;
    }
    case TaskKind::goods: return order.goods[source].code + ", on its way";
    case TaskKind::outside: return order.outside[source].words + ", with others";
  }
  return {};
}

std::string chain_words(BenchPlanned const& planned, int order) {
  Way const way = way_of(planned, order);
  std::vector<std::string> parts;
  auto const add = [&](Time seconds, std::string_view what) {
    if (seconds > 0) parts.push_back(fmt::format("{} {}", span_words(seconds), what));
  };
  add(way.hands, "of hands");
  add(way.waits, "of pressing and drying");
  add(way.goods, fmt::format("for {} to come", way.goods_name));
  add(way.others, fmt::format("with others ({})", way.others_name));
  add(way.before, fmt::format("behind {}", listed_few(way.orders_before)));
  add(way.closed, "of nights and days off");
  return fmt::format("{}. The way to its end: {}.", what_it_is(planned, way), listed(parts));
}

BenchChart chart_of(BenchPlanned const& planned, Date from, int days) {
  BenchChart chart{from, days, {}, open_hours(planned.plan, days * day_seconds)};
  for (std::size_t i = 0; i < planned.seen.orders.size(); ++i) {
    auto const& ready = planned.ready[i];
    chart.rows.push_back({planned.seen.orders[i].name, bars_of(planned, static_cast<int>(i)),
                          ready ? std::optional(ready->ready) : std::nullopt, planned.seen.orders[i].due});
  }
  return chart;
}

Json ready_json(BenchPlanned const& planned, int order) {
  auto const& ready = planned.ready[static_cast<std::size_t>(order)];
  if (!ready) return {};
  return Json::Object{{"hands_left_s", ready->hands.n},
                      {"ready_50", date_text(ready->half)},
                      {"ready_80", date_text(ready->four_fifths)},
                      {"ready_95", date_text(ready->sure)},
                      {"why", chain_words(planned, order)}};
}

}  // namespace endband::cli
