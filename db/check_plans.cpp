// Kept cutting plans. Each follows from its key alone, so it is made again and compared: a figure that was
// changed would go into every later quote of the same book.
#include "db/check.h"
#include "db/cutting.h"
#include "db/statement.h"
#include "engine/cutting/asked.h"
#include "engine/cutting/geometry/outline.h"

#include <algorithm>

namespace endband::db {
namespace {

// What the answer for a skin means depends on how it is sold, which no key says: all ways that there ever
// were.
struct SkinSold {
  cutting::Polygon outline;
  Material material;
};

std::vector<SkinSold> skins_sold(Connection& connection) {
  Statement select(
      connection,
      "SELECT DISTINCT p.pack, v.usable_height_um, v.usable_width_um, v.usable_share_num, "
      "v.usable_share_den FROM material_version v JOIN price_version p ON p.material = v.material "
      "WHERE v.sold_by = 'skin' AND v.usable_height_um > 0 AND v.usable_width_um > 0 AND "
      "v.usable_share_num > 0 ORDER BY 1, 2, 3, 4, 5");
  std::vector<SkinSold> all;
  while (select.step()) {
    SkinSold sold;
    Length height, width;
    Ratio share;
    sold.material.price.emplace();
    select.read(sold.material.price->pack.n, height, width, share);
    sold.material.properties.usable_share = share;
    auto const skin = cutting::default_skin(sold.material.price->pack.n, height.n, width.n);
    if (!skin) continue;
    sold.outline = skin->outline;
    all.push_back(std::move(sold));
  }
  return all;
}

// Goods by the metre are asked for as many packs in one piece.
Material lengths_sold(cutting::LengthRequest const& asked) {
  constexpr std::int64_t of_one_pack = 1'000'000, metre = 1'000'000;
  Material material;
  cutting::Roll const& roll = asked.rolls.front();
  material.price.emplace().pack.n = roll.cost > of_one_pack ? metre : roll.length;
  return material;
}

// The materials that the plan may be of, as far as its quantities depend on them.
std::vector<Material> materials_of(CutRequest const& request, std::vector<SkinSold> const& skins) {
  if (std::holds_alternative<cutting::SheetRequest>(request.asked)) return {Material{}};
  if (auto const* const lengths = std::get_if<cutting::LengthRequest>(&request.asked))
    return lengths->rolls.empty() ? std::vector<Material>{} : std::vector{lengths_sold(*lengths)};
  std::vector<Material> materials;
  for (SkinSold const& sold : skins)
    for (cutting::Skin const& skin : std::get<cutting::SkinRequest>(request.asked).skins)
      if (skin.outline == sold.outline) materials.push_back(sold.material);
  return materials;
}

std::string facts_text(PlanFacts const& facts) {
  return std::string(plan_outcome_name(facts.outcome)) + ", opened " + std::to_string(facts.opened) +
         ", gross " + std::to_string(facts.gross) + ", cost " + std::to_string(facts.cost) + ", bound " +
         std::to_string(facts.bound) + (facts.guess ? ", a guess" : "");
}

// The last plan made, for whatever material, when none is the one kept.
std::optional<PlanFacts> other_plan(Asked const& asked, std::int64_t work,
                                    std::vector<Material> const& materials, PlanFacts const& kept) {
  std::optional<PlanFacts> other;
  for (Material const& material : materials) {
    other = plan_to_buy(asked.request, material, {work, {}});
    if (*other == kept) return std::nullopt;
  }
  return other;
}

void check_plan(Findings& findings, KeptPlan const& kept, std::vector<SkinSold> const& skins) {
  if (kept.facts.bound > kept.facts.cost || kept.facts.gross > kept.facts.opened)
    findings.add("plan", kept.id, facts_text(kept.facts),
                 "a bound of no more than the cost, nor gross than opened");
  std::optional<Asked> const asked = asked_by(kept.key);
  if (!asked) return;  // of other solvers: no quote asks for it any more
  std::vector<Material> const materials = materials_of(asked->request, skins);
  // Most work goes into looking for a better plan than the first one met: the first is often the one kept.
  if (!other_plan(*asked, 0, materials, kept.facts)) return;
  if (auto const due = other_plan(*asked, asked->work, materials, kept.facts))
    findings.add("plan", kept.id, facts_text(kept.facts), facts_text(*due) + ", as it is planned anew");
}

}  // namespace

void check_plans(Findings& findings) {
  std::vector<SkinSold> const skins = skins_sold(findings.connection());
  for (std::int64_t const id : kept_plans(findings.workshop))
    findings.look_at("plan", std::to_string(id),
                     [&] { check_plan(findings, load_plan(findings.workshop, id), skins); });
}

}  // namespace endband::db
