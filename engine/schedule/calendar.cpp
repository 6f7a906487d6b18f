#include "engine/schedule/calendar.h"

#include "engine/schedule/hours.h"

#include <algorithm>

namespace endband::schedule {

Time work_ends(Calendar const& calendar, Time from, Time work) {
  return work <= 0 ? from : Hours(calendar).stint(from, work, false).end;
}

Time open_between(Calendar const& calendar, Time from, Time to) {
  Time sum = 0;
  for (Open const& open : calendar)
    sum += std::max<Time>(0, std::min(open.end, to) - std::max(open.begin, from));
  return sum;
}

}  // namespace endband::schedule
