// Two lengths with a cross between them, for the readers of areas and of sheet sizes.
#pragma once

#include "engine/measure/measure.h"

#include <string_view>

namespace endband {

struct Extent {
  Length first, second;
};

bool has_cross(std::string_view text);  // an "x" or a multiplication sign

// "450 x 640 mm", "148x210mm", "17 1/2 in x 22 in": a unit after the second holds for a first without one.
Read<Extent> read_extent(std::string_view text, std::string_view example);

}  // namespace endband
