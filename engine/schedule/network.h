// The critical path method: when each task can and must be done if only its links bind it, not hands, places
// or hours. Times are those of the project, whole; a task lasts its work and its wait. J. E. Kelley and M. R.
// Walker, "Critical-path planning and scheduling", Proceedings of the Eastern Joint Computer Conference
// (1959) 160-173; lags of links as in the precedence diagramming method.
#pragma once

#include "engine/schedule/project.h"

#include <tl/expected.hpp>

#include <vector>

namespace endband::schedule {

struct Moments {
  Time early_start = 0, early_finish = 0;
  Time late_start = 0, late_finish = 0;  // at the latest, for the project to end when it can
  Time total_float = 0;                  // late less early start
  Time free_float = 0;                   // by which it may start later than early and move no other task
  bool critical() const { return total_float == 0; }
  friend bool operator==(Moments const&, Moments const&) = default;
};
struct Network {
  std::vector<Moments> tasks;  // by task
  Time length = 0;             // end of the last
};

// Each is linked to the next, and the last to the first: nothing can be begun. Starts at its least task.
struct Circle {
  std::vector<int> tasks;
  friend bool operator==(Circle const&, Circle const&) = default;
};

// All tasks, each after those it is linked from; of those that are free the least first.
tl::expected<std::vector<int>, Circle> link_order(Project const& project);

tl::expected<Network, Circle> critical_path(Project const& project);

// Earliest starts where links may lead in circles, as greatest lags do ("b at most 5 after a" is a
// start_start link from b to a with lag -5). A circle is refused only if it asks that a task start later than
// itself: longest paths after R. Bellman, "On a routing problem", Quarterly of Applied Mathematics 16 (1958)
// 87-90.
tl::expected<std::vector<Time>, Circle> earliest_starts(Project const& project);

}  // namespace endband::schedule
