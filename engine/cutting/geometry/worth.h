// What a plan costs, as the solvers count it and the check counts it again: the one place where these sums
// are rounded. A product that leaves 128 bits, or a result that leaves 64: std::logic_error.
#pragma once

#include "engine/cutting/answer.h"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace endband::cutting {

namespace cost_detail {
__extension__ using Wide = __int128;

inline Wide times(Wide one, Wide other) {
  Wide product = 0;
  if (__builtin_mul_overflow(one, other, &product)) throw std::logic_error("a cost leaves 128 bits");
  return product;
}
inline std::int64_t narrow(Wide value) {
  if (value > std::numeric_limits<std::int64_t>::max()) throw std::logic_error("a cost leaves 64 bits");
  return static_cast<std::int64_t>(value);
}
}  // namespace cost_detail

// Of the length torn off a roll of `height` that costs `cost` whole: cost x length / height, rounded up.
inline std::int64_t torn_cost(std::int64_t cost, std::int64_t length, std::int64_t height) {
  using cost_detail::Wide;
  return cost_detail::narrow((cost_detail::times(cost, length) + height - 1) / height);
}

// Of a kept rectangle of a whole that costs `cost` and has `whole_area`: cost x num x w x h / (den x
// whole_area), rounded down. The whole of a sheet is W x H, trim counted; of a skin its usable area, whole
// square micrometres rounded down.
inline std::int64_t kept_worth(Worth worth, std::int64_t cost, std::int64_t width, std::int64_t height,
                               std::int64_t whole_area) {
  using cost_detail::times;
  if (worth.num == 0 || whole_area <= 0) return 0;
  return cost_detail::narrow(times(times(cost, worth.num), times(width, height)) /
                             times(worth.den, whole_area));
}

// Whether a rectangle left over is kept at all; 0: nothing is.
inline bool is_kept(std::int64_t least_kept, std::int64_t width, std::int64_t height) {
  return least_kept > 0 && std::min(width, height) >= least_kept;
}

}  // namespace endband::cutting
