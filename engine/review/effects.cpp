#include "engine/review/effects.h"

#include "engine/review/least_squares.h"

#include <boost/math/distributions/students_t.hpp>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace endband {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;
using Index = Eigen::Index;
using Jobs = std::vector<PastJob const*>;

// An effect is believed to be about this often as large as the noise of a job: between the two the data
// choose.
constexpr double smallest_prior = 0.2, largest_prior = 5;
constexpr int prior_steps = 40;
constexpr double tail = 0.025;  // on either side of 19 chances of 20

Jobs of(std::span<PastJob const> jobs, bool (*told)(PastJob const&)) {
  Jobs result;
  for (PastJob const& job : jobs)
    if (told(job)) result.push_back(&job);
  return result;
}
bool has_price(PastJob const& job) { return job.full_price.minor > 0; }
bool has_hours(PastJob const& job) { return job.seconds > 0 && job.seconds_quoted > 0; }

double margin(PastJob const& job) {
  return static_cast<double>((job.left + job.left_given).minor) / static_cast<double>(job.full_price.minor);
}
double hours_over(PastJob const& job) { return static_cast<double>(job.seconds - job.seconds_quoted) / 3600; }

// Outlets with jobs enough, but for the one with most: each has a level of its own that nothing shrinks.
std::vector<std::string> outlets_beside_the_first(Jobs const& jobs) {
  std::map<std::string, std::int64_t> counts;
  for (PastJob const* const job : jobs) ++counts[job->outlet];
  auto const most = std::ranges::max_element(counts, {}, [](auto const& count) { return count.second; });
  std::vector<std::string> result;
  for (auto it = counts.begin(); it != counts.end(); ++it)
    if (it != most && it->second >= few) result.push_back(it->first);
  return result;
}

struct Design {
  Observed observed;              // ones, outlets, features
  std::size_t levels = 0;         // ones and outlets
  std::vector<std::size_t> rows;  // of the feature table
};

// Rows of the table that the same jobs have cannot be told apart: the first stands for them all.
bool same_jobs(Jobs const& jobs, std::size_t a, std::size_t b) {
  return std::ranges::all_of(jobs,
                             [a, b](PastJob const* job) { return job->features[a] == job->features[b]; });
}

Design design_of(Jobs const& jobs, double (*y)(PastJob const&)) {
  Design design;
  auto const n = static_cast<std::int64_t>(jobs.size());
  for (std::size_t row = 0; row < feature_table().size(); ++row) {
    auto const with = std::ranges::count_if(jobs, [row](PastJob const* job) { return job->features[row]; });
    bool const new_column = std::ranges::none_of(
        design.rows, [&](std::size_t const earlier) { return same_jobs(jobs, earlier, row); });
    if (with >= few && n - with >= few && new_column) design.rows.push_back(row);
  }
  if (design.rows.empty()) return design;
  std::vector<std::string> const outlets = outlets_beside_the_first(jobs);
  design.levels = 1 + outlets.size();
  design.observed.columns = design.levels + design.rows.size();
  for (PastJob const* const job : jobs) {
    design.observed.y.push_back(y(*job));
    design.observed.x.push_back(1);
    for (std::string const& outlet : outlets) design.observed.x.push_back(job->outlet == outlet ? 1 : 0);
    for (std::size_t const row : design.rows) design.observed.x.push_back(job->features[row] ? 1 : 0);
  }
  return design;
}

// The penalty, noise variance over prior variance, whose marginal likelihood is highest: levels and noise
// integrated out with flat priors (of log noise), effects with their normal one. None: y has no noise to
// speak of.
std::optional<double> likeliest_penalty(Design const& design) {
  using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  auto const rows = static_cast<Index>(design.observed.rows());
  auto const columns = static_cast<Index>(design.observed.columns);
  auto const levels = static_cast<Index>(design.levels);
  Matrix const all = Eigen::Map<RowMajor const>(design.observed.x.data(), rows, columns);
  Vector const y = Eigen::Map<Vector const>(design.observed.y.data(), rows);

  // What is left of features and y beside the levels.
  Eigen::HouseholderQR<Matrix> const of_levels(all.leftCols(levels));
  Matrix x = of_levels.householderQ().transpose() * all.rightCols(columns - levels);
  Vector rest = of_levels.householderQ().transpose() * y;
  Matrix const x_left = x.bottomRows(rows - levels);
  Vector const y_left = rest.tail(rows - levels);
  if (y_left.squaredNorm() <= 1e-20 * y.squaredNorm()) return std::nullopt;

  Eigen::SelfAdjointEigenSolver<Matrix> const turned(x_left.transpose() * x_left);
  Vector const lengths = turned.eigenvalues().cwiseMax(0);
  Vector const along = turned.eigenvectors().transpose() * (x_left.transpose() * y_left);
  double best = 0, highest = 0;
  for (int i = 0; i <= prior_steps; ++i) {
    double const prior = smallest_prior * std::pow(largest_prior / smallest_prior, i / double{prior_steps});
    double const penalty = 1 / (prior * prior);
    double squares = y_left.squaredNorm(), log_shrunk = 0;
    for (Index j = 0; j < lengths.size(); ++j) {
      squares -= along[j] * along[j] / (lengths[j] + penalty);
      log_shrunk += std::log(penalty / (lengths[j] + penalty));
    }
    double const likelihood = (log_shrunk - static_cast<double>(rows - levels) * std::log(squares)) / 2;
    if (i == 0 || likelihood > highest) {
      highest = likelihood;
      best = penalty;
    }
  }
  return best;
}

// The effect is shrunk, its test is not: with v the posterior's variance over that of the noise, taking away
// the effect's own prior (precision `penalty`) leaves value / (1 - penalty v) with variance v / (1 - penalty
// v), all other effects being drawn from theirs. Tested twice, for noise alike in all jobs and for noise that
// is not, then with freedom for the smaller of both groups only, and the less sure one counts.
Effect effect_of(Fit const& fit, std::size_t column, double penalty, std::int64_t with,
                 std::int64_t without) {
  double const value = fit.estimate[column];
  double const unshrunk = 1 - penalty * std::pow(fit.deviation[column] / fit.residual, 2);
  constexpr double nothing = 1e-9;  // of a feature is left beside the outlets, or of the noise
  if (unshrunk < nothing || !(fit.uneven[column] > 0)) return {{value, value, value, with}, 1};
  boost::math::students_t const alike(fit.freedom);
  boost::math::students_t const uneven(static_cast<double>(std::min(with, without) - 1));
  double const t_alike = std::abs(value) / fit.deviation[column] / std::sqrt(unshrunk);
  double const t_uneven = std::abs(value) / fit.uneven[column];
  double const away = std::max(fit.deviation[column] * quantile(complement(alike, tail)),
                               fit.uneven[column] * quantile(complement(uneven, tail)));
  return {{value, value - away, value + away, with},
          2 * std::max(cdf(complement(alike, t_alike)), cdf(complement(uneven, t_uneven)))};
}

std::map<std::size_t, Effect> effects(Jobs const& jobs, double (*y)(PastJob const&)) {
  Design const design = design_of(jobs, y);
  std::map<std::size_t, Effect> result;
  if (design.rows.empty()) return result;
  std::vector<double> penalties(design.observed.columns, 0.0);
  std::optional<double> const penalty = likeliest_penalty(design);
  std::fill(penalties.begin() + static_cast<std::ptrdiff_t>(design.levels), penalties.end(),
            penalty.value_or(1.0));
  Fit const fit = least_squares(design.observed, penalties);
  for (std::size_t j = 0; j < design.rows.size(); ++j) {
    std::size_t const row = design.rows[j];
    auto const with = std::ranges::count_if(jobs, [row](PastJob const* job) { return job->features[row]; });
    Effect effect = effect_of(fit, design.levels + j, penalties.back(), with,
                              static_cast<std::int64_t>(jobs.size()) - with);
    if (!penalty) effect = {{0, 0, 0, with}, 1};
    result.emplace(row, effect);
  }
  return result;
}

}  // namespace

std::map<std::size_t, Effect> effects_on_margin(std::span<PastJob const> jobs) {
  return effects(of(jobs, has_price), margin);
}

std::vector<FeatureEffect> feature_effects(std::span<PastJob const> jobs) {
  std::map<std::size_t, Effect> const margins = effects_on_margin(jobs);
  std::map<std::size_t, Effect> const hours = effects(of(jobs, has_hours), hours_over);
  Jobs const all = of(jobs, [](PastJob const&) { return true; });
  std::vector<FeatureEffect> result;
  for (std::size_t row = 0; row < feature_table().size(); ++row) {
    auto const by_margin = margins.find(row);
    auto const by_hours = hours.find(row);
    if (by_margin == margins.end() && by_hours == hours.end()) continue;
    FeatureEffect effect;
    effect.feature = row;
    effect.with = std::ranges::count_if(jobs, [row](PastJob const& job) { return job.features[row]; });
    effect.without = static_cast<std::int64_t>(jobs.size()) - effect.with;
    for (std::size_t other = row + 1; other < feature_table().size(); ++other)
      if (same_jobs(all, row, other)) effect.always_with.push_back(other);
    if (by_margin != margins.end()) {
      effect.margin = by_margin->second.size;
      effect.margin_chance = by_margin->second.chance;
    }
    if (by_hours != hours.end()) effect.hours = by_hours->second.size;
    result.push_back(effect);
  }
  return result;
}

}  // namespace endband
