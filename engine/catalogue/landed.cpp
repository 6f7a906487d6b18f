// What a pack costs once it lies on the shelf, and what a part of it does.
#include "engine/catalogue/catalogue.h"

#include <stdexcept>

namespace endband {

Landed landed_cost(PackPrice const& price, BuyingRules const& buying) {
  Landed landed;
  landed.price = price.price;
  landed.carriage = price.carriage;
  landed.duty = scale(price.price, price.duty, Rounding::half_away);
  Money const taxed = landed.price + landed.carriage + landed.duty;
  landed.tax = scale(taxed, price.purchase_tax, Rounding::half_away);
  landed.tax_borne = landed.tax - scale(landed.tax, buying.tax_recovered, Rounding::half_away);
  landed.total = taxed + landed.tax_borne;
  return landed;
}

UnitCost unit_cost(Material const& material, BuyingRules const& buying) {
  if (!material.price) throw std::logic_error("a unit cost is asked of a material without a price");
  PackPrice const& price = *material.price;
  if (price.pack.n <= 0) throw std::logic_error("a price is of an empty pack");
  Money const total = landed_cost(price, buying).total;
  return {total.minor, price.pack, total.currency};
}

Money cost_of(UnitCost const& unit, Amount taken) {
  if (unit.minor == 0) return {0, unit.currency};
  if (unit.pack.dimension != taken.dimension)
    throw std::logic_error("a quantity is priced in another dimension than its pack");
  return {mul_div(unit.minor, taken.n, unit.pack.n, Rounding::half_away), unit.currency};
}

}  // namespace endband
