// A stretch of time looked back on: overhead that jobs bore against what was spent, hours charged against
// those planned, and the rates that would cover the next year.
#pragma once

#include "engine/costing/costing.h"
#include "engine/measure/measure.h"

#include <vector>

namespace endband {

// Under- or over-absorbed: spent - absorbed. (OpenStax, Principles of Accounting 2, chapter 4.)
struct YearFigures {
  RateBasis planned;        // in force at its end: a year's
  std::int64_t days = 365;  // of the stretch, 1 or more
  Money overhead_spent;     // in it
  Money overhead_absorbed;  // by the jobs that ended in it
  Duration hours_charged;   // by them
};
struct YearSeen {
  Money overhead_planned;      // of the days: planned x days / 365, half away
  Duration hours_planned;      // likewise, whole seconds
  Money overhead_not_covered;  // spent - absorbed; less than nothing: more was charged than spent
  RateBasis next;              // hours as charged and overhead as spent, a year's; pay as planned
  bool enough = true;          // false: no hours were charged, so `next` is as planned
};
YearSeen look_back(YearFigures const& figures);

// What was spent of yearly sums that changed on some days: each day of [from, to] bears 1/365 of the sum in
// force on it. Rounded once, half away.
struct InForceFrom {
  Date from;
  Money a_year;
};
Money spent_by_the_day(std::vector<InForceFrom> const& sums, Date from, Date to, Currency currency);

}  // namespace endband
