#include "engine/costing/costing.h"

#include <array>
#include <cstddef>
#include <stdexcept>

namespace endband {

Rates rates_of(RateBasis const& basis) {
  if (basis.hours_charged.n <= 0) throw std::logic_error("a rate over no hours");
  Money const pay = basis.pay_wanted + basis.charges_on_pay;
  return {Ratio(pay.minor, basis.hours_charged.n), Ratio(basis.overhead.minor, basis.hours_charged.n)};
}

std::string_view cost_kind_name(CostKind kind) {
  static constexpr std::array<std::string_view, 8> names{"material", "labour",      "overhead", "outside",
                                                         "ruin",     "contingency", "redo",     "overtime"};
  return names.at(static_cast<std::size_t>(kind));
}

}  // namespace endband
