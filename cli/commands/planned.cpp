#include "cli/commands/planned.h"

#include "cli/process/together.h"

namespace endband::cli {
namespace {

// Of a book whose sizes leave the range of numbers there is nothing to plan: its price is refused in words.
std::vector<CutRequest> requests_in_range(Commission const& commission) try {
  return requests_of(commission);
} catch (Overflow const&) {
  return {};
}

}  // namespace

PlanTable known_plans(db::Workshop& workshop, Commission const& commission) {
  std::vector<PlanKey> keys;
  for (CutRequest const& request : requests_in_range(commission))
    keys.push_back(plan_key(request, commission.cutting.work));
  return db::find_plans(workshop, keys);
}

PlanTable plan_the_rest(Commission& commission) {
  PlanTable fresh;
  for (CutRequest const& request : requests_in_range(commission)) {
    PlanKey key = plan_key(request, commission.cutting.work);
    if (commission.plans.contains(key)) continue;
    PlanFacts const facts = plan_to_buy(request, {commission.cutting.work, run_together});
    commission.plans.emplace(key, facts);
    fresh.emplace(std::move(key), facts);
  }
  return fresh;
}

}  // namespace endband::cli
