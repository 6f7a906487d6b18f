// What one job may really take and cost: many runs of it, each drawn anew, against what the quote says.
//
// A run draws
//   times   of every line of work, beta-PERT about its mean (engine/labour/hours.h), one draw a line;
//   waits   evenly between low and high; told beside, for a wait blocks the book and costs nothing;
//   spoil   of every material that the workshop pays for, Poisson, with the bill's spoil as its mean. What
//   goes
//           at a time is a piece where the material is cut in pieces, one thing where it is counted, else
//           what one use takes. Charged as used it costs its price, less offcuts what a kept one is worth,
//           whole packs nothing: they are paid for already;
//   ruin    of a costly piece, geometric with its chance p: so often the whole piece is paid for again and
//   the
//           steps that it makes one repeat are drawn anew;
//   redo    of outside work likewise.
// These stand instead of the sheet's allowances (ruin, redo) and its contingency, so nothing is counted
// twice: the mean cost of the runs is the sheet's cost without contingency, but for the error of sampling and
// the rounding of lines. All draws are independent of each other.
//
// Time is in whole milliseconds and cost in thousandths of a minor unit. The same input and seed give the
// same bytes, however the tasks are run: runs are cut into fixed blocks, and every run is a function of
// (seed, run).
#pragma once

#include "engine/pricing/pricing.h"

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace endband {

// Runs all tasks, in any order, one after another or at once; empty: one after another. Tasks share nothing
// that they write.
using RunAll = std::function<void(std::span<std::function<void()> const>)>;

struct RiskRules {
  std::uint64_t seed = 1;
  std::int64_t runs = 10'000;    // 1 to 10,000,000
  Ratio confidence = {80, 100};  // more than 0, less than 1
};

struct RiskInput {
  Bill const& bill;
  Work const& work;
  std::vector<Outside> const& outside;
  std::span<Piece const> pieces;  // of the order: what spoils goes piece by piece
  ShopRules const& shop;          // its contingency, plain or simulated, is left out
  Delivery const& delivery;
  SellingRules const& selling;
  Goal const& goal;
  Money quoted;  // Offer::goods: without tax and carriage
};

// No more than this in so many of the runs. Hours to a second, cost to a minor unit, half away.
struct RiskQuantile {
  Ratio at;
  Duration work;  // hands, with what is done again
  Duration wait;  // the sum of all waits
  Money cost;
};

enum class RiskSource : std::uint8_t { step, spoil, ruin, redo };
std::string_view risk_source_name(RiskSource source);
struct RiskDriver {
  RiskSource source;
  int index;     // of Work::lines, Bill::lines (spoil, ruin) or the outside work
  double share;  // of the variance of the cost
};

struct Risk {
  std::vector<RiskQuantile> quantiles;  // at 5, 20, 50, 80, 95 % and the confidence, rising
  Duration mean_work, mean_wait;
  Money mean_cost;
  Ratio losing;  // runs that cost more than is quoted / all runs
  Money
      contingency;  // the cost's quantile at the confidence less its mean, half away; never less than nothing
  Offer sure;       // that keeps the goal's margin in so many of the runs: its sheet has this contingency
  // From closed forms, not from the runs: exact for what is drawn, as all draws are independent. The largest
  // first; they sum to 1. Empty where nothing varies.
  std::vector<RiskDriver> drivers;
};

// Faults: out_of_range (runs, confidence), bad_goal, too_large. Throws Overflow for times or costs that leave
// their range, and std::logic_error as `cost` does.
Read<Risk> simulate(RiskInput const& input, RiskRules const& rules, RunAll const& run_all = {});

struct HoursRisk {
  struct Quantile {
    Ratio at;
    Duration work;
  };
  std::vector<Quantile> quantiles;  // as those of Risk
  Duration mean;
};
// The times of the work alone: nothing is spoiled or ruined.
Read<HoursRisk> simulate_hours(Work const& work, RiskRules const& rules, RunAll const& run_all = {});

}  // namespace endband
