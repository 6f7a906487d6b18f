// What past jobs teach the next quote: times of steps, spoil and ruin of materials, enquiries for each order.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/review/learned.h"
#include "engine/review/past.h"
#include "engine/review/step_times.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace endband {

struct FarJob {
  std::string number;
  double ratio = 1;  // taken / timed
};
// Out where it is sold through one outlet, by more than half, and not (or not by a third of that) elsewhere:
// then it is the outlet's doing, not the step's.
struct OutletAlone {
  std::string outlet;
  Ranged through, rest;
};
struct LearnedStep {
  OperationKind operation{};
  std::int64_t timed_s = 0, took_s = 0;  // of an average job
  Ranged factor;                         // of all its times
  std::vector<FarJob> far;
  std::optional<OutletAlone> only;
};
// By how many hours they were out in all, most first.
std::vector<LearnedStep> learned_steps(std::span<StepSeen const> seen, std::span<PastJob const> jobs);
// How far a step is from what it is timed at, in halves of its range; 0: within it, of few jobs, or an
// outlet's doing.
double surely_out(LearnedStep const& step);
// The step with its times multiplied, the factor to a thousandth, each rounded to a second half away.
Step as_learned(Step step, Ranged const& factor);

struct SpoilSeen {  // of a material in the jobs that took it
  MaterialId material;
  std::vector<Seen> times;  // believed: quoted to be spoiled; was: spoiled; base units of its dimension
  std::int64_t taken = 0;   // jobs that took it,
  std::int64_t ruined =
      0;  // and those in which half of what is in the book, or more, was spoiled beyond the quote
};
struct LearnedSpoil {
  std::string code;
  Ratio now, ruin_now;
  Ranged factor;                     // spoiled / quoted to be; n 0: nothing was quoted to be
  std::optional<Ranged> ruin;        // of what has a chance of ruin
  double share(double times) const;  // spoil, were it so many times what it is now; at most 95 %
  bool worth_telling() const;        // as quoted lies outside its range
};
// None: nothing of it spoils or can be ruined.
std::optional<LearnedSpoil> learned_spoil(SpoilSeen const& seen, Material const& material);
// The material with its spoil, least spoil and chance of ruin as learned.
Material as_learned(Material material, LearnedSpoil const& spoil);

// Commissions of which it is known whether they were taken.
struct EnquiriesSeen {
  std::int64_t quoted = 0, taken = 0;
};
struct LearnedEnquiries {
  EnquiriesSeen seen;
  Ratio now;  // enquiries for each order
  Ranged an_order;
};
LearnedEnquiries learned_enquiries(EnquiriesSeen const& seen, Ratio now);

}  // namespace endband
