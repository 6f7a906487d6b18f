// What jobs used of each material in a stretch of days, and what that suggests.
#pragma once

#include "db/stock.h"
#include "engine/catalogue/catalogue.h"
#include "engine/stock/to_buy.h"

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>

namespace endband::cli {

// Of the days from the first on which the material moved, or the beginning of the stretch if that is later,
// to the last. What was given back or kept counts against the day it came back.
struct PastUse {
  std::int64_t days = 0, days_used = 0;
  std::int64_t used = 0;      // all of it
  double sum_of_squares = 0;  // of what each day used, days without use included as nothing
  double a_day() const;
  std::int64_t deviation() const;  // of a day's use, of the sample (n - 1), rounded up
};
std::map<std::string, PastUse> uses_of(std::span<db::MovementRow const> movements, Date on, int months);

struct SuggestRules {
  Ratio sure;                          // of orders that come before the shelf is empty
  std::optional<Money> order_cost;     // of placing one
  std::optional<Ratio> holding_share;  // of a unit's cost, for keeping it a year
  BuyingRules buying;
};

// Fewer days of use than this say nothing of how far they differ.
inline constexpr std::int64_t least_days_used = 3;

struct Suggestion {
  Material material;
  Supply supply;
  PastUse use;
  std::optional<std::int64_t>
      reorder_at;  // absent: too little use, or no lead time; rounded up to what people count
  std::optional<std::int64_t> order_size;  // absent: too little use, no price or no settings; in whole packs
};
Suggestion suggestion(Material const& material, Supply const& supply, PastUse const& use,
                      SuggestRules const& rules);

}  // namespace endband::cli
