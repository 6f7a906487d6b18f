#include "engine/stock/stock.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;

namespace {

Currency currency(char const* code) { return read_currency(code).value(); }
Money money(std::int64_t minor, char const* code = "EUR") { return {minor, currency(code)}; }

ParcelTerms terms(std::int64_t carriage_cents) {
  ParcelTerms terms;
  terms.carriage = money(carriage_cents);
  return terms;
}

}  // namespace

// Worked by hand. 66.00, 24.80 and 34.00 USD at 23/25 EUR are 60.72, 22.816 and 31.28: 114.82 in all. Of 9.50
// they bear 5.02386, 1.88809 and 2.58805: 9.48 in whole cents, and the two over go to the second and the
// third. Duty 4 %, then tax of 20 % on all, of which half comes back.
TEST_CASE("a parcel of three lines, in dollars, with carriage, duty and a tax of which half comes back") {
  ParcelTerms parcel = terms(950);
  parcel.rate = Ratio(23, 25);
  parcel.duty = Ratio(4, 100);
  parcel.purchase_tax = Ratio(20, 100);
  parcel.tax_recovered = Ratio(1, 2);
  std::vector<Money> const said{money(6600, "USD"), money(2480, "USD"), money(3400, "USD")};
  auto const landed = landed_parcel(said, parcel, currency("EUR"));
  REQUIRE(landed.size() == 3);
  CHECK(landed[0].price == money(6072));
  CHECK(landed[1].price == money(2282));
  CHECK(landed[2].price == money(3128));
  CHECK(landed[0].carriage == money(502));
  CHECK(landed[1].carriage == money(189));
  CHECK(landed[2].carriage == money(259));
  CHECK(landed[0].duty == money(243));       // 242.88
  CHECK(landed[1].duty == money(91));        // 91.28
  CHECK(landed[2].duty == money(125));       // 125.12
  CHECK(landed[0].tax == money(1363));       // 68.17 x 20 % = 1363.4
  CHECK(landed[1].tax == money(512));        // 25.62 x 20 % = 512.4
  CHECK(landed[2].tax == money(702));        // 35.12 x 20 % = 702.4
  CHECK(landed[0].tax_borne == money(681));  // half of 1363 comes back as 682
  CHECK(landed[1].tax_borne == money(256));
  CHECK(landed[2].tax_borne == money(351));
  CHECK(landed[0].total == money(7498));
  CHECK(landed[1].total == money(2818));
  CHECK(landed[2].total == money(3863));
}

TEST_CASE("a currency of other digits is exchanged by its units, not by its minor units") {
  ParcelTerms parcel = terms(0);
  parcel.rate = Ratio(61, 10000);  // 0.0061 EUR for a yen
  CHECK(landed_parcel(std::vector{money(12'345, "JPY")}, parcel, currency("EUR"))[0].total ==
        money(7530));      // 75.3045
  parcel.rate = Ratio(3);  // EUR for a Kuwaiti dinar of 1000 fils
  CHECK(landed_parcel(std::vector{money(1'005, "KWD")}, parcel, currency("EUR"))[0].total ==
        money(302));  // 3.015
}

TEST_CASE("goods that cost nothing share the carriage alike, the first bearing the cent over") {
  auto const landed = landed_parcel(std::vector{money(0), money(0), money(0)}, terms(1000), currency("EUR"));
  CHECK(landed[0].total == money(334));
  CHECK(landed[1].total == money(333));
  CHECK(landed[2].total == money(333));
}

TEST_CASE("among goods with a price, one without bears no carriage") {
  auto const landed = landed_parcel(std::vector{money(0), money(500)}, terms(1000), currency("EUR"));
  CHECK(landed[0].total == money(0));
  CHECK(landed[1].total == money(1500));
}

TEST_CASE("without carriage none need be named in a currency") {
  CHECK(landed_parcel(std::vector{money(500)}, ParcelTerms{}, currency("EUR"))[0].total == money(500));
  CHECK(landed_parcel({}, ParcelTerms{}, currency("EUR")).empty());
}

TEST_CASE("a parcel below nothing, or carriage for no goods, is a broken contract") {
  CHECK_THROWS_AS(landed_parcel(std::vector{money(-1)}, terms(0), currency("EUR")), std::logic_error);
  CHECK_THROWS_AS(landed_parcel(std::vector{money(1)}, terms(-1), currency("EUR")), std::logic_error);
  CHECK_THROWS_AS(landed_parcel({}, terms(1), currency("EUR")), std::logic_error);
  ParcelTerms parcel = terms(1);
  parcel.rate = Ratio(0);
  CHECK_THROWS_AS(landed_parcel(std::vector{money(1)}, parcel, currency("EUR")), std::logic_error);
  parcel = terms(0);
  parcel.carriage = money(5, "USD");
  CHECK_THROWS_AS(landed_parcel(std::vector{money(1)}, parcel, currency("EUR")), std::logic_error);
}
