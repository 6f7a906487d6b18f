// The parts of a difference that have many lines: materials, hours, work by others. For the .cpp files of
// this module only.
#pragma once

#include "engine/review/difference.h"

#include <vector>

namespace endband {

// Each adds its details, signed as money left, each rounded once, half away; those of nothing too.
void add_materials(JobToReview const& job, std::vector<DifferenceDetail>& details);
void add_hours(JobToReview const& job, std::vector<DifferenceDetail>& details);
void add_outside(JobToReview const& job, std::vector<DifferenceDetail>& details);

}  // namespace endband
