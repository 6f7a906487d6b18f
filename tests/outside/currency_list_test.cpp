// ISO 4217, list one as published on 2024-06-25 (SIX, list-one.xml): codes by digits of the minor unit.
#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <iterator>
#include <sstream>
#include <string>

namespace {

std::vector<std::string> words(std::string const& text) {
  std::istringstream stream(text);
  return {std::istream_iterator<std::string>(stream), {}};
}

std::vector<std::string> codes_of(int digits) {
  std::vector<std::string> result;
  for (auto code : endband::currency_codes())
    if (endband::read_currency(code)->digits() == digits) result.emplace_back(code);
  return result;
}

}  // namespace

TEST_CASE("list one has seventeen currencies without a minor unit, seven of three digits and two of four") {
  CHECK(codes_of(0) == words("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"));
  CHECK(codes_of(3) == words("BHD IQD JOD KWD LYD OMR TND"));
  CHECK(codes_of(4) == words("CLF UYW"));
}

TEST_CASE("list one has a hundred and forty currencies of two digits and no others") {
  CHECK(codes_of(2).size() == 140);
  CHECK(endband::currency_codes().size() == 17 + 140 + 7 + 2);
  auto const two = codes_of(2);
  // The last changes before that day: ZWG came, SLL and HRK had gone; ANG and CUC were still there.
  for (auto const& code : words("GBP USD EUR CHF SEK HUF CZK MRU MGA ZWG ANG CUC SLE VED XCD"))
    CHECK_MESSAGE(std::find(two.begin(), two.end(), code) != two.end(), code);
  for (auto const& code : words("HRK SLL ZWL XCG DEM FRF")) CHECK_FALSE(endband::read_currency(code));
}

// CLDR 47 gives these no digits, for cash; for accounts ISO's two stand.
TEST_CASE("currencies without coins of the minor unit keep its two digits") {
  for (auto const& code : words("AFN ALL IRR KPW LAK LBP MGA MMK RSD SOS SYP YER"))
    CHECK(endband::read_currency(code)->digits() == 2);
  CHECK(endband::read_currency("IQD")->digits() == 3);
}

TEST_CASE("metals, bond units, drawing rights, tests and no currency have no minor unit and are refused") {
  for (auto const& code : words("XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX"))
    CHECK_FALSE(endband::read_currency(code));
}

TEST_CASE("one number of minor units is a different amount in each currency") {
  auto const text = [](std::int64_t minor, std::string_view code) {
    return endband::money_text({minor, endband::read_currency(code).value()});
  };
  CHECK(text(1234, "JPY") == "1234");
  CHECK(text(1234, "KWD") == "1.234");
  CHECK(text(1234, "GBP") == "12.34");
  CHECK(text(12345, "CLF") == "1.2345");
}
