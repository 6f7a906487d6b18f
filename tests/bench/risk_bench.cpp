// How long the simulation of one job takes: the hours of a book of 60 lines, and its hours, waits and cost
// with what is spoiled, ruined and done again, on one thread and on two. Target: the hours of 100,000 runs in
// less than 100 ms on two threads at -O2.
//   risk_bench [RUNS]
#include "engine/risk/risk.h"
#include "tests/bench/cutting/at_once.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <exception>

namespace {

using namespace endband;

constexpr double target_ms = 100;

Money eur(std::int64_t minor) { return {minor, read_currency("EUR").value()}; }

// 60 lines of a quarter of an hour to some three hours, each as skewed as times of the bench are; every third
// waits, every fifth is paid at a rate of its own.
Work work_of_sixty() {
  Work work;
  for (int i = 0; i < 60; ++i) {
    std::int64_t const likely = 900 + 137 * i;
    std::int64_t const low = likely * 3 / 4;
    std::int64_t const high = likely * 2 + 60 * (i % 7);
    WorkLine line;
    line.kind = i % 4 == 0 ? OperationKind::pare_edges : OperationKind::sew_sections;
    line.part = i % 4 == 0 ? Part::cover : Part::sewing;
    line.count = {1000};
    line.mean_seconds = {low + 4 * likely + high, 6};
    line.low_seconds = low;
    line.high_seconds = high;
    if (i % 3 == 0) {
      line.wait_low = {3600};
      line.wait_high = {12 * 3600};
    }
    if (i % 5 == 0) line.rate = eur(24'00);
    work.lines.push_back(line);
  }
  return work;
}

Bill bill_of_twelve() {
  Bill bill;
  for (int i = 0; i < 12; ++i) {
    BillLine line;
    line.material = {i + 1};
    line.net = {Dimension::count, 8'000};
    line.spoil = {Dimension::count, 240};
    line.opened = line.charged = {Dimension::count, 8'240};
    line.uses = {{Item::extra, Part::cover, line.net}};
    line.unit = {3'17, {Dimension::count, 1000}, eur(0).currency};
    if (i == 0) line.ruin_chance = {4, 100};
    bill.lines.push_back(line);
  }
  return bill;
}

template <class Job>
double best_ms(Job const& job) {
  double best = 1e300;
  for (int i = 0; i < 7; ++i) {
    auto const begin = std::chrono::steady_clock::now();
    job();
    std::chrono::duration<double, std::milli> const took = std::chrono::steady_clock::now() - begin;
    best = std::min(best, took.count());
  }
  return best;
}

template <class Simulated>
double print_row(char const* name, std::int64_t runs, Simulated const& simulated) {
  double const one = best_ms([&] { simulated(RunAll{}); });
  double const two = best_ms([&] { simulated(RunAll{cutting::bench::at_once(2)}); });
  std::printf("%-28s %8lld runs  one thread %7.1f ms  two threads %7.1f ms  x %.2f", name,
              static_cast<long long>(runs), one, two, one / two);
  return two;
}

}  // namespace

int main(int argc, char** argv) try {
  std::int64_t const runs = argc > 1 ? std::atoll(argv[1]) : 100'000;
  RiskRules const rules{.seed = 1, .runs = runs, .confidence = {80, 100}};
  Work const work = work_of_sixty();
  double const two = print_row("hours of 60 lines", runs, [&](RunAll const& run_all) {
    if (!simulate_hours(work, rules, run_all)) std::abort();
  });
  std::printf("  / target %.2f\n", two / (target_ms * static_cast<double>(runs) / 100'000));

  Bill const bill = bill_of_twelve();
  std::vector<Outside> const outside{{"gild the edges", eur(80'00), true, {1, 20}}};
  ShopRules const shop{.currency = eur(0).currency,
                       .basis = {eur(24'000'00), eur(6'000'00), eur(9'900'00), {1'100 * 3600}},
                       .contingency = 0,
                       .least_charge = eur(0),
                       .least_hourly = eur(0)};
  RiskInput const input{bill,         work, outside, {}, shop, {eur(0), ""}, {}, MarginGoal{{25, 100}},
                        eur(2'500'00)};
  print_row("cost of 60 lines", runs, [&](RunAll const& run_all) {
    if (!simulate(input, rules, run_all)) std::abort();
  });
  std::printf("\n");
  return 0;
} catch (std::exception const& error) {
  std::fprintf(stderr, "risk_bench: %s\n", error.what());
  return 1;
}
