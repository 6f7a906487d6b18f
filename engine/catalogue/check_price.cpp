// Shares that cannot be, and packs and prices that cannot be counted with.
#include "engine/catalogue/check.h"

#include <fmt/format.h>

namespace endband {
namespace {

// More lost than nine tenths is a slip of the pen; it also keeps every quotient by 1 - s within 64 bits.
Ratio const most_lost{9, 10};
constexpr std::int64_t largest_pack = 1'000'000'000'000'000;  // 1000 m2 in square micrometres
constexpr std::int64_t dearest_pack = 1'000'000'000'000;      // minor units

std::string_view example_of(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "a length such as 100 m";
    case Dimension::area: return "an area such as 0.55 m2";
    case Dimension::mass: return "a mass such as 500 g";
    case Dimension::volume: return "a volume such as 250 ml";
    case Dimension::count: return "a count such as 25";
    case Dimension::duration: return "a time such as 10 min";
  }
  return {};
}

void check_share(std::string_view field, Ratio share, Ratio most, Faults& faults) {
  if (share < Ratio(0) || share > most)
    faults.add(FaultCode::out_of_range, field, percent_text(share, 1) + " %",
               fmt::format("0 % to {} %", percent_text(most, 0)));
}

void check_money(std::string_view field, Money money, Money price, Faults& faults) {
  if (money.currency != price.currency)
    faults.add(FaultCode::currency_mismatch, field, std::string(money.currency.code()),
               std::string(price.currency.code()));
  else if (money.minor < 0 || money.minor > dearest_pack)
    faults.add(FaultCode::out_of_range, field, money_text(money),
               fmt::format("0 to {}", money_text({dearest_pack, money.currency})));
}

void check_pack(Material const& material, Amount pack, Faults& faults) {
  Dimension const due = dimension_of(material.sold_by);
  Properties const& given = material.properties;
  if (pack.dimension != due) {
    faults.add(FaultCode::wrong_unit, "pack", amount_text(pack), std::string(example_of(due)));
  } else if (pack.n <= 0 || pack.n > largest_pack) {
    faults.add(FaultCode::out_of_range, "pack", amount_text(pack),
               fmt::format("more than nothing, at most {}", amount_text({due, largest_pack})));
  } else if (material.sold_by == SoldBy::leaf_book && given.leaves_a_book.value_or(0) > 0 &&
             pack.n % checked_mul(*given.leaves_a_book, 1000) != 0) {
    faults.add(FaultCode::contradiction, "pack", amount_text(pack),
               fmt::format("whole books of {} leaves", *given.leaves_a_book));
  } else if (material.sold_by == SoldBy::skin && given.usable_height && given.usable_width &&
             area(*given.usable_height, *given.usable_width).n >
                 round_product(Ratio(pack.n), given.usable_share.value_or(1), Rounding::up)) {
    faults.add(FaultCode::contradiction, property_name(Property::usable),
               fmt::format("{} x {} mm", length_mm(*given.usable_height), length_mm(*given.usable_width)),
               fmt::format("a rectangle within the usable share of {}", amount_text(pack)));
  }
}

}  // namespace

void check_shares(Material const& material, Faults& faults) {
  check_share("spoil", material.spoil, most_lost, faults);
  check_share("ruin", material.ruin_chance, most_lost, faults);
  check_share("kept-worth", material.kept_worth, Ratio(1), faults);
  Dimension const due = dimension_of(material.sold_by);
  if (material.least_spoil.n != 0 && material.least_spoil.dimension != due)
    faults.add(FaultCode::wrong_unit, "least-spoil", amount_text(material.least_spoil),
               std::string(example_of(due)));
  else if (material.least_spoil.n < 0 || material.least_spoil.n > largest_pack)
    faults.add(FaultCode::out_of_range, "least-spoil", amount_text(material.least_spoil), "nothing or more");
  bool const has_offcuts = material.sold_by == SoldBy::sheet || material.sold_by == SoldBy::pad ||
                           material.sold_by == SoldBy::skin;
  if (material.charging == Charging::whole_less_offcuts && !has_offcuts)
    faults.add(FaultCode::contradiction, "charging", std::string(charging_name(material.charging)),
               "as-used or whole: only sheets and skins leave offcuts that are kept");
}

void check_price(Material const& material, Faults& faults) {
  PackPrice const& price = *material.price;
  check_pack(material, price.pack, faults);
  check_money("price", price.price, price.price, faults);
  check_money("carriage", price.carriage, price.price, faults);
  check_share("duty", price.duty, Ratio(10), faults);
  check_share("tax", price.purchase_tax, Ratio(1), faults);
  if (price.rate <= Ratio(0))
    faults.add(FaultCode::out_of_range, "rate", ratio_text(price.rate), "more than 0");
}

}  // namespace endband
