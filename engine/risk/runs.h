// The runs of a model, and what they come to. Private to engine/risk.
#pragma once

#include "engine/risk/model.h"

#include <vector>

namespace endband::risk {

struct Runs {
  std::vector<std::int64_t> work;  // ms, by run
  std::vector<std::int64_t> wait;  // ms
  std::vector<std::int64_t> cost;  // thousandths of a minor unit
};
Runs run(Model const& model, RiskRules const& rules, RunAll const& run_all);
std::vector<std::int64_t> run_times(Model const& model, RiskRules const& rules, RunAll const& run_all);

void do_all(std::vector<std::function<void()>> const& tasks, RunAll const& run_all);

// Sorted values, and what is read off them.
class Spread {
 public:
  Spread(std::vector<std::int64_t> sorted);
  // The least that so many of the runs do not exceed.
  std::int64_t quantile(Ratio at) const;
  std::int64_t mean(std::int64_t parts) const;  // / parts, half away
  // quantile - mean, / parts, half away
  std::int64_t over_mean(Ratio at, std::int64_t parts) const;
  std::int64_t above(std::int64_t most) const;  // runs
  std::int64_t size() const { return static_cast<std::int64_t>(sorted_.size()); }

 private:
  std::vector<std::int64_t> sorted_;
  std::int64_t sum_ = 0;
};
// Sorts them, all at once.
std::vector<Spread> spreads_of(std::vector<std::vector<std::int64_t>> values, RunAll const& run_all);

// At which chances quantiles are told.
std::vector<Ratio> chances(Ratio confidence);

std::vector<RiskDriver> drivers_of(Model const& model, RiskInput const& input);

}  // namespace endband::risk
