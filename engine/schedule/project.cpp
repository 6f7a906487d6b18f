#include "engine/schedule/project.h"

#include <algorithm>

namespace endband::schedule {

Time Plan::finish() const {
  Time last = 0;
  for (Placed const& task : tasks) last = std::max(last, task.finish);
  return last;
}

}  // namespace endband::schedule
