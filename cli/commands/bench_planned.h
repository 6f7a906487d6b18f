// The plan of the bench as commands look at it: what each order waits for, when it is ready, the chart.
#pragma once

#include "cli/commands/bench_seen.h"
#include "cli/document/json.h"
#include "cli/drawings/bench_chart.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct BenchPlanned {
  BenchSeen seen;
  BenchPlan plan;
  std::vector<std::optional<ReadyBy>> ready;  // by order
  OnBench on() const { return {seen.bench, seen.steps, seen.orders, plan.now}; }
};
// From the morning of `on`. Faults as of plan_bench.
Read<BenchPlanned> plan_seen(BenchSeen seen, Date on);

// "sew the sections on the supports", "goat-moss-08, on its way", "a die, with others"
std::string task_words(BenchPlanned const& planned, int task);

// Why an order is not ready sooner, in words: what the way to its end is made of, and the largest of it by
// name.
std::string chain_words(BenchPlanned const& planned, int order);

BenchChart chart_of(BenchPlanned const& planned, Date from, int days);

Json ready_json(BenchPlanned const& planned, int order);  // null of an order that has nothing to do

}  // namespace endband::cli
