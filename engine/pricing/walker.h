// One sale made ready to be walked at many tickets: what does not change with the price is worked out once.
#pragma once

#include "engine/pricing/exact_sum.h"
#include "engine/pricing/fee_line.h"
#include "engine/pricing/lines.h"
#include "engine/pricing/walk.h"

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

namespace endband {

// What is taxed at one rate.
struct RateGroup {
  Ratio rate;
  bool of_carriage = false;
  bool of_goods = false;
  std::array<bool, component_count> lines{};
};

// What the fees are shares of, by FeeBase.
using Bases = std::array<std::int64_t, 4>;
inline std::size_t index_of(FeeBase base) { return static_cast<std::size_t>(base); }

class Walker {
 public:
  explicit Walker(Sale const& sale, Ratio given_away = {});

  Walk walk(Money ticket) const;
  // The same into a walk that has its room already.
  void walk(std::int64_t ticket, Walk& walk, Bases& bases) const;

  Sale const& sale() const { return sale_; }
  Outlet const* outlet() const { return outlet_; }
  Currency currency() const { return currency_; }
  TaxRules const& tax() const { return tax_; }
  std::vector<RateGroup> const& groups() const { return groups_; }
  bool goods_of_one_rate() const { return goods_of_one_rate_; }
  Weights const& weights() const { return weights_; }
  std::int64_t at_cost_shown() const { return at_cost_shown_; }
  std::vector<FeeLine> const& fees() const { return fees_; }
  Ratio factor() const { return factor_; }  // minor units of the workshop's currency for one of the outlet's
  Ratio spread() const { return spread_; }
  bool collects_tax() const { return outlet_ != nullptr && outlet_->collects_tax; }
  std::int64_t cash_step() const { return outlet_ == nullptr ? 1 : outlet_->cash_step; }

  Money without_tax(Money shown) const;                     // of goods
  std::vector<TaxedAt> taxed_at(Money goods_shown) const;   // by rate
  Money converted(Money of_shop, Rounding rounding) const;  // into the outlet's currency

 private:
  void group_rates();
  RateGroup& group_of(Ratio rate);
  void ready_returns();
  void share_goods(std::int64_t shown, std::array<std::int64_t, component_count + 1>& of_group) const;
  void add_discount(Walk& walk) const;
  void add_tax(Walk& walk, Bases& bases) const;
  void add_fees(Walk& walk, Bases const& bases) const;
  void add_exchange(Walk& walk) const;
  void add_rest(Walk& walk) const;
  Money in_shop(Money of_outlet) const;

  Sale sale_;
  Ratio given_away_;
  Outlet const* outlet_;
  Currency currency_;
  TaxRules tax_;
  Ratio factor_ = 1, spread_ = 0;
  ExactSum exchange_cost_;  // of the payout
  Money carriage_;          // in the outlet's currency, without tax
  Money carriage_shown_;    // and as the buyer sees it
  Weights weights_{};
  std::int64_t at_cost_shown_ = 0;
  std::vector<RateGroup> groups_;
  bool goods_of_one_rate_ = true;
  std::vector<FeeLine> fees_;
  std::optional<ExactSum> returns_;  // of the kept fees and the price
};

}  // namespace endband
