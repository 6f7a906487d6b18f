// Cost sheets for the tests of prices: made by hand, so that what a price follows from stands beside it.
#pragma once

#include "engine/pricing/pricing.h"

#include <string_view>
#include <utility>
#include <vector>

namespace endband::testing {

inline Currency currency(std::string_view code) { return read_currency(code).value(); }
inline Currency euro() { return currency("EUR"); }
inline Money eur(std::int64_t minor) { return {minor, euro()}; }

// What a part costs, in minor units.
using PartCost = std::pair<Part, std::int64_t>;

struct SheetOf {
  Currency currency = euro();
  std::vector<PartCost> parts = {};  // materials of each
  std::int64_t labour = 0;           // of the cover
  std::int64_t outside_earning = 0;
  std::int64_t outside_at_cost = 0;
  std::int64_t outlay = 0;
  Ratio seconds = 0;
};

inline void add_line(CostSheet& sheet, CostLine const& line) {
  sheet.lines.push_back(line);
  (line.at_cost ? sheet.standing : sheet.earning) += line.amount;
  if (!line.at_cost) sheet.part_shares[static_cast<std::size_t>(line.part)] += line.amount;
}

inline CostSheet sheet_of(SheetOf const& of) {
  auto const money = [&](std::int64_t minor) { return Money{minor, of.currency}; };
  CostSheet sheet;
  for (Money* total : {&sheet.materials, &sheet.labour, &sheet.overhead, &sheet.outside, &sheet.allowances,
                       &sheet.earning, &sheet.standing})
    *total = money(0);
  sheet.part_shares.assign(part_count, money(0));
  for (auto const& [part, minor] : of.parts) {
    add_line(sheet, {CostKind::material, part, 0, false, money(minor)});
    sheet.materials += money(minor);
  }
  if (of.labour != 0) add_line(sheet, {CostKind::labour, Part::cover, 0, false, money(of.labour)});
  sheet.labour = money(of.labour);
  if (of.outside_earning != 0)
    add_line(sheet, {CostKind::outside, Part::whole_book, 0, false, money(of.outside_earning)});
  if (of.outside_at_cost != 0)
    add_line(sheet, {CostKind::outside, Part::whole_book, 1, true, money(of.outside_at_cost)});
  sheet.outside = money(of.outside_earning + of.outside_at_cost);
  sheet.total = sheet.earning + sheet.standing;
  sheet.outlay = money(of.outlay);
  sheet.seconds = of.seconds;
  return sheet;
}

// A cost of so many minor units, all of the cover.
inline CostSheet costing(std::int64_t minor, Currency of = euro()) {
  return sheet_of({.currency = of, .parts = {{Part::cover, minor}}});
}

inline ShopRules shop_in(Currency of = euro()) {
  Money const zero{0, of};
  return {.currency = of,
          .basis = {zero, zero, zero, Duration{3600}},
          .contingency = 0,
          .least_charge = zero,
          .least_hourly = zero};
}
inline Delivery collected(Currency of = euro()) { return {{0, of}, "collected"}; }

}  // namespace endband::testing
