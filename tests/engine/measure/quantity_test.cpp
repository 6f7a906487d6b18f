#include "engine/measure/measure.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>

using endband::Amount;
using endband::Area;
using endband::Count;
using endband::Dimension;
using endband::Length;
using endband::Mass;
using endband::Overflow;
using endband::Ratio;
using endband::Rounding;
using endband::Thickness;

namespace {

template <class A, class B>
concept added = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept compared = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept divided = requires(A a, B b) {
  a / b;
};
template <class A, class B>
concept multiplied = requires(A a, B b) {
  a* b;
};

constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();

}  // namespace

// Two kinds never meet, nor a kind and a bare number; division is only by name.
static_assert(added<Length, Length>);
static_assert(!added<Length, Mass>);
static_assert(!added<Length, Thickness>);
static_assert(!added<Length, Area>);
static_assert(!added<Length, int>);
static_assert(!added<Count, double>);
static_assert(compared<Length, Length>);
static_assert(!compared<Length, Mass>);
static_assert(!divided<Length, int>);
static_assert(!divided<Length, Length>);
static_assert(multiplied<Length, int>);
static_assert(!multiplied<Length, Length>);
static_assert(!std::is_convertible_v<Length, Mass>);
static_assert(!std::is_convertible_v<std::int64_t, Length>);

TEST_CASE("quantities of one kind add, subtract, multiply and compare") {
  Length q = Length{300} + Length{200} - Length{50};
  q += Length{50};
  CHECK(q == Length{500});
  CHECK(q * 3 == Length{1500});
  CHECK(Length{1} < Length{2});
}

TEST_CASE("quantities that leave 64 bits throw and never wrap") {
  CHECK_THROWS_AS(Length{most} + Length{1}, Overflow);
  CHECK_THROWS_AS(Mass{least} - Mass{1}, Overflow);
  CHECK_THROWS_AS(Count{most} * 2, Overflow);
  CHECK_THROWS_AS(endband::checked_mul(least, -1), Overflow);
  CHECK_THROWS_AS(scale(Length{most}, Ratio(2), Rounding::half_away), Overflow);
  CHECK_THROWS_AS(endband::area(Length{most}, Length{2}), Overflow);
  CHECK(endband::checked_mul(least, 1) == least);
}

TEST_CASE("scaling a quantity rounds once, as named") {
  CHECK(scale(Count{1000}, Ratio(1, 3), Rounding::half_away) == Count{333});
  CHECK(scale(Count{1000}, Ratio(1, 3), Rounding::up) == Count{334});
}

TEST_CASE("an area is height times width") {
  CHECK(endband::area(Length{210'000}, Length{297'000}) == Area{62'370'000'000});
}

TEST_CASE("amounts of one dimension add, but of two they never meet") {
  Amount const grams = amount(Mass{50'000});
  CHECK(grams + amount(Mass{1}) == Amount{Dimension::mass, 50'001});
  CHECK(grams - amount(Mass{1}) == Amount{Dimension::mass, 49'999});
  CHECK_THROWS_AS(grams + amount(Length{1}), std::logic_error);
  CHECK_THROWS_AS(grams - amount(Count{1}), std::logic_error);
  CHECK_THROWS_AS(amount(Mass{most}) + amount(Mass{1}), Overflow);
}
