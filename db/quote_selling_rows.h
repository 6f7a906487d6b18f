// The columns of what a quote keeps of its sale, since engine rules 5.
#pragma once

#include "db/rows.h"
#include "engine/commission/commission.h"

#include <cstdint>
#include <optional>

namespace endband::db {

struct SellingRow;  // one a quote
template <>
struct Row<SellingRow> {
  static constexpr std::string_view table = "quote_selling";
  static constexpr std::string_view columns = "pieces, first_hours";
  static void fields(auto const& io, auto& q) { io(q.selling.pieces, q.selling.deposit.first_hours); }
};

struct OutletRow {  // none or one
  std::int64_t version = 0;
  Outlet outlet;  // of the workshop's currency; its fees lie in tables of their own
  std::optional<std::int64_t> point_step, point_below;
};
template <>
struct Row<OutletRow> {
  static constexpr std::string_view table = "quote_outlet";
  static constexpr std::string_view columns =
      "version, code, name, kind, discount_num, discount_den, tax_mode, tax_rate_num, tax_rate_den, "
      "collects_tax, cash_step, point_step, point_below, paid_after_days, days_to_sell, change_of_mind_num, "
      "change_of_mind_den, carriage_back, handling_s, loss_of_value_num, loss_of_value_den, fault_num, "
      "fault_den, mending_s, lost_num, lost_den, insured, excess, unsold_num, unsold_den, return_carriage";
  static void fields(auto const& io, auto& r) {
    auto& o = r.outlet;
    auto& back = o.returns;
    io(r.version, o.code, o.name, o.kind, o.discount, o.tax_mode, Pair{o.tax_rate}, o.collects_tax,
       o.cash_step, r.point_step, r.point_below, o.paid_after_days, o.days_to_sell, back.change_of_mind,
       back.carriage_back, back.handling, back.loss_of_value, back.fault, back.mending, back.lost,
       back.insured, back.excess, back.unsold, back.return_carriage);
  }
};

template <>
struct Row<Fee> {
  static constexpr std::string_view table = "quote_fee";
  static constexpr std::string_view columns =
      "name, base, per, on_whole, fixed, least, most, every_days, payment, kept";
  static void fields(auto const& io, auto& f) {
    io(f.name, f.base, f.per, f.on_whole, f.fixed, f.least, f.most, f.every_days, f.payment, f.kept);
  }
};

struct FeeStepRow {
  std::int64_t fee = 0;  // position of the fee
  FeeStep step;
};
template <>
struct Row<FeeStepRow> {
  static constexpr std::string_view table = "quote_fee_step";
  static constexpr std::string_view columns = "fee, from_sum, share_num, share_den";
  static void fields(auto const& io, auto& s) { io(s.fee, s.step.from, s.step.share); }
};

template <>
struct Row<Walk> {  // none or one
  static constexpr std::string_view table = "quote_walk";
  static constexpr std::string_view columns =
      "ticket, discount, goods_shown, carriage_shown, tax, cash_rounding, paid, goods, all_fees, payout, "
      "exchange_cost, received, tax_due, carriage, yours, returns, cost, money_left, price";
  static void fields(auto const& io, auto& w) {
    io(w.ticket, w.discount, w.goods_shown, w.carriage_shown, w.tax, w.cash_rounding, w.paid, w.goods,
       w.all_fees, w.payout, w.exchange_cost, w.received, w.tax_due, w.carriage, w.yours, w.returns, w.cost,
       w.left, w.price);
  }
};

struct FeeTaken {
  Money amount;
};
template <>
struct Row<FeeTaken> {
  static constexpr std::string_view table = "quote_fee_taken";
  static constexpr std::string_view columns = "amount";
  static void fields(auto const& io, auto& f) { io(f.amount); }
};

struct TaxOfLineRow {
  std::string component;  // empty: carriage
  std::string name;
  Ratio rate;
};
template <>
struct Row<TaxOfLineRow> {
  static constexpr std::string_view table = "quote_tax_of_line";
  static constexpr std::string_view columns = "component, name, rate_num, rate_den";
  static void fields(auto const& io, auto& t) { io(t.component, t.name, t.rate); }
};

template <>
struct Row<Discount> {  // none or one
  static constexpr std::string_view table = "quote_discount";
  static constexpr std::string_view columns = "share_num, share_den, reason";
  static void fields(auto const& io, auto& d) { io(d.share, d.reason); }
};

template <>
struct Row<OptionPrice> {
  static constexpr std::string_view table = "quote_option";
  static constexpr std::string_view columns =
      "words, either, shown, cost, money_left, seconds_num, seconds_den";
  static void fields(auto const& io, auto& o) { io(o.words, o.either, o.shown, o.cost, o.left, o.seconds); }
};

template <>
struct Row<MadeToOrder> {  // none or one
  static constexpr std::string_view table = "quote_made_to";
  static constexpr std::string_view columns = "made_to, because";
  static void fields(auto const& io, auto& m) { io(m.what, m.because); }
};

template <>
struct Row<SentBy> {  // none or one
  static constexpr std::string_view table = "quote_parcel";
  static constexpr std::string_view columns =
      "version, service, country, mass_mg, volumetric_mg, counted_mg, price, insurance, insured";
  static void fields(auto const& io, auto& s) {
    io(s.version, s.service, s.country, s.mass, s.volumetric, s.counted, s.price, s.insurance, s.insured);
  }
};

}  // namespace endband::db
