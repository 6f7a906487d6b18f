// Looks for a plan that ends as early as can be, within a budget of schedules generated.
//
// A genetic algorithm over lists of tasks (S. Hartmann, "A competitive genetic algorithm for
// resource-constrained project scheduling", Naval Research Logistics 45 (1998) 733-750) with two populations,
// one of schedules packed to the front and one of schedules packed to the end, each bred from the other (D.
// Debels and M. Vanhoucke, "A bi-population based genetic algorithm for the resource-constrained project
// scheduling problem", ICCSA 2005, 378-387), which is forward-backward improvement at the cost of one
// schedule (V. Valls, F. Ballestin and S. Quintanilla, "Justification and RCPSP: a technique that pays",
// European Journal of Operational Research 165 (2005) 375-386). Where there are hours, releases, a choice of
// hands or other links, all schedules are packed to the front. Where there are no more orders of the tasks
// than schedules to be generated, all of them are tried instead.
#pragma once

#include "engine/schedule/project.h"

#include <cstdint>

namespace endband::schedule {

struct Effort {
  std::int64_t schedules = 5'000;  // generated at most; at least one is
  std::uint64_t seed = 1;
};

struct Solved {
  Plan plan;
  Time bound = 0;              // no plan ends before
  std::int64_t schedules = 0;  // generated
  bool proved() const { return plan.finish() == bound; }
};

// Stops when the bound is met, or no order is left to try. Where the hours are too few for all, the tasks
// that can never be done are at `never`. Throws std::logic_error if the links lead in a circle.
Solved solve(Project const& project, Effort const& effort = {});

// The longest way along the links, and for each resource what all must at least take that needs it, with the
// shortest ways before and after.
Time least_finish(Project const& project);

}  // namespace endband::schedule
