// Tax of a class on the sum of its nets, and tax within a gross price.
#include "sheets.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>

using namespace endband::testing;
using endband::Ratio;
using endband::tax_added;
using endband::tax_within;

namespace {

Ratio percent(std::int64_t whole) { return {whole, 100}; }
std::int64_t added(std::int64_t net, Ratio rate) { return tax_added(eur(net), rate).minor; }
std::int64_t within(std::int64_t gross, Ratio rate) { return tax_within(eur(gross), rate).minor; }

}  // namespace

// Half a cent, both signs, as reported of the EN 16931 validation artefacts: half away from zero is expected.
TEST_CASE("half a cent of tax goes away from zero, also below zero") {
  CHECK(added(6'491'34, percent(25)) == 1'622'84);  // ConnectingEurope/eInvoicing-EN16931 #94
  CHECK(added(-6'491'34, percent(25)) == -1'622'84);
  CHECK(added(-321'50, percent(19)) == -61'09);       // the same, #278
  CHECK(added(-1'710'50, percent(19)) == -325'00);    // the same, #303
  CHECK(added(-7'612'50, percent(19)) == -1'446'38);  // itplr-kosit/validator-configuration-xrechnung #74
  CHECK(added(-7'50, percent(19)) == -1'43);          // ZUGFeRD/ZUV #33
  CHECK(added(19'935'66, percent(15)) == 2'990'35);   // eInvoicing-EN16931 #160
  CHECK(added(696'22, percent(25)) == 174'06);        // the same, #143: 2 x 348.11
}

// CEN, ubl/examples/ubl-tc434-example8.xml: ten lines at 21 %.
TEST_CASE("tax is taken once on the sum of a class") {
  std::int64_t net = 0;
  std::int64_t line_by_line = 0;
  for (std::int64_t const line : {140'80, 16'16, 167'64, 88'74, 36'75, 56'50, 83'34, 190'31, 64'21, 64'46}) {
    net += line;
    line_by_line += added(line, percent(21));
  }
  CHECK(net == 908'91);
  CHECK(added(net, percent(21)) == 190'87);
  CHECK(net + added(net, percent(21)) == 1'099'78);
  CHECK(line_by_line == 190'88);  // what rounding each line would make of it
}

// CEN, ubl/examples: example1 (two rates), example2 (a half cent and an exempt class), example5 (DKK).
// Peppol BIS Billing 3, rules/examples: Allowance-example, base-example, base-negative-inv-correction.
TEST_CASE("the classes of official invoices are taxed as printed") {
  CHECK(added(183'23, percent(6)) == 10'99);
  CHECK(added(46'37, percent(21)) == 9'74);
  CHECK(183'23 + 46'37 + 10'99 + 9'74 == 250'33);
  CHECK(added(1'460'50, percent(25)) == 365'13);
  CHECK(added(1'00, percent(15)) == 15);
  CHECK(added(-25'00, 0) == 0);
  CHECK(1'436'50 + 365'13 + 15 == 1'801'78);
  CHECK(added(1'500'00, percent(25)) + added(2'500'00, percent(12)) == 675'00);
  CHECK(added(4'900'00, percent(25)) == 1'225'00);
  CHECK(added(1'325'00, percent(25)) == 331'25);
  CHECK(added(-1'325'00, percent(25)) == -331'25);
}

// OASIS, UBL-Quotation-2.1-Example.xml (DKK).
TEST_CASE("a published quotation's tax is that of its lines' sum") {
  std::int64_t const net = 150'500'00 + 43'750'00 + 2 * 1'750'00;
  CHECK(net == 197'750'00);
  CHECK(added(net, percent(25)) == 49'437'50);
}

// HMRC, VATREC12030: less than half a penny down, half or more up. The textbook case 704.88 at 20 % (AAT
// forum, comment 464457) is 140.98 to the nearest penny; the concession to cut it to 140.97 is not taken
// (VATREC12010, 12020).
TEST_CASE("tax is rounded to the nearest penny and never merely cut") {
  CHECK(added(704'88, percent(20)) == 140'98);
  CHECK(704'88 + added(704'88, percent(20)) == 845'86);
}

// HMRC, "Calculating VAT for VAT-inclusive and VAT-exclusive prices" (archived).
TEST_CASE("tax on a price and tax within it are the two ways of one rate") {
  CHECK(added(100'00, percent(20)) == 20'00);
  CHECK(within(120'00, percent(20)) == 20'00);
  CHECK(added(100'00, percent(5)) == 5'00);
  CHECK(within(105'00, percent(5)) == 5'00);
}

// rossmartin.co.uk/tax-guides/237-what-is-the-vat-fraction; itsrelative.co.uk.
TEST_CASE("the fraction of tax within a price") {
  CHECK(within(105'00, percent(5)) == 5'00);         // 1/21
  CHECK(within(112'50, Ratio(125, 1000)) == 12'50);  // 1/9
  CHECK(within(115'00, percent(15)) == 15'00);       // 3/23
  CHECK(within(117'50, Ratio(175, 1000)) == 17'50);  // 7/47
  CHECK(within(120'00, percent(20)) == 20'00);       // 1/6
  CHECK(within(60'00, percent(20)) == 10'00);
  CHECK(within(80'00, percent(5)) == 3'81);  // 80/21
  CHECK(within(1'99, percent(20)) == 33);
  CHECK(within(15, percent(20)) == 3);  // two and a half
}

// Every price to 1,000.00 at the common rates: an e-invoice made from gross prices is at most one cent from
// its own tax.
TEST_CASE("net and tax make the gross, and the tax of the net is within a cent of it") {
  for (std::int64_t const rate : {5, 7, 19, 20, 21, 25}) {
    std::int64_t worst = 0;
    std::int64_t last_net = 0;
    for (std::int64_t gross = 0; gross <= 1'000'00; ++gross) {
      std::int64_t const tax = within(gross, percent(rate));
      std::int64_t const net = gross - tax;
      worst = std::max(worst, std::abs(added(net, percent(rate)) - tax));
      if (net < last_net) FAIL_CHECK("the net falls at " << gross);
      last_net = net;
    }
    CAPTURE(rate);
    CHECK(worst <= 1);
  }
}

// OpenStax, Contemporary Mathematics, 6.2 (m00058). The book prints the first total as 464.87, a misprint.
TEST_CASE("sales tax added at the till") {
  Ratio const rate(825, 10000);
  CHECK(428'99 + added(428'99, rate) == 464'38);
  CHECK(34'88 + added(34'88, rate) == 37'76);
}

TEST_CASE("tax takes the digits of its currency") {
  CHECK(tax_added({1'005, currency("JPY")}, percent(10)) == endband::Money{101, currency("JPY")});
  CHECK(tax_added({10'005, currency("KWD")}, percent(10)) == endband::Money{1'001, currency("KWD")});
}

// Canada, 2012 budget, "Rounding": 1.83 + 2.86 and 5 % is 4.92 by card and 4.90 in coins: the tax first, then
// the total.
TEST_CASE("cash is rounded once, after the tax") {
  using endband::Rounding;
  auto const cash = [](std::int64_t minor, std::int64_t step) {
    return endband::round_to(eur(minor), step, Rounding::half_away).minor;
  };
  std::int64_t const net = 1'83 + 2'86;
  std::int64_t const total = net + added(net, percent(5));
  CHECK(total == 4'92);
  CHECK(cash(total, 5) == 4'90);
  CHECK(cash(5'98, 5) == 6'00);  // opc.gouv.qc.ca
  CHECK(cash(5'97, 5) == 5'95);
  CHECK(cash(24'88, 100) == 25'00);  // Sweden, Lag (1970:1029), as quoted at filemakerbloggen.se
  CHECK(cash(24'42, 100) == 24'00);
  CHECK(cash(24'50, 100) == 25'00);   // also Norges Bank, Avrundingsregler: 50 to 99 up
  CHECK(cash(223'20, 50) == 223'00);  // Swedish rounding to 0.50, en.wikipedia.org/wiki/Swedish_rounding
  CHECK(cash(65'40, 50) == 65'50);
  CHECK(cash(92, 5) == 90);  // CLDR 47, CHF: cash rounding 5; recomputed
  CHECK(cash(93, 5) == 95);
  CHECK(cash(12'34, 5) == 12'35);
  CHECK(cash(12'32, 5) == 12'30);
}
