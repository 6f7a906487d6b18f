// 128 bits between two 64-bit numbers, for the .cpp files of this module only: Boost takes seconds to read.
// The widest value taken here is the sum of two products of 64-bit numbers, which fits; were it ever to
// leave 128 bits, the checked type throws.
#pragma once

#include "engine/money/money.h"

#include <boost/multiprecision/cpp_int.hpp>

#include <cstdint>
#include <limits>

namespace endband {

using Wide = boost::multiprecision::checked_int128_t;

inline std::int64_t narrow(Wide const& value) {
  if (value < std::numeric_limits<std::int64_t>::min() || value > std::numeric_limits<std::int64_t>::max())
    throw Overflow("a result leaves 64 bits");
  return static_cast<std::int64_t>(value);
}

// n / d, d > 0, to a whole number. Int is std::int64_t or Wide.
template <class Int>
Int divide(Int const& n, Int const& d, Rounding rounding) {
  Int quotient = n / d;    // toward zero
  Int const rest = n % d;  // has the sign of n
  if (rest == 0) return quotient;
  bool const negative = rest < 0;
  Int const over = negative ? Int(-rest) : rest;
  Int const under = d - over;
  bool away = false;  // from zero
  switch (rounding) {
    case Rounding::half_away: away = over >= under; break;
    case Rounding::half_even: away = over > under || (over == under && quotient % 2 != 0); break;
    case Rounding::half_zero: away = over > under; break;
    case Rounding::away: away = true; break;
    case Rounding::to_zero: away = false; break;
    case Rounding::up: away = !negative; break;
    case Rounding::down: away = negative; break;
  }
  if (!away) return quotient;
  return negative ? Int(quotient - 1) : Int(quotient + 1);
}

}  // namespace endband
