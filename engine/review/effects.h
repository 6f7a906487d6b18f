// One regression on features, as findings and the table of effects share it. Not for other modules.
#pragma once

#include "engine/review/findings.h"

#include <map>

namespace endband {

struct Effect {
  Ranged size;
  double chance = 1;  // of one as large by chance alone, two-sided
};
// On the margin, by row of the feature table; rows that are not in the regression are not in the map.
std::map<std::size_t, Effect> effects_on_margin(std::span<PastJob const> jobs);

}  // namespace endband
