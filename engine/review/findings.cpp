#include "engine/review/findings.h"

#include "engine/review/effects.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <numbers>
#include <tuple>

namespace endband {
namespace {

bool surer(Finding const& a, Finding const& b) {
  return std::tie(a.chance, a.what, a.name) < std::tie(b.chance, b.what, b.name);
}

struct Sample {
  double n = 0, mean = 0, variance = 0;
};
Sample sample_of(std::vector<double> const& values) {
  Sample sample;
  sample.n = static_cast<double>(values.size());
  for (double const value : values) sample.mean += value / sample.n;
  for (double const value : values) sample.variance += std::pow(value - sample.mean, 2) / (sample.n - 1);
  return sample;
}

double normal_below(double z) { return std::erfc(-z / std::numbers::sqrt2) / 2; }

// The chance, given logarithms, that the mean of what they are the logarithms of is below 1: over what the
// true variance may be, (n - 1) s^2 / chi^2, of a normal mean about mean + variance / 2. (The generalised
// test of a log-normal mean: Krishnamoorthy and Mathew 2003, from memory.) Integrated over log chi^2, where
// the density falls off so fast that equal steps are as good as exact.
double chance_of_mean_below_one(Sample const& logs) {
  double const freedom = logs.n - 1;
  double const scale = std::lgamma(freedom / 2) + freedom / 2 * std::numbers::ln2;
  double const around = std::log(freedom), width = std::sqrt(2 / freedom);
  double const lowest = around - (freedom < 8 ? 60 / freedom : 14 * width), highest = around + 10 * width;
  constexpr int steps = 128;
  double const step = (highest - lowest) / steps;
  double below = 0, all = 0;
  for (int i = 0; i <= steps; ++i) {
    double const log_chi = lowest + i * step, chi = std::exp(log_chi);
    double const density = std::exp(freedom / 2 * log_chi - chi / 2 - scale);
    double const variance = freedom * logs.variance / chi;
    below += density * normal_below(-(logs.mean + variance / 2) / std::sqrt(variance / logs.n));
    all += density;
  }
  return below / all;
}

// Nobody's hours are told more closely than that from job to job.
constexpr double least_spread = 0.02;
// Now and then a job goes badly wrong, and among few jobs there may be none: what seems to take less must do
// so even if one more job had taken three times what it is timed.
constexpr double one_that_went_badly = 3;

double chance_below(std::vector<double> const& logs) {
  Sample sample = sample_of(logs);
  sample.variance = std::max(sample.variance, least_spread * least_spread);
  return chance_of_mean_below_one(sample);
}

void test_step(StepSeen const& step, std::vector<Finding>& tested) {
  std::vector<Seen> told;
  std::vector<double> logs;
  for (Seen const& job : step.times) {
    if (job.was <= 0) continue;
    told.push_back(job);
    logs.push_back(std::log(job.was / job.believed));
  }
  if (static_cast<std::int64_t>(told.size()) < few) return;
  Ranged const size = learned_ratio(told, {});
  double const below = chance_below(logs);
  logs.push_back(std::log(one_that_went_badly));
  double const above = std::max(1 - below, 1 - chance_below(logs));
  bool const longer = size.value > 1;
  tested.push_back({longer ? FindingKind::step_takes_longer : FindingKind::step_takes_less,
                    std::string(operation_row(step.operation).name), size,
                    std::min(1.0, 2 * (longer ? below : above))});
}

void test_outlets(std::span<PastJob const> jobs, std::vector<Finding>& tested) {
  std::map<std::string, std::vector<double>> left;
  for (PastJob const& job : jobs)
    left[job.outlet].push_back(static_cast<double>((job.left + job.left_given).minor));
  for (auto const& [outlet, values] : left) {
    if (static_cast<std::int64_t>(values.size()) < few) continue;
    Sample const sample = sample_of(values);
    double const deviation = std::sqrt(sample.variance / sample.n);
    boost::math::students_t const t(sample.n - 1);
    double const away = deviation * quantile(complement(t, 0.025));
    double const same = sample.mean < 0 ? 0 : 1;  // all alike
    tested.push_back({FindingKind::outlet_loses, outlet,
                      Ranged{sample.mean, sample.mean - away, sample.mean + away,
                             static_cast<std::int64_t>(values.size())},
                      deviation > 0 ? cdf(t, sample.mean / deviation) : same});
  }
}

void test_features(std::span<PastJob const> jobs, std::vector<Finding>& tested) {
  for (auto const& [row, effect] : effects_on_margin(jobs))
    tested.push_back({effect.size.value > 0 ? FindingKind::feature_pays : FindingKind::feature_costs,
                      std::string(feature_table()[row].name), effect.size, effect.chance});
}

// The n-th surest stands while its chance is no more than error / (tests - n + 1). (Holm 1979.)
void keep_what_stands(std::vector<Finding>& tested, double error) {
  std::ranges::sort(tested, surer);
  std::size_t stand = 0;
  while (stand < tested.size() && tested[stand].chance <= error / static_cast<double>(tested.size() - stand))
    ++stand;
  tested.resize(stand);
}

}  // namespace

std::vector<Finding> findings(std::span<PastJob const> jobs, std::span<StepSeen const> steps, double error) {
  std::vector<Finding> of_steps, of_outlets, of_features;
  for (StepSeen const& step : steps) test_step(step, of_steps);
  test_outlets(jobs, of_outlets);
  test_features(jobs, of_features);
  std::vector<Finding> all;
  for (std::vector<Finding>* const kind : {&of_steps, &of_outlets, &of_features}) {
    keep_what_stands(*kind, error / 3);
    std::ranges::move(*kind, std::back_inserter(all));
  }
  std::ranges::sort(all, surer);
  return all;
}

}  // namespace endband
