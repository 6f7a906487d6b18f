// How many quotes a second: from the resolved book to its offer, the whole and each stage apart, with the
// reading of the description beside it. Target: 20,000 a second on one core at -O2.
//   bench_engine WORKSHOP BOOK [ON] [--benchmark_...]
#include "subject.h"

#include <benchmark/benchmark.h>

#include <cstdio>
#include <exception>
#include <string>

namespace {

using namespace endband;
using bench::Subject;
using benchmark::State;

void read_text(State& state, Subject const& subject) {
  while (state.KeepRunning())
    benchmark::DoNotOptimize(read_description(subject.text, "book.toml", description_keys()));
}

void resolve_book(State& state, Subject const& subject) {
  auto const layers = subject.layers();
  while (state.KeepRunning()) benchmark::DoNotOptimize(resolve(layers, subject.commission.catalogue));
}

void structure_of(State& state, Subject const& subject) {
  Commission const& of = subject.commission;
  while (state.KeepRunning()) benchmark::DoNotOptimize(structure(of.book, of.catalogue));
}

void quantities_of(State& state, Subject const& subject) {
  Commission const& of = subject.commission;
  Structure const built = structure(of.book, of.catalogue);
  while (state.KeepRunning()) benchmark::DoNotOptimize(quantities(built, of.book, of.catalogue));
}

void settle_needs(State& state, Subject const& subject) {
  Commission const& of = subject.commission;
  Needs const needs = quantities(structure(of.book, of.catalogue), of.book, of.catalogue);
  while (state.KeepRunning()) benchmark::DoNotOptimize(settle(needs, of.book, of.catalogue));
}

void work_of(State& state, Subject const& subject) {
  Commission const& of = subject.commission;
  Structure const built = structure(of.book, of.catalogue);
  while (state.KeepRunning()) benchmark::DoNotOptimize(work_for(built, of.book, of.steps, of.work));
}

void cost_of_book(State& state, Subject const& subject) {
  Commission const& of = subject.commission;
  Priced const priced = price(of).value();
  while (state.KeepRunning())
    benchmark::DoNotOptimize(cost(priced.bill, priced.work, priced.outside, of.shop));
}

void offer_of(State& state, Subject const& subject) {
  Commission const& of = subject.commission;
  Priced const priced = price(of).value();
  while (state.KeepRunning())
    benchmark::DoNotOptimize(offer(priced.sheet, of.delivery, of.selling, of.goal, of.shop));
}

void whole_quote(State& state, Subject const& subject) {
  while (state.KeepRunning()) benchmark::DoNotOptimize(price(subject.commission));
  Priced const priced = price(subject.commission).value();
  auto const count = [](auto const& rows) { return static_cast<double>(rows.size()); };
  state.counters["quotes"] =
      benchmark::Counter(static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
  state.counters["needs"] = count(priced.needs.needs);
  state.counters["steps"] = count(priced.work.lines);
  state.counters["lines"] = count(priced.sheet.lines);
  state.counters["warnings"] = count(priced.structure.warnings);
}

// The same from remembered plans, as a price is made again.
void quote_by_plan(State& state, Subject const& subject) {
  Commission of = subject.commission;
  for (CutRequest const& request : requests_of(of))
    of.plans.emplace(plan_key(request, of.cutting.work), plan_to_buy(request, {of.cutting.work, {}}));
  while (state.KeepRunning()) benchmark::DoNotOptimize(price(of));
  state.counters["quotes"] =
      benchmark::Counter(static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
}

void freeze_quote(State& state, Subject const& subject) {
  Priced const priced = price(subject.commission).value();
  while (state.KeepRunning())
    benchmark::DoNotOptimize(freeze(subject.commission, priced, subject.text, "raised-cords"));
}

void replay_quote(State& state, Subject const& subject) {
  FrozenQuote const quote =
      freeze(subject.commission, price(subject.commission).value(), subject.text, "raised-cords");
  while (state.KeepRunning()) benchmark::DoNotOptimize(replay(quote));
}

void reasons(State& state, Subject const& subject) {
  FrozenQuote const quote =
      freeze(subject.commission, price(subject.commission).value(), subject.text, "raised-cords");
  while (state.KeepRunning()) benchmark::DoNotOptimize(why(quote, FigureId::cover_width));
}

void register_all(Subject const& subject) {
  struct Row {
    char const* name;
    void (*run)(State&, Subject const&);
  };
  for (Row const row :
       {Row{"BookSpec to Offer", whole_quote}, Row{"  by plan", quote_by_plan},
        Row{"  structure", structure_of}, Row{"  quantities", quantities_of}, Row{"  settle", settle_needs},
        Row{"  work", work_of}, Row{"  cost", cost_of_book}, Row{"  offer", offer_of},
        Row{"read the description", read_text}, Row{"resolve", resolve_book}, Row{"freeze", freeze_quote},
        Row{"replay", replay_quote}, Row{"why the cover's width", reasons}})
    benchmark::RegisterBenchmark(row.name, row.run, subject)->Unit(benchmark::kMicrosecond);
}

}  // namespace

int main(int argc, char** argv) try {
  benchmark::Initialize(&argc, argv);
  if (argc < 3 || argc > 4) {
    std::fputs("usage: bench_engine WORKSHOP BOOK [ON] [--benchmark_...]\n", stderr);
    return 2;
  }
  Date const on = read_date(argc == 4 ? argv[3] : "2026-11-25").value();
  Subject const subject = bench::load_subject(argv[1], argv[2], on);
  register_all(subject);
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
} catch (std::exception const& error) {
  std::fprintf(stderr, "bench_engine: %s\n", error.what());
  return 1;
}
