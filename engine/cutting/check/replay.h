// For the .cpp files of this module only: the cuts of a sheet made again, and what is laid and kept held
// against them.
#pragma once

#include "engine/cutting/check/faults.h"

namespace endband::cutting {

struct SheetRules {
  std::int64_t kerf = 0, trim = 0;
  std::int64_t least_kept = 0;  // least side of a kept offcut; 0: none may be kept
};

// One used sheet; `placed` counts its pieces.
void check_sheet(Sheet const& sheet, CutSheet const& cut, std::span<Rect const> pieces,
                 SheetRules const& rules, int used, std::span<Wide> placed, Faults& faults);

}  // namespace endband::cutting
