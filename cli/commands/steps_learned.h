// What past jobs teach of steps, materials and enquiries, and taking it over.
#pragma once

#include "cli/commands/margins_seen.h"
#include "engine/review/learned.h"

#include <string>
#include <vector>

namespace endband::cli {

struct FarJob {
  std::string number;
  double ratio = 1;  // taken / timed
};
// Out where it is sold through one outlet, and within its range elsewhere.
struct OutletAlone {
  std::string outlet;
  Ranged through, rest;
};
struct LearnedStep {
  OperationKind operation;
  Step now;
  std::int64_t timed_s = 0, took_s = 0;  // of an average job
  Ranged factor;                         // of all its times
  std::vector<FarJob> far;
  std::optional<OutletAlone> only;
};
struct LearnedSpoil {
  std::string code;
  Ratio now, ruin_now;
  Ranged factor;                      // spoiled / quoted to be; n 0: nothing was quoted to be
  std::optional<Ranged> ruin;         // of what has a chance of ruin
  double share(double times) const;  // spoil, were it so many times what it is now
  bool worth_telling() const;         // as quoted lies outside its range
};
struct LearnedEnquiries {
  std::int64_t quoted = 0, taken = 0;
  Ratio now;  // enquiries for each order
  Ranged an_order;
};
struct Learned {
  std::size_t jobs = 0;
  std::int64_t jobs_by_part = 0;
  std::vector<LearnedStep> steps;  // by how many hours they were out in all
  std::vector<LearnedSpoil> materials;
  LearnedEnquiries enquiries;
};

Read<Learned> learn(db::Workshop& workshop, Args const& args, Date on);
// Writes a dated version of each thing that --accept names, and says their names. Faults: unknown_code with
// near.
Read<std::vector<std::string>> accept(db::Writing& writing, Learned const& learned, Args const& args,
                                      Date from);

}  // namespace endband::cli
