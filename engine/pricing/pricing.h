// From the cost sheet to what is asked: the goal, the ladder of prices, price points, tax, deposit.
#pragma once

#include "engine/costing/costing.h"
#include "engine/fault/fault.h"
#include "engine/money/money.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace endband {

struct MarginGoal {
  Ratio margin;  // money left / price without tax, of what earns; 0 <= m < 1
};
struct MarkupGoal {
  Ratio markup;  // money left / cost, of what earns; u >= 0; m = u / (1 + u)
};
using Goal = std::variant<MarginGoal, MarkupGoal>;

// Prices people like: every `step` minor units, less `below`: step 1000, below 100 gives 9.00, 19.00 and so
// on. The point is on the price the buyer sees: with tax when tax is included, else without.
struct PricePoints {
  std::int64_t step = 1;
  std::int64_t below = 0;  // 0 <= below < step
};

enum class TaxMode : std::uint8_t { none, added, included };
std::string_view tax_mode_name(TaxMode mode);
struct TaxRules {
  TaxMode mode = TaxMode::none;
  Ratio rate;        // 0 <= r <= 1
  std::string name;  // "VAT"; the owner's word
};

struct DepositRules {
  Ratio share;            // of the total to pay
  std::int64_t step = 1;  // rounded up to a multiple
};

struct Delivery {
  Money carriage;  // charged at cost, without tax; zero when collected
  std::string words;
};

struct SellingRules {
  PricePoints points;
  TaxRules tax;
  DepositRules deposit;
};

// One rung: a price of the book without tax, what is left of it after all costs, what an hour earns.
struct Rung {
  Money price;
  Money left;    // price - full cost
  Money hourly;  // (price - everything but labour) / all hours; half away; zero hours: zero
};
struct Ladder {
  Rung cash_floor;  // outlay this order causes, and carriage stands beside it
  Rung walk_away;   // cash floor + least hourly x all hours
  Rung full_cost;
  Rung target;  // least price without tax that meets the goal
  Rung asked;   // price point at or above target and the least charge
};

// What a buyer pays for, in the order of the paper.
enum class Component : std::uint8_t {
  text_block,
  binding,
  endbands_and_registers,
  finishing,
  furniture,
  stone_setting,
  box,
  repairs,
  extras,
  outside_work
};
inline constexpr std::size_t component_count = 10;
std::string_view component_name(Component component);
// The whole book, packing and office have none: what they cost is spread over the others.
std::optional<Component> component_of(Part part);

struct OfferLine {
  Component component;
  Money net;    // without tax
  Money shown;  // what the buyer sees: with tax when it is included
};
struct Offer {
  Ladder ladder;
  std::vector<OfferLine> lines;  // shown sums to `goods_shown`, net to `goods`
  Money goods;                   // asked, without tax
  Money goods_shown;             // asked as the buyer sees it
  Money carriage;                // without tax
  Money carriage_shown;
  Money tax;    // added: of goods + carriage; included: within the total
  Money total;  // to pay
  Money deposit, balance;
  Money left;    // goods - full cost
  Ratio margin;  // left / goods, of what earns; exact
};

// The smallest price point that meets the goal and the least charge, and all that follows from it. Faults:
// bad_goal (margin of 1 or more, negative), too_large. Deposit: the share of the total, not less than the
// outlay (outside work is in it), rounded up to the step, and never more than the total.
Read<Offer> offer(CostSheet const& sheet, Delivery const& delivery, SellingRules const& selling,
                  Goal const& goal, ShopRules const& shop);

// The least price without tax that meets the goal: what earns / (1 - m), or x (1 + u), rounded up, and what
// stands at cost beside it. Faults: bad_goal. Throws Overflow.
Read<Money> least_price(CostSheet const& sheet, Goal const& goal);

// Net price points, for tests and for walking: the smallest point p of the buyer's price with net(p) >=
// least.
struct PointPrice {
  Money shown, net, tax;
};
// Throws std::logic_error for rules outside their declared ranges, Overflow when no such point is a Money.
PointPrice point_at_or_above(Money least_net, PricePoints const& points, TaxRules const& tax);
// Tax of a price, rounded half away: added, net x r; within a gross price, gross x r / (1 + r).
Money tax_added(Money net, Ratio rate);
Money tax_within(Money gross, Ratio rate);

}  // namespace endband
