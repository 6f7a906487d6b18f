#include "engine/pricing/aim.h"

namespace endband {
namespace {

constexpr std::int64_t seconds_an_hour = 3600;

Money rounded_up(Money cost, std::int64_t num, std::int64_t den) {
  return {mul_div(cost.minor, num, den, Rounding::up), cost.currency};
}

Money for_all_hours(Money an_hour, CostSheet const& sheet) {
  return scale(an_hour, sheet.seconds / Ratio(seconds_an_hour), Rounding::up);
}

Read<Ratio> share_of(MarginGoal const& goal) {
  if (goal.margin < Ratio(0) || goal.margin >= Ratio(1))
    return refuse(bad_goal("margin", goal.margin, "a margin from 0 % to less than 100 %"));
  return goal.margin;
}

// u / (1 + u) of n/d is n / (d + n).
Read<Ratio> share_of(MarkupGoal const& goal) {
  Ratio const u = goal.markup;
  if (u < Ratio(0)) return refuse(bad_goal("markup", u, "a markup of 0 % or more"));
  return Ratio(u.num(), checked_add(u.den(), u.num()));
}

struct LeastPrice {
  CostSheet const& sheet;

  template <class ByShare>
  Read<Money> operator()(ByShare const& goal) const {
    Read<Ratio> const m = share_of(goal);
    if (!m) return tl::unexpected(m.error());
    return rounded_up(sheet.earning, m->den(), m->den() - m->num()) + sheet.standing;
  }
  Read<Money> operator()(ProfitGoal const& goal) const { return sheet.total + goal.left; }
  Read<Money> operator()(HourlyGoal const& goal) const {
    return sheet.total - sheet.labour + for_all_hours(goal.an_hour, sheet);
  }
  Read<Money> operator()(LeaveGoal const& goal) const { return goal.yours; }
};

struct AimOf {
  CostSheet const& sheet;

  template <class ByShare>
  Read<Aim> operator()(ByShare const& goal) const {
    Read<Ratio> const m = share_of(goal);
    if (!m) return tl::unexpected(m.error());
    return Aim{.of_yours = false, .least = 0, .share = *m};
  }
  Read<Aim> operator()(ProfitGoal const& goal) const { return Aim{.least = in_shop(goal.left)}; }
  Read<Aim> operator()(HourlyGoal const& goal) const {
    return Aim{.least = in_shop(for_all_hours(goal.an_hour, sheet) - sheet.labour)};
  }
  Read<Aim> operator()(LeaveGoal const& goal) const {
    return Aim{.of_yours = true, .least = in_shop(goal.yours)};
  }

  std::int64_t in_shop(Money money) const { return (money + Money{0, sheet.total.currency}).minor; }
};

}  // namespace

Fault bad_goal(std::string field, Ratio found, std::string expected) {
  return {FaultCode::bad_goal,
          Where{{}, 0, 0, std::move(field)},
          percent_text(found, 1) + " %",
          std::move(expected),
          {}};
}

Read<Money> least_price(CostSheet const& sheet, Goal const& goal) {
  return std::visit(LeastPrice{sheet}, goal);
}

Read<Aim> aim_of(Goal const& goal, CostSheet const& sheet) { return std::visit(AimOf{sheet}, goal); }

std::int64_t beyond(Aim const& aim, Walk const& walk, Money standing) {
  std::int64_t const has = checked_sub((aim.of_yours ? walk.yours : walk.left).minor, aim.least);
  if (aim.share == Ratio(0)) return has;
  Money const earns = walk.price - standing;
  return checked_sub(has, mul_div(earns.minor, aim.share.num(), aim.share.den(), Rounding::up));
}

bool meets(Walk const& walk, Sale const& sale, Goal const& goal) {
  Read<Aim> const aim = aim_of(goal, sale.sheet);
  return aim && walk.price >= sale.shop.least_charge && beyond(*aim, walk, sale.sheet.standing) >= 0;
}

}  // namespace endband
