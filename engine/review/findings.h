// What past jobs say that is more than chance: steps that are misjudged, places that lose money, features
// that pay or do not; and the effect of every feature with its range.
#pragma once

#include "engine/review/learned.h"
#include "engine/review/past.h"
#include "engine/review/step_times.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace endband {

// What a feature adds, all others held: to the margin (share of the full price) and to the hours over those
// that were quoted. Both from one regression over all jobs on all features that at least `few` jobs have and
// `few` have not, shrunk by a penalty that marginal likelihood chooses (empirical Bayes: effects are believed
// to be 0.2 to 5 times as large as the noise of a job); outlets of `few` jobs have levels of their own, not
// shrunk. Jobs of no price or no hours are left out of the one that needs them; n is how many in it have the
// feature, 0 where it is not in it.
struct FeatureEffect {
  std::size_t feature;  // row of feature_table()
  // Rows after it that just the same jobs have: nothing tells them apart, and the effect is of all together.
  std::vector<std::size_t> always_with;
  std::int64_t with = 0, without = 0;
  Ranged margin;             // 0.03: three points of a hundred
  Ranged hours;              // hours a job
  double margin_chance = 1;  // of an effect as large by chance alone, two-sided
};
std::vector<FeatureEffect> feature_effects(std::span<PastJob const> jobs);  // by row

enum class FindingKind : std::uint8_t {
  step_takes_longer,  // than it is timed
  step_takes_less,
  outlet_loses,  // what is left of a job through it is less than nothing
  feature_pays,  // a higher margin with it than without
  feature_costs,
};
struct Finding {
  FindingKind what;
  std::string name;   // "sew-sections", "gallery" (empty: the workshop itself), "stone"
  Ranged size;        // taken / timed; left in minor units a job; points of margin
  double chance = 1;  // that chance alone shows as much
};
// All that stand when the chance of naming anything at all that is not so is held under `error` in a year.
// Each is tested: a step on the logarithms of taken / timed, whether their mean agrees with a taken / timed
// of mean 1 (the generalised test of a log-normal mean), an outlet on what its jobs leave, what was given
// away added back (Student's t, one-sided), a feature on its effect on the margin. Steps, outlets and
// features have a third of `error` each, so that many steps hide no outlet, and within it their chances are
// held against Holm's steps (Holm 1979). Jobs that took no time of a step are left out; steps, outlets and
// features of fewer than `few` jobs are not tested. Surest first.
std::vector<Finding> findings(std::span<PastJob const> jobs, std::span<StepSeen const> steps,
                              double error = 0.04);

}  // namespace endband
