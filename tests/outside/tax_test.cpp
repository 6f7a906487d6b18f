// Tax on a net sum and tax inside a gross one, where exactness and the half cent matter.
#include "engine/money/money.h"

#include <doctest/doctest.h>

#include <array>
#include <string>
#include <vector>

using endband::Money;
using endband::Ratio;
using endband::Rounding;

namespace {

Money euros(std::string_view amount) {
  return endband::read_money(amount, endband::read_currency("EUR").value()).value();
}
Ratio rate(std::string_view text) { return endband::read_ratio(text).value(); }

std::string times(std::string_view base, std::string_view percent, Rounding rounding = Rounding::half_away) {
  return money_text(scale(euros(base), rate(percent), rounding));
}

// Tax r within a gross amount: r / (1 + r) of it.
std::string within(std::string_view gross, std::string_view percent) {
  Ratio const r = rate(percent);
  return money_text(scale(euros(gross), r / (Ratio(1) + r), Rounding::half_away));
}

}  // namespace

// Reports to the EN 16931 artefacts and to validators built on them: ConnectingEurope/eInvoicing-EN16931 #94,
// #278, #303, #160; itplr-kosit/validator-configuration-xrechnung #74; ZUGFeRD/ZUV #33.
TEST_CASE("half a cent of tax goes away from zero, of credits too") {
  CHECK(times("6491.34", "25 %") == "1622.84");
  CHECK(times("-6491.34", "25 %") == "-1622.84");
  CHECK(times("-321.50", "19 %") == "-61.09");
  CHECK(times("-1710.50", "19 %") == "-325.00");
  CHECK(times("-7612.50", "19 %") == "-1446.38");
  CHECK(times("-7.50", "19 %") == "-1.43");
  CHECK(times("19935.66", "15 %") == "2990.35");
}

// eInvoicing-EN16931 #143: 2 x 348.11 at 25 %.
TEST_CASE("tax of one line of two is 174.06") { CHECK(times("696.22", "25 %") == "174.06"); }

// CEN, cii/examples/CII-BR-CO-10-RoundingIssue.xml: in binary doubles the four lines sum to -9.1e-15.
TEST_CASE("lines that cancel sum to nothing") {
  std::array const lines{euros("720.81"), euros("0.01"), euros("-720.81"), euros("-0.01")};
  CHECK(endband::sum(lines, euros("0").currency) == euros("0"));
}

// CEN, ubl/examples/ubl-tc434-example8.xml: price of five decimals x quantity / base quantity, rounded by
// line.
TEST_CASE("the lines of an invoice with prices of five decimals add up") {
  struct Line {
    std::int64_t quantity;
    std::string_view price;
    std::int64_t base;
    std::string_view net;
  };
  constexpr std::array lines{
      Line{16'000, "0.00880", 1, "140.80"}, Line{16'000, "0.00101", 1, "16.16"},
      Line{132, "15.24", 12, "167.64"},     Line{58, "1.53", 1, "88.74"},
      Line{1, "441.00", 12, "36.75"},       Line{1, "678.00", 12, "56.50"},
      Line{1, "83.34", 1, "83.34"},         Line{1, "190.31", 1, "190.31"},
      Line{1, "64.21", 1, "64.21"},         Line{1, "64.46", 1, "64.46"},
  };
  std::vector<Money> nets;
  for (Line const& line : lines) {
    Ratio const cents = rate(line.price) * Ratio(100);
    std::int64_t const net = round_product(cents, Ratio(line.quantity, line.base), Rounding::half_away);
    nets.push_back({net, euros("0").currency});
    CHECK(money_text(nets.back()) == line.net);
  }
  Money const net = endband::sum(nets, euros("0").currency);
  Money const tax = scale(net, rate("21 %"), Rounding::half_away);
  CHECK(money_text(net) == "908.91");
  CHECK(money_text(tax) == "190.87");
  CHECK(money_text(net + tax) == "1099.78");
}

// PEPPOL BIS Billing 3, calculations: 999.81 is paid as 1000, the rounding amount is 0.19.
TEST_CASE("what is paid to the whole unit is carried by a rounding amount") {
  Money const payable = round_to(euros("999.81"), 100, Rounding::half_away);
  CHECK(money_text(payable) == "1000.00");
  CHECK(money_text(payable - euros("999.81")) == "0.19");
}

// HMRC VATREC12030: less than half a penny down, half or more up. VATREC12010 and Notice 700, 17.5, let some
// traders round the tax of an invoice down; the case is from forums.aat.org.uk, comment 464457.
TEST_CASE("British tax goes to the nearer penny, and down only where that is asked for by name") {
  CHECK(times("704.88", "20 %") == "140.98");
  CHECK(times("704.88", "20 %", Rounding::down) == "140.97");
}

// HMRC Notice 700, 17.5.2, as quoted in github.com/elixirmoney/money #107: 0.0024 to the thousandth.
TEST_CASE("the tax of one article may be kept to a tenth of a penny") {
  CHECK(round_product(rate("0.0024"), 1000, Rounding::half_away) == 2);
}

// HMRC, "Calculating VAT for VAT-inclusive and VAT-exclusive prices" (archived)
TEST_CASE("a hundred with tax") {
  CHECK(times("100", "120 %") == "120.00");
  CHECK(times("100", "105 %") == "105.00");
}

// rossmartin.co.uk/tax-guides/237-what-is-the-vat-fraction; itsrelative.co.uk for 60 and 80
TEST_CASE("the tax within a price is the fraction r / (1 + r) of it") {
  auto const fraction = [](std::string_view percent) { return rate(percent) / (Ratio(1) + rate(percent)); };
  CHECK(fraction("5 %") == Ratio(1, 21));
  CHECK(fraction("12.5 %") == Ratio(1, 9));
  CHECK(fraction("15 %") == Ratio(3, 23));
  CHECK(fraction("17.5 %") == Ratio(7, 47));
  CHECK(fraction("20 %") == Ratio(1, 6));
  CHECK(within("105", "5 %") == "5.00");
  CHECK(within("112.50", "12.5 %") == "12.50");
  CHECK(within("115", "15 %") == "15.00");
  CHECK(within("117.50", "17.5 %") == "17.50");
  CHECK(within("120", "20 %") == "20.00");
  CHECK(within("60", "20 %") == "10.00");
  CHECK(within("80", "5 %") == "3.81");
  CHECK(within("1.99", "20 %") == "0.33");  // worked out here
}

// OpenStax, Contemporary Mathematics, section 6.2 (m00058). The book prints a total of 464.87 for the first:
// a misprint, 428.99 + 35.39 is 464.38.
TEST_CASE("sales tax of 8.25 per cent") {
  CHECK(times("428.99", "8.25 %") == "35.39");
  CHECK(money_text(euros("428.99") + euros("35.39")) == "464.38");
  CHECK(times("34.88", "8.25 %") == "2.88");
  CHECK(money_text(euros("34.88") + euros("2.88")) == "37.76");
}

// evro.si/en, "Rounding rules"; Regulation (EC) 1103/97, article 5: half a cent goes up.
TEST_CASE("conversion into euro goes to the nearer cent, a half up") {
  auto const cents = [](std::string_view amount, std::string_view tolars) {
    return endband::round(rate(amount) / rate(tolars) * Ratio(100), Rounding::half_away);
  };
  CHECK(cents("24.784", "1") == 2478);
  CHECK(cents("24.785", "1") == 2479);
  CHECK(cents("500", "239.640") == 209);
  CHECK(cents("1000", "239.640") == 417);
}
