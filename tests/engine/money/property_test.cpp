// Money's arithmetic against exact rationals of any size.
#include "engine/money/money.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <limits>
#include <optional>
#include <stdexcept>

using boost::multiprecision::cpp_int;
using boost::multiprecision::cpp_rational;
using endband::Currency;
using endband::Money;
using endband::Overflow;
using endband::Ratio;
using endband::Rounding;

namespace {

constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();

// All sizes, and the ends, where overflow lives.
rc::Gen<std::int64_t> whole() {
  return rc::gen::oneOf(rc::gen::inRange<std::int64_t>(-1000, 1001), rc::gen::arbitrary<std::int64_t>(),
                        rc::gen::inRange<std::int64_t>(least, most),
                        rc::gen::element(least, least + 1, most - 1, most, std::int64_t{0}));
}
rc::Gen<std::int64_t> positive() {
  return rc::gen::oneOf(rc::gen::inRange<std::int64_t>(1, 1001), rc::gen::inRange<std::int64_t>(1, most),
                        rc::gen::just(most));
}
Ratio ratio() { return {*whole(), *positive()}; }

Rounding rounding() {
  return *rc::gen::element(Rounding::half_away, Rounding::half_even, Rounding::half_zero, Rounding::away,
                           Rounding::to_zero, Rounding::up, Rounding::down);
}

cpp_rational exact(Ratio value) { return {cpp_int(value.num()), cpp_int(value.den())}; }

cpp_int floor_of(cpp_rational const& value) {
  cpp_int const num = numerator(value);
  cpp_int const den = denominator(value);
  cpp_int const quotient = num / den;
  return num < 0 && quotient * den != num ? cpp_int(quotient - 1) : quotient;
}

// From the definition of each rounding, by the distance to the two neighbours.
cpp_int rounded(cpp_rational const& value, Rounding how) {
  cpp_int const below = floor_of(value);
  if (cpp_rational(below) == value) return below;
  cpp_int const above = below + 1;
  bool const negative = value < 0;
  cpp_int const nearer_zero = negative ? above : below;
  cpp_int const further = negative ? below : above;
  cpp_rational const twice = (value - below) * 2;
  cpp_int const even = below % 2 == 0 ? below : above;
  switch (how) {
    case Rounding::up: return above;
    case Rounding::down: return below;
    case Rounding::away: return further;
    case Rounding::to_zero: return nearer_zero;
    case Rounding::half_away: return twice < 1 ? below : twice > 1 ? above : further;
    case Rounding::half_even: return twice < 1 ? below : twice > 1 ? above : even;
    case Rounding::half_zero: return twice < 1 ? below : twice > 1 ? above : nearer_zero;
  }
  throw std::logic_error("no such rounding");
}

bool fits(cpp_int const& value) { return value >= least && value <= most; }

// The same whole number as the oracle's, or Overflow exactly when that leaves 64 bits.
template <class Compute>
void agree(cpp_int const& expected, Compute compute) {
  std::optional<std::int64_t> result;
  try {
    result = compute();
  } catch (Overflow const&) {
    RC_CLASSIFY(true, "overflow");
  }
  RC_ASSERT(result.has_value() == fits(expected));
  if (result) RC_ASSERT(cpp_int(*result) == expected);
}

template <class Compute>
void agree(cpp_rational const& expected, Compute compute) {
  std::optional<Ratio> result;
  try {
    result = compute();
  } catch (Overflow const&) {
    RC_CLASSIFY(true, "overflow");
  }
  RC_ASSERT(result.has_value() == (fits(numerator(expected)) && fits(denominator(expected))));
  if (!result) return;
  RC_ASSERT(exact(*result) == expected);
  RC_ASSERT(cpp_int(result->num()) == numerator(expected));  // in lowest terms
}

Currency currency() { return endband::read_currency(*rc::gen::elementOf(endband::currency_codes())).value(); }

}  // namespace

TEST_CASE("the four operations of ratios agree with rationals of any size") {
  CHECK(rc::check([] {
    Ratio const a = ratio();
    Ratio const b = ratio();
    agree(cpp_rational(exact(a) + exact(b)), [&] { return a + b; });
    agree(cpp_rational(exact(a) - exact(b)), [&] { return a - b; });
    agree(cpp_rational(exact(a) * exact(b)), [&] { return a * b; });
    if (b != Ratio(0)) agree(cpp_rational(exact(a) / exact(b)), [&] { return a / b; });
    RC_ASSERT((a < b) == (exact(a) < exact(b)));
    RC_ASSERT((a == b) == (exact(a) == exact(b)));
  }));
}

TEST_CASE("sums of ratios with small terms agree with rationals of any size") {
  CHECK(rc::check([] {
    Ratio const a(*rc::gen::inRange<std::int64_t>(-500, 500), *rc::gen::inRange<std::int64_t>(1, 60));
    Ratio const b(*rc::gen::inRange<std::int64_t>(-500, 500), *rc::gen::inRange<std::int64_t>(1, 60));
    agree(cpp_rational(exact(a) + exact(b)), [&] { return a + b; });
    agree(cpp_rational(exact(a) - exact(b)), [&] { return a - b; });
    RC_ASSERT((a <=> b) == (a - b <=> Ratio(0)));
  }));
}

TEST_CASE("every rounding agrees with its definition") {
  CHECK(rc::check([] {
    Rounding const how = rounding();
    Ratio const value = ratio();
    agree(rounded(exact(value), how), [&] { return endband::round(value, how); });
    // Halves are rare among those: make them.
    std::int64_t const n = *rc::gen::inRange<std::int64_t>(-1000, 1000);
    RC_ASSERT(cpp_int(endband::round(Ratio(n, 2), how)) == rounded(cpp_rational(n, 2), how));
  }));
}

TEST_CASE("products are rounded once and overflow is thrown exactly when the result leaves 64 bits") {
  CHECK(rc::check([] {
    Rounding const how = rounding();
    std::int64_t const a = *whole();
    std::int64_t const b = *whole();
    std::int64_t const c = *whole();
    if (c != 0)
      agree(rounded(cpp_rational(cpp_int(a) * b) / c, how), [&] { return endband::mul_div(a, b, c, how); });
    Ratio const left = ratio();
    Ratio const right = ratio();
    agree(rounded(exact(left) * exact(right), how), [&] { return endband::round_product(left, right, how); });
  }));
}

TEST_CASE("money adds, scales and rounds to a step exactly") {
  CHECK(rc::check([] {
    Currency const unit = currency();
    Money const a{*whole(), unit};
    Money const b{*whole(), unit};
    Rounding const how = rounding();
    Ratio const factor = ratio();
    std::int64_t const step = *positive();
    agree(cpp_int(cpp_int(a.minor) + b.minor), [&] { return (a + b).minor; });
    agree(cpp_int(cpp_int(a.minor) - b.minor), [&] { return (a - b).minor; });
    agree(cpp_int(-cpp_int(a.minor)), [&] { return (-a).minor; });
    agree(rounded(cpp_rational(a.minor) * exact(factor), how), [&] { return scale(a, factor, how).minor; });
    agree(cpp_int(rounded(cpp_rational(cpp_int(a.minor), cpp_int(step)), how) * step),
          [&] { return round_to(a, step, how).minor; });
  }));
}

TEST_CASE("a sum overflows only when its result does") {
  CHECK(rc::check([] {
    Currency const unit = currency();
    auto const minors = *rc::gen::container<std::vector<std::int64_t>>(whole());
    std::vector<Money> parts;
    cpp_int total = 0;
    for (std::int64_t minor : minors) {
      parts.push_back({minor, unit});
      total += minor;
    }
    agree(total, [&] { return endband::sum(parts, unit).minor; });
  }));
}

TEST_CASE("shares sum to the whole, keep the quota rule and give nothing for no weight") {
  CHECK(rc::check([] {
    Money const all{*whole(), currency()};
    auto const weights =
        *rc::gen::suchThat(rc::gen::container<std::vector<std::int64_t>>(
                               rc::gen::oneOf(positive(), rc::gen::just(std::int64_t{0}))),
                           [](std::vector<std::int64_t> const& w) {
                             return std::any_of(w.begin(), w.end(), [](auto n) { return n > 0; });
                           });
    std::vector<Money> const parts = endband::share(all, weights);
    RC_ASSERT(parts.size() == weights.size());
    cpp_int total_weight = 0;
    for (std::int64_t weight : weights) total_weight += weight;
    cpp_int total = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      total += parts[i].minor;
      cpp_rational const quota = cpp_rational(cpp_int(all.minor) * weights[i], total_weight);
      RC_ASSERT(cpp_int(parts[i].minor) >= rounded(quota, Rounding::down));
      RC_ASSERT(cpp_int(parts[i].minor) <= rounded(quota, Rounding::up));
      if (weights[i] == 0) RC_ASSERT(parts[i].minor == 0);
    }
    RC_ASSERT(total == cpp_int(all.minor));
    RC_ASSERT(endband::sum(parts, all.currency) == all);
  }));
}

TEST_CASE("no share with a smaller remainder is rounded away from zero before one with a larger") {
  CHECK(rc::check([] {
    Money const all{*rc::gen::inRange<std::int64_t>(0, 100'000), currency()};
    auto const weights = *rc::gen::nonEmpty(
        rc::gen::container<std::vector<std::int64_t>>(rc::gen::inRange<std::int64_t>(1, 500)));
    std::int64_t total = 0;
    for (std::int64_t weight : weights) total += weight;
    std::vector<Money> const parts = endband::share(all, weights);
    for (std::size_t i = 0; i < parts.size(); ++i)
      for (std::size_t j = 0; j < parts.size(); ++j) {
        bool const i_up = parts[i].minor > all.minor * weights[i] / total;
        bool const j_up = parts[j].minor > all.minor * weights[j] / total;
        std::int64_t const i_rest = all.minor * weights[i] % total;
        std::int64_t const j_rest = all.minor * weights[j] % total;
        if (i_up && !j_up) RC_ASSERT(i_rest > j_rest || (i_rest == j_rest && i < j));
      }
  }));
}

TEST_CASE("the readers take what the writers write") {
  CHECK(rc::check([] {
    Money const money{*whole(), currency()};
    RC_ASSERT(endband::read_money(money_text(money), money.currency).value() == money);
    std::string const with_code = money_text(money) + " " + std::string(money.currency.code());
    RC_ASSERT(endband::read_money_with_currency(with_code).value() == money);
    Ratio const value = ratio();
    RC_ASSERT(endband::read_ratio(ratio_text(value)).value() == value);
  }));
}

TEST_CASE("the readers refuse or read whatever bytes they are given, and what they read they write") {
  CHECK(rc::check([] {
    auto const text = *rc::gen::container<std::string>(
        rc::gen::oneOf(rc::gen::elementOf(std::string("0123456789.,-/% EUR")), rc::gen::arbitrary<char>()));
    auto const money = endband::read_money(text, currency());
    if (money) RC_ASSERT(endband::read_money(money_text(*money), money->currency).value() == *money);
    if (auto const value = endband::read_ratio(text))
      RC_ASSERT(endband::read_ratio(ratio_text(*value)).value() == *value);
    if (!money) RC_ASSERT(!money.error().empty());
  }));
}
