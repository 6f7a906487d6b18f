// From the buyer's price to the maker's, and back: what one price leaves, and the least price that meets a
// goal.
#pragma once

#include "engine/pricing/pricing.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace endband {

// One sale, but for its price.
struct Sale {
  CostSheet const& sheet;
  Delivery const& delivery;
  SellingRules const& selling;
  ShopRules const& shop;
};

// Currency of tickets; the points they stand on.
Currency ticket_currency(Sale const& sale);
PricePoints points_of(SellingRules const& selling, Currency shop);
// Minor units of the workshop's currency for one of the outlet's, without the spread.
Ratio exchange_factor(SellingRules const& selling, Currency shop);
TaxRules tax_of(SellingRules const& selling);  // the outlet's where it has its own, else the workshop's

// Sold by the workshop itself at one rate of tax: nothing is taken of a price, and what is left of it is the
// price without tax less the cost. Stored quotes were made so, and are replayed to the same minor units:
// carriage does not come into it, while a walk, which takes its tax together with that of the goods, may
// leave a minor unit more or less where tax is included.
bool nothing_is_taken(SellingRules const& selling);

// What a ticket leaves. `given_away`: off the ticket. Throws Overflow; std::logic_error for rules outside
// their declared ranges or money of another currency.
Walk walk(Sale const& sale, Money ticket, Ratio given_away = {});
// The rates of what is asked and what bears each: they sum to the walk's goods_shown, carriage_shown and tax.
// None where no tax is charged.
std::vector<TaxedAt> taxed_at(Sale const& sale, Money goods_shown);

// The smallest price point from `from` on whose walk meets the goal and whose price without tax is at least
// the least charge: no lower point from there does. Faults: bad_goal, with what keeps it from being met.
// Method: between the tickets at which a step, cap or minimum sets in, what is left is a straight line but
// for roundings; each stretch is solved with their slack, and points are tested upward. (Proved against
// every point by tests.)
Read<Money> least_ticket(Sale const& sale, Goal const& goal, Money from = {});

// Whether a walk meets a goal; with `least_charge` as above.
bool meets(Walk const& walk, Sale const& sale, Goal const& goal);

// Where a higher ticket leaves less: from the first ticket at which less is left than at the one before, to
// the last at which still less is left.
struct Dip {
  std::string fee;       // whose step it is
  Money first, last;     // tickets
  Money before, lowest;  // left on the point before `first`, and the least left in between
};
// Of points from `from` to `to`, in order.
std::vector<Dip> dips(Sale const& sale, Money from, Money to);

// One ticket that meets the goal of every sale; all of one ticket currency. Its points are those of the
// first. Faults: bad_goal, currency_mismatch.
Read<Money> one_ticket(std::span<Sale const> sales, Goal const& goal);

// An outlet that takes all of a price, or more, of which no goal can be met: fees that sum to 100 % or more
// of the price without tax; each with what would work. Checked when an outlet is written.
std::vector<Fault> faults_of(Outlet const& outlet, TaxRules const& tax);

}  // namespace endband
