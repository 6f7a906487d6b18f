// k + a x + b y of ratios, exact and rounded once, half away: over one denominator where that fits 64 bits,
// which it nearly always does.
#pragma once

#include "engine/money/money.h"

#include <cstdint>
#include <vector>

namespace endband {

class ExactSum {
 public:
  ExactSum() = default;
  ExactSum(std::vector<Product> constants, Product of_x, Product of_y);
  std::int64_t at(std::int64_t x, std::int64_t y) const;

 private:
  void bring_over_one_denominator();
  std::int64_t wide_at(std::int64_t x, std::int64_t y) const;

  std::vector<Product> constants_;
  Product of_x_{0}, of_y_{0};
  std::int64_t den_ = 1, constant_ = 0, x_ = 0, y_ = 0;  // den_ 0: it would leave 64 bits
};

}  // namespace endband
