// Walks against the definitions in rationals, and the sums that must close to the last minor unit.
#include "any_outlet.h"
#include "by_definition.h"
#include "tests/cases.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Money;
using endband::Ratio;
using endband::TaxMode;
using endband::Walk;

namespace {

void compare(Walk const& walk, ByDefinition const& by_definition) {
  RC_ASSERT(cpp_int(walk.discount.minor) == by_definition.discount);
  RC_ASSERT(cpp_int(walk.goods_shown.minor) == by_definition.goods_shown);
  RC_ASSERT(cpp_int(walk.carriage_shown.minor) == by_definition.carriage_shown);
  RC_ASSERT(cpp_int(walk.tax.minor) == by_definition.tax);
  RC_ASSERT(cpp_int(walk.cash_rounding.minor) == by_definition.cash_rounding);
  RC_ASSERT(cpp_int(walk.paid.minor) == by_definition.paid);
  RC_ASSERT(cpp_int(walk.goods.minor) == by_definition.goods);
  RC_ASSERT(walk.fees.size() == by_definition.fees.size());
  for (std::size_t i = 0; i < walk.fees.size(); ++i)
    RC_ASSERT(cpp_int(walk.fees[i].minor) == by_definition.fees[i]);
  RC_ASSERT(cpp_int(walk.all_fees.minor) == by_definition.all_fees);
  RC_ASSERT(cpp_int(walk.payout.minor) == by_definition.payout);
  RC_ASSERT(cpp_int(walk.exchange_cost.minor) == by_definition.exchange_cost);
  RC_ASSERT(cpp_int(walk.received.minor) == by_definition.received);
  RC_ASSERT(cpp_int(walk.tax_due.minor) == by_definition.tax_due);
  RC_ASSERT(cpp_int(walk.carriage.minor) == by_definition.carriage);
  RC_ASSERT(cpp_int(walk.yours.minor) == by_definition.yours);
  RC_ASSERT(cpp_int(walk.returns.minor) == by_definition.returns);
  RC_ASSERT(cpp_int(walk.cost.minor) == by_definition.cost);
  RC_ASSERT(cpp_int(walk.left.minor) == by_definition.left);
  RC_ASSERT(cpp_int(walk.price.minor) == by_definition.price);
}

}  // namespace

TEST_CASE("a walk is what the definitions give") {
  CHECK(endband::testing::check_one_in(100, [] {
    std::int64_t const most = *rc::gen::element<std::int64_t>(100, 2000, 5'000'000);
    SaleOf const any = any_sale(most);
    Ratio const given_away = coin() ? any_share(100) : Ratio(0);
    Definition const definition(any.sale(), given_away);
    for (int i = 0; i < 5; ++i) {
      std::int64_t const ticket = up_to(4 * most);
      Money const shown{ticket, endband::ticket_currency(any.sale())};
      compare(endband::walk(any.sale(), shown, given_away), definition.at(ticket));
    }
  }));
}

TEST_CASE("of a walk everything adds up") {
  CHECK(rc::check([] {
    SaleOf const any = any_sale(2000);
    Money const ticket{up_to(8000), endband::ticket_currency(any.sale())};
    Walk const walk = endband::walk(any.sale(), ticket, coin() ? any_share(100) : Ratio(0));
    bool const added = endband::tax_of(any.selling).mode == TaxMode::added;
    bool const collected = any.selling.outlet && any.selling.outlet->collects_tax;
    Money const none{0, ticket.currency};
    RC_ASSERT(walk.ticket == ticket);
    RC_ASSERT(walk.goods_shown + walk.discount == ticket);
    RC_ASSERT(walk.paid ==
              walk.goods_shown + walk.carriage_shown + (added ? walk.tax : none) + walk.cash_rounding);
    RC_ASSERT(walk.all_fees == endband::sum(walk.fees, ticket.currency));
    RC_ASSERT(walk.payout == walk.paid - walk.all_fees - (collected ? walk.tax : none));
    RC_ASSERT(walk.yours == walk.received - walk.tax_due - walk.carriage);
    RC_ASSERT(walk.left == walk.yours - walk.returns - walk.cost);
  }));
}
