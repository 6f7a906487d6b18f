// Sheets filled before, put together anew; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/search.h"

namespace endband::cutting::many {

// The cheapest choice of patterns that holds all pieces for less than `below`; what would be laid twice is
// left out. Depth first by the largest piece that is not laid yet, as long as there is work.
std::optional<Plan> cover(Job const& job, std::vector<Pattern> const& patterns, std::int64_t below,
                          std::int64_t most_work, std::int64_t& work);

}  // namespace endband::cutting::many
