// How long it takes to find the least price under fees with steps, caps and least amounts, and how that grows
// with the fees. Target: under 12 fees less than 50 us at -O2.
//   price_bench [--benchmark_...]
#include "engine/pricing/walk.h"

#include <benchmark/benchmark.h>

namespace {

using namespace endband;

Currency euro() { return read_currency("EUR").value(); }
Money eur(std::int64_t minor) { return {minor, euro()}; }

// Each with two steps, every second on the whole; in turn of each base, by the order or by the piece, with a
// most or a least. All of them together end at some 30 % of a price.
std::vector<Fee> fees(int count) {
  std::vector<Fee> all;
  for (int i = 0; i < count; ++i) {
    Fee fee;
    fee.base = static_cast<FeeBase>(i % 4);
    fee.per = i % 3 == 2 ? FeePer::piece : FeePer::order;
    fee.fixed = eur(5 + i);
    std::int64_t const at = 40'00 + 2'311 * i;
    fee.steps = {
        {eur(0), {30 + i, 100 * count}}, {eur(at), {20, 100 * count}}, {eur(3 * at), {35, 100 * count}}};
    fee.on_whole = i % 2 == 1;
    if (i % 4 == 1) fee.most = eur(25'00);
    if (i % 4 == 3) fee.least = eur(50);
    all.push_back(fee);
  }
  return all;
}

struct Subject {
  CostSheet sheet;
  Delivery delivery{eur(8'90), "post"};
  SellingRules selling;
  ShopRules shop;
};

Subject subject(int count) {
  Subject of;
  for (Money* money : {&of.sheet.materials, &of.sheet.overhead, &of.sheet.outside, &of.sheet.allowances,
                       &of.sheet.labour, &of.sheet.standing})
    *money = eur(0);
  of.sheet.labour = eur(310'00);
  of.sheet.earning = of.sheet.total = eur(412'37);
  of.sheet.outlay = eur(60'00);
  of.sheet.seconds = 45'000;
  of.sheet.part_shares.assign(part_count, eur(0));
  of.sheet.part_shares[static_cast<std::size_t>(Part::cover)] = eur(412'37);
  of.selling.tax = {TaxMode::included, {19, 100}, "VAT", {}};
  of.selling.pieces = 2;
  of.selling.outlet.emplace();
  of.selling.outlet->currency = euro();
  of.selling.outlet->fees = fees(count);
  of.selling.outlet->returns.change_of_mind = {3, 100};
  of.selling.outlet->returns.loss_of_value = {10, 100};
  of.shop.currency = euro();
  of.shop.basis = {eur(30'000'00), eur(6'000'00), eur(9'000'00), Duration{3600 * 1200}};
  of.shop.least_charge = eur(35'00);
  of.shop.least_hourly = eur(15'00);
  return of;
}

void least_price_under(benchmark::State& state, bool abroad) {
  Subject of = subject(static_cast<int>(state.range(0)));
  if (abroad) of.selling.outlet->exchange = {{917, 1000}, {2, 100}};
  Sale const sale{of.sheet, of.delivery, of.selling, of.shop};
  for (auto _ : state) benchmark::DoNotOptimize(least_ticket(sale, MarginGoal{{30, 100}}));
}

void one_walk(benchmark::State& state) {
  Subject const of = subject(static_cast<int>(state.range(0)));
  Sale const sale{of.sheet, of.delivery, of.selling, of.shop};
  for (auto _ : state) benchmark::DoNotOptimize(walk(sale, eur(1'000'00)));
}

void whole_offer(benchmark::State& state) {
  Subject const of = subject(static_cast<int>(state.range(0)));
  for (auto _ : state)
    benchmark::DoNotOptimize(offer(of.sheet, of.delivery, of.selling, MarginGoal{{30, 100}}, of.shop));
}

BENCHMARK_CAPTURE(least_price_under, fees, false)->Arg(3)->Arg(12)->Arg(48)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(least_price_under, fees_and_exchange, true)
    ->Arg(3)
    ->Arg(12)
    ->Arg(48)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK(whole_offer)->Arg(3)->Arg(12)->Arg(48)->Unit(benchmark::kMicrosecond);
BENCHMARK(one_walk)->Arg(12)->Unit(benchmark::kMicrosecond);

}  // namespace

BENCHMARK_MAIN();
