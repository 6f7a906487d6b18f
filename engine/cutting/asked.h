// From the key of a plan back to what it asks, so that a kept plan can be made again and compared.
#pragma once

#include "engine/cutting/request.h"

#include <optional>

namespace endband {

// The request that `plan_key` made `key` of, but for what no solver reads: the material and what the pieces
// are for. Nothing where it is no key of this version of the solvers, or asks more than a bench would: a side
// or a number of pieces, stock or corners out of all proportion.
struct Asked {
  CutRequest request;
  std::int64_t work = 0;
};
std::optional<Asked> asked_by(PlanKey const& key);

}  // namespace endband
