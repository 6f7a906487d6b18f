// The ladder, the buyer's lines, tax and deposit. Rounded by name, half away from zero: least hourly pay,
// hourly earning, tax of the whole, tax of carriage and of outside work at cost when shown with it; up: the
// deposit.
#include "engine/pricing/pricing.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

constexpr std::int64_t seconds_an_hour = 3600;

using Weights = std::array<std::int64_t, component_count>;

std::size_t index_of(Component component) { return static_cast<std::size_t>(component); }

Rung rung(Money price, CostSheet const& sheet) {
  Money const earned = price - (sheet.total - sheet.labour);
  Ratio const seconds = sheet.seconds;
  std::int64_t hourly = 0;
  if (seconds > Ratio(0))
    hourly = round_product(earned.minor, Ratio(seconds_an_hour) / seconds, Rounding::half_away);
  return {price, price - sheet.total, {hourly, price.currency}};
}

Ladder ladder(CostSheet const& sheet, Money target, Money asked, Money least_hourly) {
  Ratio const hours = sheet.seconds / Ratio(seconds_an_hour);
  return {.cash_floor = rung(sheet.outlay, sheet),
          .walk_away = rung(sheet.outlay + scale(least_hourly, hours, Rounding::half_away), sheet),
          .full_cost = rung(sheet.total, sheet),
          .target = rung(target, sheet),
          .asked = rung(asked, sheet)};
}

// What each component costs by itself. Overhead, allowances, packing and office belong to none: sharing the
// price by these weights spreads them in the same proportions.
Weights own_costs(CostSheet const& sheet) {
  Weights weights{};
  for (std::size_t part = 0; part < sheet.part_shares.size(); ++part)
    if (auto const component = component_of(static_cast<Part>(part)))
      weights[index_of(*component)] += sheet.part_shares[part].minor;
  for (CostLine const& line : sheet.lines)
    if (line.kind == CostKind::outside && !line.at_cost)
      weights[index_of(Component::outside_work)] += line.amount.minor;
  return weights;
}

// Shares `whole` over the components: `at_cost` is the outside work's own, the rest by weight.
std::vector<Money> share_over(Money whole, Money at_cost, Weights const& weights) {
  Money const own = std::min(at_cost, whole);
  std::vector<Money> shares = share(whole - own, weights);
  shares[index_of(Component::outside_work)] += own;
  return shares;
}

void add_lines(Offer& offer, CostSheet const& sheet, TaxRules const& tax) {
  Weights const own = own_costs(sheet);
  Weights weights = own;
  bool const nothing = std::all_of(own.begin(), own.end(), [](std::int64_t weight) { return weight == 0; });
  if (nothing) weights[index_of(Component::binding)] = 1;  // hours beside the bench alone, or a least charge
  Money at_cost_shown = sheet.standing;
  if (tax.mode == TaxMode::included) at_cost_shown += tax_added(sheet.standing, tax.rate);
  std::vector<Money> const net = share_over(offer.goods, sheet.standing, weights);
  std::vector<Money> const shown = share_over(offer.goods_shown, at_cost_shown, weights);
  for (std::size_t i = 0; i < component_count; ++i)
    if (own[i] != 0 || net[i].minor != 0 || shown[i].minor != 0)
      offer.lines.push_back({static_cast<Component>(i), net[i], shown[i]});
}

// Added: the tax of one class on the sum of its nets, rounded once (EN 16931, BR-CO-17 and BR-S-08).
// Included: the tax within the sum of what is shown, rounded once; carriage is grossed up first.
void add_tax(Offer& offer, TaxRules const& tax) {
  offer.carriage_shown = offer.carriage;
  offer.tax = {0, offer.goods.currency};
  if (tax.mode == TaxMode::added) offer.tax = tax_added(offer.goods + offer.carriage, tax.rate);
  if (tax.mode == TaxMode::included) offer.carriage_shown += tax_added(offer.carriage, tax.rate);
  offer.total = offer.goods_shown + offer.carriage_shown;
  if (tax.mode == TaxMode::added) offer.total += offer.tax;
  if (tax.mode == TaxMode::included) offer.tax = tax_within(offer.total, tax.rate);
}

void add_deposit(Offer& offer, Money outlay, DepositRules const& rules) {
  Money const least = std::max(scale(offer.total, rules.share, Rounding::up), outlay);
  offer.deposit = std::min(round_to(least, rules.step, Rounding::up), offer.total);
  offer.balance = offer.total - offer.deposit;
}

Ratio margin_of(Money left, Money earning_price) {
  return earning_price.minor == 0 ? Ratio(0) : Ratio(left.minor, earning_price.minor);
}

Offer offer_at(Money target, CostSheet const& sheet, Delivery const& delivery, SellingRules const& selling,
               ShopRules const& shop) {
  PointPrice const asked =
      point_at_or_above(std::max(target, shop.least_charge), selling.points, selling.tax);
  Offer offer;
  offer.ladder = ladder(sheet, target, asked.net, shop.least_hourly);
  offer.goods = asked.net;
  offer.goods_shown = asked.shown;
  offer.carriage = delivery.carriage;
  add_lines(offer, sheet, selling.tax);
  add_tax(offer, selling.tax);
  add_deposit(offer, sheet.outlay, selling.deposit);
  offer.left = offer.goods - sheet.total;
  offer.margin = margin_of(offer.left, offer.goods - sheet.standing);
  return offer;
}

}  // namespace

Read<Offer> offer(CostSheet const& sheet, Delivery const& delivery, SellingRules const& selling,
                  Goal const& goal, ShopRules const& shop) try {
  Read<Money> const target = least_price(sheet, goal);
  if (!target) return tl::unexpected(target.error());
  return offer_at(*target, sheet, delivery, selling, shop);
} catch (Overflow const&) {
  return refuse(
      {FaultCode::too_large, Where{{}, 0, 0, "price"}, "", "a price that fits in the range of money", {}});
}

}  // namespace endband
