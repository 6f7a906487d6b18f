// A goal as one sum that a walk must reach.
#pragma once

#include "engine/pricing/walk.h"

#include <cstdint>

namespace endband {

struct Aim {
  bool of_yours = false;   // else of what is left
  std::int64_t least = 0;  // minor units of the workshop's currency
  Ratio share = 0;         // and this of (price - what stands at cost)
};
// Faults: bad_goal.
Read<Aim> aim_of(Goal const& goal, CostSheet const& sheet);

// What a walk has beyond its aim; negative: what it lacks. Exact: the share is rounded up.
std::int64_t beyond(Aim const& aim, Walk const& walk, Money standing);

Fault bad_goal(std::string field, Ratio found, std::string expected);

}  // namespace endband
