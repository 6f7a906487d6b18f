#include "engine/review/lessons.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace endband {
namespace {

constexpr double chances_worth = 20;    // jobs
constexpr double enquiries_worth = 10;  // enquiries
constexpr double spoil_spread = 1;      // of an average job: spoil is far from even
constexpr double by_half = 0.5;
constexpr std::int64_t thousand = 1000;
Ratio const most_spoil(95, 100);

double decimal(Ratio value) { return static_cast<double>(value.num()) / static_cast<double>(value.den()); }
Ratio to_thousandth(double value) { return {std::llround(value * thousand), thousand}; }

double mean_of(std::vector<Seen> const& seen, double Seen::*which) {
  double const sum = std::accumulate(seen.begin(), seen.end(), 0.0,
                                     [which](double so_far, Seen const& one) { return so_far + one.*which; });
  return sum / static_cast<double>(seen.size());
}

bool within(Ranged const& factor) { return factor.low <= 1 && factor.high >= 1; }
double away(Ranged const& factor) { return std::abs(factor.value - 1); }
bool enough(std::vector<Seen> const& seen) { return static_cast<std::int64_t>(seen.size()) >= few; }

std::optional<OutletAlone> one_outlet_alone(StepSeen const& seen, std::span<PastJob const> jobs) {
  std::set<std::string> outlets;
  for (std::size_t const job : seen.jobs)
    if (!jobs[job].outlet.empty()) outlets.insert(jobs[job].outlet);
  for (std::string const& outlet : outlets) {
    std::vector<Seen> through, rest;
    for (std::size_t i = 0; i < seen.jobs.size(); ++i)
      (jobs[seen.jobs[i]].outlet == outlet ? through : rest).push_back(seen.times[i]);
    if (!enough(through) || !enough(rest)) continue;
    OutletAlone alone{outlet, learned_ratio(through, {}), learned_ratio(rest, {})};
    bool const elsewhere_not = within(alone.rest) || 3 * away(alone.rest) < away(alone.through);
    if (!within(alone.through) && away(alone.through) > by_half && elsewhere_not) return alone;
  }
  return std::nullopt;
}

LearnedStep learned_step(StepSeen const& seen, std::span<PastJob const> jobs) {
  LearnedStep step;
  step.operation = seen.operation;
  step.timed_s = std::llround(mean_of(seen.times, &Seen::believed));
  step.took_s = std::llround(mean_of(seen.times, &Seen::was));
  step.factor = learned_ratio(seen.times, {});
  for (std::size_t const at : far_from_the_others(seen.times))
    step.far.push_back({jobs[seen.jobs[at]].number, seen.times[at].was / seen.times[at].believed});
  step.only = one_outlet_alone(seen, jobs);
  return step;
}

double out_by(LearnedStep const& step) {
  return away(step.factor) * static_cast<double>(step.timed_s) * static_cast<double>(step.factor.n);
}

Spread3 scaled(Spread3 const& times, Ratio factor) {
  auto const each = [&](Duration time) {
    return Duration{round_product(factor, time.n, Rounding::half_away)};
  };
  return {each(times.low), each(times.likely), each(times.high)};
}

}  // namespace

std::vector<LearnedStep> learned_steps(std::span<StepSeen const> seen, std::span<PastJob const> jobs) {
  std::vector<LearnedStep> steps;
  for (StepSeen const& each : seen) steps.push_back(learned_step(each, jobs));
  std::ranges::stable_sort(steps, std::ranges::greater{}, out_by);
  return steps;
}

double surely_out(LearnedStep const& step) {
  Ranged const& factor = step.factor;
  if (factor.n < few || step.only || within(factor)) return 0;
  return away(factor) / std::max(1e-9, (factor.high - factor.low) / 2);
}

Step as_learned(Step step, Ranged const& factor) {
  Ratio const times = to_thousandth(factor.value);
  step.set_up = scaled(step.set_up, times);
  step.each = scaled(step.each, times);
  return step;
}

double LearnedSpoil::share(double times) const { return std::min(decimal(now) * times, decimal(most_spoil)); }

bool LearnedSpoil::worth_telling() const { return factor.n > 0 && !within(factor); }

std::optional<LearnedSpoil> learned_spoil(SpoilSeen const& seen, Material const& material) {
  LearnedSpoil spoil{.code = material.code,
                     .now = material.spoil,
                     .ruin_now = material.ruin_chance,
                     .factor = {},
                     .ruin = {}};
  if (!seen.times.empty())
    spoil.factor = learned_ratio(seen.times, {.prior = 1, .jobs_worth = 4, .spread = spoil_spread});
  if (material.ruin_chance > Ratio(0))
    spoil.ruin = learned_chance(seen.ruined, seen.taken, decimal(material.ruin_chance), chances_worth);
  if (seen.times.empty() && !spoil.ruin) return std::nullopt;
  return spoil;
}

Material as_learned(Material material, LearnedSpoil const& spoil) {
  if (spoil.factor.n > 0) {
    Ratio const factor = to_thousandth(spoil.factor.value);
    material.spoil = std::min(material.spoil * factor, most_spoil);
    material.least_spoil.n = round_product(factor, material.least_spoil.n, Rounding::half_away);
  }
  if (spoil.ruin) material.ruin_chance = to_thousandth(spoil.ruin->value);
  return material;
}

LearnedEnquiries learned_enquiries(EnquiriesSeen const& seen, Ratio now) {
  double const prior = std::clamp(1 / decimal(now), 0.01, 0.99);
  Ranged const won = learned_chance(seen.taken, seen.quoted, prior, enquiries_worth);
  return {seen, now, {1 / won.value, 1 / won.high, 1 / won.low, seen.quoted}};
}

}  // namespace endband
