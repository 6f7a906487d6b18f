// Prices against brute force: every point of the price line is walked with rationals of any size, from the
// definitions of the goal and of the tax, and the first that meets the goal must be the one asked.
#include "sheets.h"
#include "tests/cases.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband::testing;
using boost::multiprecision::cpp_int;
using boost::multiprecision::cpp_rational;
using endband::Currency;
using endband::Delivery;
using endband::Goal;
using endband::MarginGoal;
using endband::MarkupGoal;
using endband::Money;
using endband::Offer;
using endband::Part;
using endband::PricePoints;
using endband::Ratio;
using endband::SellingRules;
using endband::ShopRules;
using endband::TaxMode;
using endband::TaxRules;

namespace {

Currency any_currency() {  // of 0, 2, 3 and 4 digits
  return currency(*rc::gen::element<std::string>("JPY", "EUR", "GBP", "KWD", "CLF"));
}

Ratio any_share(std::int64_t most_percent) {  // in whole, tenths or odd parts of a percent
  std::int64_t const den = *rc::gen::element<std::int64_t>(100, 1000, 10000, 7, 97, 1'000'000'007);
  return {*rc::gen::inRange<std::int64_t>(0, den * most_percent / 100 + 1), den};
}

PricePoints any_points() {
  std::int64_t const step =
      *rc::gen::oneOf(rc::gen::just<std::int64_t>(1), rc::gen::element<std::int64_t>(5, 50, 100, 500, 1000),
                      rc::gen::inRange<std::int64_t>(1, 3000));
  return {step, *rc::gen::inRange<std::int64_t>(0, step)};
}

TaxRules any_tax() {
  return {*rc::gen::element(TaxMode::none, TaxMode::added, TaxMode::included), any_share(100), "VAT"};
}

Goal any_goal() {
  if (*rc::gen::arbitrary<bool>()) return MarginGoal{any_share(90)};
  return MarkupGoal{any_share(300)};
}

cpp_rational exact(Ratio value) { return {cpp_int(value.num()), cpp_int(value.den())}; }

cpp_int half_away(cpp_rational const& value) {  // of a value that is not negative
  return (2 * numerator(value) + denominator(value)) / (2 * denominator(value));
}

std::int64_t net_of(std::int64_t shown, TaxRules const& tax) {
  if (tax.mode != TaxMode::included) return shown;
  cpp_rational const rate = exact(tax.rate);
  return shown - half_away(shown * rate / (1 + rate)).convert_to<std::int64_t>();
}

// The first point that `meets`, walking every one.
template <class Meets>
std::int64_t walk(PricePoints const& points, Meets meets) {
  std::int64_t point = points.below == 0 ? 0 : points.step - points.below;
  while (!meets(point)) point += points.step;
  return point;
}

// The definition of a goal: of what earns, the money left / the price, or / the cost.
bool meets_goal(std::int64_t net, endband::CostSheet const& sheet, Goal const& goal) {
  cpp_int const price = cpp_int(net) - sheet.standing.minor;
  cpp_int const left = price - sheet.earning.minor;
  if (left < 0) return false;
  if (auto const* margin = std::get_if<MarginGoal>(&goal)) return left >= exact(margin->margin) * price;
  return left >= exact(std::get<MarkupGoal>(goal).markup) * sheet.earning.minor;
}

endband::CostSheet any_sheet(Currency of, std::int64_t most) {
  auto const cost = [&] { return *rc::gen::inRange<std::int64_t>(0, most); };
  SheetOf parts{.currency = of};
  for (Part const part : {Part::text_block, Part::sewing, Part::cover, Part::lines, Part::clasps,
                          Part::packing, Part::whole_book})
    if (*rc::gen::arbitrary<bool>()) parts.parts.emplace_back(part, cost());
  parts.labour = cost();
  if (*rc::gen::arbitrary<bool>()) parts.outside_at_cost = cost();
  if (*rc::gen::arbitrary<bool>()) parts.outside_earning = cost();
  parts.outlay = cost();
  parts.seconds = Ratio(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000), 6000);
  return sheet_of(parts);
}

struct Case {
  endband::CostSheet sheet;
  Delivery delivery;
  SellingRules selling;
  Goal goal;
  ShopRules shop;
  Offer offered() const { return endband::offer(sheet, delivery, selling, goal, shop).value(); }
};

Case any_case(std::int64_t most) {
  Currency const of = any_currency();
  Case any{any_sheet(of, most),
           {{*rc::gen::inRange<std::int64_t>(0, 3000), of}, "post"},
           {},
           any_goal(),
           shop_in(of)};
  any.selling = {any_points(), any_tax(), {any_share(100), *rc::gen::inRange<std::int64_t>(1, 2000)}};
  any.shop.least_charge = {*rc::gen::inRange<std::int64_t>(0, 5000), of};
  any.shop.least_hourly = {*rc::gen::inRange<std::int64_t>(0, 5000), of};
  return any;
}

Money sum_of(Offer const& offer, Money endband::OfferLine::*member) {
  Money total{0, offer.goods.currency};
  for (auto const& line : offer.lines) total += line.*member;
  return total;
}

}  // namespace

TEST_CASE("the price asked is the first of all points that meets the goal and the least charge") {
  CHECK(endband::testing::check_one_in(100, [] {
    Case const any = any_case(4000);
    auto const meets = [&](std::int64_t shown) {
      std::int64_t const net = net_of(shown, any.selling.tax);
      return net >= any.shop.least_charge.minor && meets_goal(net, any.sheet, any.goal);
    };
    Offer const offer = any.offered();
    RC_ASSERT(offer.goods_shown.minor == walk(any.selling.points, meets));
    RC_ASSERT(offer.goods.minor == net_of(offer.goods_shown.minor, any.selling.tax));
  }));
}

TEST_CASE("the target is the least net price that meets the goal") {
  CHECK(endband::testing::check_one_in(100, [] {
    Case const any = any_case(4000);
    std::int64_t const target = any.offered().ladder.target.price.minor;
    RC_ASSERT(target == walk({}, [&](std::int64_t net) { return meets_goal(net, any.sheet, any.goal); }));
  }));
}

TEST_CASE("the point for a net is the first of all points that leaves it") {
  CHECK(endband::testing::check_one_in(100, [] {
    PricePoints const points = any_points();
    TaxRules const tax = any_tax();
    Money const least{*rc::gen::inRange<std::int64_t>(-10, 60'000), any_currency()};
    auto const point = endband::point_at_or_above(least, points, tax);
    RC_ASSERT(point.shown.minor ==
              walk(points, [&](std::int64_t shown) { return net_of(shown, tax) >= least.minor; }));
    RC_ASSERT(point.net.minor == net_of(point.shown.minor, tax));
  }));
}

TEST_CASE("of large prices too the point below does not leave the net") {
  CHECK(rc::check([] {
    PricePoints const points = any_points();
    TaxRules const tax = any_tax();
    Money const least{*rc::gen::inRange<std::int64_t>(0, 1'000'000'000'000'000'000), any_currency()};
    auto const point = endband::point_at_or_above(least, points, tax);
    RC_ASSERT((point.shown.minor + points.below) % points.step == 0);
    RC_ASSERT(net_of(point.shown.minor, tax) >= least.minor);
    if (point.shown.minor >= points.step)
      RC_ASSERT(net_of(point.shown.minor - points.step, tax) < least.minor);
  }));
}

TEST_CASE("what is shown adds up to the last minor unit") {
  CHECK(rc::check([] {
    Case const any = any_case(*rc::gen::element<std::int64_t>(10, 4000, 1'000'000'000'000));
    Offer const offer = any.offered();
    RC_ASSERT(sum_of(offer, &endband::OfferLine::shown) == offer.goods_shown);
    RC_ASSERT(sum_of(offer, &endband::OfferLine::net) == offer.goods);
    Money paid = offer.goods_shown + offer.carriage_shown;
    if (any.selling.tax.mode == TaxMode::added) paid += offer.tax;
    RC_ASSERT(paid == offer.total);
    RC_ASSERT(offer.deposit + offer.balance == offer.total);
    RC_ASSERT(offer.left + any.sheet.total == offer.goods);
    for (auto const& line : offer.lines) RC_ASSERT(line.shown.minor >= 0);
  }));
}

TEST_CASE("the deposit covers the outlay and the share, and not more than is to pay") {
  CHECK(rc::check([] {
    Case const any = any_case(4000);
    Offer const offer = any.offered();
    RC_ASSERT(offer.deposit <= offer.total);
    if (offer.deposit == offer.total) return;
    RC_ASSERT(offer.deposit >= any.sheet.outlay);
    RC_ASSERT(offer.deposit.minor >= exact(any.selling.deposit.share) * offer.total.minor);
    RC_ASSERT(offer.deposit.minor % any.selling.deposit.step == 0);
  }));
}

TEST_CASE("a dearer book is never asked less for") {
  CHECK(rc::check([] {
    Case any = any_case(4000);
    Offer const before = any.offered();
    Money const more{*rc::gen::inRange<std::int64_t>(0, 500), any.sheet.total.currency};
    add_line(any.sheet, {endband::CostKind::material, Part::cover, 0, false, more});
    any.sheet.total += more;
    Offer const after = any.offered();
    RC_ASSERT(after.ladder.target.price >= before.ladder.target.price);
    RC_ASSERT(after.goods_shown >= before.goods_shown);
    RC_ASSERT(after.total >= before.total);
  }));
}

TEST_CASE("a higher goal is never met by a lower price") {
  CHECK(rc::check([] {
    Case any = any_case(4000);
    Ratio const lower = any_share(90);
    Ratio const higher = std::max(lower, any_share(90));
    any.goal = MarginGoal{lower};
    Money const first = any.offered().goods_shown;
    any.goal = MarginGoal{higher};
    RC_ASSERT(any.offered().goods_shown >= first);
  }));
}
