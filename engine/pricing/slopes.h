// How fast what a ticket leaves grows with it, between the tickets at which a fee changes its course.
//
// A line is what a quantity q of the ticket t does on such a stretch: for every d > 0
//   low x d - slack <= q(t + d) - q(t) <= high x d + slack,
// with slopes and slack in thousand millionths of a minor unit, rounded outward. A quantity that is rounded
// once strays by half a minor unit either way, so its slack is one.
#pragma once

#include "engine/pricing/aim.h"
#include "engine/pricing/walker.h"

#include <array>
#include <cstdint>
#include <vector>

namespace endband {

inline constexpr std::int64_t nano = 1'000'000'000;

struct Line {
  std::int64_t low = 0, high = 0, slack = 0;
};
Line operator+(Line a, Line b);
Line operator-(Line a, Line b);
Line scaled(Line line, Ratio factor);  // factor >= 0
Line rounded(Line line, std::int64_t step = 1);
std::int64_t whole_units(std::int64_t slack);  // of the currency, rounded up

// What a fee takes off the aim, as its base grows. `jump`: the most that may be won or lost where it begins.
struct FeeSlope {
  std::int64_t from = 0;  // of the base
  Line takes;
  std::int64_t jump = 0;
};
struct FeeSlopes {
  FeeBase base = FeeBase::goods;
  std::vector<FeeSlope> pieces;
};

struct Slopes {
  // `all_at_cost`: of tickets so low that outside work at cost is all that is sold.
  Slopes(Walker const& walker, Aim const& aim, bool all_at_cost);

  Line goods_shown, price;
  std::array<Line, 4> bases;                 // by FeeBase
  std::array<std::int64_t, 4> base_slack{};  // of them, in whole units
  Line beyond;                               // what a walk has beyond the aim, before fees grow
  std::vector<FeeSlopes> fees;

 private:
  Line group(RateGroup const& group) const;
  void add_taxes();
  Line received(Line payout) const;
  Line returned() const;
  void add_beyond();
  void add_fees();
  Line taken(Line fee, bool kept) const;

  Walker const& walker_;
  Aim const& aim_;
  bool all_at_cost_;
  Line goods_, tax_, goods_tax_, paid_;
};

}  // namespace endband
