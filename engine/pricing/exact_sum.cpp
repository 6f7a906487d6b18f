#include "engine/pricing/exact_sum.h"

#include "engine/measure/measure.h"

#include <numeric>
#include <utility>

namespace endband {

ExactSum::ExactSum(std::vector<Product> constants, Product of_x, Product of_y)
    : constants_(std::move(constants)), of_x_(of_x), of_y_(of_y) {
  try {
    bring_over_one_denominator();
  } catch (Overflow const&) {
    den_ = 0;
  }
}

void ExactSum::bring_over_one_denominator() {
  Ratio constant;
  for (Product const& term : constants_) constant = constant + term.a * term.b * term.c;
  Ratio const x = of_x_.a * of_x_.b * of_x_.c;
  Ratio const y = of_y_.a * of_y_.b * of_y_.c;
  std::int64_t den = constant.den();
  for (Ratio const& factor : {x, y}) den = checked_mul(den, factor.den() / std::gcd(den, factor.den()));
  constant_ = checked_mul(constant.num(), den / constant.den());
  x_ = checked_mul(x.num(), den / x.den());
  y_ = checked_mul(y.num(), den / y.den());
  den_ = den;
}

std::int64_t ExactSum::at(std::int64_t x, std::int64_t y) const {
  std::int64_t of_x = 0;
  std::int64_t of_y = 0;
  if (den_ == 0 || __builtin_mul_overflow(x_, x, &of_x) || __builtin_mul_overflow(y_, y, &of_y) ||
      __builtin_add_overflow(of_x, of_y, &of_x) || __builtin_add_overflow(of_x, constant_, &of_x))
    return wide_at(x, y);
  return mul_div(of_x, 1, den_, Rounding::half_away);
}

std::int64_t ExactSum::wide_at(std::int64_t x, std::int64_t y) const {
  std::vector<Product> terms = constants_;
  terms.push_back({of_x_.a, of_x_.b, of_x_.c, x});
  terms.push_back({of_y_.a, of_y_.b, of_y_.c, y});
  return round_sum(terms, Rounding::half_away);
}

}  // namespace endband
