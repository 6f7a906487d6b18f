// Outlets of every kind, drawn at random; small sums, so that every point of a price can be walked.
#pragma once

#include "engine/pricing/walk.h"
#include "sheets.h"

#include <rapidcheck.h>

#include <string>
#include <utility>
#include <vector>

namespace endband::testing {

inline bool coin() { return *rc::gen::arbitrary<bool>(); }
inline std::int64_t up_to(std::int64_t most) { return *rc::gen::inRange<std::int64_t>(0, most + 1); }

inline Currency any_currency() {  // of 0, 2, 3 and 4 digits
  return currency(*rc::gen::element<std::string>("JPY", "EUR", "KWD", "CLF"));
}

inline Ratio any_share(std::int64_t most_percent) {  // in whole, tenths or odd parts of a percent
  std::int64_t const den =
      *rc::gen::element<std::int64_t>(100, 1000, 10000, 7, 97, 999'999'937, 1'000'000'007);
  return {up_to(den * most_percent / 100), den};
}

inline Fee any_fee(Currency of, std::int64_t most) {
  Fee fee;
  fee.name = "fee";
  fee.base =
      *rc::gen::element(FeeBase::goods, FeeBase::goods_with_tax, FeeBase::goods_and_carriage, FeeBase::paid);
  fee.per = *rc::gen::element(FeePer::order, FeePer::order, FeePer::piece, FeePer::listing);
  fee.fixed = {coin() ? up_to(40) : 0, of};
  fee.kept = coin();
  if (fee.per == FeePer::listing) {
    fee.every_days = static_cast<int>(up_to(90));
    return fee;
  }
  std::int64_t from = 0;
  for (std::int64_t steps = up_to(3); steps > 0; --steps) {
    fee.steps.push_back({{from, of}, any_share(coin() ? 15 : 40)});
    from += 1 + up_to(most / 3);
  }
  fee.on_whole = coin();
  if (fee.steps.empty()) return fee;
  if (coin()) fee.least = Money{up_to(60), of};
  if (coin()) fee.most = Money{(fee.least ? fee.least->minor : 0) + up_to(200), of};
  return fee;
}

inline ReturnTerms any_returns(Currency shop) {
  ReturnTerms terms;
  terms.change_of_mind = any_share(20);
  terms.carriage_back = {up_to(30), shop};
  terms.handling = {up_to(2000)};
  terms.loss_of_value = any_share(30);
  terms.fault = any_share(10);
  terms.mending = {up_to(9000)};
  terms.lost = any_share(5);
  terms.insured = {up_to(300), shop};
  terms.excess = {up_to(50), shop};
  terms.unsold = any_share(50);
  terms.return_carriage = {up_to(50), shop};
  return terms;
}

// A rate at which the two currencies' minor units are of about one size, or of none that fits.
inline Ratio any_rate(Currency outlet, Currency shop) {
  Ratio const even(outlet.minor_per_major(), shop.minor_per_major());
  return even * Ratio(*rc::gen::inRange<std::int64_t>(30, 400), 100);
}

inline Outlet any_outlet(Currency shop, std::int64_t most) {
  Outlet outlet;
  outlet.currency = coin() ? shop : any_currency();
  if (!(outlet.currency == shop)) outlet.exchange = {any_rate(outlet.currency, shop), any_share(5)};
  for (std::int64_t fees = up_to(4); fees > 0; --fees) outlet.fees.push_back(any_fee(outlet.currency, most));
  if (coin()) outlet.discount = any_share(50);
  if (coin()) outlet.tax_mode = *rc::gen::element(TaxMode::none, TaxMode::added, TaxMode::included);
  if (up_to(3) == 0) outlet.tax_rate = any_share(25);
  outlet.collects_tax = coin();
  outlet.cash_step = *rc::gen::element<std::int64_t>(1, 1, 5, 50);
  if (coin()) {
    std::int64_t const step = *rc::gen::element<std::int64_t>(1, 1, 5, 37);
    outlet.points = PricePoints{step, up_to(step - 1)};
  }
  outlet.days_to_sell = static_cast<int>(up_to(300));
  if (coin()) outlet.returns = any_returns(shop);
  return outlet;
}

inline TaxRules any_tax() {
  TaxRules tax{*rc::gen::element(TaxMode::none, TaxMode::added, TaxMode::included), any_share(25), "VAT", {}};
  if (coin()) return tax;
  if (coin()) tax.own.push_back({std::nullopt, "reduced", any_share(20)});
  for (Component const component :
       {Component::text_block, Component::box, Component::outside_work, Component::binding})
    if (coin()) tax.own.push_back({component, "own", coin() ? any_share(20) : Ratio(7, 100)});
  return tax;
}

// All of one sale, kept together: a Sale only looks at them.
struct SaleOf {
  CostSheet sheet;
  Delivery delivery;
  SellingRules selling;
  ShopRules shop;
  Sale sale() const { return {sheet, delivery, selling, shop}; }
};

inline CostSheet any_costs(Currency of, std::int64_t most) {
  SheetOf parts{.currency = of};
  for (Part const part : {Part::text_block, Part::cover, Part::lines, Part::box, Part::packing})
    if (coin()) parts.parts.emplace_back(part, up_to(most));
  parts.labour = up_to(most);
  if (coin()) parts.outside_at_cost = up_to(most);
  if (coin()) parts.outside_earning = up_to(most);
  parts.outlay = up_to(most);
  parts.seconds = Ratio(up_to(100'000), 7);
  return sheet_of(parts);
}

inline SaleOf any_sale(std::int64_t most) {
  Currency const shop = any_currency();
  SaleOf any{any_costs(shop, most / 5), {{coin() ? up_to(most / 4) : 0, shop}, "post"}, {}, shop_in(shop)};
  any.shop.basis = {{2'000'000, shop}, {345'678, shop}, {up_to(900'000), shop}, Duration{4'000'000}};
  any.shop.least_charge = {coin() ? up_to(most / 2) : 0, shop};
  any.shop.least_hourly = {up_to(30), shop};
  any.selling.tax = any_tax();
  any.selling.pieces = 1 + up_to(3);
  if (up_to(9) != 0) any.selling.outlet = any_outlet(shop, most);
  return any;
}

inline Goal any_goal(Currency shop, std::int64_t most) {
  switch (up_to(4)) {
    case 0: return MarginGoal{any_share(60)};
    case 1: return MarkupGoal{any_share(150)};
    case 2: return ProfitGoal{{up_to(most / 3), shop}};
    case 3: return HourlyGoal{{up_to(most / 6), shop}};
    default: return LeaveGoal{{up_to(most), shop}};
  }
}

}  // namespace endband::testing
