// All pieces off one roll, as short a length as can be found; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/sheets.h"

namespace endband::cutting {

// `request.sheets` is not looked at; the roll is taken once, and not_found where one did not do although more
// may be had. The length is least first, then what is kept counts. A step as of best_of_sheet.
Answer<CutSheet> plan_roll(Sheet const& roll, SheetRequest const& request, Budget const& budget);

}  // namespace endband::cutting
