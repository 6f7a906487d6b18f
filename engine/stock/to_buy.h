// What to buy: all that accepted jobs still need and what should lie on the shelf, against what lies there
// and keeps long enough; in whole packs, with what it costs landed and the day to order.
#pragma once

#include "engine/stock/stock.h"

#include <string>

namespace endband {

// How a material is bought and how long it keeps. Quantities in the material's dimension.
struct Supply {
  std::optional<std::int64_t> reorder_at;  // order when no more than this is left
  std::optional<std::int64_t> order_size;  // how much to order then at least; else as many packs as leave
                                           // more than reorder_at, and so at most one pack above it
  std::optional<std::int64_t> lead_days;   // from order to the shelf; absent: unknown, and said to be
  std::optional<std::int64_t> keeps_days;  // from receipt
  std::optional<std::int64_t> keeps_opened_days;  // from opening
  friend bool operator==(Supply const&, Supply const&) = default;
};

// What one job (or a quote not yet accepted) still needs of a material.
struct Wanted {
  std::string job;  // "26-014"
  MaterialId material;
  std::int64_t quantity = 0;  // > 0
  Date needed_on;
  // Covers that are to match: so many single items of one batch, each at least quantity / of_one_batch large;
  // 0: no such wish. A skin is one item; of other goods a lot holds as many as its quantity makes. Goods
  // whose batch is not known match nothing but themselves.
  std::int64_t of_one_batch = 0;
};

// A lot that may serve. Customers' goods are never here.
struct OnShelf {
  MaterialId material;
  LotId lot;
  std::int64_t quantity = 0;
  std::string batch;
  std::optional<Date> good_until;  // the last day on which it may be used
  std::string job;                 // bought for this job and serves no other; empty: serves all
};

struct Buy {
  MaterialId material;
  std::string supplier;       // of the price in force; empty: no price, and `packs` is 0
  std::int64_t wanted = 0;    // all jobs and the reorder point together
  std::int64_t on_shelf = 0;  // of it, what is there and keeps until the day it is needed
  std::int64_t dead = 0;      // what lies there but does not keep until then: counted as absent
  std::int64_t short_of = 0;  // wanted - on_shelf; 0 only where just reorder_at is left
  std::int64_t packs = 0;     // whole ones, at least short_of and what Supply asks
  Amount quantity;            // packs x pack
  Money landed;               // packs x landed cost of a pack; no currency: no price
  bool priced = false;
  bool for_reorder = false;       // the reorder point asks for it, alone or with jobs
  std::vector<std::string> jobs;  // that the shelf does not serve in full, in the order of their days
  Date needed_on;  // the earliest of their days, and of the day an order for the shelf would arrive
  std::optional<Date> order_by;  // needed_on - lead_days; absent when the lead is unknown
  bool too_late = false;         // order_by is before the day asked on
  std::int64_t one_batch = 0;    // the largest set of single items of one batch that the shelf does not have
};

struct MaterialSupply {
  Material material;  // with the price in force
  Supply supply;
};

// By supplier (no price first), then order_by (no lead last), then code. Each wanted quantity is served from
// the shelf in the order of the days it is needed, from what was bought for its job, then from the lots that
// go bad first. A set of one batch is served whole or not at all. What is left then, of what keeps until an
// order of today would arrive, is held against reorder_at; an order for the shelf is due on the day that the
// jobs bring it down to that. A wanted material that `materials` lacks, or a quantity of nothing, throws
// std::logic_error.
std::vector<Buy> to_buy(std::span<MaterialSupply const> materials, std::span<OnShelf const> shelf,
                        std::span<Wanted const> wanted, BuyingRules const& buying, Date on);

// --- suggested from past use

// Reorder point = d x L + z x sigma x sqrt(L): use in the lead time, and the safety stock for days that use
// more. Source: the textbook formula for variable demand and a constant lead time (Taylor, Introduction to
// Management Science, inventory chapter). d, sigma: mean and standard deviation of use in a day; L days; z
// the normal quantile. Order size = sqrt(2 D S / H): D use in a year, S cost of placing an order, H cost of
// keeping a unit for a year (Harris 1913, as in Heizer and Render). Statistics of quantities are in double; a
// suggestion becomes a whole quantity, rounded up, when it leaves here. Throw std::logic_error: a figure
// below nothing, a service level outside [1/2, 1), goods that cost nothing to keep.
struct UseStatistics {
  double a_day = 0, deviation = 0;
  double lead_days = 0, lead_deviation = 0;  // of the lead time, days
};
double safety_stock(UseStatistics const& use, double service_level);  // z x sqrt(L sigma^2 + d^2 sigma_L^2)
double reorder_point(UseStatistics const& use, double service_level);
double order_size(double a_year, double cost_of_order, double keeping_a_unit_a_year);

}  // namespace endband
