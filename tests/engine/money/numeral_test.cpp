#include "engine/money/numeral.h"

#include <doctest/doctest.h>

#include <locale>
#include <string>

using endband::Numeral;
using endband::NumeralFault;
using endband::read_numeral;

namespace {

// The value as "digits/decimals", and what is left of the text.
std::string shape(std::string_view text) {
  auto const numeral = read_numeral(text);
  if (!numeral)
    return numeral.error() == NumeralFault::no_numeral  ? "none"
           : numeral.error() == NumeralFault::malformed ? "malformed"
                                                        : "too long";
  return std::to_string(numeral->digits) + "e-" + std::to_string(numeral->decimals) +
         (numeral->ambiguous ? "?" : "") + "|" + std::string(text.substr(numeral->length));
}

}  // namespace

TEST_CASE("a point or a comma parts the decimals") {
  CHECK(shape("12.5 mm") == "125e-1| mm");
  CHECK(shape("12,50") == "1250e-2|");
  CHECK(shape(".5") == "5e-1|");
  CHECK(shape(",125") == "125e-3|");
  CHECK(shape("250mm") == "250e-0|mm");
  CHECK(shape("0012") == "12e-0|");
}

TEST_CASE("one mark before exactly three digits is ambiguous unless it cannot group") {
  CHECK(shape("1,234") == "1234e-3?|");
  CHECK(shape("1.234") == "1234e-3?|");
  CHECK(shape("123.456") == "123456e-3?|");
  CHECK(shape("0.234") == "234e-3|");
  CHECK(shape("0,234") == "234e-3|");
  CHECK(shape("1234.567") == "1234567e-3|");
  CHECK(shape("1.2345") == "12345e-4|");
}

TEST_CASE("two kinds of mark, or one twice, group") {
  CHECK(shape("1,234.5") == "12345e-1|");
  CHECK(shape("1.234,56") == "123456e-2|");
  CHECK(shape("1.234,567") == "1234567e-3|");
  CHECK(shape("12,345,678") == "12345678e-0|");
  CHECK(shape("1.234.567,8") == "12345678e-1|");
}

TEST_CASE("marks that neither group nor part decimals are malformed") {
  for (auto text : {"1.2.3", "12,34,567", "1,2345.6", "5.", "1,234.", "1,234.5,6", ".1.2", "1..2", "0,123.4",
                    "1234,567.8", ",5.5", "1,234,56"})
    CHECK_MESSAGE(shape(text) == "malformed", text);
}

TEST_CASE("what begins with no digit is no numeral") {
  for (auto text : {"", "-", "mm", " 5", "+5", "--5", ".", ",", "e5", "\xff\xfe", "\xe2\x88"})
    CHECK_MESSAGE(shape(text) == "none", text);
}

TEST_CASE("a sign is a hyphen or a typeset minus, also of zero") {
  CHECK(shape("-12.5") == "-125e-1|");
  CHECK(shape("\u221212.5") == "-125e-1|");
  CHECK(read_numeral("-0")->negative);
  CHECK_FALSE(read_numeral("0")->negative);
}

TEST_CASE("a numeral is read to the end of 64 bits and no further") {
  CHECK(shape("9223372036854775807") == "9223372036854775807e-0|");
  CHECK(shape("-9223372036854775808") == "-9223372036854775808e-0|");
  CHECK(shape("9223372036854775808") == "too long");
  CHECK(shape("-9223372036854775809") == "too long");
  CHECK(shape("0.00000000000000000000000000001") == "1e-29|");
  CHECK(shape(std::string(5000, '9')) == "too long");
}

TEST_CASE("an ambiguous numeral is shown in both its readings") {
  CHECK(endband::both_readings(*read_numeral("1,234"), "mm") == "1234 mm or 1.234 mm");
  CHECK(endband::both_readings(*read_numeral("-1.234"), "") == "-1234 or -1.234");
}

TEST_CASE("decimals are written in full") {
  CHECK(endband::decimal_text(0, 2) == "0.00");
  CHECK(endband::decimal_text(-5, 2) == "-0.05");
  CHECK(endband::decimal_text(1234, 0) == "1234");
  CHECK(endband::decimal_text(-1234, 3) == "-1.234");
  CHECK(endband::decimal_text(INT64_MIN, 2) == "-92233720368547758.08");
}

TEST_CASE("the locale of the process changes nothing") {
  struct German : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
  };
  std::locale const before = std::locale::global(std::locale(std::locale::classic(), new German));
  std::string const read = shape("1234.5");
  std::string const written = endband::decimal_text(1234567, 2);
  std::locale::global(before);
  CHECK(read == "12345e-1|");
  CHECK(written == "12345.67");
}
