#include "engine/bill/bill.h"
#include "engine/bill/taken.h"

#include <algorithm>
#include <span>
#include <stdexcept>

namespace endband {
namespace {

std::int64_t whole_units(std::int64_t value, std::int64_t unit) {
  return checked_mul(value / unit + (value % unit > 0 ? 1 : 0), unit);
}

std::int64_t spoil_of(std::int64_t gross, Material const& material) {
  if (gross == 0) return 0;
  Ratio const spoil = material.spoil;
  if (spoil < Ratio(0) || spoil >= Ratio(1)) throw std::logic_error("a spoil outside [0, 1)");
  if (material.least_spoil.n != 0 && material.least_spoil.dimension != dimension_of(material.sold_by))
    throw std::logic_error("a least spoil in another dimension than its material");
  std::int64_t const with_share = mul_div(gross, spoil.den(), spoil.den() - spoil.num(), Rounding::up);
  return std::max(with_share - gross, material.least_spoil.n);
}

bool is_sheet(SoldBy sold_by) { return sold_by == SoldBy::sheet || sold_by == SoldBy::pad; }

// What is opened of what is touched: whole packs, but sheets one by one unless they are charged whole.
std::int64_t opened_of(std::int64_t touched, Material const& material) {
  bool const in_packs = !is_sheet(material.sold_by) || material.charging == Charging::whole;
  if (!in_packs || !material.price || material.sold_by == SoldBy::skin) return touched;
  return whole_units(touched, material.price->pack.n);
}

std::int64_t units_in(std::int64_t opened, std::int64_t unit, Material const& material) {
  if (is_sheet(material.sold_by) || material.sold_by == SoldBy::skin) return opened / unit;
  return material.price ? opened / material.price->pack.n : 0;
}

std::int64_t charged_of(std::int64_t consumed, std::int64_t kept, std::int64_t opened,
                        Material const& material) {
  switch (material.charging) {
    case Charging::as_used: return consumed;
    case Charging::whole_less_offcuts: {
      Ratio const worth = material.kept_worth;
      return std::max(consumed, opened - mul_div(kept, worth.num(), worth.den(), Rounding::down));
    }
    case Charging::whole: return opened;
  }
  throw std::logic_error("a charging outside its enumeration");
}

BillLine line_of(Taken&& taken, Need const& first, Material const& material) {
  std::int64_t const spoil = spoil_of(taken.gross, material);
  std::int64_t const consumed = checked_add(taken.gross, spoil);
  std::int64_t const touched = whole_units(std::max(taken.touched, consumed), taken.unit);
  std::int64_t const opened = std::max(opened_of(touched, material), taken.least_opened);
  Dimension const own = dimension_of(material.sold_by);
  BillLine line;
  line.material = material.id;
  line.material_version = material.version;
  line.how = taken.how;
  line.net = {own, taken.net};
  line.spoil = {own, spoil};
  line.cutting_loss = {own, taken.gross - taken.net};
  line.kept = {own, touched - consumed};
  line.pack_remainder = {own, opened - touched};
  line.opened = {own, opened};
  line.charged = {own, charged_of(consumed, touched - consumed, opened, material)};
  line.units_opened = units_in(opened, taken.unit, material);
  line.uses = std::move(taken.uses);
  line.customer_supplied = first.customer_supplied;
  line.charging = material.charging;
  line.kept_worth = material.kept_worth;
  line.ruin_chance = material.ruin_chance;
  line.plan_cost = taken.plan_cost;
  line.plan_bound = taken.plan_bound;
  line.plan_guess = taken.plan_guess;
  return line;
}

// What the customer brings costs nothing, in whatever currency the workshop buys.
UnitCost nothing_of(Material const& material, Catalogue const& catalogue) {
  Amount const one{dimension_of(material.sold_by), 1};
  auto const priced = std::find_if(catalogue.materials.begin(), catalogue.materials.end(),
                                   [](Material const& row) { return row.price.has_value(); });
  return {0, one, priced == catalogue.materials.end() ? Currency{} : priced->price->price.currency};
}

}  // namespace

Read<Bill> settle(Needs const& needs, BookSpec const& spec, Catalogue const& catalogue,
                  PlanTable const& plans, CutRules const& rules) {
  Bill bill;
  std::vector<Fault> faults;
  std::vector<Piece> room;
  bill.lines.reserve(needs.needs.size());
  for (auto first = needs.needs.begin(); first != needs.needs.end();) {
    auto const last = std::find_if(first, needs.needs.end(),
                                   [&](Need const& need) { return need.material != first->material; });
    std::span<Need const> const uses(first, last);
    Material const& material = catalogue.at(first->material);
    std::optional<Taken> taken = take(uses, material, planned_for(uses, material, plans, rules), room);
    if (!taken) add_unfit(uses, material, spec, faults);
    bool const has_cost = first->customer_supplied || material.price;
    if (!has_cost) faults.push_back(no_price(*first, material, spec, catalogue.on));
    if (taken && has_cost) {
      BillLine line = line_of(std::move(*taken), *first, material);
      line.unit =
          first->customer_supplied ? nothing_of(material, catalogue) : unit_cost(material, catalogue.buying);
      if (material.price) line.price_version = material.price->version;
      bill.lines.push_back(std::move(line));
    }
    first = last;
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return bill;
}

Money material_cost(BillLine const& line) { return cost_of(line.unit, line.charged); }

Money outlay(BillLine const& line) {
  return cost_of(line.unit, line.charging == Charging::as_used ? line.consumed() : line.opened);
}

}  // namespace endband
