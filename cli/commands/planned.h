// The cutting plans that a price needs: those the workshop remembers, and the rest solved now.
#pragma once

#include "db/cutting.h"
#include "engine/commission/commission.h"

namespace endband::cli {

// Within the transaction that the commission was read in.
PlanTable known_plans(db::Workshop& workshop, Commission const& commission);
// Outside any transaction, for it may take a while. Adds to Commission::plans what was not known, and gives
// just that, to be kept with what is written.
PlanTable plan_the_rest(Commission& commission);

}  // namespace endband::cli
