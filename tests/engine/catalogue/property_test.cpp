// Landed cost and line amounts over random prices.
#include "tests/engine/catalogue/goods.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband;
using boost::multiprecision::cpp_rational;

namespace {

PackPrice any_price() {
  PackPrice row = goods::price(amount(Mass{*rc::gen::inRange<std::int64_t>(1, 10'000'000)}),
                               *rc::gen::inRange<std::int64_t>(0, 1'000'000));
  row.carriage = goods::euros(*rc::gen::inRange<std::int64_t>(0, 10'000));
  row.duty = Ratio(*rc::gen::inRange<std::int64_t>(0, 300), 1000);
  row.purchase_tax = Ratio(*rc::gen::inRange<std::int64_t>(0, 300), 1000);
  return row;
}
Ratio any_share() { return Ratio(*rc::gen::inRange<std::int64_t>(0, 101), 100); }

cpp_rational exact(Ratio value) { return cpp_rational(value.num(), value.den()); }

}  // namespace

TEST_CASE("the landed total is the sum of its parts and within their roundings of the exact one") {
  CHECK(rc::check([] {
    PackPrice const row = any_price();
    Ratio const recovered = any_share();
    Landed const landed = landed_cost(row, {recovered});
    RC_ASSERT(landed.total == landed.price + landed.carriage + landed.duty + landed.tax_borne);
    RC_ASSERT(landed.tax_borne.minor >= 0);
    RC_ASSERT(landed.tax_borne <= landed.tax);
    cpp_rational const before = exact(Ratio(row.price.minor)) * (1 + exact(row.duty)) + row.carriage.minor;
    cpp_rational const total = before * (1 + exact(row.purchase_tax) * (1 - exact(recovered)));
    cpp_rational const slip = total - landed.total.minor;
    RC_ASSERT(slip <= cpp_rational(2));  // three roundings of a half, one of them taxed
    RC_ASSERT(slip >= cpp_rational(-2));
  }));
}

TEST_CASE("a dearer pack never lands cheaper, and more tax back never dearer") {
  CHECK(rc::check([] {
    PackPrice const row = any_price();
    Ratio const recovered = any_share();
    Money const total = landed_cost(row, {recovered}).total;
    PackPrice dearer = row;
    dearer.price.minor += *rc::gen::inRange<std::int64_t>(0, 1000);
    dearer.carriage.minor += *rc::gen::inRange<std::int64_t>(0, 1000);
    RC_ASSERT(landed_cost(dearer, {recovered}).total >= total);
    Ratio const more = std::max(recovered, any_share());
    RC_ASSERT(landed_cost(row, {more}).total <= total);
  }));
}

TEST_CASE("more of a material never costs less, and a whole pack costs its landed total") {
  CHECK(rc::check([] {
    Material row = goods::glue();
    row.price = any_price();
    UnitCost const unit = unit_cost(row, {any_share()});
    auto const taken = *rc::gen::inRange<std::int64_t>(0, 10'000'000);
    auto const more = *rc::gen::inRange<std::int64_t>(0, 1000);
    RC_ASSERT(cost_of(unit, amount(Mass{taken + more})) >= cost_of(unit, amount(Mass{taken})));
    RC_ASSERT(cost_of(unit, unit.pack).minor == unit.minor);
  }));
}
