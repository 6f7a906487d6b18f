// Fills bins with units of the greatest area: constructions by varied orders, then ruin and recreate
// (Schrimpf et al. 2000) with a falling threshold (Dueck & Scheuer 1990), in strands of their own seeds.
#pragma once

#include "engine/cutting/skins/layout.h"

namespace endband::cutting::skins {

struct Found {
  std::vector<std::vector<Laid>> bins;
  std::int64_t twice_area = 0;
  bool all = false;
  std::int64_t work = 0;
};

// `units`: of the space, those to place. `start`: a layout to begin with, by bin.
// Another `run` looks elsewhere.
Found search(Space const& space, std::vector<int> const& bins, std::vector<int> const& units,
             Budget const& budget, std::vector<std::vector<Laid>> const* start = nullptr, int run = 0);

}  // namespace endband::cutting::skins
