// The cost sheet: what the book costs when it leaves the door. Materials as charged, all hours at the rate,
// overhead by the hour, outside work, allowances. Each line is rounded once, half away from zero; the totals
// are sums of lines.
#pragma once

#include "engine/bill/bill.h"
#include "engine/labour/labour.h"
#include "engine/money/money.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// Hourly rate = (year's pay wanted + charges on it) / hours that steps charge; overhead an hour = year's
// overhead / the same hours.
struct RateBasis {
  Money pay_wanted, charges_on_pay, overhead;  // a year's
  Duration hours_charged;                      // a year's, > 0
};
struct Rates {
  Ratio labour;    // minor units a second
  Ratio overhead;  // minor units a second
};
Rates rates_of(RateBasis const& basis);

struct ShopRules {
  Currency currency;
  RateBasis basis;
  Ratio contingency;   // plain share of the cost, where nothing was simulated; 0 <= c < 1
  Money least_charge;  // net, for any book
  Money least_hourly;  // least earning an hour one works for
  // Of the simulated cost, its quantile less its mean: stands instead of the plain share, never beside it.
  std::optional<Money> simulated_contingency = {};
  Ratio overtime_seconds = {};  // of the hours, those beyond the week's, >= 0
  Ratio overtime_share = {};    // what such an hour is paid over a plain one, >= 0
};

enum class CostKind : std::uint8_t { material, labour, overhead, outside, ruin, contingency, redo, overtime };
std::string_view cost_kind_name(CostKind kind);

struct CostLine {
  CostKind kind;
  Part part;             // of its first use; overhead, overtime and contingency: whole_book
  int source = -1;       // index into Bill::lines, Work::lines or outside; -1: of the whole
  bool at_cost = false;  // stands at cost: carries no margin
  Money amount;
};
struct CostSheet {
  // Materials in bill order, labour in work order, overhead, overtime, outside, redo, ruin, contingency.
  std::vector<CostLine> lines;
  Money materials, overhead, outside, allowances;
  Money labour;    // overtime too
  Money earning;   // sum of lines that earn
  Money standing;  // sum of lines at cost
  Money total;
  Money outlay;   // what this order makes one pay out: materials bought for it and outside work
  Ratio seconds;  // all hours
  // What earns, by part: a material's cost is shared over its uses by the largest remainder, a ruin allowance
  // stands with the first use, overhead, overtime, contingency and outside work with the whole book. By Part;
  // sums to `earning`.
  std::vector<Money> part_shares;
  Money by_part(Part part) const;
};

// Work by another's hands. `price` alone is what costs follow from; the rest says how it came to be.
struct Outside {
  std::string words;
  Money price;  // of the whole order: each x quantity, no less than the least charge, and carriage
  bool at_cost = true;
  Ratio redo = {};  // chance that it must be done again, 0 <= p < 1
  OutsideKind kind = OutsideKind::other;
  OutsideBy by = OutsideBy::whole;
  std::string supplier = {};
  Money each = {};                             // of the whole, a piece, a dm2 or a skin
  Amount quantity = {Dimension::count, 1000};  // how many of them; by dm2 an area
  Money least_charge = {}, carriage = {};
  Duration lead = {};  // without hands
};

// Labour: mean time x the line's own rate, else the workshop's. Overtime: the workshop's rate x share x
// overtime. Ruin: p / (1 - p) x (piece at landed cost + mean time of the operations that would be repeated,
// those of its parts, x (their rates + overhead)); none for what the customer supplies. Redo: p / (1 - p) x
// the price of work that may have to be done again, and stands at cost when that does; it is no outlay until
// it happens. Contingency: as simulated, else a share of all that earns before it. Throws std::logic_error
// for money of another currency, a basis of no hours, or less than nothing of overtime or contingency;
// Overflow.
CostSheet cost(Bill const& bill, Work const& work, std::vector<Outside> const& outside,
               ShopRules const& rules);

}  // namespace endband
