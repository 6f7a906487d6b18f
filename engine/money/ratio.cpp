// Exact fractions. Each operation tries 64 bits first, which the amounts of a workshop seldom leave, and
// takes 128 only when a product does.
#include "engine/money/wide.h"

#include <numeric>
#include <stdexcept>

namespace endband {
namespace {

// |a|, also of the least int64, whose magnitude only the unsigned type holds.
std::uint64_t magnitude(std::int64_t a) {
  return a < 0 ? 0 - static_cast<std::uint64_t>(a) : static_cast<std::uint64_t>(a);
}

bool product(std::int64_t a, std::int64_t b, std::int64_t& result) {
  return !__builtin_mul_overflow(a, b, &result);
}

Ratio reduced(Wide num, Wide den) {
  if (den < 0) {
    num = -num;
    den = -den;
  }
  Wide const common = boost::multiprecision::gcd(num, den);
  return {narrow(num / common), narrow(den / common)};
}

[[noreturn]] void divided_by_zero() { throw std::domain_error("a ratio with a zero denominator"); }

}  // namespace

Ratio::Ratio(std::int64_t num, std::int64_t den) : num_(num), den_(den) {
  if (den == 1) return;
  if (den == 0) divided_by_zero();
  std::uint64_t const common = std::gcd(magnitude(num), magnitude(den));
  bool const negative = (num < 0) != (den < 0);
  std::uint64_t const top = magnitude(num) / common;
  std::uint64_t const bottom = magnitude(den) / common;
  constexpr std::uint64_t largest = std::numeric_limits<std::int64_t>::max();
  if (bottom > largest || top > largest + (negative ? 1 : 0)) throw Overflow("a ratio leaves 64 bits");
  num_ = static_cast<std::int64_t>(negative ? 0 - top : top);
  den_ = static_cast<std::int64_t>(bottom);
}

Ratio operator+(Ratio a, Ratio b) {
  std::int64_t left = 0;
  std::int64_t right = 0;
  std::int64_t den = 0;
  std::int64_t num = 0;
  if (a.den_ == b.den_ && !__builtin_add_overflow(a.num_, b.num_, &num)) return {num, a.den_};
  if (product(a.num_, b.den_, left) && product(b.num_, a.den_, right) && product(a.den_, b.den_, den) &&
      !__builtin_add_overflow(left, right, &num))
    return {num, den};
  return reduced(Wide(a.num_) * b.den_ + Wide(b.num_) * a.den_, Wide(a.den_) * b.den_);
}

Ratio operator-(Ratio a, Ratio b) {
  std::int64_t left = 0;
  std::int64_t right = 0;
  std::int64_t den = 0;
  std::int64_t num = 0;
  if (product(a.num_, b.den_, left) && product(b.num_, a.den_, right) && product(a.den_, b.den_, den) &&
      !__builtin_sub_overflow(left, right, &num))
    return {num, den};
  return reduced(Wide(a.num_) * b.den_ - Wide(b.num_) * a.den_, Wide(a.den_) * b.den_);
}

Ratio operator*(Ratio a, Ratio b) {
  std::int64_t num = 0;
  std::int64_t den = 0;
  if (product(a.num_, b.num_, num) && product(a.den_, b.den_, den)) return {num, den};
  return reduced(Wide(a.num_) * b.num_, Wide(a.den_) * b.den_);
}

Ratio operator/(Ratio a, Ratio b) {
  if (b.num_ == 0) divided_by_zero();
  std::int64_t num = 0;
  std::int64_t den = 0;
  if (product(a.num_, b.den_, num) && product(a.den_, b.num_, den)) return {num, den};
  return reduced(Wide(a.num_) * b.den_, Wide(a.den_) * b.num_);
}

std::strong_ordering operator<=>(Ratio a, Ratio b) {
  std::int64_t left = 0;
  std::int64_t right = 0;
  if (product(a.num_, b.den_, left) && product(b.num_, a.den_, right)) return left <=> right;
  int const order = (Wide(a.num_) * b.den_).compare(Wide(b.num_) * a.den_);
  return order <=> 0;
}

std::int64_t round(Ratio value, Rounding rounding) { return divide(value.num(), value.den(), rounding); }

std::int64_t round_product(Ratio a, Ratio b, Rounding rounding) {
  std::int64_t num = 0;
  std::int64_t den = 0;
  if (product(a.num(), b.num(), num) && product(a.den(), b.den(), den)) return divide(num, den, rounding);
  return narrow(divide<Wide>(Wide(a.num()) * b.num(), Wide(a.den()) * b.den(), rounding));
}

std::int64_t mul_div(std::int64_t a, std::int64_t b, std::int64_t c, Rounding rounding) {
  if (c == 0) divided_by_zero();
  std::int64_t num = 0;
  if (c > 0 && product(a, b, num)) return divide(num, c, rounding);
  Wide const wide = Wide(a) * b;
  return narrow(c > 0 ? divide<Wide>(wide, c, rounding) : divide<Wide>(-wide, -Wide(c), rounding));
}

std::int64_t round_sum(std::span<Product const> terms, Rounding rounding) {
  using boost::multiprecision::cpp_int;
  cpp_int num = 0;
  cpp_int den = 1;
  for (Product const& term : terms) {
    cpp_int const bottom = cpp_int(term.a.den()) * term.b.den() * term.c.den() * term.d.den();
    num = num * bottom + den * term.a.num() * term.b.num() * term.c.num() * term.d.num();
    den *= bottom;
  }
  cpp_int const whole = divide<cpp_int>(num, den, rounding);
  if (whole < std::numeric_limits<std::int64_t>::min() || whole > std::numeric_limits<std::int64_t>::max())
    throw Overflow("a result leaves 64 bits");
  return static_cast<std::int64_t>(whole);
}

}  // namespace endband
