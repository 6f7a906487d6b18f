// Where a higher ticket leaves less, for a step of a fee is charged on the whole, or shares together take
// more than all of what is added; and outlets of which nothing could ever be left.
#include "engine/pricing/points.h"
#include "engine/pricing/search.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace endband {
namespace {

class Dips {
 public:
  Dips(Sale const& sale, std::int64_t from, std::int64_t to)
      : walker_(sale),
        slopes_(walker_, {}, false),
        points_(points_of(sale.selling, sale.shop.currency)),
        from_(point_from(from, points_)),
        to_(to < first_point(points_) ? to : point_up_to(to, points_)) {}

  std::vector<Dip> all() {
    std::vector<Dip> dips;
    std::int64_t past = from_;
    for (Start const& start : starts()) {
      if (start.ticket <= past || start.ticket > to_) continue;
      std::optional<Dip> const dip = dip_at(start);
      if (!dip) continue;
      dips.push_back(*dip);
      past = dip->last.minor;
    }
    return dips;
  }

 private:
  // The first point of a step.
  struct Start {
    std::int64_t ticket = 0;
    std::size_t fee = 0;
    bool leaps = false;  // a minor unit at least, rather than growing faster or slower from there on
  };

  std::vector<Start> starts() {
    std::vector<Start> starts;
    for (std::size_t fee = 0; fee < walker_.fees().size(); ++fee)
      for (FeePiece const& piece : walker_.fees()[fee].pieces())
        if (piece.from > 0) starts.push_back({first_with(fee, piece.from), fee, piece.jump > 1});
    std::stable_sort(starts.begin(), starts.end(),
                     [](Start const& a, Start const& b) { return a.ticket < b.ticket; });
    return starts;
  }

  // The first point whose base is `base` or more, or one past the last. Halving: a base grows with the
  // ticket.
  std::int64_t first_with(std::size_t fee, std::int64_t base) {
    std::size_t const of = index_of(walker_.outlet()->fees[fee].base);
    std::int64_t low = 0;  // in points from the first one
    std::int64_t high = to_ < from_ ? 0 : (to_ - from_) / points_.step + 1;
    while (low < high) {
      std::int64_t const middle = low + (high - low) / 2;
      walk(from_ + middle * points_.step);
      if (bases_[of] >= base)
        high = middle;
      else
        low = middle + 1;
    }
    return from_ + low * points_.step;
  }

  // A fee leaps up there, or all shares from there on take more than what is added. What roundings take or
  // give elsewhere is no dip.
  std::optional<Dip> dip_at(Start const& start) {
    walk(start.ticket - points_.step);
    Money const before = walk_.left;
    std::int64_t ticket = start.ticket;
    walk(ticket);
    if (falls_from_here())
      while (walk_.left >= before && ticket < to_) walk(ticket += points_.step);
    else if (!start.leaps)
      return std::nullopt;
    if (walk_.left >= before) return std::nullopt;
    Dip dip{walker_.outlet()->fees[start.fee].name, walk_.ticket, walk_.ticket, before, walk_.left};
    while (walk_.left < before || falls_from_here()) {
      if (walk_.left < before) dip.last = walk_.ticket;
      dip.lowest = std::min(dip.lowest, walk_.left);
      if (ticket >= to_) break;
      walk(ticket += points_.step);
    }
    return dip;
  }

  bool falls_from_here() const {
    std::int64_t slope = slopes_.beyond.high;
    for (FeeSlopes const& fee : slopes_.fees) {
      auto piece = fee.pieces.begin();
      while (piece + 1 != fee.pieces.end() && (piece + 1)->from <= bases_[index_of(fee.base)]) ++piece;
      slope = checked_sub(slope, piece->takes.low);
    }
    return slope < 0;
  }

  void walk(std::int64_t ticket) { walker_.walk(ticket, walk_, bases_); }

  Walker walker_;
  Slopes slopes_;
  PricePoints points_;
  std::int64_t from_, to_;
  Walk walk_;
  Bases bases_{};
};

// The share of a fee that a price ends with, when it has grown past all steps and caps.
Ratio last_share(Fee const& fee) { return fee.steps.empty() || fee.most ? Ratio(0) : fee.steps.back().share; }

bool with_tax(FeeBase base) { return base == FeeBase::goods_with_tax || base == FeeBase::paid; }

// Of the outlet's rates the least, so that a fault is sure.
Ratio least_rate(Outlet const& outlet, TaxRules const& tax) {
  if (outlet.tax_mode.value_or(tax.mode) == TaxMode::none) return 0;
  if (outlet.tax_rate) return *outlet.tax_rate;
  Ratio rate = tax.rate;
  for (TaxOfLine const& line : tax.own)
    if (line.component) rate = std::min(rate, line.rate);
  return rate;
}

}  // namespace

std::vector<Dip> dips(Sale const& sale, Money from, Money to) {
  if (!sale.selling.outlet) return {};
  return Dips(sale, from.minor, to.minor).all();
}

// No common ticket is lower than the least of any sale from a lower bound on, so each of them is one, and the
// first that no sale raises is the least of all.
Read<Money> one_ticket(std::span<Sale const> sales, Goal const& goal) {
  if (sales.empty()) throw std::logic_error("one ticket for no sale");
  Currency const currency = ticket_currency(sales.front());
  PricePoints const points = points_of(sales.front().selling, sales.front().shop.currency);
  for (Sale const& sale : sales)
    if (!(ticket_currency(sale) == currency))
      return refuse({FaultCode::currency_mismatch,
                     Where{{}, 0, 0, "outlet"},
                     std::string(ticket_currency(sale).code()),
                     "outlets whose tickets are all in " + std::string(currency.code()),
                     {}});
  Money ticket{0, currency};
  for (std::size_t agreed = 0, i = 0; agreed < sales.size(); i = (i + 1) % sales.size()) {
    Read<Aim> const aim = aim_of(goal, sales[i].sheet);
    if (!aim) return tl::unexpected(aim.error());
    Walker const walker(sales[i]);
    Read<Money> const least =
        Search(walker, *aim, sales[i].shop.least_charge, points).first_from(ticket.minor);
    if (!least) return least;
    agreed = *least == ticket ? agreed + 1 : 1;
    ticket = *least;
  }
  return ticket;
}

std::vector<Fault> faults_of(Outlet const& outlet, TaxRules const& tax) {
  Ratio const with = Ratio(1) + least_rate(outlet, tax);
  Ratio taken;
  for (Fee const& fee : outlet.fees) taken = taken + last_share(fee) * (with_tax(fee.base) ? with : Ratio(1));
  if (taken < Ratio(1)) return {};
  return {bad_goal("fees", taken, "fees that take less than 100 % of a price without tax, or have a most")};
}

}  // namespace endband
