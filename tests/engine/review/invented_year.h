// Years of an invented workshop, drawn anew from a seed: what was quoted, and what its jobs then took.
#pragma once

#include "engine/review/findings.h"

#include <optional>

namespace endband::invented {

struct Truths {
  std::optional<OperationKind> under_timed;  // takes a third more than it is timed
  bool losing_outlet = false;                // the fair: far more office work and higher fees than said
  bool leaf_pays = false;                    // books with leaf go quicker than quoted
};
struct Noise {
  double job = 0.08, step = 0.18;  // deviation of the logarithm, of a whole job and of each step
  double rare = 0;  // chance that a step takes three times as long (the others then less, so that
                    // the mean is 1)
};
struct Year {
  std::vector<PastJob> jobs;
  std::vector<StepSeen> steps;
};
Year year(std::uint64_t seed, Truths const& truths, Noise const& noise = {}, int jobs = 70);

}  // namespace endband::invented
