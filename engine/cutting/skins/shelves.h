// Very many pieces: laid in rows, tallest first. A plan at once, for the search to better.
#pragma once

#include "engine/cutting/skins/layout.h"

namespace endband::cutting::skins {

// Lays units of one piece each into the empty bins; returns the work.
std::int64_t lay_in_shelves(Space const& space, Lines& lines, Layout& layout, std::vector<int> const& units,
                            std::int64_t work);

}  // namespace endband::cutting::skins
