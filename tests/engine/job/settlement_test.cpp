#include "records.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

namespace {

// Goods of 50.00 and two hours.
JobRecord begun(std::int64_t paid) {
  JobRecord record = nothing_yet();
  record.taken = {taken(1, 1000, 50'00)};
  record.worked = {at(OperationKind::sew_sections, 2 * seconds_an_hour)};
  record.paid = eur(paid);
  return record;
}

}  // namespace

TEST_CASE("a cancelled job keeps what it cost and its tax, and gives the rest back") {
  Settlement const settled = settle_cancelled(quote(), begun(200'00), std::nullopt);
  // Two hours at 31,680.00 / 1,200 = 26.40, overhead at 8,240.00 / 1,200 = 6.8666...: 52.80 and 13.73.
  CHECK(settled.cost.total == eur(116'53));
  CHECK(settled.keeps == eur(116'53));
  CHECK(settled.tax == eur(22'14));  // 19 % of 116.53 is 22.1407
  CHECK(settled.to_give_back == eur(61'33));
  CHECK(settled.still_due == eur(0));
}

TEST_CASE("a deposit that does not reach leaves something due") {
  Settlement const settled = settle_cancelled(quote(), begun(100'00), std::nullopt);
  CHECK(settled.to_give_back == eur(0));
  CHECK(settled.still_due == eur(38'67));
}

TEST_CASE("the workshop may keep less or nothing") {
  Settlement const nothing = settle_cancelled(quote(), begun(100'00), eur(0));
  CHECK(nothing.tax == eur(0));
  CHECK(nothing.to_give_back == eur(100'00));
  CHECK(settle_cancelled(quote(), begun(100'00), eur(80'00)).tax == eur(15'20));
  CHECK_THROWS_AS((void)settle_cancelled(quote(), begun(0), eur(-1)), std::logic_error);
}

TEST_CASE("no tax where the quote has none") {
  FrozenQuote untaxed = quote();
  untaxed.selling.tax = {TaxMode::none, {19, 100}, "VAT"};
  CHECK(settle_cancelled(untaxed, begun(0), eur(80'00)).tax == eur(0));
  CHECK(settle_cancelled(untaxed, begun(0), eur(80'00)).still_due == eur(80'00));
}
