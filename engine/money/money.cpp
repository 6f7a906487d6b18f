// Adding, scaling, rounding and sharing whole minor units.
#include "engine/money/wide.h"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <stdexcept>

namespace endband {
namespace {

void require_same(Currency a, Currency b) {
  if (a != b)
    throw std::logic_error("money of two currencies: " + std::string(a.code()) + " and " +
                           std::string(b.code()));
}

Wide total_weight(std::span<std::int64_t const> weights) {
  Wide total = 0;
  for (std::int64_t weight : weights) {
    if (weight < 0) throw std::invalid_argument("a share has a negative weight");
    total += weight;
  }
  if (total == 0) throw std::invalid_argument("money is shared among no weight");
  return total;
}

}  // namespace

Money operator+(Money a, Money b) {
  require_same(a.currency, b.currency);
  std::int64_t minor = 0;
  if (__builtin_add_overflow(a.minor, b.minor, &minor)) throw Overflow("a sum of money leaves 64 bits");
  return {minor, a.currency};
}

Money operator-(Money a, Money b) {
  require_same(a.currency, b.currency);
  std::int64_t minor = 0;
  if (__builtin_sub_overflow(a.minor, b.minor, &minor))
    throw Overflow("a difference of money leaves 64 bits");
  return {minor, a.currency};
}

Money operator-(Money a) { return Money{0, a.currency} - a; }

Money& operator+=(Money& a, Money b) { return a = a + b; }

std::strong_ordering operator<=>(Money const& a, Money const& b) {
  require_same(a.currency, b.currency);
  return a.minor <=> b.minor;
}

Money scale(Money money, Ratio factor, Rounding rounding) {
  return {mul_div(money.minor, factor.num(), factor.den(), rounding), money.currency};
}

Money round_to(Money money, std::int64_t step_minor, Rounding rounding) {
  if (step_minor <= 0) throw std::invalid_argument("money is rounded to a step that is not positive");
  std::int64_t minor = 0;
  if (__builtin_mul_overflow(divide(money.minor, step_minor, rounding), step_minor, &minor))
    throw Overflow("rounded money leaves 64 bits");
  return {minor, money.currency};
}

Money sum(std::span<Money const> parts, Currency currency) {
  Wide total = 0;  // so that only the result has to fit, in whatever order the parts come
  for (Money const& part : parts) {
    require_same(part.currency, currency);
    total += part.minor;
  }
  return {narrow(total), currency};
}

std::vector<Money> share(Money whole, std::span<std::int64_t const> weights) {
  Wide const total = total_weight(weights);
  bool const negative = whole.minor < 0;
  Wide const amount = negative ? -Wide(whole.minor) : Wide(whole.minor);
  std::vector<Wide> parts;
  std::vector<Wide> remainders;
  Wide left = amount;
  for (std::int64_t weight : weights) {
    Wide const exact = amount * weight;  // over total
    parts.push_back(exact / total);
    remainders.push_back(exact % total);
    left -= parts.back();
  }
  // The remainders sum to left x total, each less than total: more than `left` of them are not zero, or
  // none is. A part of no weight is never reached.
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
  for (std::size_t i = 0; left > 0; ++i, --left) ++parts[order[i]];
  std::vector<Money> result;
  result.reserve(parts.size());
  for (Wide const& part : parts) result.push_back({narrow(negative ? Wide(-part) : part), whole.currency});
  return result;
}

}  // namespace endband
