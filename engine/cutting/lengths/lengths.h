// Ribbon, cord, core and thread: lengths from rolls and remnants, at least cost. Exact for the sizes a bench
// knows.
#pragma once

#include "engine/cutting/answer.h"

#include <optional>

namespace endband::cutting {

struct Roll {  // a roll as sold, or a remnant
  std::int64_t length = 0;
  std::int64_t cost = 0;                 // of one, whatever is left of it
  std::optional<std::int64_t> copies{};  // nullopt: as many as wanted
};
struct Length1 {
  std::int64_t length = 0;
  std::int64_t copies = 1;
};
struct LengthRequest {
  std::vector<Roll> rolls;
  std::vector<Length1> pieces;
  std::int64_t kerf = 0;  // lost between two pieces: pieces of l1, l2 fit where l1 + kerf + l2 <= length
};

struct CutRoll {  // one pattern
  int roll = 0;
  std::int64_t times = 1;
  std::vector<std::int64_t> counts;  // of each piece of the request
};

// Least sum of costs; among the plans of least cost that were met the one with the longest single remnant. A
// request without pieces is planned with nothing. A length that is not positive, a negative cost, kerf or
// count, or a sum that leaves 64 bits: std::logic_error. A step is one node of a search, or some
// twenty operations of a table or of the linear program.
Answer<CutRoll> plan_lengths(LengthRequest const& request, Budget const& budget);

}  // namespace endband::cutting
