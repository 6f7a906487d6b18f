// What an outlet takes of a sale. Rounded by name, half away from zero: the share's amount of each fee.
#include "engine/pricing/fee_line.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::int64_t endless = std::numeric_limits<std::int64_t>::max();

void check(Fee const& fee, std::int64_t pieces) {
  if (pieces < 1) throw std::logic_error("a fee of no piece");
  if (fee.fixed.minor < 0 || fee.every_days < 0) throw std::logic_error("a fee of less than nothing");
  if (fee.per == FeePer::listing && !fee.steps.empty()) throw std::logic_error("a listing has no share");
  if (fee.least && fee.most && *fee.least > *fee.most) throw std::logic_error("a fee of no range");
  if (!fee.steps.empty() && fee.steps.front().from.minor != 0)
    throw std::logic_error("a fee's first step is not from 0");
  for (std::size_t i = 0; i < fee.steps.size(); ++i) {
    FeeStep const& step = fee.steps[i];
    if (step.share < Ratio(0) || step.share >= Ratio(1)) throw std::logic_error("a share outside 0 to 1");
    if (i > 0 && step.from.minor <= fee.steps[i - 1].from.minor)
      throw std::logic_error("a fee's steps do not ascend");
  }
}

std::int64_t times_charged(Fee const& fee, std::int64_t pieces, int days_to_sell) {
  switch (fee.per) {
    case FeePer::order: return 1;
    case FeePer::piece: return pieces;
    case FeePer::listing: return periods(fee, days_to_sell);
  }
  throw std::logic_error("a fee per nothing");
}

}  // namespace

std::string_view outlet_kind_name(OutletKind kind) {
  static constexpr std::array<std::string_view, 4> names{"own", "marketplace", "sale-or-return", "trade"};
  return names.at(static_cast<std::size_t>(kind));
}

std::string_view fee_base_name(FeeBase base) {
  static constexpr std::array<std::string_view, 4> names{"goods", "goods-with-tax", "goods-and-carriage",
                                                         "paid"};
  return names.at(static_cast<std::size_t>(base));
}

std::string_view fee_per_name(FeePer per) {
  static constexpr std::array<std::string_view, 3> names{"order", "piece", "listing"};
  return names.at(static_cast<std::size_t>(per));
}

std::int64_t periods(Fee const& fee, int days_to_sell) {
  if (fee.every_days <= 0 || days_to_sell <= fee.every_days) return 1;
  return (std::int64_t{days_to_sell} + fee.every_days - 1) / fee.every_days;
}

Money fee_amount(Fee const& fee, Money base, std::int64_t pieces, int days_to_sell) {
  if (base.minor < 0) throw std::logic_error("a fee of less than nothing");
  return {FeeLine(fee, pieces, days_to_sell).at(base.minor), base.currency};
}

FeeLine::FeeLine(Fee const& fee, std::int64_t pieces, int days_to_sell)
    : on_whole_(fee.on_whole), least_(0), most_(endless) {
  check(fee, pieces);
  std::int64_t const times = times_charged(fee, pieces, days_to_sell);
  fixed_ = checked_mul(fee.fixed.minor, times);
  if (fee.steps.empty()) return;
  if (fee.least) least_ = checked_mul(fee.least->minor, times);
  if (fee.most) most_ = checked_mul(fee.most->minor, times);
  add_steps(fee, times);
}

void FeeLine::add_steps(Fee const& fee, std::int64_t times) {
  steps_.reserve(fee.steps.size());
  for (FeeStep const& step : fee.steps)
    steps_.push_back({checked_mul(step.from.minor, times), step.share, 0, 0});
  try {
    bring_over_one_denominator();
  } catch (Overflow const&) {
    den_ = 0;
  }
}

// On the part above each step: c + s x with c = sum of from x (share before - share from there).
void FeeLine::bring_over_one_denominator() {
  std::int64_t den = 1;
  for (Step const& step : steps_) den = checked_mul(den, step.share.den() / std::gcd(den, step.share.den()));
  Step before;
  for (Step& step : steps_) {
    step.slope = checked_mul(step.share.num(), den / step.share.den());
    if (!on_whole_)
      step.constant =
          checked_add(before.constant, checked_mul(step.from, checked_sub(before.slope, step.slope)));
    before = step;
  }
  den_ = den;
}

std::size_t FeeLine::step_at(std::int64_t base) const {
  std::size_t step = 0;
  while (step + 1 < steps_.size() && steps_[step + 1].from <= base) ++step;
  return step;
}

std::int64_t FeeLine::wide_share_at(std::size_t step, std::int64_t base) const {
  std::vector<Product> terms{{base, steps_[step].share}};
  for (std::size_t i = 0; i <= step && !on_whole_; ++i) {
    if (i > 0) terms.push_back({steps_[i].from, steps_[i - 1].share});
    terms.push_back({-steps_[i].from, steps_[i].share});
  }
  return round_sum(terms, Rounding::half_away);
}

std::int64_t FeeLine::share_at(std::size_t step, std::int64_t base) const {
  Step const& at = steps_[step];
  std::int64_t over_den = 0;
  if (den_ == 0 || __builtin_mul_overflow(at.slope, base, &over_den) ||
      __builtin_add_overflow(over_den, at.constant, &over_den))
    return wide_share_at(step, base);
  std::int64_t const whole = over_den / den_;  // a share is never negative
  return whole + (over_den - whole * den_ >= den_ - den_ / 2 ? 1 : 0);
}

std::int64_t FeeLine::at(std::int64_t base) const {
  if (steps_.empty()) return fixed_;
  return checked_add(std::clamp(share_at(step_at(base), base), least_, most_), fixed_);
}

// The first base from the step's start on at which its rounded share is `amount` or more: c + s x is then at
// least half a unit below it. In 64 bits where that fits; else by halving, as what is rounded never falls.
std::int64_t FeeLine::first_at(std::size_t step, std::int64_t amount) const {
  Step const& at = steps_[step];
  if (at.share == Ratio(0)) return share_at(step, at.from) >= amount ? at.from : endless;
  std::int64_t twice = 0;
  std::int64_t twice_constant = 0;
  if (den_ != 0 && amount > 0 && amount < endless / 4 && at.slope < endless / 4 &&
      !__builtin_mul_overflow(2 * amount - 1, den_, &twice) &&
      !__builtin_mul_overflow(2, at.constant, &twice_constant) &&
      !__builtin_sub_overflow(twice, twice_constant, &twice))
    return std::max(mul_div(twice, 1, 2 * at.slope, Rounding::up), at.from);
  std::int64_t below = checked_sub(at.from, 1);  // is not there yet
  std::int64_t reach = 1;
  while (share_at(step, checked_add(below, reach)) < amount) {
    if (reach > endless / 4) return endless;
    reach *= 2;
  }
  std::int64_t there = below + reach;
  while (there - below > 1) {
    std::int64_t const middle = below + (there - below) / 2;
    (share_at(step, middle) >= amount ? there : below) = middle;
  }
  return std::max(there, at.from);
}

// A step is flat up to the least amount, then rises, then is flat at the most.
void FeeLine::add_pieces(std::size_t step, std::vector<FeePiece>& pieces) const {
  Step const& at = steps_[step];
  std::int64_t const end = step + 1 < steps_.size() ? steps_[step + 1].from : endless;
  std::int64_t jump = 0;
  if (on_whole_ && step > 0) {
    std::int64_t const before = share_at(step - 1, at.from);
    std::int64_t const after = share_at(step, at.from);
    jump = checked_add(std::max(before, after) - std::min(before, after), 1);
  }
  std::int64_t const rises = least_ == 0 ? at.from : first_at(step, least_);
  std::int64_t const stops = most_ == endless ? endless : first_at(step, most_);
  if (rises > at.from && stops > at.from) pieces.push_back({at.from, 0, jump});
  if (rises < end && rises < stops) pieces.push_back({rises, at.share, rises > at.from ? 1 : jump});
  if (stops < end) pieces.push_back({stops, 0, stops > at.from ? 1 : jump});
}

std::vector<FeePiece> FeeLine::pieces() const {
  std::vector<FeePiece> pieces;
  pieces.reserve(3 * steps_.size());
  for (std::size_t step = 0; step < steps_.size(); ++step) add_pieces(step, pieces);
  return pieces;
}

}  // namespace endband
