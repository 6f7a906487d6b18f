// What holds for any number of copies, however materials are charged and packed.
#include "tests/cases.h"
#include "tests/engine/commission/orders.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband::testing;
using endband::Charging;
using endband::Commission;
using endband::Priced;
using endband::Ratio;

namespace {

Commission any_order(int copies, std::vector<int> const& chosen, endband::LearningCurve const& learned) {
  Commission of = an_order(copies);
  of.work.learning = learned;
  for (std::size_t i = 0; i < of.catalogue.materials.size(); ++i) {
    endband::Material& material = of.catalogue.materials[i];
    int const draw = chosen[i % chosen.size()];
    material.charging = static_cast<Charging>(draw % 3);
    material.kept_worth = Ratio(draw % 5, 5);
    material.spoil = Ratio(draw % 7, 100);
    material.price->price.minor = 1 + 37 * (draw % 100);
    if (material.price->pack.dimension != endband::Dimension::area) material.price->pack.n *= 1 + draw % 9;
  }
  return of;
}

}  // namespace

TEST_CASE("one copy more never costs less, and never takes more work for each") {
  CHECK(endband::testing::check_one_in(10, [] {
    auto const chosen = *rc::gen::container<std::vector<int>>(11, rc::gen::inRange(0, 1000));
    int const copies = *rc::gen::inRange(1, 12);
    auto const model = *rc::gen::element(endband::LearningModel::crawford, endband::LearningModel::wright);
    endband::LearningCurve const learned{
        model, {*rc::gen::inRange<std::int64_t>(50, 101), 100}, *rc::gen::inRange<std::int64_t>(0, 8)};
    Priced const fewer = endband::price(any_order(copies, chosen, learned)).value();
    Priced const more = endband::price(any_order(copies + 1, chosen, learned)).value();
    RC_ASSERT(more.sheet.total >= fewer.sheet.total);
    RC_ASSERT(more.offer.goods_shown >= fewer.offer.goods_shown);
    RC_ASSERT(more.sheet.seconds / Ratio(copies + 1) <= fewer.sheet.seconds / Ratio(copies));
    for (std::size_t i = 0; i < more.bill.lines.size(); ++i)
      RC_ASSERT(more.bill.lines[i].net.n >= fewer.bill.lines[i].net.n);
  }));
}
