#include "sheets.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Part;
using endband::Ratio;

namespace {

endband::Offer offer_with(endband::DepositRules deposit, std::int64_t outlay) {
  auto const sheet = sheet_of({.parts = {{Part::cover, 150'00}}, .outlay = outlay});
  endband::SellingRules selling;
  selling.deposit = deposit;
  return endband::offer(sheet, collected(), selling, endband::MarkupGoal{1}, shop_in()).value();
}

}  // namespace

TEST_CASE("the deposit is a share of the total, rounded up to the step") {
  auto const offer = offer_with({{35, 100}, 10'00}, 0);
  CHECK(offer.total == eur(300'00));
  CHECK(offer.deposit == eur(110'00));  // 105.00
  CHECK(offer.balance == eur(190'00));
}

TEST_CASE("the deposit covers what is paid out for the book") {
  CHECK(offer_with({{35, 100}, 10'00}, 123'45).deposit == eur(130'00));
  CHECK(offer_with({0, 1}, 123'45).deposit == eur(123'45));
}

TEST_CASE("the deposit is never more than the total") {
  auto const offer = offer_with({1, 70'00}, 0);
  CHECK(offer.deposit == eur(300'00));
  CHECK(offer.balance == eur(0));
  CHECK(offer_with({0, 1}, 400'00).deposit == eur(300'00));
}

// CEN, ubl/examples/ubl-tc434-example5.xml: half of 4,675.00 was paid before.
TEST_CASE("a deposit of half leaves half") {
  auto const sheet = costing(4'675'00);
  endband::SellingRules selling;
  selling.deposit = {Ratio(1, 2), 1};
  auto const offer = endband::offer(sheet, collected(), selling, endband::MarkupGoal{0}, shop_in()).value();
  CHECK(offer.deposit == eur(2'337'50));
  CHECK(offer.balance == eur(2'337'50));
}
