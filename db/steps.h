// The step library: immutable, dated versions of each operation's times, and of who does it, where and after
// what.
#pragma once

#include "db/workshop.h"
#include "engine/labour/labour.h"
#include "engine/review/step_times.h"

#include <vector>

namespace endband::db {

void set_step(Writing& writing, Step const& step, Date valid_from);
StepLibrary load_steps(Workshop& workshop, Date on);
// Of every version there ever was, in the order they were written.
std::vector<StepTimes> load_step_times(Workshop& workshop);

// That day, and each later one on which a step is another.
std::vector<Date> step_days(Workshop& workshop, Date from);
// The first circle of that day in what steps come after, see circle_in; empty: there is none.
std::vector<OperationKind> circle_of_steps(Workshop& workshop, Date on);

}  // namespace endband::db
