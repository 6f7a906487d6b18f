// What a calendar says of working time.
#pragma once

#include "engine/schedule/project.h"

namespace endband::schedule {

// When so much work is done that begins at `from` or when the hours open next; `never` if they end before.
Time work_ends(Calendar const& calendar, Time from, Time work);
// Open time of [from, to).
Time open_between(Calendar const& calendar, Time from, Time to);

}  // namespace endband::schedule
