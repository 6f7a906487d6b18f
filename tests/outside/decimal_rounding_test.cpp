// General Decimal Arithmetic test cases, version 2.62 (M. Cowlishaw, speleotrove.com/decimal): the cases that
// round to a whole number or to a number of decimals, under their own names. Their half_up is our half_away
// (of the magnitude), half_down is half_zero, up away, down to_zero, ceiling up and floor down.
#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <array>
#include <string_view>

using endband::mul_div;
using endband::Ratio;
using endband::Rounding;

namespace {

Ratio decimal(std::string_view text) { return endband::read_ratio(text).value(); }

struct Case {
  std::string_view id;
  Rounding rounding;
  std::string_view from;
  std::int64_t to;
};

// tointegral.decTest
constexpr std::array whole_cases{
    Case{"intx210", Rounding::half_even, "55.5", 56},   Case{"intx211", Rounding::half_even, "56.5", 56},
    Case{"intx212", Rounding::half_even, "57.5", 58},   Case{"intx213", Rounding::half_even, "-55.5", -56},
    Case{"intx214", Rounding::half_even, "-56.5", -56}, Case{"intx215", Rounding::half_even, "-57.5", -58},
    Case{"intx220", Rounding::half_away, "55.5", 56},   Case{"intx221", Rounding::half_away, "56.5", 57},
    Case{"intx222", Rounding::half_away, "57.5", 58},   Case{"intx223", Rounding::half_away, "-55.5", -56},
    Case{"intx224", Rounding::half_away, "-56.5", -57}, Case{"intx225", Rounding::half_away, "-57.5", -58},
    Case{"intx230", Rounding::half_zero, "55.5", 55},   Case{"intx231", Rounding::half_zero, "56.5", 56},
    Case{"intx232", Rounding::half_zero, "57.5", 57},   Case{"intx233", Rounding::half_zero, "-55.5", -55},
    Case{"intx234", Rounding::half_zero, "-56.5", -56}, Case{"intx235", Rounding::half_zero, "-57.5", -57},
    Case{"intx240", Rounding::away, "55.3", 56},        Case{"intx241", Rounding::away, "56.3", 57},
    Case{"intx242", Rounding::away, "57.3", 58},        Case{"intx243", Rounding::away, "-55.3", -56},
    Case{"intx244", Rounding::away, "-56.3", -57},      Case{"intx245", Rounding::away, "-57.3", -58},
    Case{"intx250", Rounding::to_zero, "55.7", 55},     Case{"intx251", Rounding::to_zero, "56.7", 56},
    Case{"intx252", Rounding::to_zero, "57.7", 57},     Case{"intx253", Rounding::to_zero, "-55.7", -55},
    Case{"intx254", Rounding::to_zero, "-56.7", -56},   Case{"intx255", Rounding::to_zero, "-57.7", -57},
    Case{"intx260", Rounding::up, "55.3", 56},          Case{"intx261", Rounding::up, "56.3", 57},
    Case{"intx262", Rounding::up, "57.3", 58},          Case{"intx263", Rounding::up, "-55.3", -55},
    Case{"intx264", Rounding::up, "-56.3", -56},        Case{"intx265", Rounding::up, "-57.3", -57},
    Case{"intx270", Rounding::down, "55.7", 55},        Case{"intx271", Rounding::down, "56.7", 56},
    Case{"intx272", Rounding::down, "57.7", 57},        Case{"intx273", Rounding::down, "-55.7", -56},
    Case{"intx274", Rounding::down, "-56.7", -57},      Case{"intx275", Rounding::down, "-57.7", -58},
};

// ddQuantize.decTest: to 0.01, in hundredths, by each rounding of `modes`.
constexpr std::array modes{Rounding::half_even, Rounding::half_away, Rounding::half_zero, Rounding::away,
                           Rounding::to_zero};
struct Row {
  std::string_view from;
  std::array<std::int64_t, 5> to;
};
constexpr std::array quantize_rows{
    Row{"1.2300", {123, 123, 123, 123, 123}}, Row{"1.2301", {123, 123, 123, 124, 123}},
    Row{"1.2350", {124, 124, 123, 124, 123}}, Row{"1.2351", {124, 124, 124, 124, 123}},
    Row{"1.2450", {124, 125, 124, 125, 124}}, Row{"1.2451", {125, 125, 125, 125, 124}},
    Row{"1.2399", {124, 124, 124, 124, 123}},
};

std::int64_t hundredths(std::string_view text, Rounding rounding) {
  return endband::round_product(decimal(text), 100, rounding);
}

}  // namespace

TEST_CASE("decTest rounds to a whole number in seven ways") {
  for (Case const& c : whole_cases) CHECK_MESSAGE(endband::round(decimal(c.from), c.rounding) == c.to, c.id);
}

TEST_CASE("decTest rounds to the hundredth in five ways") {
  for (Row const& row : quantize_rows)
    for (std::size_t i = 0; i < modes.size(); ++i)
      CHECK_MESSAGE(hundredths(row.from, modes[i]) == row.to[i], row.from, " ", i);
  CHECK(hundredths("-1.2399", Rounding::away) == -124);     // ddqua1411
  CHECK(hundredths("-1.2399", Rounding::to_zero) == -123);  // ddqua1511
}

// quantize.decTest, half_up
TEST_CASE("decTest rounds halves away at other places") {
  auto const at = [](std::string_view text, Ratio per_unit) {
    return endband::round_product(decimal(text), per_unit, Rounding::half_away);
  };
  CHECK(at("2.17", 1000) == 2170);               // quax060
  CHECK(at("2.17", 10) == 22);                   // quax062
  CHECK(at("2.17", 1) == 2);                     // quax063
  CHECK(at("2.17", Ratio(1, 10)) == 0);          // quax064
  CHECK(at("217", Ratio(1, 10)) == 22);          // quax073
  CHECK(at("1.2345", 100) == 123);               // quax093
  CHECK(at("1.2355", 100) == 124);               // quax094
  CHECK(at("9.9999", 100) == 1000);              // quax096
  CHECK(at("0.0001", 100) == 0);                 // quax097
  CHECK(at("0.009", 100) == 1);                  // quax099
  CHECK(at("0.0078", 100) == 1);                 // quax303
  CHECK(at("-0.0078", 100) == -1);               // quax313
  CHECK(at("-0.5", 1) == -1);                    // quax038
  CHECK(at("-0.1", 1) == 0);                     // quax026
  CHECK(at("352364.506", 100) == 35'236'451);    // quax380
  CHECK(at("-352364.506", 100) == -35'236'451);  // quax384
}

// rounding.decTest adds 0.5 to a number of five digits, which fills the precision. rsux224 keeps five digits
// of -12344.5.
TEST_CASE("decTest rounds the half of a sum") {
  Ratio const half(1, 2);
  CHECK(endband::round(Ratio(12346) + half, Rounding::half_even) == 12346);    // radx186
  CHECK(endband::round(Ratio(12345) + half, Rounding::half_even) == 12346);    // radx194
  CHECK(endband::round(Ratio(12346) + half, Rounding::half_away) == 12347);    // radx216
  CHECK(endband::round(Ratio(12345) + half, Rounding::half_away) == 12346);    // radx224
  CHECK(endband::round(Ratio(12346) + half, Rounding::half_zero) == 12346);    // radx156
  CHECK(endband::round(Ratio(12345) + half, Rounding::half_zero) == 12345);    // radx164
  CHECK(endband::round(Ratio(-12346) + half, Rounding::half_even) == -12346);  // rsux186
  CHECK(endband::round(Ratio(-12345) + half, Rounding::half_even) == -12344);  // rsux194
  CHECK(endband::round(Ratio(-12346) + half, Rounding::half_away) == -12346);  // rsux216
  CHECK(endband::round(Ratio(-12345) + half, Rounding::half_away) == -12345);  // rsux224
}

// divide.decTest, nine digits, half_up
TEST_CASE("decTest divides to nine digits") {
  constexpr std::int64_t nine_digits = 1'000'000'000;
  CHECK(mul_div(1, nine_digits, 3, Rounding::half_away) == 333'333'333);  // divx007
  CHECK(mul_div(2, nine_digits, 3, Rounding::half_away) == 666'666'667);  // divx008
  CHECK(mul_div(1, nine_digits, 6, Rounding::half_away) == 166'666'667);  // divx105
  CHECK(mul_div(1, nine_digits, 7, Rounding::half_away) == 142'857'143);  // divx106
}
