#include "cli/commands/cut_plan.h"

#include "cli/process/together.h"
#include "engine/cutting/geometry/worth.h"

#include <algorithm>
#include <variant>

namespace endband::cli {
namespace {

constexpr std::int64_t thousandths = 1000;        // of a minor unit: what the shelf's costs are counted in
constexpr std::int64_t roll_length = 10'000'000;  // that a price of a roll is for

bool is_in_sheets(Material const& material) {
  return material.sold_by == SoldBy::sheet || material.sold_by == SoldBy::pad;
}

bool is_cut_by_plan(Material const& material) {
  switch (material.sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: return material.properties.sheet.has_value();
    case SoldBy::length:
    case SoldBy::skin: return true;
    default: return false;
  }
}

// Of one sheet, skin, ten metres off a roll, or pack of lengths, in thousandths of a minor unit.
std::optional<std::int64_t> price_of_new(Material const& material, BuyingRules const& buying, bool lengths) {
  if (!material.price) return std::nullopt;
  std::int64_t const pack = checked_mul(landed_cost(*material.price, buying).total.minor, thousandths);
  if (material.sold_by == SoldBy::skin || lengths) return pack;
  return mul_div(pack, is_in_sheets(material) ? 1000 : roll_length, material.price->pack.n,
                 Rounding::half_away);
}

// Buying new counts in units of its own: what one of them is in money.
std::optional<Ratio> minor_of_new(CutRequest const& request, Material const& material,
                                  BuyingRules const& buying) {
  bool const lengths = std::holds_alternative<cutting::LengthRequest>(request.asked);
  auto const price = price_of_new(material, buying, lengths);
  if (!price) return std::nullopt;
  std::int64_t unit = 1;
  if (auto const* sheets = std::get_if<cutting::SheetRequest>(&request.asked))
    unit = sheets->sheets.front().cost;
  else if (auto const* skins = std::get_if<cutting::SkinRequest>(&request.asked))
    unit = skins->skins.front().cost;
  else
    unit = mul_div(std::get<cutting::LengthRequest>(request.asked).rolls.front().cost, material.price->pack.n,
                   std::get<cutting::LengthRequest>(request.asked).rolls.front().length, Rounding::half_away);
  return Ratio(*price, checked_mul(std::max<std::int64_t>(1, unit), thousandths));
}

std::vector<Need> only(std::vector<Need> const& uses, bool runs) {
  std::vector<Need> some;
  for (Need const& use : uses)
    if (runs ? !use.runs.empty() : !use.pieces.empty()) some.push_back(use);
  return some;
}

// Whose each row of the request is: pieces and runs stand in the order of their uses.
std::vector<int> orders_of(std::vector<Need> const& uses, std::vector<int> const& orders, bool runs) {
  std::vector<int> some;
  std::size_t at = 0;
  for (Need const& use : uses) {
    std::size_t const count = use.pieces.size() + use.runs.size();
    bool const meant = runs ? !use.runs.empty() : !use.pieces.empty();
    for (std::size_t i = 0; i < count; ++i, ++at)
      if (meant) some.push_back(orders.empty() ? 0 : orders.at(at));
  }
  return some;
}

CutMaterial filled(CutRequest request, std::vector<int> const& orders, Material const& material,
                   CutBasis const& basis) {
  CutMaterial cut;
  cut.material = material;
  for (std::size_t i = 0; i < request.pieces.size() && i < orders.size(); ++i)
    request.pieces[i].order = orders[i];
  for (CutFrom const& from : request.stock) {
    CutStock stock;
    stock.guess = from.guess;
    for (db::Cuttable const& lot : basis.shelf)
      if (from.lot != 0 && lot.piece.lot == from.lot) {
        stock.mark = mark_text(lot.mark);
        stock.quantity = lot.piece.quantity;
        stock.offcut = lot.piece.height && lot.piece.width;
      }
    cut.stock.push_back(std::move(stock));
  }
  cut.minor = basis.buy_new ? minor_of_new(request, material, basis.buying) : Ratio(1, thousandths);
  cut.request = std::move(request);
  return cut;
}

bool has_group(CutRequest const& request) {
  auto const* skins = std::get_if<cutting::SkinRequest>(&request.asked);
  return skins != nullptr &&
         std::ranges::any_of(skins->pieces, [](cutting::SkinPiece const& piece) { return piece.group > 0; });
}

// What it would cost if no pieces had to come from one skin; also where no one skin was found.
std::optional<std::int64_t> cost_apart(CutMaterial const& cut, cutting::Budget const& budget) {
  if (!has_group(cut.request)) return std::nullopt;
  CutRequest apart = cut.request;
  for (cutting::SkinPiece& piece : std::get<cutting::SkinRequest>(apart.asked).pieces) piece.group = 0;
  CutAnswer const answer = plan(apart, budget);
  if (outcome_of(answer) != cutting::Outcome::planned) return std::nullopt;
  std::int64_t const cost = proof_of(answer).cost;
  if (cut.planned() && cost >= proof_of(*cut.answer).cost) return std::nullopt;
  return cost;
}

std::int64_t opened_cost(CutMaterial const& cut, CutUse const& use) {
  auto const at = static_cast<std::size_t>(use.stock);
  if (auto const* sheets = std::get_if<cutting::SheetRequest>(&cut.request.asked)) {
    cutting::Sheet const& sheet = sheets->sheets.at(at);
    return sheet.by_length ? cutting::torn_cost(sheet.cost, use.height, sheet.height) : sheet.cost;
  }
  if (auto const* skins = std::get_if<cutting::SkinRequest>(&cut.request.asked))
    return skins->skins.at(at).cost;
  cutting::Roll const& roll = std::get<cutting::LengthRequest>(cut.request.asked).rolls.at(at);
  return cutting::torn_cost(roll.cost, use.taken, roll.length);
}

}  // namespace

std::optional<Money> CutMaterial::money(std::int64_t cost, Currency currency) const {
  if (!minor) return std::nullopt;
  return Money{round_product(Ratio(cost), *minor, Rounding::half_away), currency};
}

std::vector<CutMaterial> cut_of(std::vector<Need> const& uses, std::vector<int> const& orders,
                                Material const& material, CutBasis const& basis) {
  std::vector<CutMaterial> cuts;
  if (!is_cut_by_plan(material)) return cuts;
  std::vector<ShelfPiece> shelf;
  for (db::Cuttable const& lot : basis.shelf)
    if (lot.piece.material == material.id) shelf.push_back(lot.piece);
  for (bool const runs : {false, true}) {
    std::vector<Need> const some = only(uses, runs);
    if (some.empty()) continue;
    auto list = basis.buy_new
                    ? requests(some, material, basis.rules)
                    : requests_shelf_first(
                          some, material, basis.rules, shelf,
                          basis.shelf_alone ? std::nullopt : price_of_new(material, basis.buying, runs));
    std::vector<int> const whose = orders_of(uses, orders, runs);
    for (CutRequest& request : list) cuts.push_back(filled(std::move(request), whose, material, basis));
  }
  if (basis.shelf_alone) {
    CutBasis both = basis;
    both.shelf_alone = false;
    auto with_bought = cut_of(uses, orders, material, both);
    for (std::size_t i = 0; i < cuts.size(); ++i) cuts[i].otherwise.push_back(std::move(with_bought.at(i)));
  }
  return cuts;
}

void plan_all(std::vector<CutMaterial>& materials, std::int64_t work) {
  cutting::Budget const budget{work, run_together};
  int number = 1;
  for (CutMaterial& cut : materials) {
    if (!cut.request.stock.empty()) cut.answer = plan(cut.request, budget);
    if (!cut.planned() && !cut.otherwise.empty()) {
      CutMaterial other = std::move(cut.otherwise.front());
      cut = std::move(other);
      if (!cut.request.stock.empty()) cut.answer = plan(cut.request, budget);
    }
    if (!cut.answer) continue;
    if (cut.planned() && std::holds_alternative<cutting::SkinRequest>(cut.request.asked))
      cut.opened = opened_proof(cut.request, *cut.answer, budget);
    if (cut.planned()) cut.uses = cut_uses(cut.request, *cut.answer, cut.material, number);
    cut.apart = cost_apart(cut, budget);
    number += static_cast<int>(cut.uses.size());
  }
}

CutCost cost_of(CutMaterial const& cut) {
  CutCost cost;
  for (CutUse const& use : cut.uses)
    cost.opened = checked_add(cost.opened, checked_mul(opened_cost(cut, use), use.times));
  bool const lengths = std::holds_alternative<cutting::LengthRequest>(cut.request.asked);
  if (!lengths && cut.planned()) cost.kept = cost.opened - proof_of(*cut.answer).cost;
  return cost;
}

std::optional<std::int64_t> within_permille(cutting::Proof const& proof) {
  if (proof.proved()) return 0;
  if (proof.bound <= 0) return std::nullopt;
  return mul_div(proof.cost - proof.bound, 1000, proof.bound, Rounding::up);
}

bool bought(CutMaterial const& cut, CutUse const& use) {
  return cut.stock.at(static_cast<std::size_t>(use.stock)).mark.empty();
}

}  // namespace endband::cli
