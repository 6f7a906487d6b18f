#include "engine/bill/taken.h"

#include "engine/cutting/yield.h"

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

// Areas to the material's own unit: area x mul / div.
struct OfArea {
  std::int64_t mul = 1, div = 1;
  std::int64_t operator()(std::int64_t area) const { return mul_div(area, mul, div, Rounding::up); }
};

OfArea of_area(Material const& material) {
  Properties const& given = material.properties;
  switch (dimension_of(material.sold_by)) {
    case Dimension::count: return {1000, area(given.sheet.value().first, given.sheet.value().second).n};
    case Dimension::length: return {1, given.width.value().n};
    default: return {};
  }
}

// The area of a whole skin; where no price names it, the least that has such a usable rectangle.
std::int64_t skin_area(Material const& material) {
  if (material.price) return material.price->pack.n;
  Properties const& given = material.properties;
  Area const usable = area(given.usable_height.value(), given.usable_width.value());
  return mul_div(usable.n, given.usable_share.value().den(), given.usable_share.value().num(), Rounding::up);
}

// Gross and touched of what is cut in pieces of `cut` square micrometres.
bool cut_pieces(Taken& taken, Material const& material, std::span<Piece const> pieces, std::int64_t cut) {
  Properties const& given = material.properties;
  switch (material.sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: {
      auto const yield = sheets_for(given.sheet.value(), pieces);
      if (!yield) return false;
      taken.gross += yield->share.n;
      taken.touched += checked_mul(yield->sheets, 1000);
      return true;
    }
    case SoldBy::skin: {
      auto const yield = skins_for(given.usable_height.value(), given.usable_width.value(), pieces);
      if (!yield) return false;
      Ratio const share = given.usable_share.value();
      taken.gross += mul_div(cut, share.den(), share.num(), Rounding::up);
      taken.touched += checked_mul(yield->skins, taken.unit);
      return true;
    }
    case SoldBy::length: {
      auto const yield = roll_for(given.width.value(), pieces);
      if (!yield) return false;
      taken.gross += yield->length.n;
      taken.touched += yield->length.n;
      return true;
    }
    default: throw std::logic_error(material.code + " is not cut in pieces");
  }
}

std::int64_t unit_of(Material const& material) {
  switch (material.sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: return 1000;
    case SoldBy::skin: return skin_area(material);
    default: return 1;
  }
}

void add_plan(Taken& taken, PlanFacts const& plan) {
  taken.gross = checked_add(taken.gross, plan.gross);
  taken.how = std::max(taken.how, HowFound::by_plan);
  taken.plan_cost = checked_add(taken.plan_cost, plan.cost);
  taken.plan_bound = checked_add(taken.plan_bound, plan.bound);
  taken.plan_guess = taken.plan_guess || plan.guess;
}

}  // namespace

Planned planned_for(std::span<Need const> uses, Material const& material, PlanTable const& plans,
                    CutRules const& rules) {
  Planned planned;
  if (plans.empty()) return planned;
  for (CutRequest const& request : requests(uses, material, rules)) {
    auto const found = plans.find(plan_key(request, rules.work));
    if (found == plans.end() || found->second.outcome != cutting::Outcome::planned) continue;
    bool const lengths = std::holds_alternative<cutting::LengthRequest>(request.asked);
    (lengths ? planned.runs : planned.pieces) = &found->second;
  }
  return planned;
}

std::optional<Taken> take(std::span<Need const> uses, Material const& material, Planned const& planned,
                          std::vector<Piece>& pieces) {
  Taken taken;
  taken.unit = unit_of(material);
  taken.uses.reserve(uses.size());
  pieces.clear();
  Dimension const own = dimension_of(material.sold_by);
  std::int64_t cut = 0;  // area of the pieces
  for (Need const& use : uses) {
    std::int64_t net = use.net.n;
    if (!use.pieces.empty()) {
      // Rounded on the running sum, so that the uses sum to the line.
      OfArea const to_own = of_area(material);
      net = to_own(checked_add(cut, use.net.n)) - to_own(cut);
      cut = checked_add(cut, use.net.n);
      pieces.insert(pieces.end(), use.pieces.begin(), use.pieces.end());
    } else {
      if (use.net.dimension != own || use.taken.dimension != own)
        throw std::logic_error(material.code + " is needed in another dimension than it is sold in");
      bool const by_plan = planned.runs != nullptr && !use.runs.empty();
      if (!by_plan) taken.gross = checked_add(taken.gross, use.taken.n);
      if (!by_plan) taken.touched = checked_add(taken.touched, use.taken.n);
    }
    taken.net = checked_add(taken.net, net);
    taken.uses.push_back({use.item, use.part, {own, net}});
    taken.how = std::max(taken.how, use.how);
  }
  if (planned.runs != nullptr) {
    add_plan(taken, *planned.runs);
    taken.touched = checked_add(taken.touched, planned.runs->gross);
    taken.least_opened = planned.runs->opened;
  }
  if (planned.pieces != nullptr) {
    add_plan(taken, *planned.pieces);
    taken.touched = checked_add(taken.touched, planned.pieces->opened);
  } else if (!pieces.empty() && !cut_pieces(taken, material, pieces, cut)) {
    return std::nullopt;
  }
  return taken;
}

}  // namespace endband
