// What a past quote is repriced by, made ready to be looked up. For the .cpp files of this module only.
#pragma once

#include "engine/review/reprice.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace endband {

struct PriceNow {
  MaterialId material;
  std::string code;
  std::optional<UnitCost> unit;
};
struct StepNow {  // mean seconds
  Ratio set_up, each;
};

struct Today::Held {
  ShopRules shop;
  std::vector<PriceNow> prices;  // by material
  std::array<std::optional<StepNow>, operation_count> steps;
  std::vector<StepTimes> quoted_with;  // by version

  UnitCost const* price_of(MaterialId material) const;
  std::optional<StepNow>& step(OperationKind kind) { return steps.at(static_cast<std::size_t>(kind)); }
  StepNow const* step_of(OperationKind kind) const;
  StepTimes const* times_of(std::int64_t version) const;
};

// A year whose rates are these, exactly.
RateBasis basis_of(Rates const& rates, Currency currency);

}  // namespace endband
