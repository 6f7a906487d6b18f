#include "engine/cutting/lengths/relaxation.h"

#include "engine/cutting/lengths/knapsack.h"

#include <algorithm>

namespace endband::cutting::lengths {
namespace {

constexpr std::size_t largest_pool = 4000;
constexpr double share_kept = 0.7;

// Duals as whole numbers: 36 bits each, 55 together.
std::vector<std::int64_t> whole_values(std::vector<double> const& duals, Rest const& rest) {
  double largest = 0, total = 0;
  for (std::size_t t = 0; t < duals.size(); ++t) {
    largest = std::max(largest, duals[t]);
    total += duals[t] * static_cast<double>(rest.demand[t]);
  }
  std::vector<std::int64_t> values(duals.size(), 0);
  if (!(largest > 0) || !(total < 1e300)) return values;
  double const scale = std::min(static_cast<double>(std::int64_t{1} << 36) / largest,
                                static_cast<double>(std::int64_t{1} << 55) / total);
  for (std::size_t t = 0; t < duals.size(); ++t) values[t] = static_cast<std::int64_t>(duals[t] * scale);
  return values;
}

bool beats(Dual const& a, Dual const& b) {
  // The whole parts first: a difference below one unit of cost is none.
  return a.scaled / a.den > b.scaled / b.den ||
         (a.scaled / a.den == b.scaled / b.den && (a.scaled % a.den) * b.den > (b.scaled % b.den) * a.den);
}

}  // namespace

// False where the master gains nothing by it.
bool Relaxation::take(Master& master, std::size_t stock, std::vector<Part> parts) {
  Pattern pattern{stock, std::move(parts)};
  if (pattern.parts.empty() || !master.improves(pattern)) return false;
  master.add(pattern);
  if (pool_.size() < largest_pool) pool_.push_back(std::move(pattern));
  return true;
}

// One round: a better bound, and the patterns that are missing. False where none is. The duals are drawn
// towards those of the best bound (Wentges 1997), which spares many rounds.
bool Relaxation::price(Rest const& rest, Master& master, Prices& prices, Relaxed& relaxed) {
  auto duals = master.values_of_types();
  if (prices.best.empty()) prices.best = duals;
  for (std::size_t t = 0; t < duals.size(); ++t) {
    duals[t] = prices.kept * prices.best[t] + (1 - prices.kept) * duals[t];
  }
  auto values = whole_values(duals, rest);
  auto fillings = best_fillings(problem_, rest, values, meter_);
  std::vector<std::int64_t> most;
  for (auto const& filling : fillings) most.push_back(filling.bound);
  Dual dual = dual_of(problem_, rest, std::move(values), most);
  relaxed.impossible = relaxed.impossible || dual.impossible;
  if (relaxed.dual.values.empty() || beats(dual, relaxed.dual)) {
    relaxed.bound = std::max(relaxed.bound, costs_->at_least(dual.scaled, dual.den, need_));
    relaxed.dual = std::move(dual);
    prices.best = std::move(duals);
  }
  bool missing = false;
  for (std::size_t s = 0; s < fillings.size(); ++s) {
    missing = take(master, s, std::move(fillings[s].parts)) || missing;
    for (auto& parts : fillings[s].others) missing = take(master, s, std::move(parts)) || missing;
  }
  bool const drawn = prices.kept > 0;
  prices.kept = missing ? share_kept : 0;
  return missing || drawn;
}

Relaxed Relaxation::solve(Rest const& rest, Costs const& costs, std::int64_t enough, bool guide) {
  Relaxed relaxed;
  costs_ = &costs;
  need_ = size_of(problem_, rest);
  relaxed.bound = costs.at_least(0, 1, need_);
  if (relaxed.bound >= enough) return relaxed;
  Master master(problem_, rest, meter_);
  for (auto const& pattern : pool_) {
    if (rest.stock[pattern.stock] > 0) master.add(pattern);
  }
  meter_.spend(static_cast<std::int64_t>(pool_.size()) / 4 + 1);
  Prices prices;
  while (!meter_.empty()) {
    master.solve();
    if (master.feasible() && master.value() < 1e30) {
      auto const reached = costs.at_least(static_cast<Wide>((master.value() - 1e-4) * 1024), 1024, need_);
      if (guide && reached < enough) break;
      if (reached <= relaxed.bound && !relaxed.dual.values.empty()) break;  // a branch needs the dual
    }
    if (!price(rest, master, prices, relaxed)) break;
    if (relaxed.bound >= enough || relaxed.impossible) return relaxed;
  }
  relaxed.met = master.feasible();
  relaxed.taken = master.taken();
  std::stable_sort(relaxed.taken.begin(), relaxed.taken.end(),
                   [](Master::Taken const& a, Master::Taken const& b) { return a.times > b.times; });
  return relaxed;
}

}  // namespace endband::cutting::lengths
