#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <algorithm>

using endband::Currency;
using endband::read_currency;

TEST_CASE("a currency knows its code and its minor unit") {
  Currency const eur = read_currency("EUR").value();
  CHECK(eur.code() == "EUR");
  CHECK(eur.digits() == 2);
  CHECK(eur.minor_per_major() == 100);
  CHECK(read_currency("JPY")->minor_per_major() == 1);
  CHECK(read_currency("KWD")->minor_per_major() == 1000);
  CHECK(read_currency("CLF")->minor_per_major() == 10000);
}

TEST_CASE("no currency is the currency of empty money only") {
  CHECK(Currency{}.code().empty());
  CHECK(Currency{}.minor_per_major() == 1);
  CHECK(Currency{} != read_currency("EUR").value());
  CHECK_FALSE(read_currency(""));
}

TEST_CASE("every code listed is read as itself, in order") {
  auto const codes = endband::currency_codes();
  CHECK(std::is_sorted(codes.begin(), codes.end()));
  for (auto code : codes) {
    REQUIRE(read_currency(code));
    CHECK(read_currency(code)->code() == code);
  }
}

TEST_CASE("a currency that is not one is refused with what may have been meant") {
  auto const lower = read_currency("eur");
  REQUIRE_FALSE(lower);
  CHECK(lower.error().front().code == endband::FaultCode::bad_value);
  CHECK(lower.error().front().found == "eur");
  CHECK(lower.error().front().near.front() == "EUR");
  auto const unlike = read_currency("QQQ");
  REQUIRE_FALSE(unlike);
  CHECK(unlike.error().front().near.empty());
  for (auto text : {"EURO", "EU", " EUR", "E\377R", "XAU"}) CHECK_FALSE(read_currency(text));
}
