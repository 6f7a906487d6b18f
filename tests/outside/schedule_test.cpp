// Networks and a published instance whose times others have printed.
#include "engine/schedule/check.h"
#include "engine/schedule/network.h"
#include "engine/schedule/place.h"
#include "engine/schedule/solve.h"

#include <doctest/doctest.h>

#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

using namespace endband::schedule;

namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }
Link after(int from) { return {from, LinkKind::finish_start, 0}; }

using Arcs = std::vector<std::pair<int, std::vector<int>>>;  // from, to; numbered from 1

Project on_nodes(std::vector<Time> const& durations, Arcs const& arcs) {
  Project project;
  for (Time duration : durations) {
    Task task;
    task.work = duration;
    project.tasks.push_back(task);
  }
  for (auto const& [from, all] : arcs)
    for (int to : all) project.tasks[at(to - 1)].after.push_back(after(from - 1));
  return project;
}

std::vector<int> critical(Network const& network) {
  std::vector<int> tasks;
  for (std::size_t i = 0; i < network.tasks.size(); ++i)
    if (network.tasks[i].critical()) tasks.push_back(static_cast<int>(i) + 1);
  return tasks;
}

// An activity on an arrow, from one event to the next, with its printed times.
struct Arrow {
  int from, to;
  Time duration, early_start, early_finish, late_start, late_finish, slack;
};

void check_arrows(std::vector<Arrow> const& arrows, Time length) {
  Project project;
  for (Arrow const& arrow : arrows) {
    Task task;
    task.work = arrow.duration;
    for (std::size_t i = 0; i < arrows.size(); ++i)
      if (arrows[i].to == arrow.from) task.after.push_back(after(static_cast<int>(i)));
    project.tasks.push_back(task);
  }
  auto const network = critical_path(project);
  REQUIRE(network);
  CHECK(network->length == length);
  for (std::size_t i = 0; i < arrows.size(); ++i) {
    Arrow const& arrow = arrows[i];
    Moments const& moments = network->tasks[i];
    CAPTURE(arrow.from);
    CAPTURE(arrow.to);
    CHECK(moments.early_start == arrow.early_start);
    CHECK(moments.early_finish == arrow.early_finish);
    CHECK(moments.late_start == arrow.late_start);
    CHECK(moments.late_finish == arrow.late_finish);
    CHECK(moments.total_float == arrow.slack);
  }
}

}  // namespace

// M. Vanhoucke, "Integrated Project Management and Control" (Springer 2014), p. 6, "Cost Information System",
// as in the R package criticalpath, inst/doc/criticalpath-introduction.html and
// tests/testthat/test-cpt-change_durations.R (read). Late finishes and floats recomputed.
TEST_CASE("Vanhoucke's first project") {
  auto const network =
      critical_path(on_nodes({1, 2, 2, 4, 3, 3, 3, 2, 1, 1, 2, 1, 1, 1, 1, 2, 1}, {{1, {2, 3}},
                                                                                   {2, {4, 5, 6}},
                                                                                   {3, {7, 8, 9, 10}},
                                                                                   {4, {11}},
                                                                                   {5, {11}},
                                                                                   {6, {11}},
                                                                                   {7, {12}},
                                                                                   {8, {13}},
                                                                                   {9, {14}},
                                                                                   {10, {15}},
                                                                                   {11, {16, 17}},
                                                                                   {12, {16, 17}},
                                                                                   {13, {16, 17}},
                                                                                   {14, {16, 17}},
                                                                                   {15, {16, 17}}}));
  REQUIRE(network);
  CHECK(network->length == 11);
  CHECK(critical(*network) == std::vector<int>{1, 2, 4, 11, 16});
  std::vector<Moments> const printed{
      {0, 1, 0, 1, 0, 0},   {1, 3, 1, 3, 0, 0},   {1, 3, 3, 5, 2, 0}, {3, 7, 3, 7, 0, 0}, {3, 6, 4, 7, 1, 1},
      {3, 6, 4, 7, 1, 1},   {3, 6, 5, 8, 2, 0},   {3, 5, 6, 8, 3, 0}, {3, 4, 7, 8, 4, 0}, {3, 4, 7, 8, 4, 0},
      {7, 9, 7, 9, 0, 0},   {6, 7, 8, 9, 2, 2},   {5, 6, 8, 9, 3, 3}, {4, 5, 8, 9, 4, 4}, {4, 5, 8, 9, 4, 4},
      {9, 11, 9, 11, 0, 0}, {9, 10, 10, 11, 1, 1}};
  for (std::size_t i = 0; i < printed.size(); ++i) {
    CAPTURE(i + 1);
    CHECK(network->tasks[i] == printed[i]);
  }
}

// The same, p. 9, "Patient Transport System" (read).
TEST_CASE("Vanhoucke's second project") {
  auto const network =
      critical_path(on_nodes({1, 1, 3, 2, 2, 2, 2, 1, 4, 5, 3, 3, 4, 5, 1, 5, 2}, {{1, {2}},
                                                                                   {2, {3}},
                                                                                   {3, {4, 6}},
                                                                                   {4, {5}},
                                                                                   {5, {8}},
                                                                                   {6, {7}},
                                                                                   {7, {8}},
                                                                                   {8, {9, 10, 11, 12, 13}},
                                                                                   {9, {14}},
                                                                                   {10, {14}},
                                                                                   {11, {14}},
                                                                                   {12, {14}},
                                                                                   {13, {14, 15}},
                                                                                   {14, {16, 17}},
                                                                                   {15, {16, 17}}}));
  REQUIRE(network);
  CHECK(network->length == 25);
  CHECK(critical(*network) == std::vector<int>{1, 2, 3, 4, 5, 6, 7, 8, 10, 14, 16});
  std::map<int, std::array<Time, 4>> const printed{
      {9, {10, 14, 11, 15}},  {10, {10, 15, 10, 15}}, {11, {10, 13, 12, 15}},
      {12, {10, 13, 12, 15}}, {13, {10, 14, 11, 15}}, {14, {15, 20, 15, 20}},
      {15, {14, 15, 19, 20}}, {16, {20, 25, 20, 25}}, {17, {20, 22, 23, 25}}};
  for (auto const& row : printed) {
    int const number = row.first;
    std::array<Time, 4> const& times = row.second;
    Moments const& moments = network->tasks[at(number - 1)];
    CAPTURE(number);
    CHECK(std::array{moments.early_start, moments.early_finish, moments.late_start, moments.late_finish} ==
          times);
    CHECK(moments.total_float == times[2] - times[0]);
  }
}

// Solutions to B. W. Taylor, "Introduction to Management Science", ch. 8, at
// ar.scribd.com/doc/47113515/TaylCh08 (read in a secondary copy); recomputed, all match. The second has an
// arrow of no duration, a dummy.
TEST_CASE("activities on arrows") {
  check_arrows({{1, 2, 7, 0, 7, 2, 9, 2},
                {1, 3, 10, 0, 10, 0, 10, 0},
                {2, 4, 6, 7, 13, 9, 15, 2},
                {3, 4, 5, 10, 15, 10, 15, 0},
                {3, 5, 4, 10, 14, 14, 18, 4},
                {4, 5, 3, 15, 18, 15, 18, 0},
                {5, 6, 2, 18, 20, 18, 20, 0}},
               20);
  check_arrows({{1, 2, 8, 0, 8, 1, 9, 1},
                {1, 3, 10, 0, 10, 0, 10, 0},
                {1, 4, 9, 0, 9, 6, 15, 6},
                {2, 5, 6, 8, 14, 9, 15, 1},
                {2, 6, 4, 8, 12, 16, 20, 8},
                {3, 5, 5, 10, 15, 10, 15, 0},
                {4, 5, 0, 9, 9, 15, 15, 6},
                {4, 7, 7, 9, 16, 20, 27, 11},
                {5, 7, 12, 15, 27, 15, 27, 0},
                {5, 8, 15, 15, 30, 16, 31, 1},
                {6, 9, 18, 12, 30, 20, 38, 8},
                {7, 8, 4, 27, 31, 27, 31, 0},
                {8, 9, 7, 31, 38, 31, 38, 0}},
               38);
}

// The R package criticalpath, tests/testthat/test-cpt-early_start_finish_by_relation_type.R (read): begin (1)
// - A
// - B - end (1), A and B linked in each way. Its cases in which a start falls below 0 are left out: here none
// does.
TEST_CASE("lags of links of every kind") {
  struct Case {
    LinkKind kind;
    Time lag, first, second;
    std::array<Time, 4> times;  // early start and finish of A, then of B
    Time end;
  };
  auto const fs = LinkKind::finish_start, ss = LinkKind::start_start, ff = LinkKind::finish_finish;
  std::vector<Case> const cases{
      {fs, 0, 3, 3, {1, 4, 4, 7}, 8},   {fs, 2, 3, 3, {1, 4, 6, 9}, 10}, {fs, -2, 3, 3, {1, 4, 2, 5}, 6},
      {fs, 2, 3, 5, {1, 4, 6, 11}, 12}, {fs, -2, 5, 3, {1, 6, 4, 7}, 8}, {ss, 0, 3, 3, {1, 4, 1, 4}, 5},
      {ss, 2, 3, 3, {1, 4, 3, 6}, 7},   {ss, 2, 3, 5, {1, 4, 3, 8}, 9},  {ss, 2, 5, 3, {1, 6, 3, 6}, 7},
      {ff, 2, 3, 3, {1, 4, 3, 6}, 7},   {ff, 2, 3, 5, {1, 4, 1, 6}, 7},  {ff, 2, 5, 3, {1, 6, 5, 8}, 9},
      {ff, 0, 5, 3, {1, 6, 3, 6}, 7}};
  for (Case const& one : cases) {
    Project project = on_nodes({1, one.first, one.second, 1}, {{1, {2}}, {3, {4}}});
    project.tasks[2].after = {{1, one.kind, one.lag}};
    auto const network = critical_path(project);
    REQUIRE(network);
    CAPTURE(static_cast<int>(one.kind));
    CAPTURE(one.lag);
    CAPTURE(one.first);
    CAPTURE(one.second);
    Moments const& a = network->tasks[1];
    Moments const& b = network->tasks[2];
    CHECK(std::array{a.early_start, a.early_finish, b.early_start, b.early_finish} == one.times);
    CHECK(network->tasks[3].early_finish == one.end);
    CHECK(network->length == one.end);
    for (Moments const& moments : network->tasks) {
      CHECK(moments.late_start == moments.early_start);
      CHECK(moments.late_finish == moments.early_finish);
    }
    // Without hands and places a placed plan is the same.
    Plan const plan = place(project, std::array{0, 1, 2, 3});
    CHECK(plan.tasks[2].start == b.early_start);
    CHECK(plan.finish() == one.end);
  }
}

// Instance sm_j10 PSP1.SCH with least and greatest lags between starts, in github.com/ptal/kobe-scheduling
// (read), its published optimum 26 too; the starts by lags alone recomputed.
TEST_CASE("starts by least and greatest lags alone") {
  std::vector<Time> const durations{0, 3, 10, 3, 3, 3, 5, 10, 2, 6, 1, 0};
  std::vector<std::array<int, 3>> const arcs{
      {0, 4, 0},   {0, 2, 0},   {0, 1, 0},   {0, 3, 0},  {1, 9, 9},  {1, 7, 1},  {1, 8, 8}, {1, 10, 2},
      {2, 8, 24},  {3, 10, 4},  {3, 7, 8},   {4, 10, 0}, {4, 9, 0},  {4, 5, 7},  {5, 6, 0}, {6, 11, 5},
      {7, 11, 10}, {8, 1, -22}, {8, 2, -34}, {8, 11, 2}, {9, 11, 6}, {10, 11, 1}};
  Project project = on_nodes(durations, {});
  for (auto const& [from, to, lag] : arcs)
    project.tasks[at(to)].after.push_back({from, LinkKind::start_start, lag});
  auto const starts = earliest_starts(project);
  REQUIRE(starts);
  CHECK(*starts == std::vector<Time>{0, 2, 0, 0, 0, 7, 7, 8, 24, 11, 4, 26});
}

namespace {

// PSPLIB j301_1 (R. Kolisch and A. Sprecher, European Journal of Operational Research 96 (1996) 205-216),
// read: duration, demands, successors. Capacities 12, 13, 4, 12.
struct Job {
  Time duration;
  std::array<int, 4> demands;
  std::vector<int> successors;
};
std::vector<Job> const jobs{{0, {0, 0, 0, 0}, {2, 3, 4}},   {8, {4, 0, 0, 0}, {6, 11, 15}},
                            {4, {10, 0, 0, 0}, {7, 8, 13}}, {6, {0, 0, 0, 3}, {5, 9, 10}},
                            {3, {3, 0, 0, 0}, {20}},        {8, {0, 0, 0, 8}, {30}},
                            {5, {4, 0, 0, 0}, {27}},        {9, {0, 1, 0, 0}, {12, 19, 27}},
                            {2, {6, 0, 0, 0}, {14}},        {7, {0, 0, 0, 1}, {16, 25}},
                            {9, {0, 5, 0, 0}, {20, 26}},    {2, {0, 7, 0, 0}, {14}},
                            {6, {4, 0, 0, 0}, {17, 18}},    {3, {0, 8, 0, 0}, {17}},
                            {9, {3, 0, 0, 0}, {25}},        {10, {0, 0, 0, 5}, {21, 22}},
                            {6, {0, 0, 0, 8}, {22}},        {5, {0, 0, 0, 7}, {20, 22}},
                            {3, {0, 1, 0, 0}, {24, 29}},    {7, {0, 10, 0, 0}, {23, 25}},
                            {2, {0, 0, 0, 6}, {28}},        {7, {2, 0, 0, 0}, {23}},
                            {2, {3, 0, 0, 0}, {24}},        {3, {0, 9, 0, 0}, {30}},
                            {3, {4, 0, 0, 0}, {30}},        {7, {0, 0, 4, 0}, {31}},
                            {8, {0, 0, 0, 7}, {28}},        {3, {0, 8, 0, 0}, {31}},
                            {7, {0, 7, 0, 0}, {32}},        {2, {0, 7, 0, 0}, {32}},
                            {2, {0, 0, 2, 0}, {32}},        {0, {0, 0, 0, 0}, {}}};

Project j301_1() {
  std::vector<Time> durations;
  Arcs arcs;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    durations.push_back(jobs[i].duration);
    arcs.emplace_back(static_cast<int>(i) + 1, jobs[i].successors);
  }
  Project project = on_nodes(durations, arcs);
  for (int capacity : {12, 13, 4, 12}) project.resources.push_back({capacity, -1});
  for (std::size_t i = 0; i < jobs.size(); ++i)
    for (int k = 0; k < 4; ++k)
      if (jobs[i].demands[at(k)] > 0) project.tasks[i].demands.push_back({k, jobs[i].demands[at(k)], false});
  return project;
}

Plan starting(std::vector<Time> const& starts) {
  Plan plan;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    Time const end = starts[i] + jobs[i].duration;
    plan.tasks.push_back({starts[i], end, end, -1});
  }
  return plan;
}

// A schedule of the optimal length, found by the writer of the list of checks by random priorities.
std::vector<Time> const starts_of_43{0,  8,  0,  0,  10, 31, 8,  4,  6,  6,  16, 13, 4,  15, 16, 13,
                                     23, 10, 13, 25, 29, 29, 36, 38, 32, 25, 15, 32, 18, 41, 35, 43};

}  // namespace

// The path alone takes 38, the file's own MPM-Time (read); its chain recomputed.
TEST_CASE("PSPLIB j301_1: the critical path") {
  auto const network = critical_path(j301_1());
  REQUIRE(network);
  CHECK(network->length == 38);
  for (int job : {1, 3, 8, 12, 14, 17, 22, 23, 24, 30, 32}) CHECK(network->tasks[at(job - 1)].critical());
}

TEST_CASE("PSPLIB j301_1: a schedule of 43 is accepted, and refused when it is broken") {
  Project const project = j301_1();
  CHECK(check(project, starting(starts_of_43)).empty());
  CHECK(starting(starts_of_43).finish() == 43);

  std::vector<Time> starts = starts_of_43;
  starts[29] = 40;  // job 30 needs job 24, which ends at 41
  std::vector<PlanFault> faults = check(project, starting(starts));
  REQUIRE(!faults.empty());
  CHECK(faults[0] == PlanFault{Broken::link, 29, 23});

  starts = starts_of_43;
  starts[1] = 3;  // jobs 2 and 3 want 14 of the 12 of the first resource
  faults = check(project, starting(starts));
  REQUIRE(!faults.empty());
  CHECK(faults[0] == PlanFault{Broken::capacity, 1, 0});
  for (PlanFault const& fault : faults) CHECK(fault.broken == Broken::capacity);
}

// The optimum 43 (read: kobe-scheduling, and github.com/ScheduleOpt/optalcp-benchmarks, where it is the bound
// too); 158 is the file's horizon, all jobs one after another.
TEST_CASE("PSPLIB j301_1: what is found lies between the optimum and the horizon") {
  Project const project = j301_1();
  for (std::int64_t schedules : {1, 50, 1'000}) {
    Solved const solved = solve(project, {schedules, 1});
    CHECK(check(project, solved.plan).empty());
    CHECK(43 <= solved.plan.finish());
    CHECK(solved.plan.finish() <= 158);
    CHECK(solved.bound <= 43);
  }
  CHECK(solve(project, {1'000, 1}).plan.finish() == 43);
}
