// A sale walked by the definitions of engine/pricing/outlet.h and pricing.h, in rationals of any size, with
// nothing of the engine's arithmetic: for tests of one tax rate or several, every kind of fee, and returns.
#pragma once

#include "engine/pricing/walk.h"

#include <boost/multiprecision/cpp_int.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <vector>

namespace endband::testing {

using boost::multiprecision::cpp_int;
using boost::multiprecision::cpp_rational;

inline cpp_rational exact(Ratio value) { return {cpp_int(value.num()), cpp_int(value.den())}; }

inline cpp_int floor_of(cpp_rational const& value) {
  cpp_int const num = numerator(value);
  cpp_int const den = denominator(value);
  cpp_int const down = num / den;
  return num < 0 && down * den != num ? cpp_int(down - 1) : down;
}

inline cpp_int half_away(cpp_rational const& value) {
  if (value < 0) return -half_away(-value);
  return floor_of(value + cpp_rational(1, 2));
}

struct ByDefinition {
  cpp_int discount, goods_shown, carriage_shown, tax, cash_rounding, paid, goods, all_fees, payout,
      exchange_cost, received, tax_due, carriage, yours, returns, cost, left, price;
  std::vector<cpp_int> fees;
};

class Definition {
 public:
  explicit Definition(Sale const& sale, Ratio given_away = {})
      : sale_(sale), given_away_(exact(given_away)), outlet_(sale.selling.outlet.value_or(plain(sale))) {
    mode_ = outlet_.tax_mode.value_or(sale.selling.tax.mode);
    rate_ = exact(outlet_.exchange.rate) * sale.shop.currency.minor_per_major() /
            outlet_.currency.minor_per_major();
  }

  ByDefinition at(std::int64_t ticket) const {
    ByDefinition w;
    cpp_int const trade = half_away(exact(outlet_.discount) * ticket);
    cpp_int const given = half_away(given_away_ * (ticket - trade));
    w.discount = trade + given;
    w.goods_shown = ticket - w.discount;
    cpp_int const carriage = half_away(cpp_rational(sale_.delivery.carriage.minor) / rate_);
    w.carriage_shown = carriage;
    if (mode_ == TaxMode::included) w.carriage_shown += half_away(carriage * rate_of(std::nullopt));
    cpp_int const of_goods = tax_of(w.goods_shown, 0);
    w.tax = tax_of(w.goods_shown, w.carriage_shown);
    w.goods = w.goods_shown - (mode_ == TaxMode::included ? of_goods : cpp_int(0));
    cpp_int const added = mode_ == TaxMode::added ? w.tax : cpp_int(0);
    cpp_int const total = w.goods_shown + w.carriage_shown + added;
    w.paid = half_away(cpp_rational(total) / outlet_.cash_step) * outlet_.cash_step;
    w.cash_rounding = w.paid - total;
    cpp_rational kept = 0;
    for (Fee const& fee : outlet_.fees) {
      cpp_int base = w.goods;
      if (fee.base == FeeBase::goods_with_tax) base = w.goods + of_goods;
      if (fee.base == FeeBase::goods_and_carriage) base = w.goods + carriage;
      if (fee.base == FeeBase::paid) base = total;
      w.fees.push_back(fee_of(fee, base));
      w.all_fees += w.fees.back();
      if (fee.kept) kept += w.fees.back();
    }
    w.payout = w.paid - w.all_fees - (outlet_.collects_tax ? w.tax : cpp_int(0));
    w.exchange_cost = half_away(w.payout * rate_ * exact(outlet_.exchange.spread));
    w.received = half_away(w.payout * rate_) - w.exchange_cost;
    w.tax_due = outlet_.collects_tax ? cpp_int(0) : half_away(w.tax * rate_);
    w.carriage = sale_.delivery.carriage.minor;
    w.yours = w.received - w.tax_due - w.carriage;
    w.price = half_away(w.goods * rate_);
    w.cost = sale_.sheet.total.minor;
    w.returns = sale_.selling.outlet ? half_away(allowance(w.price, kept * rate_)) : cpp_int(0);
    w.left = w.yours - w.returns - w.cost;
    return w;
  }

  bool meets(ByDefinition const& w, Goal const& goal) const {
    if (w.price < sale_.shop.least_charge.minor) return false;
    cpp_rational const earns = cpp_rational(w.price) - sale_.sheet.standing.minor;
    if (auto const* margin = std::get_if<MarginGoal>(&goal)) return w.left >= exact(margin->margin) * earns;
    if (auto const* markup = std::get_if<MarkupGoal>(&goal)) {
      cpp_rational const u = exact(markup->markup);
      return w.left * (1 + u) >= u * earns;
    }
    if (auto const* profit = std::get_if<ProfitGoal>(&goal)) return w.left >= profit->left.minor;
    if (auto const* hourly = std::get_if<HourlyGoal>(&goal))
      return w.left + sale_.sheet.labour.minor >= exact(sale_.sheet.seconds) / 3600 * hourly->an_hour.minor;
    return w.yours >= std::get<LeaveGoal>(goal).yours.minor;
  }

 private:
  static Outlet plain(Sale const& sale) {
    Outlet none;
    none.currency = sale.shop.currency;
    return none;
  }

  cpp_rational rate_of(std::optional<Component> component) const {
    if (outlet_.tax_rate) return exact(*outlet_.tax_rate);
    for (TaxOfLine const& line : sale_.selling.tax.own)
      if (line.component == component) return exact(line.rate);
    return exact(sale_.selling.tax.rate);
  }

  // What stands at cost is the outside work's; the rest by largest remainder, the first of equals before.
  std::map<int, cpp_int> lines(cpp_int const& shown) const {
    std::map<int, cpp_int> weights;
    for (std::size_t i = 0; i < sale_.sheet.part_shares.size(); ++i)
      if (auto const component = component_of(static_cast<Part>(i)))
        weights[static_cast<int>(*component)] += sale_.sheet.part_shares[i].minor;
    int const outside = static_cast<int>(Component::outside_work);
    for (CostLine const& line : sale_.sheet.lines)
      if (line.kind == CostKind::outside && !line.at_cost) weights[outside] += line.amount.minor;
    cpp_int whole = 0;
    for (auto const& [line, weight] : weights) whole += weight;
    if (whole == 0) whole = weights[static_cast<int>(Component::binding)] = 1;
    cpp_int at_cost = half_away(cpp_rational(sale_.sheet.standing.minor) / rate_);
    if (mode_ == TaxMode::included) at_cost += half_away(at_cost * rate_of(Component::outside_work));
    at_cost = std::min(at_cost, shown);
    std::map<int, cpp_int> parts;
    std::vector<std::pair<cpp_rational, int>> rests;
    cpp_int left = shown - at_cost;
    for (auto const& [line, weight] : weights) {
      cpp_rational const part = cpp_rational(shown - at_cost) * weight / whole;
      parts[line] = floor_of(part);
      left -= parts[line];
      rests.emplace_back(cpp_rational(parts[line]) - part, line);  // the largest remainder first
    }
    std::sort(rests.begin(), rests.end());
    for (auto const& [rest, line] : rests)
      if (left > 0) {
        ++parts[line];
        --left;
      }
    parts[outside] += at_cost;
    return parts;
  }

  cpp_int tax_of(cpp_int const& goods, cpp_int const& carriage) const {
    if (mode_ == TaxMode::none) return 0;
    std::map<cpp_rational, cpp_int> by_rate;
    for (auto const& [line, shown] : lines(goods)) by_rate[rate_of(static_cast<Component>(line))] += shown;
    by_rate[rate_of(std::nullopt)] += carriage;
    cpp_int tax = 0;
    for (auto const& [rate, shown] : by_rate)
      tax += half_away(mode_ == TaxMode::added ? cpp_rational(shown * rate)
                                               : cpp_rational(shown * rate / (1 + rate)));
    return tax;
  }

  // By the piece: each piece's equal part, x the pieces.
  cpp_int fee_of(Fee const& fee, cpp_int const& base) const {
    if (fee.per == FeePer::listing) {
      std::int64_t paid = 1;
      for (int day = fee.every_days; fee.every_days > 0 && day < outlet_.days_to_sell; day += fee.every_days)
        ++paid;
      return cpp_int(fee.fixed.minor) * paid;
    }
    std::int64_t const pieces = fee.per == FeePer::piece ? sale_.selling.pieces : 1;
    cpp_rational const each = cpp_rational(base) / pieces;
    cpp_rational amount = 0;
    for (std::size_t i = 0; i < fee.steps.size(); ++i) {
      cpp_rational const from = fee.steps[i].from.minor;
      if (each < from) break;
      cpp_rational part = each - from;
      if (i + 1 < fee.steps.size()) part = std::min(part, cpp_rational(fee.steps[i + 1].from.minor - from));
      if (fee.on_whole)
        amount = exact(fee.steps[i].share) * each;
      else
        amount += exact(fee.steps[i].share) * part;
    }
    if (!fee.steps.empty() && fee.least) amount = std::max(amount, cpp_rational(fee.least->minor));
    if (!fee.steps.empty() && fee.most) amount = std::min(amount, cpp_rational(fee.most->minor));
    return half_away(amount * pieces) + cpp_int(fee.fixed.minor) * pieces;
  }

  cpp_rational allowance(cpp_int const& price, cpp_rational const& kept) const {
    ReturnTerms const& terms = outlet_.returns;
    RateBasis const& basis = sale_.shop.basis;
    cpp_rational const a_second =
        cpp_rational(basis.pay_wanted.minor + basis.charges_on_pay.minor + basis.overhead.minor) /
        basis.hours_charged.n;
    auto const odds = [](Ratio p) { return cpp_rational(exact(p) / (1 - exact(p))); };
    std::int64_t const carriage = sale_.delivery.carriage.minor;
    std::int64_t const paid = std::max<std::int64_t>(0, terms.insured.minor - terms.excess.minor);
    std::int64_t const lost = std::max<std::int64_t>(0, sale_.sheet.total.minor + carriage - paid);
    cpp_rational const each_home = terms.handling.n * a_second + exact(terms.loss_of_value) * price;
    return odds(terms.change_of_mind) * (carriage + terms.carriage_back.minor + kept + each_home) +
           exact(terms.fault) * terms.mending.n * a_second + exact(terms.lost) * lost +
           odds(terms.unsold) * (terms.return_carriage.minor + each_home);
  }

  Sale sale_;
  cpp_rational given_away_;
  Outlet outlet_;
  TaxMode mode_ = TaxMode::none;
  cpp_rational rate_ = 1;
};

}  // namespace endband::testing
