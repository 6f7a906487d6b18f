#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>
#include <string>

using endband::Currency;
using endband::FaultCode;
using endband::Money;
using endband::Ratio;

namespace {

Currency currency(std::string_view code) { return endband::read_currency(code).value(); }

std::int64_t minor(std::string_view text, std::string_view code) {
  auto const money = endband::read_money(text, currency(code));
  REQUIRE_MESSAGE(money, text);
  CHECK(money->currency == currency(code));
  return money->minor;
}

endband::Fault fault(std::string_view text, std::string_view code) {
  auto const money = endband::read_money(text, currency(code));
  REQUIRE_MESSAGE(!money, text);
  REQUIRE(money.error().size() == 1);
  CHECK(money.error().front().found == text);
  return money.error().front();
}

}  // namespace

TEST_CASE("money is written with all the digits of its minor unit") {
  CHECK(endband::money_text({1250, currency("EUR")}) == "12.50");
  CHECK(endband::money_text({-5, currency("EUR")}) == "-0.05");
  CHECK(endband::money_text({1234, currency("JPY")}) == "1234");
  CHECK(endband::money_text({1234, currency("KWD")}) == "1.234");
  CHECK(endband::money_text({std::numeric_limits<std::int64_t>::min(), currency("EUR")}) ==
        "-92233720368547758.08");
}

TEST_CASE("money is read with a point or a comma, with fewer decimals, and grouped when it is clear") {
  CHECK(minor("12.50", "EUR") == 1250);
  CHECK(minor("12,50", "EUR") == 1250);
  CHECK(minor(" 12.5 ", "EUR") == 1250);
  CHECK(minor("12", "EUR") == 1200);
  CHECK(minor("-0.05", "EUR") == -5);
  CHECK(minor("1,234.56", "EUR") == 123456);
  CHECK(minor("1.234,56", "EUR") == 123456);
  CHECK(minor("1234", "JPY") == 1234);
  CHECK(minor("1.2345", "CLF") == 12345);
  CHECK(minor("1234.567", "KWD") == 1234567);
}

TEST_CASE("a thousand that may be decimals is refused with both readings") {
  CHECK(fault("1,234", "EUR").code == FaultCode::ambiguous_number);
  CHECK(fault("1,234", "EUR").expected == "1234 EUR or 1.234 EUR");
  CHECK(fault("1.234", "EUR").code == FaultCode::ambiguous_number);
  CHECK(fault("1,234", "JPY").code == FaultCode::ambiguous_number);
  CHECK(fault("1.234", "CLF").code == FaultCode::ambiguous_number);
}

TEST_CASE("a currency of three digits is read as it is written, with a point, a comma stays ambiguous") {
  CHECK(minor("1.234", "KWD") == 1234);
  CHECK(minor("0,234", "KWD") == 234);
  CHECK(fault("1,234", "KWD").code == FaultCode::ambiguous_number);
}

TEST_CASE("too many decimals are a fault and never rounded") {
  CHECK(fault("12.5000", "EUR").code == FaultCode::bad_value);
  CHECK(fault("12.5000", "EUR").expected == "an amount such as 12.00, with at most 2 decimals");
  CHECK(fault("0.005", "EUR").code == FaultCode::bad_value);
  CHECK(fault("12.5", "JPY").expected == "an amount such as 12, with no decimals");
}

TEST_CASE("what is no amount is refused") {
  for (auto text : {"", "abc", "12.50 EUR", "\u20ac12", "1e3", "+5", "12.", "0x10", "nan", "1 000"})
    CHECK_MESSAGE(fault(text, "EUR").code == FaultCode::bad_value, text);
  CHECK(fault("99999999999999999999", "EUR").code == FaultCode::out_of_range);
  CHECK(fault("92233720368547758.08", "EUR").code == FaultCode::out_of_range);
  CHECK(fault("922337203685477580", "EUR").code == FaultCode::out_of_range);
}

TEST_CASE("money is read with its currency after it") {
  CHECK(endband::read_money_with_currency("12.50 EUR").value() == Money{1250, currency("EUR")});
  CHECK(endband::read_money_with_currency(" -3JPY ").value() == Money{-3, currency("JPY")});
  CHECK(endband::read_money_with_currency("12.50").error().front().code == FaultCode::missing_unit);
  CHECK(endband::read_money_with_currency("12.50 EUX").error().front().near.front() == "EUR");
  CHECK(endband::read_money_with_currency("1,234 EUR").error().front().code == FaultCode::ambiguous_number);
  CHECK_FALSE(endband::read_money_with_currency("EUR 12.50"));
}

TEST_CASE("a ratio is read as a decimal, a percentage or a fraction") {
  CHECK(endband::read_ratio("0.35").value() == Ratio(7, 20));
  CHECK(endband::read_ratio("0,35").value() == Ratio(7, 20));
  CHECK(endband::read_ratio("35 %").value() == Ratio(7, 20));
  CHECK(endband::read_ratio("8.25%").value() == Ratio(33, 400));
  CHECK(endband::read_ratio(" 7 / 20 ").value() == Ratio(7, 20));
  CHECK(endband::read_ratio("-7/20").value() == Ratio(-7, 20));
  CHECK(endband::read_ratio("239.640").value() == Ratio(23964, 100));
  CHECK(endband::read_ratio("0.000000001").value() == Ratio(1, 1'000'000'000));
  CHECK(endband::read_ratio("-9223372036854775808/3").value() ==
        Ratio(std::numeric_limits<std::int64_t>::min(), 3));
}

TEST_CASE("what is no ratio is refused") {
  for (auto text :
       {"", "%", "1/0", "1/-2", "1/2/3", "1.5/2", "35 %%", "35 percent", "0.0000000001", "a/b", "/"})
    CHECK_MESSAGE(endband::read_ratio(text).error().front().code == FaultCode::bad_value, text);
  CHECK(endband::read_ratio("1,234 %").error().front().expected == "1234 % or 1.234 %");
  CHECK(endband::read_ratio("99999999999999999999").error().front().code == FaultCode::out_of_range);
}

TEST_CASE("a ratio is written as a fraction or as a percentage") {
  CHECK(ratio_text(Ratio(7, 20)) == "7/20");
  CHECK(ratio_text(Ratio(3)) == "3");
  CHECK(percent_text(Ratio(7, 20), 1) == "35.0");
  CHECK(percent_text(Ratio(1, 3), 2) == "33.33");
  CHECK(percent_text(Ratio(1, 8), 0) == "13");
  CHECK(percent_text(Ratio(-1, 8), 0) == "-13");
  CHECK_THROWS_AS(percent_text(Ratio(1), -1), std::invalid_argument);
}
