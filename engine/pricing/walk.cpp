#include "engine/pricing/walker.h"

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

void require(bool right, char const* what) {
  if (!right) throw std::logic_error(what);
}

bool in(Ratio value, Ratio low, Ratio below) { return value >= low && value < below; }

void check(TaxRules const& tax) {
  require(tax.rate >= Ratio(0) && tax.rate <= Ratio(1), "a tax rate outside 0 to 1");
  for (TaxOfLine const& line : tax.own)
    require(line.rate >= Ratio(0) && line.rate <= Ratio(1), "a tax rate outside 0 to 1");
}

void check(Outlet const& outlet) {
  require(in(outlet.discount, 0, 1), "a trade discount outside 0 to 1");
  require(outlet.exchange.rate > Ratio(0), "an exchange rate of nothing");
  require(in(outlet.exchange.spread, 0, 1), "a spread outside 0 to 1");
  require(outlet.cash_step >= 1, "cash of no step");
  ReturnTerms const& returns = outlet.returns;
  for (Ratio const& chance : {returns.change_of_mind, returns.fault, returns.lost, returns.unsold})
    require(in(chance, 0, 1), "a chance outside 0 to 1");
  require(returns.loss_of_value >= Ratio(0) && returns.loss_of_value <= Ratio(1),
          "a loss of value outside 0 to 1");
}

// Of the workshop's currency; Money of no currency is nothing.
std::int64_t minor_of(Money money, Currency shop) {
  return money.currency == Currency() && money.minor == 0 ? 0 : (money + Money{0, shop}).minor;
}

// A book that comes home is sold again: p / (1 - p) come home for each that is sold at last.
Ratio odds_of(Ratio chance) { return chance / (Ratio(1) - chance); }

}  // namespace

Currency ticket_currency(Sale const& sale) {
  return sale.selling.outlet ? sale.selling.outlet->currency : sale.shop.currency;
}

PricePoints points_of(SellingRules const& selling, Currency shop) {
  if (!selling.outlet) return selling.points;
  if (selling.outlet->points) return *selling.outlet->points;
  return selling.outlet->currency == shop ? selling.points : PricePoints{};
}

Ratio exchange_factor(SellingRules const& selling, Currency shop) {
  if (!selling.outlet) return 1;
  Outlet const& outlet = *selling.outlet;
  return outlet.exchange.rate * Ratio(shop.minor_per_major(), outlet.currency.minor_per_major());
}

bool nothing_is_taken(SellingRules const& selling) { return !selling.outlet && selling.tax.own.empty(); }

TaxRules tax_of(SellingRules const& selling) {
  TaxRules tax = selling.tax;
  if (!selling.outlet) return tax;
  if (selling.outlet->tax_mode) tax.mode = *selling.outlet->tax_mode;
  if (selling.outlet->tax_rate) {
    tax.rate = *selling.outlet->tax_rate;
    tax.own.clear();
  }
  return tax;
}

Walk walk(Sale const& sale, Money ticket, Ratio given_away) { return Walker(sale, given_away).walk(ticket); }

std::vector<TaxedAt> taxed_at(Sale const& sale, Money goods_shown) {
  return Walker(sale).taxed_at(goods_shown);
}

Walker::Walker(Sale const& sale, Ratio given_away)
    : sale_(sale),
      given_away_(given_away),
      outlet_(sale.selling.outlet ? &*sale.selling.outlet : nullptr),
      currency_(ticket_currency(sale)),
      tax_(tax_of(sale.selling)) {
  check(tax_);
  require(given_away >= Ratio(0) && given_away <= Ratio(1), "a discount outside 0 to 1");
  if (outlet_ != nullptr) {
    check(*outlet_);
    factor_ = exchange_factor(sale.selling, sale.shop.currency);
    spread_ = outlet_->exchange.spread;
    exchange_cost_ = ExactSum({}, {factor_, spread_}, {0});
    fees_.reserve(outlet_->fees.size());
    for (Fee const& fee : outlet_->fees) fees_.emplace_back(fee, sale.selling.pieces, outlet_->days_to_sell);
  }
  carriage_ = converted(sale.delivery.carriage, Rounding::half_away);
  carriage_shown_ = carriage_;
  if (tax_.mode == TaxMode::included) carriage_shown_ += tax_added(carriage_, tax_.rate_of(std::nullopt));
  group_rates();
  if (outlet_ != nullptr) ready_returns();
}

Money Walker::converted(Money of_shop, Rounding rounding) const {
  if (factor_ == Ratio(1)) return {of_shop.minor, currency_};
  return {mul_div(of_shop.minor, factor_.den(), factor_.num(), rounding), currency_};
}

Money Walker::in_shop(Money of_outlet) const {
  Currency const shop = sale_.shop.currency;
  if (factor_ == Ratio(1)) return {of_outlet.minor, shop};
  return {mul_div(of_outlet.minor, factor_.num(), factor_.den(), Rounding::half_away), shop};
}

RateGroup& Walker::group_of(Ratio rate) {
  auto const found = std::find_if(groups_.begin(), groups_.end(),
                                  [&](RateGroup const& group) { return group.rate == rate; });
  return found != groups_.end() ? *found : groups_.emplace_back(RateGroup{rate, false, false, {}});
}

// What costs nothing gets nothing of a price, so its rate does not count.
void Walker::group_rates() {
  weights_ = weights_of(own_costs(sale_.sheet));
  Money const standing = converted(sale_.sheet.standing, Rounding::half_away);
  Ratio const of_outside = tax_.rate_of(Component::outside_work);
  at_cost_shown_ = standing.minor;
  if (tax_.mode == TaxMode::included) at_cost_shown_ += tax_added(standing, of_outside).minor;
  group_of(tax_.rate_of(std::nullopt)).of_carriage = true;
  for (std::size_t i = 0; i < component_count; ++i) {
    auto const component = static_cast<Component>(i);
    if (weights_[i] == 0 && (component != Component::outside_work || at_cost_shown_ == 0)) continue;
    RateGroup& group = group_of(tax_.rate_of(component));
    group.of_goods = true;
    group.lines[i] = true;
  }
  goods_of_one_rate_ = std::count_if(groups_.begin(), groups_.end(),
                                     [](RateGroup const& group) { return group.of_goods; }) == 1;
}

void Walker::ready_returns() {
  ReturnTerms const& terms = outlet_->returns;
  Currency const shop = sale_.shop.currency;
  std::int64_t const carriage = sale_.delivery.carriage.minor;
  Ratio const home = odds_of(terms.change_of_mind);
  Ratio const unsold = odds_of(terms.unsold);
  std::int64_t const lost = checked_sub(
      checked_add(sale_.sheet.total.minor, carriage),
      std::max<std::int64_t>(0, checked_sub(minor_of(terms.insured, shop), minor_of(terms.excess, shop))));
  std::vector<Product> sums{{home, carriage},
                            {home, minor_of(terms.carriage_back, shop)},
                            {terms.lost, std::max<std::int64_t>(0, lost)},
                            {unsold, minor_of(terms.return_carriage, shop)}};
  if (terms.handling.n != 0 || terms.mending.n != 0) {
    Rates const rates = rates_of(sale_.shop.basis);
    Ratio const a_second = rates.labour + rates.overhead;
    sums.push_back({home + unsold, terms.handling.n, a_second});
    sums.push_back({terms.fault, terms.mending.n, a_second});
  }
  returns_.emplace(std::move(sums), Product{home, factor_}, Product{home + unsold, terms.loss_of_value});
}

Walk Walker::walk(Money ticket) const {
  require(ticket.currency == currency_, "a ticket in another currency");
  require(ticket.minor >= 0, "a ticket of less than nothing");
  Walk walk;
  Bases bases{};
  this->walk(ticket.minor, walk, bases);
  return walk;
}

void Walker::walk(std::int64_t ticket, Walk& walk, Bases& bases) const {
  walk.ticket = {ticket, currency_};
  add_discount(walk);
  add_tax(walk, bases);
  add_fees(walk, bases);
  add_exchange(walk);
  add_rest(walk);
}

void Walker::add_discount(Walk& walk) const {
  walk.discount = {0, currency_};
  if (outlet_ != nullptr && outlet_->discount != Ratio(0))
    walk.discount = scale(walk.ticket, outlet_->discount, Rounding::half_away);
  walk.goods_shown = walk.ticket - walk.discount;
  if (given_away_ == Ratio(0)) return;
  Money const given = scale(walk.goods_shown, given_away_, Rounding::half_away);
  walk.discount += given;
  walk.goods_shown = walk.goods_shown - given;
}

void Walker::share_goods(std::int64_t shown, std::array<std::int64_t, component_count + 1>& of_group) const {
  std::array<std::int64_t, component_count> lines{};
  if (!goods_of_one_rate_) lines = share_over(shown, at_cost_shown_, weights_);
  for (std::size_t i = 0; i < groups_.size(); ++i) {
    of_group[i] = goods_of_one_rate_ && groups_[i].of_goods ? shown : 0;
    for (std::size_t line = 0; line < component_count; ++line)
      if (groups_[i].lines[line]) of_group[i] += lines[line];
  }
}

Money Walker::without_tax(Money shown) const {
  if (tax_.mode != TaxMode::included) return shown;
  std::array<std::int64_t, component_count + 1> of_group{};
  share_goods(shown.minor, of_group);
  Money net = shown;
  for (std::size_t i = 0; i < groups_.size(); ++i)
    net = net - tax_within({of_group[i], currency_}, groups_[i].rate);
  return net;
}

// Added: of each rate on the sum of its nets, rounded once (EN 16931, BR-CO-17 and BR-S-08). Included: within
// the sum of what is shown at that rate; carriage is grossed up first.
void Walker::add_tax(Walk& walk, Bases& bases) const {
  Money const none{0, currency_};
  walk.carriage_shown = carriage_shown_;
  walk.tax = none;
  Money of_goods = none;
  std::array<std::int64_t, component_count + 1> of_group{};
  if (tax_.mode != TaxMode::none) share_goods(walk.goods_shown.minor, of_group);
  auto const tax = tax_.mode == TaxMode::included ? tax_within : tax_added;
  for (std::size_t i = 0; i < groups_.size() && tax_.mode != TaxMode::none; ++i) {
    Money const goods{of_group[i], currency_};
    Money const goods_tax = tax(goods, groups_[i].rate);
    of_goods += goods_tax;
    walk.tax += groups_[i].of_carriage ? tax(goods + walk.carriage_shown, groups_[i].rate) : goods_tax;
  }
  bool const added = tax_.mode == TaxMode::added;
  walk.goods = tax_.mode == TaxMode::included ? walk.goods_shown - of_goods : walk.goods_shown;
  walk.paid = walk.goods_shown + walk.carriage_shown;
  if (added) walk.paid += walk.tax;
  bases[index_of(FeeBase::goods)] = walk.goods.minor;
  bases[index_of(FeeBase::goods_with_tax)] = (added ? walk.goods + of_goods : walk.goods_shown).minor;
  bases[index_of(FeeBase::goods_and_carriage)] = (walk.goods + carriage_).minor;
  bases[index_of(FeeBase::paid)] = walk.paid.minor;
  walk.cash_rounding = none;
  if (cash_step() == 1) return;
  walk.cash_rounding = round_to(walk.paid, cash_step(), Rounding::half_away) - walk.paid;
  walk.paid += walk.cash_rounding;
}

std::vector<TaxedAt> Walker::taxed_at(Money goods_shown) const {
  std::vector<TaxedAt> all;
  if (tax_.mode == TaxMode::none) return all;
  std::array<std::int64_t, component_count + 1> of_group{};
  share_goods(goods_shown.minor, of_group);
  auto const tax = tax_.mode == TaxMode::included ? tax_within : tax_added;
  for (std::size_t i = 0; i < groups_.size(); ++i) {
    RateGroup const& group = groups_[i];
    Money const goods{of_group[i], currency_};
    Money const carriage{group.of_carriage ? carriage_shown_.minor : 0, currency_};
    if (group.of_goods || carriage.minor != 0)
      all.push_back({group.rate, goods, carriage, tax(goods + carriage, group.rate)});
  }
  return all;
}

void Walker::add_fees(Walk& walk, Bases const& bases) const {
  walk.fees.resize(fees_.size());
  std::int64_t all = 0;
  for (std::size_t i = 0; i < fees_.size(); ++i) {
    walk.fees[i] = {fees_[i].at(bases[index_of(outlet_->fees[i].base)]), currency_};
    all = checked_add(all, walk.fees[i].minor);
  }
  walk.all_fees = {all, currency_};
  walk.payout = walk.paid - walk.all_fees;
  if (collects_tax()) walk.payout = walk.payout - walk.tax;
}

// Rounded by name, half away: the payout at the rate; what the spread takes of the exact payout at the rate;
// tax and price at the rate.
void Walker::add_exchange(Walk& walk) const {
  Currency const shop = sale_.shop.currency;
  walk.exchange_cost = {0, shop};
  if (spread_ != Ratio(0)) walk.exchange_cost.minor = exchange_cost_.at(walk.payout.minor, 0);
  walk.received = in_shop(walk.payout) - walk.exchange_cost;
  walk.tax_due = collects_tax() ? Money{0, shop} : in_shop(walk.tax);
  walk.price = in_shop(walk.goods);
}

void Walker::add_rest(Walk& walk) const {
  walk.carriage = sale_.delivery.carriage;
  walk.yours = walk.received - walk.tax_due - walk.carriage;
  walk.returns = {0, sale_.shop.currency};
  if (returns_) {
    std::int64_t kept = 0;
    for (std::size_t i = 0; i < fees_.size(); ++i)
      if (outlet_->fees[i].kept) kept = checked_add(kept, walk.fees[i].minor);
    walk.returns.minor = returns_->at(kept, walk.price.minor);
  }
  walk.cost = sale_.sheet.total;
  walk.left = walk.yours - walk.returns - walk.cost;
}

}  // namespace endband
