// Tax and price points: rules that a price is walked by.
#pragma once

#include "engine/money/money.h"
#include "engine/pricing/component.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// Prices people like: every `step` minor units, less `below`: step 1000, below 100 gives 9.00, 19.00 and so
// on. The point is on the price the buyer sees: with tax when tax is included, else without.
struct PricePoints {
  std::int64_t step = 1;
  std::int64_t below = 0;  // 0 <= below < step
  friend bool operator==(PricePoints const&, PricePoints const&) = default;
};

enum class TaxMode : std::uint8_t { none, added, included };
std::string_view tax_mode_name(TaxMode mode);

// What bears another rate than the goods at large.
struct TaxOfLine {
  std::optional<Component> component;  // none: carriage
  std::string name;                    // of the class: the owner's word
  Ratio rate;                          // 0 <= r <= 1
};
struct TaxRules {
  TaxMode mode = TaxMode::none;
  Ratio rate;                       // 0 <= r <= 1
  std::string name;                 // "VAT"; the owner's word
  std::vector<TaxOfLine> own = {};  // each component, and carriage, at most once; carriage else bears `rate`
  Ratio rate_of(std::optional<Component> component) const;
};

// All that bears one rate, as the buyer sees it, after discounts, and the tax on it or within it.
struct TaxedAt {
  Ratio rate;
  Money goods_shown, carriage_shown, tax;
};

// Tax of a price, rounded half away: added, net x r; within a gross price, gross x r / (1 + r).
Money tax_added(Money net, Ratio rate);
Money tax_within(Money gross, Ratio rate);

}  // namespace endband
