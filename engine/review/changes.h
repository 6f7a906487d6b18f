// What is another for a past quote today, line by line, and which of it alone makes it dearer. For the .cpp
// files of this module only.
#pragma once

#include "engine/review/today.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace endband {

// A past quote's bill, work and rules as of today.
struct QuoteNow {
  Bill bill;
  Work work;
  ShopRules shop;
  std::vector<std::size_t> lines, steps;  // of bill and work that are others than they were
  bool not_priced = false;
};
QuoteNow quote_now(FrozenQuote const& quote, Today::Held const& today);

// The cost sheet of a quote with another bill, work or rules. A contingency that was simulated is the share
// of what earns that it was.
CostSheet cost_again(FrozenQuote const& quote, Bill const& bill, Work const& work, ShopRules shop);

// The single change that adds most to the cost, and the sheet with it alone; none: nothing became dearer.
struct Largest {
  SingleChange change;
  CostSheet sheet;
  ShopRules shop;
};
std::optional<Largest> largest_change(FrozenQuote const& quote, QuoteNow const& now);

}  // namespace endband
