// What the uses of one material take of it before anything spoils; for the .cpp files of this module only.
#pragma once

#include "engine/bill/bill.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace endband {

struct Taken {  // in the base unit of the material's dimension
  std::int64_t net = 0;
  std::int64_t gross = 0;
  std::int64_t touched = 0;       // the pieces need at least this much opened
  std::int64_t unit = 1;          // what is opened comes whole: a sheet, a skin; 1: any amount
  std::int64_t least_opened = 0;  // in whole packs, of what is cut in lengths
  HowFound how = HowFound::as_said;
  std::vector<Use> uses;
  std::int64_t plan_cost = 0, plan_bound = 0;
  bool plan_guess = false;
};

// The plans of one material that found a way to cut; else null.
struct Planned {
  PlanFacts const* pieces = nullptr;
  PlanFacts const* runs = nullptr;
};
Planned planned_for(std::span<Need const> uses, Material const& material, PlanTable const& plans,
                    CutRules const& rules);

// `uses` are all of one material. nullopt: a piece does not fit. `pieces` is room to work in, kept between
// calls.
std::optional<Taken> take(std::span<Need const> uses, Material const& material, Planned const& planned,
                          std::vector<Piece>& pieces);

// The faults of pieces that do not fit, for uses of which take() made nothing.
void add_unfit(std::span<Need const> uses, Material const& material, BookSpec const& spec,
               std::vector<Fault>& faults);
Fault no_price(Need const& use, Material const& material, BookSpec const& spec, Date on);

}  // namespace endband
