// Rounding of what is paid in coins.
#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <string>

using endband::Money;
using endband::Ratio;
using endband::Rounding;

namespace {

std::string paid(std::string_view amount, std::string_view code, std::int64_t step) {
  Money const money = endband::read_money(amount, endband::read_currency(code).value()).value();
  return money_text(round_to(money, step, Rounding::half_away));
}

}  // namespace

// budget.canada.ca/2012, "Rounding": 1.83 + 2.86 and 5 % tax is 4.92 by card, 4.90 in cash; endings 1 and 2
// go down, 3 and 4 up to 5, 6 and 7 down to 5, 8 and 9 up. opc.gouv.qc.ca: 5.98 and 5.97.
TEST_CASE("Canada pays to five cents") {
  Money const net{183 + 286, endband::read_currency("CAD").value()};
  Money const total = scale(net, Ratio(105, 100), Rounding::half_away);
  CHECK(money_text(total) == "4.92");
  CHECK(paid(money_text(total), "CAD", 5) == "4.90");
  CHECK(paid("5.98", "CAD", 5) == "6.00");
  CHECK(paid("5.97", "CAD", 5) == "5.95");
  CHECK(paid("0.01", "CAD", 5) == "0.00");
  CHECK(paid("0.03", "CAD", 5) == "0.05");
  CHECK(paid("0.05", "CAD", 5) == "0.05");
}

// norges-bank.no, "Avrundingsregler": from 1 May 2012, 1 to 49 oere down, 50 to 99 up.
TEST_CASE("Norway pays to the krone") {
  CHECK(paid("10.49", "NOK", 100) == "10.00");
  CHECK(paid("10.50", "NOK", 100) == "11.00");
}

// Swedish act 1970:1029, section 2, as filemakerbloggen.se/post/oresavrundning quotes it; the half krona of
// 1992 to 2010 from en.wikipedia.org, "Swedish rounding".
TEST_CASE("Sweden pays to the krona, and once paid to the half") {
  CHECK(paid("24.88", "SEK", 100) == "25.00");
  CHECK(paid("24.42", "SEK", 100) == "24.00");
  CHECK(paid("24.50", "SEK", 100) == "25.00");
  CHECK(paid("223.20", "SEK", 50) == "223.00");
  CHECK(paid("65.40", "SEK", 50) == "65.50");
}

// CLDR 47, supplemental data: CHF cashRounding 5; the amounts are worked out here.
TEST_CASE("Switzerland pays to five rappen") {
  CHECK(paid("0.92", "CHF", 5) == "0.90");
  CHECK(paid("0.93", "CHF", 5) == "0.95");
  CHECK(paid("12.34", "CHF", 5) == "12.35");
  CHECK(paid("12.32", "CHF", 5) == "12.30");
}
