// The patterns that a branch looks at.
#pragma once

#include "engine/cutting/lengths/bound.h"

namespace endband::cutting::lengths {

struct Choice {
  Pattern pattern;
  Wide reduced_cost = 0;
};
struct Choices {
  std::vector<Choice> all;
  bool complete = true;
};

// Every pattern that holds the largest piece left, takes no further piece, cannot be cut from a shorter stock
// that costs no more, and whose reduced cost is at most `room`. A plan of least cost has one of them: a piece
// more in a roll does no harm, and two rolls may change their contents.
Choices choices(Problem const& problem, Rest const& rest, Dual const& dual, Wide room, std::size_t limit,
                Meter& meter);

}  // namespace endband::cutting::lengths
