#include "engine/pricing/slopes.h"

#include <algorithm>
#include <numeric>

namespace endband {
namespace {

std::int64_t times(std::int64_t value, Ratio factor, Rounding rounding) {
  return mul_div(value, factor.num(), factor.den(), rounding);
}

bool same_money(Walker const& walker) { return walker.factor() == Ratio(1); }

Ratio odds_of(Ratio chance) { return chance / (Ratio(1) - chance); }

}  // namespace

Line operator+(Line a, Line b) {
  return {checked_add(a.low, b.low), checked_add(a.high, b.high), checked_add(a.slack, b.slack)};
}

Line operator-(Line a, Line b) {
  return {checked_sub(a.low, b.high), checked_sub(a.high, b.low), checked_add(a.slack, b.slack)};
}

Line scaled(Line line, Ratio factor) {
  return {times(line.low, factor, Rounding::down), times(line.high, factor, Rounding::up),
          times(line.slack, factor, Rounding::up)};
}

Line rounded(Line line, std::int64_t step) {
  line.slack = checked_add(line.slack, checked_mul(step, nano));
  return line;
}

std::int64_t whole_units(std::int64_t slack) { return slack / nano + (slack % nano == 0 ? 0 : 1); }

Slopes::Slopes(Walker const& walker, Aim const& aim, bool all_at_cost)
    : goods_shown{nano, nano, 0}, walker_(walker), aim_(aim), all_at_cost_(all_at_cost) {
  if (Outlet const* const outlet = walker.outlet(); outlet != nullptr && outlet->discount != Ratio(0))
    goods_shown = rounded(scaled(goods_shown, Ratio(1) - outlet->discount));
  add_taxes();
  price = same_money(walker) ? goods_ : rounded(scaled(goods_, walker.factor()));
  add_beyond();
  add_fees();
  for (std::size_t i = 0; i < bases.size(); ++i) base_slack[i] = whole_units(bases[i].slack);
}

// A share by the largest remainder is its exact value rounded up or down, so a line of one strays by less
// than one either way.
Line Slopes::group(RateGroup const& group) const {
  if (walker_.goods_of_one_rate()) return group.of_goods ? goods_shown : Line{};
  if (all_at_cost_) return group.lines[index_of(Component::outside_work)] ? goods_shown : Line{};
  Weights const& weights = walker_.weights();
  std::int64_t const whole = std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
  std::int64_t of_group = 0;
  std::int64_t lines = 0;
  for (std::size_t i = 0; i < component_count; ++i) {
    if (!group.lines[i] || weights[i] == 0) continue;
    of_group += weights[i];
    ++lines;
  }
  return lines == 0 ? Line{} : rounded(scaled(goods_shown, Ratio(of_group, whole)), 2 * lines);
}

void Slopes::add_taxes() {
  TaxMode const mode = walker_.tax().mode;
  goods_ = mode == TaxMode::included ? Line{} : goods_shown;
  for (RateGroup const& of : walker_.groups()) {
    if (mode == TaxMode::none || (!of.of_goods && !of.of_carriage)) continue;
    Line const shown = group(of);
    Ratio const rate = mode == TaxMode::added ? of.rate : of.rate / (Ratio(1) + of.rate);
    Line const tax = of.of_goods ? rounded(scaled(shown, rate)) : Line{};
    tax_ = tax_ + tax;
    goods_tax_ = goods_tax_ + tax;
    if (mode == TaxMode::included && of.of_goods) goods_ = goods_ + rounded(scaled(shown, Ratio(1) - rate));
  }
  paid_ = mode == TaxMode::added ? goods_shown + tax_ : goods_shown;
  bases[index_of(FeeBase::goods)] = goods_;
  bases[index_of(FeeBase::goods_with_tax)] = mode == TaxMode::added ? goods_ + goods_tax_ : goods_shown;
  bases[index_of(FeeBase::goods_and_carriage)] = goods_;
  bases[index_of(FeeBase::paid)] = paid_;
}

// Linear, but for its two roundings.
Line Slopes::received(Line payout) const {
  if (!same_money(walker_)) payout = rounded(scaled(payout, walker_.factor()));
  return walker_.spread() == Ratio(0) ? payout : rounded(scaled(payout, Ratio(1) - walker_.spread()));
}

Line Slopes::returned() const {
  Outlet const* const outlet = walker_.outlet();
  if (outlet == nullptr) return {};
  ReturnTerms const& terms = outlet->returns;
  if (terms.change_of_mind == Ratio(0) && terms.unsold == Ratio(0)) return {};
  Ratio const back = odds_of(terms.change_of_mind) + odds_of(terms.unsold);
  return rounded(scaled(scaled(price, terms.loss_of_value), back));
}

// Tax that is passed on as it came, by the place or by the maker in the same money, leaves no trace.
void Slopes::add_beyond() {
  bool const added = walker_.tax().mode == TaxMode::added;
  bool const passed_on = walker_.collects_tax() || (same_money(walker_) && walker_.spread() == Ratio(0));
  Line payout = added ? paid_ : goods_shown;
  if (passed_on) payout = added ? goods_shown : goods_shown - tax_;
  if (walker_.cash_step() > 1) payout = rounded(payout, walker_.cash_step());
  beyond = received(payout);
  if (!passed_on) beyond = beyond - (same_money(walker_) ? tax_ : rounded(scaled(tax_, walker_.factor())));
  if (!aim_.of_yours) beyond = beyond - returned();
  if (aim_.share != Ratio(0)) beyond = beyond - rounded(scaled(price, aim_.share));
}

// What a fee takes of what is received, and of what is left by its part of the allowance for returns.
Line Slopes::taken(Line fee, bool kept) const {
  Line const converted = same_money(walker_) ? fee : scaled(fee, walker_.factor());
  bool const whole = walker_.spread() == Ratio(0);
  Line const at_once = whole ? converted : scaled(converted, Ratio(1) - walker_.spread());
  if (!kept || aim_.of_yours) return at_once;
  return at_once + scaled(converted, odds_of(walker_.outlet()->returns.change_of_mind));
}

void Slopes::add_fees() {
  for (std::size_t i = 0; i < walker_.fees().size(); ++i) {
    Fee const& fee = walker_.outlet()->fees[i];
    Line const base = bases[index_of(fee.base)];
    FeeSlopes slopes{fee.base, {}};
    std::vector<FeePiece> const pieces = walker_.fees()[i].pieces();
    slopes.pieces.reserve(pieces.size());
    for (FeePiece const& piece : pieces) {
      Line takes;  // a flat piece is not rounded
      if (piece.share != Ratio(0)) takes = taken(rounded(scaled(base, piece.share)), fee.kept);
      std::int64_t jump = 0;
      if (piece.jump != 0) jump = taken({0, 0, checked_mul(piece.jump, nano)}, fee.kept).slack;
      slopes.pieces.push_back({piece.from, takes, jump});
    }
    if (!slopes.pieces.empty()) fees.push_back(std::move(slopes));
  }
}

}  // namespace endband
