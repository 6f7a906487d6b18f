// The ladder, the buyer's lines, tax and deposit. Rounded by name, half away from zero: least hourly pay,
// hourly earning, tax of the whole, tax of carriage and of outside work at cost when shown with it; up: the
// deposit.
#include "engine/pricing/lines.h"
#include "engine/pricing/points.h"
#include "engine/pricing/search.h"
#include "engine/pricing/walker.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::int64_t seconds_an_hour = 3600;

using Amounts = std::array<std::int64_t, component_count>;

Rung rung(Money price, Money left, CostSheet const& sheet) {
  Money const earned = left + sheet.labour;
  Ratio const seconds = sheet.seconds;
  std::int64_t hourly = 0;
  if (seconds > Ratio(0))
    hourly = round_product(earned.minor, Ratio(seconds_an_hour) / seconds, Rounding::half_away);
  return {price, left, {hourly, price.currency}};
}

Rung rung(Money price, CostSheet const& sheet) { return rung(price, price - sheet.total, sheet); }
Rung rung(Walk const& walk, CostSheet const& sheet) { return rung(walk.price, walk.left, sheet); }

// What has to be there to pay the outlay and the least that an hour is worked for.
Money walk_away(CostSheet const& sheet, ShopRules const& shop) {
  Ratio const hours = sheet.seconds / Ratio(seconds_an_hour);
  return sheet.outlay + scale(shop.least_hourly, hours, Rounding::half_away);
}

// The rungs below what is asked.
Ladder plain_ladder(CostSheet const& sheet, Money target, ShopRules const& shop) {
  return {.cash_floor = rung(sheet.outlay, sheet),
          .walk_away = rung(walk_away(sheet, shop), sheet),
          .full_cost = rung(sheet.total, sheet),
          .target = rung(target, sheet),
          .asked = {}};
}

// Each the least ticket of all whose walk pays it: outlay and hours come out of what is the maker's after
// returns, which is what is left and the cost.
Read<Ladder> ladder_of(Walker const& walker, Aim const& target) {
  Sale const& sale = walker.sale();
  std::array<Aim, 4> aims{};
  aims[0].least = (sale.sheet.outlay - sale.sheet.total).minor;
  aims[1].least = (walk_away(sale.sheet, sale.shop) - sale.sheet.total).minor;
  aims[3] = target;
  std::array<Rung, 4> rungs;
  for (std::size_t i = 0; i < aims.size(); ++i) {
    Read<Money> const ticket = Search(walker, aims[i], {}, PricePoints{}).first_from(0);
    if (!ticket) return tl::unexpected(ticket.error());
    rungs[i] = rung(walker.walk(*ticket), sale.sheet);
  }
  return Ladder{rungs[0], rungs[1], rungs[2], rungs[3], {}};
}

// The net of each line. At one rate it is shared as what is shown; else the net of a rate is shared over its
// lines as they are shown.
Amounts nets_of(Walker const& walker, Money ticket, Amounts const& shown) {
  Sale const& sale = walker.sale();
  if (walker.goods_of_one_rate())
    return share_over(walker.without_tax(ticket).minor,
                      walker.converted(sale.sheet.standing, Rounding::half_away).minor, walker.weights());
  if (walker.tax().mode != TaxMode::included) return shown;
  Amounts nets{};
  for (RateGroup const& group : walker.groups()) {
    Weights of_group{};
    std::int64_t gross = 0;
    for (std::size_t i = 0; i < component_count; ++i)
      if (group.lines[i]) gross += of_group[i] = shown[i];
    if (gross == 0) continue;
    Money const net = Money{gross, walker.currency()} - tax_within({gross, walker.currency()}, group.rate);
    Amounts const shares = share_over(net.minor, 0, of_group);
    for (std::size_t i = 0; i < component_count; ++i) nets[i] += shares[i];
  }
  return nets;
}

std::vector<OfferLine> lines_of(Walker const& walker, Money ticket) {
  Weights const own = own_costs(walker.sale().sheet);
  Amounts const shown = share_over(ticket.minor, walker.at_cost_shown(), walker.weights());
  Amounts const net = nets_of(walker, ticket, shown);
  Currency const currency = walker.currency();
  std::vector<OfferLine> lines;
  for (std::size_t i = 0; i < component_count; ++i)
    if (own[i] != 0 || net[i] != 0 || shown[i] != 0)
      lines.push_back({static_cast<Component>(i), {net[i], currency}, {shown[i], currency}});
  return lines;
}

void add_deposit(Offer& offer, Walker const& walker, DepositRules const& rules) {
  Money spent = walker.sale().sheet.outlay;
  if (rules.first_hours.currency != Currency()) spent += rules.first_hours;
  Money const least =
      std::max(scale(offer.total, rules.share, Rounding::up), walker.converted(spent, Rounding::up));
  offer.deposit = std::min(round_to(least, rules.step, Rounding::up), offer.total);
  offer.balance = offer.total - offer.deposit;
}

Ratio margin_of(Money left, Money earning_price) {
  return earning_price.minor == 0 ? Ratio(0) : Ratio(left.minor, earning_price.minor);
}

Ratio given_away(SellingRules const& selling) {
  return selling.discount ? selling.discount->share : Ratio(0);
}

// What follows from the ticket, for a ladder that lacks its last rung.
Offer at_ticket(Money ticket, Ladder const& ladder, Sale const& sale) {
  Walker const walker(sale, given_away(sale.selling));
  Offer offer;
  offer.ladder = ladder;
  offer.walk = walker.walk(ticket);
  Walk const& walk = offer.walk;
  offer.goods = walk.goods;
  offer.goods_shown = walk.goods_shown;
  offer.carriage = walker.converted(sale.delivery.carriage, Rounding::half_away);
  offer.carriage_shown = walk.carriage_shown;
  offer.tax = walk.tax;
  offer.total = walk.paid;
  offer.lines = lines_of(walker, ticket);
  add_deposit(offer, walker, sale.selling.deposit);
  offer.ladder.asked = nothing_is_taken(sale.selling) ? rung(walk.goods, sale.sheet) : rung(walk, sale.sheet);
  offer.left = offer.ladder.asked.left;
  offer.margin = margin_of(offer.left, walk.price - sale.sheet.standing);
  return offer;
}

// No price: the least that meets the goal.
Read<Offer> offered(std::optional<Money> ticket, Goal const& goal, Sale const& sale) {
  if (nothing_is_taken(sale.selling)) {
    Read<Money> const target = least_price(sale.sheet, goal);
    if (!target) return tl::unexpected(target.error());
    if (!ticket)
      ticket =
          point_at_or_above(std::max(*target, sale.shop.least_charge), sale.selling.points, sale.selling.tax)
              .shown;
    return at_ticket(*ticket, plain_ladder(sale.sheet, *target, sale.shop), sale);
  }
  Read<Aim> const aim = aim_of(goal, sale.sheet);
  if (!aim) return tl::unexpected(aim.error());
  Walker const walker(sale);
  Read<Ladder> const ladder = ladder_of(walker, *aim);
  if (!ladder) return tl::unexpected(ladder.error());
  if (!ticket) {
    Read<Money> const least =
        Search(walker, *aim, sale.shop.least_charge, points_of(sale.selling, sale.shop.currency))
            .first_from(0);
    if (!least) return tl::unexpected(least.error());
    ticket = *least;
  }
  return at_ticket(*ticket, *ladder, sale);
}

tl::unexpected<std::vector<Fault>> too_large() {
  return refuse(
      {FaultCode::too_large, Where{{}, 0, 0, "price"}, "", "a price that fits in the range of money", {}});
}

}  // namespace

Read<Offer> offer(CostSheet const& sheet, Delivery const& delivery, SellingRules const& selling,
                  Goal const& goal, ShopRules const& shop) try {
  return offered(std::nullopt, goal, {sheet, delivery, selling, shop});
} catch (Overflow const&) {
  return too_large();
}

Read<Offer> offer_at(Money ticket, CostSheet const& sheet, Delivery const& delivery,
                     SellingRules const& selling, Goal const& goal, ShopRules const& shop) try {
  return offered(ticket, goal, {sheet, delivery, selling, shop});
} catch (Overflow const&) {
  return too_large();
}

}  // namespace endband
