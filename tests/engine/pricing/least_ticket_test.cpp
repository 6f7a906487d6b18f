// The least ticket against brute force: every point from 0 on is walked by the definitions in rationals, and
// the first that meets the goal must be the one that is found.
#include "any_outlet.h"
#include "by_definition.h"
#include "tests/cases.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Goal;
using endband::PricePoints;

namespace {

// What the search found; none: no price.
std::optional<std::int64_t> found(SaleOf const& of, Goal const& goal, std::int64_t from = 0) {
  auto const least = endband::least_ticket(of.sale(), goal, {from, endband::ticket_currency(of.sale())});
  if (least) return least->minor;
  RC_ASSERT(least.error().front().code == endband::FaultCode::bad_goal);
  return std::nullopt;
}

// Every point below what was found, or all up to `last`, must miss the goal.
template <class Meets>
void compare(SaleOf const& of, std::optional<std::int64_t> least, std::int64_t from, std::int64_t last,
             Meets meets) {
  PricePoints const points = endband::points_of(of.selling, of.shop.currency);
  if (least) RC_ASSERT((*least + points.below) % points.step == 0);
  if (least) RC_ASSERT(meets(*least));
  std::int64_t const end = least ? std::min(*least, last) : last;
  for (std::int64_t point = points.below == 0 ? 0 : points.step - points.below; point < end;
       point += points.step)
    if (point >= from) RC_ASSERT_FALSE(meets(point));
}

}  // namespace

TEST_CASE("no point below the least ticket meets the goal, by the definitions") {
  CHECK(endband::testing::check_one_in(100, [] {
    SaleOf const any = any_sale(100);
    Goal const goal = any_goal(any.shop.currency, 100);
    Definition const definition(any.sale());
    compare(any, found(any, goal), 0, 110,
            [&](std::int64_t point) { return definition.meets(definition.at(point), goal); });
  }));
}

// The same over many more points. Walks are the engine's here: walk_property_test holds them against the
// definitions.
TEST_CASE("no point below the least ticket meets the goal, of thousands") {
  CHECK(endband::testing::check_one_in(10, [] {
    SaleOf const any = any_sale(1200);
    Goal const goal = any_goal(any.shop.currency, 1200);
    std::int64_t const from = coin() ? up_to(3000) : 0;
    endband::Currency const currency = endband::ticket_currency(any.sale());
    compare(any, found(any, goal, from), from, 5000, [&](std::int64_t point) {
      return endband::meets(endband::walk(any.sale(), {point, currency}), any.sale(), goal);
    });
  }));
}
