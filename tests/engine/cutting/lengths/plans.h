// For the tests of lengths: requests in one line, a check of a plan, and every plan there is, one by one.
#pragma once

#include "engine/cutting/lengths/lengths.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace endband::cutting::plans {

inline LengthRequest request(std::vector<Roll> rolls, std::vector<Length1> pieces, std::int64_t kerf = 0) {
  return {std::move(rolls), std::move(pieces), kerf};
}
Answer<CutRoll> plan(LengthRequest const& request, std::int64_t work = 1'000'000);

// Empty: demand is met exactly, no roll is overfull or used too often, and the cost is as stated and not
// below the bound.
std::string fault_of(LengthRequest const& request, Answer<CutRoll> const& answer);

// The longest piece of roll that is left over, after the cut that takes it off.
std::int64_t longest_remnant(LengthRequest const& request, Answer<CutRoll> const& answer);

struct Best {
  std::int64_t cost = 0;
  std::int64_t remnant = 0;  // the longest at that cost
};
// By putting each piece into each roll: up to some eight pieces.
std::optional<Best> brute_force(LengthRequest const& request);

}  // namespace endband::cutting::plans
