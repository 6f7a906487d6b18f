// Which day a book can be ready, and how sure: all orders on one bench, hands and waits, presses and drying
// places. Nothing here is money but what an hour of a rush costs elsewhere.
#pragma once

#include "engine/book/structure.h"
#include "engine/fault/fault.h"
#include "engine/labour/bench.h"
#include "engine/labour/labour.h"
#include "engine/schedule/chain.h"
#include "engine/schedule/project.h"

#include <optional>
#include <string>
#include <vector>

namespace endband {

// Work by other hands, as the bench waits for it.
struct AwaitedWork {
  std::string words;
  OutsideKind kind = OutsideKind::other;
  Duration lead;  // around the clock
};
// Goods that are not on the shelf: what is made of them waits from the ordering on.
struct AwaitedGoods {
  std::string code;
  Duration lead;
  std::vector<Part> parts;
};
// A book asked about, or a job with what was recorded of it.
struct BenchOrder {
  std::string name;  // "26-014"
  Work work;
  std::vector<AwaitedWork> outside;
  std::vector<AwaitedGoods> goods;
  std::vector<Worked> worked;
  std::optional<Date> due;  // the day promised or asked for
  bool asked = false;  // not accepted yet: the clock starts with the customer's word, and a proof is approved
  bool waits_for_customer = false;  // a gate is held: it has no end that could be planned
};

// The bench from one moment on.
struct BenchNow {
  Date on;
  Duration from;  // of that day
};

// What a task of the plan is.
enum class TaskKind : std::uint8_t { operation, outside, goods };
struct BenchTask {
  TaskKind kind = TaskKind::operation;
  int order = 0;
  int source = 0;  // index into the order's work.lines, outside or goods
};

// All that a plan follows from. What it names must outlive it.
struct OnBench {
  Bench const& bench;
  StepLibrary const& library;
  std::vector<BenchOrder> const& orders;
  BenchNow now;
};

struct BenchPlan {
  BenchNow now;
  schedule::Project project;     // in seconds from midnight of now.on
  std::vector<BenchTask> tasks;  // by task of the project
  schedule::Plan plan;
  std::vector<int> sequence;  // of the orders, as they were placed
};

// What is tried beside the plan as it stands.
struct Trial {
  Duration overtime = {};  // worked at most a day, by each who may
  int first = -1;          // this order goes before all others
  bool low_times = false;  // everything takes its low time
};

// Jobs are placed first, those due first before the others, then the book asked about, which fills the gaps;
// within an order what has the longest way to the end goes first. A job that waits for its customer is left
// out. Of a job, an operation whose hours were told is finished when they reach the planned mean, or said to
// be, or when a later operation was begun; enquiry and proof are always past. Faults, each naming the step:
// missing_setting (nobody works here), unknown_code (nobody may do it; no such place), rule_refused (a
// circle; no time for it within ten years).
Read<BenchPlan> plan_bench(OnBench const& on, Trial trial = {});

// The day an order can be sent: all is done but taking it to the post and the accounts.
bool counts_for_ready(std::vector<BenchOrder> const& orders, BenchTask const& task);
// Nothing of an order that has no task.
std::optional<schedule::Time> ready_at(BenchPlan const& plan, std::vector<BenchOrder> const& orders,
                                       int order);
Date day_of(BenchNow now, schedule::Time moment);

struct ReadyBy {
  Date half, four_fifths, sure;  // 50, 80, 95 %
  schedule::Time ready = 0;      // the moment of the plan, seconds from midnight of now.on
  double deviation_s = 0;        // standard deviation along the critical chain
  Duration hands;                // of this order, still to do
  schedule::Chain chain;
};
// Along the critical chain the variances of hands and waits add up (PERT: Malcolm, Roseboom, Clark and Fazar
// 1959): a quantile is so many deviations later, the share of the hands in working time. That other chains
// may become critical is left to the simulation. Nothing of an order that has no task.
std::optional<ReadyBy> ready_by(std::vector<BenchOrder> const& orders, BenchPlan const& plan, int order);

// How likely it is ready by the evening of a day, by the same chain.
double chance_by(std::vector<BenchOrder> const& orders, BenchPlan const& plan, ReadyBy const& ready,
                 Date day);

// What would have to give for an order to be ready by a day.
struct Displaced {
  int order = 0;
  Date was, becomes, due;  // 95 %
};
struct Rush {
  bool stands = false;  // it is, in 95 of 100, as the bench stands
  double chance = 0;    // as it stands
  // The least overtime a day, in half hours, that makes it so; none: no overtime does.
  struct Overtime {
    Duration a_day, in_all;        // in all: worked by all until it is ready
    Date half, four_fifths, sure;  // with it
  };
  std::optional<Overtime> overtime;
  Date sure_if_first;                // when it goes before all others
  std::vector<Displaced> displaced;  // jobs that are then late and were not
};
Read<Rush> rush(OnBench const& on, BenchPlan const& plan, int order, Date by);

}  // namespace endband
