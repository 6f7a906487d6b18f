// How what is computed grows with what it is given, each beside a yardstick of the same size: three sizes of
// each, named "what/ours/N" and "what/yardstick/N". tests/bench/all.py makes ratios and exponents of them.
//   growth_bench WORKSHOP BOOK [--benchmark_...]
#include "engine/chance/draw.h"
#include "engine/cutting/lengths/lengths.h"
#include "engine/cutting/sheets/sheets.h"
#include "engine/pricing/walk.h"
#include "engine/promise/promise.h"
#include "engine/risk/risk.h"
#include "engine/schedule/solve.h"
#include "subject.h"

#include <benchmark/benchmark.h>

#include <cstdio>
#include <exception>
#include <functional>
#include <string>

namespace {

using namespace endband;
using benchmark::DoNotOptimize;
using Run = std::function<void()>;

void put(std::string const& what, std::string const& side, std::int64_t size, Run const& run) {
  benchmark::RegisterBenchmark((what + "/" + side + "/" + std::to_string(size)).c_str(),
                               [run](benchmark::State& state) {
                                 while (state.KeepRunning()) run();
                               })
      ->Unit(benchmark::kMicrosecond);
}

// --- a whole quote, with so many more steps of its own; beside it, its inputs copied once
void quotes(Commission const& base) {
  for (int const more : {0, 100, 1'000}) {
    Commission of = base;
    for (int i = 0; i < more; ++i)
      of.book.extra_work.push_back({"step " + std::to_string(i), {600}, {900 + i}, {1'800 + i}, {}});
    put("a quote, by its lines", "ours", 100 + more, [of] { DoNotOptimize(price(of)); });
    put("a quote, by its lines", "copying what it reads", 100 + more, [of] {
      Commission copy = of;
      DoNotOptimize(copy);
    });
  }
}

// --- the least price under so many fees; beside it, one walk from a price to what is left
Fee fee(int i, int count, Currency euro) {
  Fee one;
  one.base = static_cast<FeeBase>(i % 4);
  one.fixed = {5 + i, euro};
  std::int64_t const at = 40'00 + 2'311 * i;
  one.steps = {{{0, euro}, {30 + i, 100 * count}},
               {{at, euro}, {20, 100 * count}},
               {{3 * at, euro}, {35, 100 * count}}};
  one.on_whole = i % 2 == 1;
  if (i % 4 == 1) one.most = Money{25'00, euro};
  return one;
}

void prices(Commission const& base) {
  Priced const priced = price(base).value();
  Currency const euro = base.shop.currency;
  for (int const count : {3, 12, 48}) {
    SellingRules selling = base.selling;
    selling.outlet.emplace();
    selling.outlet->currency = euro;
    for (int i = 0; i < count; ++i) selling.outlet->fees.push_back(fee(i, count, euro));
    auto const of = [sheet = priced.sheet, delivery = base.delivery, selling,
                     shop = base.shop](auto const& use) {
      use(Sale{sheet, delivery, selling, shop});
    };
    put("the least price, by fees", "ours", count, [of] {
      of([](Sale const& sale) { DoNotOptimize(least_ticket(sale, MarginGoal{{30, 100}})); });
    });
    put("the least price, by fees", "one walk", count, [of, euro] {
      of([&](Sale const& sale) { DoNotOptimize(walk(sale, Money{1'000'00, euro})); });
    });
  }
}

// --- so many kinds of pieces from sheets and from rolls; beside it, best fit alone
cutting::SheetRequest sheet_pieces(int kinds) {
  cutting::SheetRequest request;
  request.sheets = {{700'000, 1'000'000, 1'000'000, std::nullopt, false}};
  for (int i = 0; i < kinds; ++i)
    request.pieces.push_back(
        {90'000 + 7'300 * (i * 5 % 17), 120'000 + 9'100 * (i * 7 % 19), 1 + i % 3, i % 2 == 0});
  request.least_kept = 100'000;
  return request;
}
cutting::LengthRequest roll_pieces(int kinds) {
  cutting::LengthRequest request;
  request.rolls = {{10'000'000, 1'000, std::nullopt}};
  for (int i = 0; i < kinds; ++i) request.pieces.push_back({210'000 + 13'700 * (i * 5 % 53), 1 + i % 4});
  return request;
}

void cuts() {
  for (int const kinds : {5, 20, 80}) {
    for (auto const& [side, work] : {std::pair{"ours", 200'000}, std::pair{"best fit alone", 0}}) {
      cutting::Budget const budget{.work = work, .run_all = {}};
      put("sheets cut, by pieces", side, kinds,
          [request = sheet_pieces(kinds), budget] { DoNotOptimize(plan_sheets(request, budget)); });
      put("rolls cut, by pieces", side, kinds,
          [request = roll_pieces(kinds), budget] { DoNotOptimize(plan_lengths(request, budget)); });
    }
  }
}

// --- so many steps on one bench, 500 plans tried; beside it, the critical path alone
schedule::Project project_of(int steps) {
  schedule::Project project{{{{0, 100'000'000}}}, {{1, 0}, {1, 0}, {1, -1}, {2, -1}}, {}};
  for (int i = 0; i < steps; ++i) {
    schedule::Task task;
    task.work = 900 * (1 + (i * 7) % 8);
    task.hands = i % 3 == 0 ? std::vector{0, 1} : std::vector{i % 2};
    if (i % 4 == 3) task.demands = {{2 + i % 2, 1, true}};
    if (i > 0) task.after.push_back({i - 1 - (i > 4 ? i % 5 : 0), schedule::LinkKind::finish_start, 0});
    project.tasks.push_back(std::move(task));
  }
  return project;
}

void schedules() {
  for (int const steps : {30, 120, 480}) {
    put("a bench planned, by steps", "ours", steps,
        [project = project_of(steps)] { DoNotOptimize(solve(project, {.schedules = 500, .seed = 1})); });
    put("a bench planned, by steps", "the critical path", steps,
        [project = project_of(steps)] { DoNotOptimize(least_finish(project)); });
  }
}

// --- when each of so many jobs on one bench is ready, and what keeps it; beside it, placing them alone
void benches(Commission const& base) {
  Work const work = price(base).value().work;
  for (int const jobs : {5, 20, 80}) {
    std::vector<BenchOrder> orders;
    for (int i = 0; i < jobs; ++i) {
      BenchOrder& order = orders.emplace_back();
      order.name = std::to_string(i);
      order.work = work;
    }
    auto const plan = [orders, &base] {
      return plan_bench({base.bench, base.steps, orders, {base.catalogue.on, {}}}).value();
    };
    put("why each job is ready, by jobs", "ours", jobs, [orders, jobs, planned = plan()] {
      for (int i = 0; i < jobs; ++i) DoNotOptimize(ready_by(orders, planned, i));
    });
    put("why each job is ready, by jobs", "placing them", jobs, [plan] { DoNotOptimize(plan()); });
  }
}

// --- a job simulated so many times; beside it, as many draws and their sum
void simulations(Commission const& base) {
  Work const work = price(base).value().work;
  for (std::int64_t const runs : {1'000, 10'000, 100'000}) {
    RiskRules const rules{.seed = 1, .runs = runs, .confidence = {80, 100}};
    put("hours simulated, by runs", "ours", runs,
        [work, rules] { DoNotOptimize(simulate_hours(work, rules, RunAll{})); });
    put("hours simulated, by runs", "as many draws", runs, [runs, lines = work.lines.size()] {
      std::uint64_t sum = 0;
      for (std::uint32_t run = 0; run < static_cast<std::uint32_t>(runs); ++run)
        for (std::uint32_t pair = 0; pair < lines / 2; ++pair) {
          TwoDraws const draws = two_draws(1, run, pair, 0);
          sum += draws.even + draws.odd;
        }
      DoNotOptimize(sum);
    });
  }
}

}  // namespace

int main(int argc, char** argv) try {
  benchmark::Initialize(&argc, argv);
  if (argc != 3) return std::fputs("usage: growth_bench WORKSHOP BOOK [--benchmark_...]\n", stderr), 2;
  Commission const base = bench::load_subject(argv[1], argv[2], read_date("2026-11-25").value()).commission;
  quotes(base);
  prices(base);
  cuts();
  schedules();
  benches(base);
  simulations(base);
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
} catch (std::exception const& error) {
  std::fprintf(stderr, "growth_bench: %s\n", error.what());
  return 1;
}
