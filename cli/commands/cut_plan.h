// What is to be cut of each material, from what, and the plans for it: common to the commands that cut.
#pragma once

#include "cli/drawings/cut_layout.h"
#include "db/cutting.h"
#include "engine/cutting/request.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct CutStock {
  std::string mark;           // "K3"; empty: bought new
  std::int64_t quantity = 0;  // of a lot, in the material's base unit
  bool offcut = false;        // its size was said
  bool guess = false;         // a skin nobody has measured
};

struct CutMaterial {
  Material material;
  CutRequest request;
  std::vector<CutStock> stock;      // of each stock piece of the request
  std::optional<Ratio> minor;       // minor units for a unit of cost; absent: it has no price
  std::optional<CutAnswer> answer;  // absent: there is nothing to cut it from
  std::vector<CutUse> uses;
  std::optional<cutting::Proof> opened;  // of skins: what is opened, whatever is kept of it
  std::optional<std::int64_t>
      apart;  // the cost when no pieces need come from the same skin, where that says something

  std::vector<CutMaterial>
      otherwise;  // asked of the shelf alone: the same with what can be bought, for when there is no plan

  // Of skins the worth of an uneven rest has no near bound: what is opened tells how good the plan is.
  cutting::Proof const& told_proof() const { return opened ? *opened : proof_of(*answer); }
  bool planned() const { return answer && outcome_of(*answer) == cutting::Outcome::planned; }
  std::optional<Money> money(std::int64_t cost, Currency currency) const;
};

struct CutBasis {
  bool shelf_alone = false;  // as far as it goes; only what it has not is bought
  bool buy_new = false;      // whole goods as they are sold; else the shelf first
  CutRules rules;
  BuyingRules buying;
  std::vector<db::Cuttable> shelf;
};

// What is made of one material. `orders`: of each piece and each run of the uses, in their order, whose it
// is. Empty where it is not cut by plan.
std::vector<CutMaterial> cut_of(std::vector<Need> const& uses, std::vector<int> const& orders,
                                Material const& material, CutBasis const& basis);
// Plans each of them; numbers what is cut from 1 on. On two threads where there are, the same plans either
// way.
void plan_all(std::vector<CutMaterial>& materials, std::int64_t work);

// What a plan costs: all that is opened, less what is kept of it. Of lengths what is cut off.
struct CutCost {
  std::int64_t opened = 0, kept = 0;
  std::int64_t cost() const { return opened - kept; }
};
CutCost cost_of(CutMaterial const& cut);
// How much more than the least possible the plan costs at most, in thousandths, rounded up: 0 when that is
// proved; absent when it is not known.
std::optional<std::int64_t> within_permille(cutting::Proof const& proof);
bool bought(CutMaterial const& cut, CutUse const& use);  // is it new?

}  // namespace endband::cli
