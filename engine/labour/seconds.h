// Adding up many times: the times of work are thousandths of sixths of a second, so they are summed as whole
// numbers over 6000 and reduced once. A time over another denominator is still exact, only slower.
#pragma once

#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <cstdint>

namespace endband {

class SecondsSum {
 public:
  static constexpr std::int64_t denominator = 6000;  // 1000 (Count) x 6 (the mean of three points)

  void add(Ratio seconds) {
    if (denominator % seconds.den() == 0)
      parts_ = checked_add(parts_, checked_mul(seconds.num(), denominator / seconds.den()));
    else
      others_ = others_ + seconds;
  }
  Ratio total() const { return Ratio(parts_, denominator) + others_; }

 private:
  std::int64_t parts_ = 0;  // over the denominator
  Ratio others_;
};

}  // namespace endband
