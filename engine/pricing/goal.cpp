#include "engine/pricing/pricing.h"

namespace endband {
namespace {

Fault bad_goal(std::string field, Ratio found, std::string expected) {
  return {FaultCode::bad_goal,
          Where{{}, 0, 0, std::move(field)},
          percent_text(found, 1) + " %",
          std::move(expected),
          {}};
}

Money rounded_up(Money cost, std::int64_t num, std::int64_t den) {
  return {mul_div(cost.minor, num, den, Rounding::up), cost.currency};
}

}  // namespace

Read<Money> least_price(CostSheet const& sheet, Goal const& goal) {
  if (auto const* wanted = std::get_if<MarginGoal>(&goal)) {
    Ratio const m = wanted->margin;
    if (m < Ratio(0) || m >= Ratio(1))
      return refuse(bad_goal("margin", m, "a margin from 0 % to less than 100 %"));
    return rounded_up(sheet.earning, m.den(), m.den() - m.num()) + sheet.standing;
  }
  Ratio const u = std::get<MarkupGoal>(goal).markup;
  if (u < Ratio(0)) return refuse(bad_goal("markup", u, "a markup of 0 % or more"));
  return rounded_up(sheet.earning, checked_add(u.den(), u.num()), u.den()) + sheet.standing;
}

}  // namespace endband
