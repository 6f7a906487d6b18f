// From the cost sheet to what is asked: the goal, the ladder of prices, price points, tax, deposit.
#pragma once

#include "engine/costing/costing.h"
#include "engine/fault/fault.h"
#include "engine/money/money.h"
#include "engine/pricing/component.h"
#include "engine/pricing/outlet.h"
#include "engine/pricing/tax.h"

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
  Ratio markup;  // money left / all that the sale costs, fees too, of what earns; u >= 0; m = u / (1 + u)
};
struct ProfitGoal {
  Money left;  // money left after everything
};
struct HourlyGoal {
  Money an_hour;  // what an hour earns: (money left + labour) / all hours
};
struct LeaveGoal {
  Money yours;  // after fees, tax and carriage; materials and hours are still to come out of it
};
using Goal = std::variant<MarginGoal, MarkupGoal, ProfitGoal, HourlyGoal, LeaveGoal>;

struct DepositRules {
  Ratio share;             // of the total to pay
  std::int64_t step = 1;   // rounded up to a multiple
  Money first_hours = {};  // what the hours before the first approval cost, which the deposit covers too
};

// Given away, with its reason: off the price that was found.
struct Discount {
  Ratio share;  // 0 <= d <= 1; 1: a gift
  std::string reason;
};

struct Delivery {
  Money carriage;  // charged at cost, without tax, in the workshop's currency; zero when collected
  std::string words;
};

struct SellingRules {
  PricePoints points;
  TaxRules tax;
  DepositRules deposit;
  std::optional<Outlet> outlet = {};  // none: sold by the workshop itself, without fees
  std::optional<Discount> discount = {};
  std::int64_t pieces = 1;  // equal ones, for fees per piece
};

// One rung: a price of the book without tax, what is left of it after all costs, what an hour earns. In the
// workshop's currency.
struct Rung {
  Money price;
  Money left;    // price - full cost, fees and allowances of the sale
  Money hourly;  // (left + labour) / all hours; half away; zero hours: zero
};
struct Ladder {
  Rung cash_floor;  // pays the outlay this order causes, and fees; carriage stands beside it
  Rung walk_away;   // cash floor + least hourly x all hours
  Rung full_cost;
  Rung target;  // least price without tax that meets the goal
  Rung asked;   // price point at or above target and the least charge
};

struct OfferLine {
  Component component;
  Money net;    // without tax
  Money shown;  // what the buyer sees: with tax when it is included
};

// One price from what the buyer pays to what stays. `outlet` money is in the outlet's currency, `shop` money
// in the workshop's; without an outlet they are the same.
struct Walk {
  Money ticket;             // outlet: as the buyer sees it
  Money discount;           // outlet: of the ticket: the trade's, and what is given away
  Money goods_shown;        // outlet: ticket - discount
  Money carriage_shown;     // outlet
  Money tax;                // outlet: on top of the two, or within them
  Money cash_rounding;      // outlet
  Money paid;               // outlet: goods_shown + carriage_shown + tax where it is added + cash_rounding
  Money goods;              // outlet: goods_shown without tax
  std::vector<Money> fees;  // outlet: of each of the outlet's fees
  Money all_fees;           // outlet
  Money payout;             // outlet: paid - all_fees - tax where the outlet collects it
  Money exchange_cost;      // shop: what the spread takes of the payout
  Money received;           // shop: payout at the rate - exchange_cost
  Money tax_due;            // shop: what the maker pays over
  Money carriage;           // shop: what it costs
  Money yours;              // shop: received - tax_due - carriage
  Money returns;            // shop: allowance for what comes back
  Money cost;               // shop: the cost sheet's total
  Money left;               // shop: yours - returns - cost
  Money price;              // shop: `goods` at the rate
  friend bool operator==(Walk const&, Walk const&) = default;
};

struct Offer {
  Ladder ladder;
  std::vector<OfferLine> lines;  // before any discount: shown sums to the ticket
  Money goods;                   // asked, without tax, after discounts
  Money goods_shown;             // asked as the buyer sees it
  Money carriage;                // without tax
  Money carriage_shown;
  Money tax;    // added: of goods + carriage; included: within the total
  Money total;  // to pay; rounded for cash where the outlet says so
  Money deposit, balance;
  Money left;    // goods - fees - allowance - full cost
  Ratio margin;  // left / goods, of what earns; exact
  Walk walk;
};

// The smallest price point that meets the goal and the least charge, and all that follows from it; then the
// discount. Faults: bad_goal (a margin of 1 or more; no price meets it), too_large. Deposit: the share of the
// total, not less than the outlay (outside work is in it) and the first hours, rounded up to the step, and
// never more than the total.
Read<Offer> offer(CostSheet const& sheet, Delivery const& delivery, SellingRules const& selling,
                  Goal const& goal, ShopRules const& shop);
// The same at a ticket that somebody named, whatever it leaves.
Read<Offer> offer_at(Money ticket, CostSheet const& sheet, Delivery const& delivery,
                     SellingRules const& selling, Goal const& goal, ShopRules const& shop);

// The least price without tax that meets the goal where nothing is taken of it: what earns / (1 - m), or x
// (1 + u), rounded up, and what stands at cost beside it. Faults: bad_goal. Throws Overflow.
Read<Money> least_price(CostSheet const& sheet, Goal const& goal);

// Net price points, for tests and for walking: the smallest point p of the buyer's price with net(p) >=
// least.
struct PointPrice {
  Money shown, net, tax;
};
// Throws std::logic_error for rules outside their declared ranges, Overflow when no such point is a Money.
PointPrice point_at_or_above(Money least_net, PricePoints const& points, TaxRules const& tax);
}  // namespace endband
