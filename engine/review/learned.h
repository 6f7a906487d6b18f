// What was seen, drawn towards what was believed before: few jobs move a figure little.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace endband {

struct Seen {       // of one job
  double believed;  // > 0: seconds of the step as it is timed now; quantity taken, for spoil
  double was;       // >= 0: seconds worked; quantity spoiled
};

// A figure with the range in which it lies with 19 chances of 20.
struct Ranged {
  double value = 0, low = 0, high = 0;
  std::int64_t n = 0;
};

// The ratio of what was to what was believed, drawn towards `prior`, which counts as much as `jobs_worth`
// average jobs. Of each job was / believed ~ normal (r, v / believed); r given v ~ normal (prior, v / P), P =
// jobs_worth x mean believed; v ~ inverse gamma with 4 degrees of freedom and a deviation of `spread` (as a
// share of prior) of an average job: the conjugate prior, so the posterior of r is Student's t with 4 + n
// degrees:
//   value = (prior P + sum was) / (P + sum believed)
// (normal-inverse-gamma; e.g. Gelman et al., Bayesian Data Analysis, from memory). Nothing seen: prior, and
// the prior's own range needs no data either. A range ends at 0.
struct PriorOfRatio {
  double prior = 1;
  double jobs_worth = 4;
  double spread = 0.3;
};
Ranged learned_ratio(std::span<Seen const> seen, PriorOfRatio const& prior);

// A chance, seen `happened` times of `of`, drawn towards `prior` (0 < prior < 1), which counts as much as
// `worth` earlier times: beta (prior x worth, (1 - prior) x worth) and a binomial; value is the posterior's
// mean.
Ranged learned_chance(std::int64_t happened, std::int64_t of, double prior, double worth);

// Jobs that lie far from the others, by index: |log (was / believed) - median| over 3.5 x 1.4826 x the median
// absolute deviation (Iglewicz and Hoaglin 1993, from memory), but what is less than a twentieth off never
// is. They are counted like all others, and shown. Fewer than 5 have none.
std::vector<std::size_t> far_from_the_others(std::span<Seen const> seen);

}  // namespace endband
