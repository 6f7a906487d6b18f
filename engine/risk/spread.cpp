#include "engine/risk/runs.h"

#include <algorithm>
#include <utility>

namespace endband::risk {

Spread::Spread(std::vector<std::int64_t> sorted) : sorted_(std::move(sorted)) {
  for (std::int64_t const value : sorted_) sum_ = checked_add(sum_, value);
}

std::int64_t Spread::quantile(Ratio at) const {
  std::int64_t const rank = round_product(at, Ratio(size()), Rounding::up);
  return sorted_[static_cast<std::size_t>(std::clamp<std::int64_t>(rank, 1, size()) - 1)];
}

std::int64_t Spread::mean(std::int64_t parts) const {
  return mul_div(sum_, 1, checked_mul(size(), parts), Rounding::half_away);
}

std::int64_t Spread::over_mean(Ratio at, std::int64_t parts) const {
  std::int64_t const over = checked_sub(checked_mul(quantile(at), size()), sum_);
  return mul_div(over, 1, checked_mul(size(), parts), Rounding::half_away);
}

std::int64_t Spread::above(std::int64_t most) const {
  return sorted_.end() - std::upper_bound(sorted_.begin(), sorted_.end(), most);
}

std::vector<Spread> spreads_of(std::vector<std::vector<std::int64_t>> values, RunAll const& run_all) {
  // Half of each at a time: two threads have something to do even for one of them.
  std::vector<std::function<void()>> halves;
  std::vector<std::function<void()>> merges;
  for (std::vector<std::int64_t>& all : values) {
    auto const middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
    halves.emplace_back([&all, middle] { std::sort(all.begin(), middle); });
    halves.emplace_back([&all, middle] { std::sort(middle, all.end()); });
    merges.emplace_back([&all, middle] { std::inplace_merge(all.begin(), middle, all.end()); });
  }
  do_all(halves, run_all);
  do_all(merges, run_all);
  std::vector<Spread> spreads;
  for (std::vector<std::int64_t>& all : values) spreads.emplace_back(std::move(all));
  return spreads;
}

std::vector<Ratio> chances(Ratio confidence) {
  std::vector<Ratio> at{{5, 100}, {20, 100}, {50, 100}, {80, 100}, {95, 100}, confidence};
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return at;
}

}  // namespace endband::risk
