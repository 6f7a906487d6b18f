// Exact money: whole minor units of an ISO 4217 currency, exact ratios between, and rounding that is named
// wherever it happens. No float ever enters. Products and quotients are taken in checked 128 bits; a result
// that leaves 64 bits throws Overflow.
#pragma once

#include "engine/fault/fault.h"

#include <compare>
#include <concepts>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// How a value between two whole ones is taken. Halves are the exact middle.
enum class Rounding : std::uint8_t {
  half_away,  // to the nearer; a half away from zero (the trade's and EN 16931's)
  half_even,  // to the nearer; a half to the even one
  half_zero,  // to the nearer; a half toward zero
  away,       // away from zero
  to_zero,    // toward zero
  up,         // toward plus infinity
  down,       // toward minus infinity
};

// A currency of ISO 4217 list one (2024-06-25): three letters and 0, 2, 3 or 4 digits of minor unit.
class Currency {
 public:
  Currency() = default;  // no currency: only an empty Money has it
  std::string_view code() const;
  int digits() const;
  std::int64_t minor_per_major() const;  // 1, 100, 1000 or 10000
  friend bool operator==(Currency, Currency) = default;

 private:
  friend Read<Currency> read_currency(std::string_view);
  std::uint8_t row_ = 0;
};
Read<Currency> read_currency(std::string_view code);  // "EUR"; faults: bad_value with near
std::vector<std::string_view> currency_codes();       // all with a minor unit, in code order

// An exact fraction in lowest terms, the denominator positive.
class Ratio {
 public:
  constexpr Ratio() = default;
  constexpr Ratio(std::int64_t whole)
      : num_(whole) {}  // NOLINT(google-explicit-constructor): a whole is a ratio
  template <std::floating_point Float>
  Ratio(Float) = delete;                      // 0.35 has no exact binary value; Ratio(35, 100) has
  Ratio(std::int64_t num, std::int64_t den);  // den != 0; reduced here
  constexpr std::int64_t num() const { return num_; }
  constexpr std::int64_t den() const { return den_; }

  friend Ratio operator+(Ratio, Ratio);  // all four throw Overflow when the reduced result leaves 64 bits
  friend Ratio operator-(Ratio, Ratio);
  friend Ratio operator*(Ratio, Ratio);
  friend Ratio operator/(Ratio, Ratio);  // a zero divisor throws std::domain_error
  friend std::strong_ordering operator<=>(Ratio, Ratio);
  friend constexpr bool operator==(Ratio, Ratio) = default;

 private:
  std::int64_t num_ = 0;
  std::int64_t den_ = 1;
};
std::int64_t round(Ratio value, Rounding rounding);
std::int64_t round_product(Ratio a, Ratio b, Rounding rounding);  // round(a*b), 128 bits between
std::int64_t mul_div(std::int64_t a, std::int64_t b, std::int64_t c, Rounding rounding);  // round(a*b/c)
// A product of ratios. A sum of them is rounded once, however wide it is in between.
struct Product {
  Ratio a;
  Ratio b = 1;
  Ratio c = 1;
  Ratio d = 1;
};
std::int64_t round_sum(std::span<Product const> terms, Rounding rounding);
Read<Ratio> read_ratio(std::string_view text);        // "0.35", "0,35", "35 %", "7/20"; at most 9 decimals
std::string ratio_text(Ratio value);                  // "7/20", "3"
std::string percent_text(Ratio value, int decimals);  // "35.0"; half_away; no sign of percent

struct Money {
  std::int64_t minor = 0;
  Currency currency;
  friend bool operator==(Money const&, Money const&) = default;
};
// Two currencies never meet: mixing them throws std::logic_error. Overflow throws.
Money operator+(Money a, Money b);
Money operator-(Money a, Money b);
Money operator-(Money a);
Money& operator+=(Money& a, Money b);
std::strong_ordering operator<=>(Money const& a, Money const& b);

Money scale(Money money, Ratio factor, Rounding rounding);                // money x factor, one rounding
Money round_to(Money money, std::int64_t step_minor, Rounding rounding);  // to a multiple of step_minor > 0
Money sum(std::span<Money const> parts, Currency currency);

// Shares `whole` in proportion to `weights` (each >= 0, not all zero) by the largest remainder: the parts sum
// to the whole, each is its exact share rounded up or down, a zero weight gets nothing, ties go to the first.
// A negative whole is shared as its positive, negated.
std::vector<Money> share(Money whole, std::span<std::int64_t const> weights);

// "12.50", "-0.05", "1234" (JPY). The reader takes what the writer writes, and "12,50", "12.5", "1,234.56"
// and "1.234,56"; no symbol. Too many digits after the point is a fault, never a rounding. "1,234" and
// "1.234" may be a thousand or decimals and are refused with both readings, but for a point in a currency of
// three digits.
std::string money_text(Money money);
Read<Money> read_money(std::string_view text, Currency currency);
Read<Money> read_money_with_currency(std::string_view text);  // "12.50 EUR"

}  // namespace endband
