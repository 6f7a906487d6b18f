// The step library: immutable, dated versions of the times of each operation.
#pragma once

#include "db/workshop.h"
#include "engine/labour/labour.h"

#include <vector>

namespace endband::db {

void set_step(Writing& writing, Step const& step, Date valid_from);
StepLibrary load_steps(Workshop& workshop, Date on);

}  // namespace endband::db
