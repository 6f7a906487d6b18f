// Kept cutting plans. Each follows from its key alone, so it is made again and compared: a figure that was
// changed would go into every later quote of the same book.
#include "db/check.h"
#include "db/cutting.h"
#include "engine/cutting/asked.h"

namespace endband::db {
namespace {

std::string facts_text(PlanFacts const& facts) {
  return std::string(plan_outcome_name(facts.outcome)) + ", opened " + std::to_string(facts.opened) +
         ", gross " + std::to_string(facts.gross) + ", cost " + std::to_string(facts.cost) + ", bound " +
         std::to_string(facts.bound) + (facts.guess ? ", a guess" : "");
}

void check_plan(Findings& findings, KeptPlan const& kept) {
  if (kept.facts.bound > kept.facts.cost || kept.facts.gross > kept.facts.opened)
    findings.add("plan", kept.id, facts_text(kept.facts),
                 "a bound of no more than the cost, nor gross than opened");
  std::optional<Asked> const asked = asked_by(kept.key);
  if (!asked) return;  // of another program: no quote asks for it any more
  // Most work goes into looking for a better plan than the first one met: the first is often the one kept.
  if (plan_to_buy(asked->request, {0, {}}) == kept.facts) return;
  PlanFacts const due = plan_to_buy(asked->request, {asked->work, {}});
  if (due != kept.facts)
    findings.add("plan", kept.id, facts_text(kept.facts), facts_text(due) + ", as it is planned anew");
}

}  // namespace

void check_plans(Findings& findings) {
  for (std::int64_t const id : kept_plans(findings.workshop))
    findings.look_at("plan", std::to_string(id),
                     [&] { check_plan(findings, load_plan(findings.workshop, id)); });
}

}  // namespace endband::db
