#include "tests/bench/cutting/bench.h"

#include "tests/bench/cutting/at_once.h"

#include <algorithm>
#include <cmath>

namespace endband::cutting::bench {

std::optional<double> Result::gap() const {
  if (!best_known || *best_known == 0 || outcome != "planned") return std::nullopt;
  return (greatest ? *best_known - stated : stated - *best_known) / *best_known;
}

Budgets::Budgets(Options const& options, std::array<double, 4> const& steps_a_ms)
    : threads_(options.threads) {
  for (std::size_t i = 0; i < work_.size(); ++i) {
    double const measured = steps_a_ms[i] * static_cast<double>(options.ms) * options.threads;
    work_[i] = options.work[i] ? *options.work[i] : std::llround(measured);
  }
}

Budget Budgets::of(Solver solver, std::int64_t parts) const {
  Budget budget;
  budget.work = work(solver) / parts;
  if (threads_ > 1) budget.run_all = at_once(threads_);
  return budget;
}

std::optional<std::vector<Result>> run(Json const& instance, Budgets const& budgets) {
  auto const has = [&](char const* key) { return instance.contains(key); };
  if (!has("items") || instance["items"].empty()) return std::nullopt;
  Json const& item = instance["items"][0];
  if (has("hide") || has("hides")) return run_skins(instance, budgets);
  if (has("strip_width") && item.contains("polygon")) return run_strip(instance, budgets);
  if (has("sheet") && item.contains("profit")) return run_one_sheet(instance, budgets);
  if (has("sheet") || has("sheets") || has("strip_width")) return run_sheets(instance, budgets);
  if (has("capacity") || has("stock")) return run_lengths(instance, budgets);
  return std::nullopt;
}

std::vector<std::string> names_of(std::vector<PlanFault> const& faults) {
  std::vector<std::string> names;
  for (PlanFault const& fault : faults) names.emplace_back(broken_name(fault.broken));
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

char const* name_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::planned: return "planned";
    case Outcome::impossible: return "impossible";
    case Outcome::not_found: return "not_found";
  }
  return "?";
}

Json in_units(std::int64_t micrometres, std::int64_t scale) {
  if (micrometres % scale == 0) return micrometres / scale;
  return static_cast<double>(micrometres) / static_cast<double>(scale);
}

}  // namespace endband::cutting::bench
