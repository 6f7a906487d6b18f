// Of the plans of one cost, one with a longer remnant.
#pragma once

#include "engine/cutting/lengths/problem.h"

namespace endband::cutting::lengths {

// Takes pairs of rolls, fills the one as well as both contents allow, and leaves the rest to the other, which
// keeps what remains; as long as the longest remnant grows. A roll
// that is emptied so is not used.
void lengthen_remnant(Problem const& problem, Plan& plan, Meter& meter);

}  // namespace endband::cutting::lengths
