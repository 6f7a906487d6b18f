// A sheet from which equal pieces alone are cut: how to leave the most that is worth keeping, exactly. For
// the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/sheets.h"

namespace endband::cutting {

// The same pieces cut anew, where that keeps more worth; else, and where the pieces differ, are many or may
// turn and do, `cut` as it is. Of a roll nothing is kept.
CutSheet keep_most(SheetRequest const& request, CutSheet const& cut);

std::int64_t worth_kept(SheetRequest const& request, CutSheet const& cut);

}  // namespace endband::cutting
