// How long work takes and how sure that is. The time of a line is beta-PERT between its low and its high
// time, with the mean that its price is made with; its likely time is what that mean says, (6 mean - low -
// high) / 4. A line is one draw: the sections of one book are alike, so all of them are slow or none. Lines
// are independent of each other, so variances add up.
#pragma once

#include "engine/chance/three_points.h"
#include "engine/labour/labour.h"

namespace endband {

ThreePoints points_of(WorkLine const& line);  // seconds

struct Hours {
  Ratio mean;           // seconds, exact
  double variance = 0;  // seconds squared
  double deviation() const;
  // Of a sum of lines, by normal approximation, never less than nothing: a handful of skewed steps has a
  // longer tail, which the simulation of engine/risk draws. 0 < p < 1, else std::logic_error.
  double quantile(double p) const;  // seconds
  double chance_within(double seconds) const;
};
Hours hours_of(WorkLine const& line);
Hours hours_of(Work const& work, Part part);
Hours hours_of(Work const& work);
double quantile(WorkLine const& line, double p);  // seconds, of the line's own beta-PERT, not approximated

}  // namespace endband
