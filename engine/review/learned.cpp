#include "engine/review/learned.h"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace endband {
namespace {

constexpr double tail = 0.025;       // on either side of 19 chances of 20
constexpr double prior_freedom = 4;  // of the deviation of an average job

double median(std::vector<double> values) {
  auto const middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  if (values.size() % 2 == 1) return *middle;
  double const upper = *middle, lower = *std::max_element(values.begin(), middle);
  return lower == upper ? upper : (lower + upper) / 2;  // also of two that are infinite
}

void check(std::span<Seen const> seen) {
  if (std::ranges::any_of(seen, [](Seen const& job) { return !(job.believed > 0) || !(job.was >= 0); }))
    throw std::logic_error("learned: believed above nothing, was not under it");
}

}  // namespace

Ranged learned_ratio(std::span<Seen const> seen, PriorOfRatio const& prior) {
  check(seen);
  if (!(prior.prior > 0) || !(prior.jobs_worth > 0) || !(prior.spread > 0))
    throw std::logic_error("learned_ratio: a prior above nothing");
  auto const n = static_cast<double>(seen.size());
  double believed = 0, was = 0;
  for (Seen const& job : seen) {
    believed += job.believed;
    was += job.was;
  }
  // Believed is measured in average jobs from here on, so that the prior needs none: n jobs believe n.
  double const average = n > 0 ? believed / n : 1;
  double const seen_ratio = n > 0 ? was / believed : prior.prior;
  double const weight = prior.jobs_worth + n;
  double const value = (prior.prior * prior.jobs_worth + seen_ratio * n) / weight;

  double squares = prior_freedom * std::pow(prior.spread * prior.prior, 2);
  for (Seen const& job : seen)
    squares += job.believed / average * std::pow(job.was / job.believed - seen_ratio, 2);
  squares += prior.jobs_worth * n / weight * std::pow(seen_ratio - prior.prior, 2);
  double const freedom = prior_freedom + n;
  double const deviation = std::sqrt(squares / freedom / weight);
  double const away = deviation * quantile(complement(boost::math::students_t(freedom), tail));
  return {value, std::max(0.0, value - away), value + away, static_cast<std::int64_t>(seen.size())};
}

Ranged learned_chance(std::int64_t happened, std::int64_t of, double prior, double worth) {
  if (happened < 0 || happened > of) throw std::logic_error("learned_chance: more happened than there were");
  if (!(prior > 0) || !(prior < 1) || !(worth > 0))
    throw std::logic_error("learned_chance: a prior between nothing and all");
  double const a = prior * worth + static_cast<double>(happened);
  double const b = (1 - prior) * worth + static_cast<double>(of - happened);
  boost::math::beta_distribution<> const posterior(a, b);
  return {a / (a + b), quantile(posterior, tail), quantile(complement(posterior, tail)), of};
}

std::vector<std::size_t> far_from_the_others(std::span<Seen const> seen) {
  check(seen);
  if (seen.size() < 5) return {};
  std::vector<double> logs, away;
  for (Seen const& job : seen)
    logs.push_back(job.was > 0 ? std::log(job.was / job.believed) : -std::numeric_limits<double>::infinity());
  double const middle = median(logs);
  if (std::isinf(middle)) return {};  // most took nothing at all
  for (double const log : logs) away.push_back(std::abs(log - middle));
  double const most = std::max(3.5 * 1.4826 * median(away), std::log(1.05));
  std::vector<std::size_t> far;
  for (std::size_t i = 0; i < away.size(); ++i)
    if (away[i] > most) far.push_back(i);
  return far;
}

}  // namespace endband
