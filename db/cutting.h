// What cutting keeps: plans to buy new by their keys, the measured shapes of skins, and what may be cut of
// the shelf.
#pragma once

#include "db/stock.h"
#include "db/workshop.h"
#include "engine/cutting/request.h"

#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

namespace endband::db {

// Those of the keys that are known.
PlanTable find_plans(Workshop& workshop, std::span<PlanKey const> keys);
// Those that are not there yet; a plan is never changed, for it follows from its key.
void save_plans(Writing& writing, PlanTable const& plans);

// What `check` finds, and the kept plans that are not what is planned anew from their keys: as slow as
// planning, some milliseconds each.
std::vector<Fault> check_with_plans(Workshop& workshop);
// All of them as they are kept, for that check.
struct KeptPlan {
  std::int64_t id = 0;
  PlanKey key;
  PlanFacts facts;
};
std::vector<std::int64_t> kept_plans(Workshop& workshop);
KeptPlan load_plan(Workshop& workshop, std::int64_t id);
std::string_view plan_outcome_name(cutting::Outcome outcome);

// The latest shape of a lot stands. A lot that is no single skin, or a shape with less than three corners:
// std::logic_error.
void save_shape(Writing& writing, LotId lot, Shape const& shape);
std::optional<Shape> find_shape(Workshop& workshop, LotId lot);

// The workshop's own lots from which something may be cut on a day: good until then, and bought for no other
// job than `job` ("" for none). ShelfPiece::lot is LotId::value, its cost thousandths of a minor unit.
struct Cuttable {
  ShelfPiece piece;
  LotMark mark;
};
std::vector<Cuttable> cuttable(Workshop& workshop, Date on, std::string_view job);

// What a job leaves of a skin that it took, on the shelf again as a lot of its own: `rest` with what was cut
// out of it among its flaws, and its area. Faults as keep_offcut.
Read<LotRow> keep_rest_of_skin(Writing& writing, std::int64_t job, std::string_view lot, Shape const& rest,
                               Area area, Date on, std::string_view place);

}  // namespace endband::db
