// An outlet as its owner writes it, read.
#include "engine/pricing/terms.h"
#include "engine/pricing/terms_text.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

// One [[fees]] and the [[steps]] that name it.
class FeeReader {
 public:
  FeeReader(Terms& terms, int row, std::optional<Currency> currency)
      : terms_(terms), row_(row), currency_(currency), name_(terms.words(key("fees[].name"))) {
    for (int step = 0; step < terms.rows("steps"); ++step)
      if (!name_.empty() && terms.words({"steps[].fee", step}) == name_) steps_.push_back(step);
  }

  Fee read() {
    terms_.need("fees[].name", row_);
    check_meaning();
    Fee fee;
    fee.name = name_;
    fee.base = terms_.choice<FeeBase>(key("fees[].of")).value_or(FeeBase::goods);
    fee.per = per().value_or(FeePer::order);
    fee.steps = steps();
    fee.on_whole = terms_.words(key("fees[].steps_on")) == "whole";
    fee.fixed = money("fees[].fixed").value_or(zero());
    fee.least = money("fees[].least");
    fee.most = money("fees[].most");
    fee.every_days = terms_.count(key("fees[].every_days"));
    fee.payment = terms_.flag(key("fees[].payment"));
    fee.kept = terms_.flag(key("fees[].kept"));
    if (fee.least && fee.most && *fee.least > *fee.most)
      terms_.fault(FaultCode::contradiction, key("fees[].least"),
                   "at most " + money_text(*fee.most) + ", as most says");
    return fee;
  }

 private:
  Terms& terms_;
  int row_;
  std::optional<Currency> currency_;
  std::string name_;
  std::vector<int> steps_;

  Key key(std::string_view path) const { return {path, row_}; }
  std::optional<Money> money(std::string_view path) { return terms_.money(key(path), currency_); }
  Money zero() const { return {0, currency_.value_or(Currency())}; }

  std::optional<FeePer> per() const {
    if (!terms_.said(key("fees[].per"))) return FeePer::order;
    return terms_.choice<FeePer>(key("fees[].per"));
  }

  // What the fee needs, and what has no meaning beside the rest of it.
  void check_meaning() {
    auto const per = this->per();
    bool const listing = per == FeePer::listing;
    bool const shares = terms_.said(key("fees[].share")) || !steps_.empty();
    if (listing) refuse_shares();
    if (per && !listing) terms_.refuse_key(key("fees[].every_days"), "per = \"listing\", or no every_days");
    if (!shares && !terms_.said(key("fees[].fixed")))
      terms_.fault_found(FaultCode::missing_key, key(listing ? "fees[].fixed" : "fees[].share"), {},
                         listing ? "fixed = ..., what a listing costs"
                                 : "share = ..., or fixed = ..., or [[steps]] of this fee");
    if (!shares) refuse_without_share(listing);
    if (steps_.empty()) terms_.refuse_key(key("fees[].steps_on"), "[[steps]] of this fee, or no steps_on");
  }

  // A listing is paid for before anybody has bought: there is nothing yet to take a share of.
  void refuse_shares() {
    std::string const instead = "fixed = ..., as a listing is paid before a sale; or per = \"order\"";
    terms_.refuse_key(key("fees[].share"), instead);
    for (int const step : steps_) terms_.refuse_key({"steps[].share", step}, instead);
  }

  void refuse_without_share(bool listing) {
    std::string const share = listing ? "per = \"order\" and a share" : "a share";
    for (std::string_view const path : {"fees[].of", "fees[].least", "fees[].most"})
      terms_.refuse_key(key(path), share + ", or no " + std::string(name_of(path)));
  }

  std::vector<FeeStep> steps() {
    std::vector<FeeStep> steps;
    if (auto const share = terms_.get<Ratio>(key("fees[].share"))) steps.push_back({zero(), *share});
    for (int const step : steps_) {
      auto const from = terms_.money({"steps[].from", step}, currency_);
      if (!from) continue;
      check_step(step, *from, steps);
      steps.push_back({*from, terms_.ratio({"steps[].share", step})});
    }
    return steps;
  }

  void check_step(int step, Money from, std::vector<FeeStep> const& before) {
    Key const at("steps[].from", step);
    bool const hole = step == steps_.front() && from.minor > 0 && !terms_.said(key("fees[].share"));
    if (hole)
      terms_.fault(FaultCode::contradiction, at,
                   "a first step from 0, or share = ... in the fee itself for what is below " +
                       money_text(from) + ": the steps have a hole");
    if (!before.empty() && from <= before.back().from)
      terms_.fault(FaultCode::contradiction, at,
                   "more than " + money_text(before.back().from) + ", from which the step before it holds");
  }
};

class OutletReader {
 public:
  OutletReader(Terms& terms, Currency shop) : terms_(terms), shop_(shop) { read_currency_of_tickets(); }

  Outlet read() {
    terms_.need("name");
    terms_.need("kind");
    check_kind();
    check_tax();
    Outlet outlet;
    outlet.name = terms_.words("name");
    outlet.kind = terms_.choice<OutletKind>("kind").value_or(OutletKind::own);
    outlet.currency = currency_.value_or(shop_);
    outlet.fees = fees();
    outlet.discount = terms_.ratio("discount");
    outlet.tax_mode = terms_.choice<TaxMode>("tax");
    outlet.tax_rate = terms_.get<Ratio>("tax_rate");
    outlet.collects_tax = terms_.flag("tax_collected");
    outlet.cash_step = step_of("cash_step").value_or(1);
    outlet.points = points();
    outlet.paid_after_days = terms_.count("paid_after_days");
    outlet.days_to_sell = terms_.count("days_to_sell");
    outlet.returns = returns();
    return outlet;
  }

 private:
  Terms& terms_;
  Currency shop_;
  std::optional<Currency> currency_;  // none: not understood, and told

  void read_currency_of_tickets() {
    auto const code = terms_.get<std::string>("currency");
    if (!terms_.said("currency")) currency_ = shop_;
    if (!code) return;
    if (auto const currency = read_currency(*code))
      currency_ = *currency;
    else
      for (Fault const& told : currency.error())
        terms_.fault(told.code, "currency", told.expected, told.near);
  }

  void check_kind() {
    auto const kind = terms_.choice<OutletKind>("kind");
    if (!kind) return;
    if (kind == OutletKind::trade)
      terms_.need("discount");
    else
      terms_.refuse_key("discount", "kind = \"trade\", or no discount");
    if (kind == OutletKind::sale_or_return) return;
    for (std::string_view const path : {"returns.unsold", "returns.return_carriage"})
      terms_.refuse_key(path, "kind = \"sale-or-return\", or no " + std::string(name_of(path)));
  }

  void check_tax() {
    if (terms_.choice<TaxMode>("tax") != TaxMode::none) return;
    terms_.refuse_key("tax_rate", "tax = \"added\" or \"included\", or no tax_rate");
    if (terms_.flag("tax_collected"))
      terms_.refuse_key("tax_collected", "tax = \"added\" or \"included\", or no tax_collected");
  }

  std::vector<Fee> fees() {
    std::vector<Fee> fees;
    fees.reserve(static_cast<std::size_t>(terms_.rows("fees")));
    for (int row = 0; row < terms_.rows("fees"); ++row)
      fees.push_back(FeeReader(terms_, row, currency_).read());
    check_names(fees);
    check_steps(fees);
    return fees;
  }

  void check_names(std::vector<Fee> const& fees) {
    for (auto fee = fees.begin(); fee != fees.end(); ++fee) {
      bool const taken =
          std::any_of(fees.begin(), fee, [&](Fee const& one) { return one.name == fee->name; });
      if (taken && !fee->name.empty())
        terms_.fault(FaultCode::contradiction, {"fees[].name", static_cast<int>(fee - fees.begin())},
                     "a name that no other fee has, as steps and reports tell fees by it");
    }
  }

  // Every step is of a fee that is there. While a name is missing or wrong, nobody knows.
  void check_steps(std::vector<Fee> const& fees) {
    std::vector<std::string_view> names(fees.size());
    std::transform(fees.begin(), fees.end(), names.begin(),
                   [](Fee const& fee) { return std::string_view(fee.name); });
    bool const all_known =
        std::find(names.begin(), names.end(), "") == names.end() && (!fees.empty() || !terms_.said("fees"));
    for (int step = 0; step < terms_.rows("steps"); ++step) {
      for (std::string_view const path : {"steps[].fee", "steps[].from", "steps[].share"})
        terms_.need(path, step);
      std::string const fee = terms_.words({"steps[].fee", step});
      if (all_known && !fee.empty() && std::find(names.begin(), names.end(), fee) == names.end())
        terms_.fault_unknown({"steps[].fee", step}, "fees", names);
    }
  }

  // A step to round to, in minor units.
  std::optional<std::int64_t> step_of(std::string_view path) {
    auto const step = terms_.money(path, currency_);
    if (!step) return std::nullopt;
    if (step->minor > 0) return step->minor;
    terms_.fault(FaultCode::out_of_range, path, "more than nothing, or not there at all");
    return std::nullopt;
  }

  std::optional<PricePoints> points() {
    if (!terms_.said("price_step"))
      terms_.refuse_key("price_below", "price_step beside it, or no price_below");
    auto const step = step_of("price_step");
    auto const below = terms_.money("price_below", currency_);
    if (!step) return std::nullopt;
    if (below && below->minor >= *step)
      terms_.fault(FaultCode::contradiction, "price_below",
                   "less than " + money_text({*step, below->currency}) + ", the step");
    return PricePoints{*step, below ? below->minor : 0};
  }

  ReturnTerms returns() {
    auto const money = [&](std::string_view path) {
      return terms_.money(path, shop_).value_or(Money{0, shop_});
    };
    ReturnTerms const returns{.change_of_mind = terms_.ratio("returns.change_of_mind"),
                              .carriage_back = money("returns.carriage_back"),
                              .handling = {terms_.whole("returns.handling")},
                              .loss_of_value = terms_.ratio("returns.loss_of_value"),
                              .fault = terms_.ratio("returns.fault"),
                              .mending = {terms_.whole("returns.mending")},
                              .lost = terms_.ratio("returns.lost"),
                              .insured = money("returns.insured"),
                              .excess = money("returns.excess"),
                              .unsold = terms_.ratio("returns.unsold"),
                              .return_carriage = money("returns.return_carriage")};
    bool const insured_known = !terms_.said("returns.insured") || terms_.get<std::string>("returns.insured");
    if (insured_known && returns.excess > returns.insured)
      terms_.fault(FaultCode::contradiction, "returns.excess",
                   "at most " + money_text(returns.insured) + ", which is what is insured");
    return returns;
  }
};

}  // namespace

Read<Outlet> read_outlet(std::string_view text, std::string const& source, std::string code, Currency shop) {
  Terms terms(text, source, outlet_keys());
  if (!terms.readable()) return terms.refused();
  Outlet outlet = OutletReader(terms, shop).read();
  outlet.code = std::move(code);
  return terms.result(std::move(outlet));
}

}  // namespace endband
