// A book that is to be sold somewhere: one of a description, or the one that a job made; and what a ticket of
// it leaves through an outlet.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "db/listings.h"
#include "db/outlets.h"
#include "engine/commission/commission.h"
#include "engine/pricing/walk.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct ListedBook {
  std::string title;
  std::optional<std::int64_t> job;
  std::string job_number;  // empty: of a description
  CostSheet sheet;
  SellingRules selling;  // without outlet
  Delivery delivery;
  ShopRules shop;
  Goal goal;
  std::optional<Sending> sending = {};
  std::vector<Consignment> parcels = {};  // where it is sent by a service
};
// Of the first word: a job's number, else a description. Goal and carriage as flags say, else as a quote of
// the book would have them. A job that is not finished is refused.
Read<ListedBook> listed_book(Context& context, db::Workshop& workshop, Args const& args);

// The book through one outlet.
struct Through {
  db::OutletInForce outlet;
  Sold sold;
  std::vector<Dip> dips;        // up to half more than the ticket asked
  std::optional<Walk> on_sale;  // with --sale
  std::optional<Money> lowest;  // of the last 30 days, where it is listed there
};
// At the least ticket that meets the goal, or at one that was named; its carriage insures what that buyer
// pays.
Read<Sold> sold_through(ListedBook const& book, Outlet const& outlet, std::optional<Money> ticket = {});
Sale sale_of(ListedBook const& book, Sold const& sold);

std::string in_tickets(Currency currency);  // "an amount in USD, as tickets there are"
// Flags of a goal, and of carriage.
std::vector<Flag> goal_flags();

// What a listing costs, as a cost sheet; its rules of returns are today's.
CostSheet sheet_of(db::ListedCost const& cost);
db::ListedCost listed_cost(ListedBook const& book, Money carriage);

Ratio margin_of(Walk const& walk, Money standing);
Money an_hour(Walk const& walk, CostSheet const& sheet);

}  // namespace endband::cli
