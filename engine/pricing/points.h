// The points that a price may stand on: k x step - below, from the first that is not negative.
#pragma once

#include "engine/measure/measure.h"
#include "engine/pricing/tax.h"

#include <algorithm>
#include <cstdint>
#include <stdexcept>

namespace endband {

inline void check(PricePoints const& points) {
  if (points.step < 1 || points.below < 0 || points.below >= points.step)
    throw std::logic_error("price points of no step");
}

inline std::int64_t first_point(PricePoints const& points) {
  return points.below == 0 ? 0 : points.step - points.below;
}

// The last up to `shown`, or the first of all.
inline std::int64_t point_up_to(std::int64_t shown, PricePoints const& points) {
  std::int64_t const steps = checked_add(shown, points.below) / points.step;
  return std::max(first_point(points), checked_mul(steps, points.step) - points.below);
}

// The first from `shown` on.
inline std::int64_t point_from(std::int64_t shown, PricePoints const& points) {
  if (shown <= first_point(points)) return first_point(points);
  std::int64_t const point = point_up_to(shown, points);
  return point < shown ? checked_add(point, points.step) : point;
}

}  // namespace endband
