// The columns of a quote's parts. Each table but those of one row a quote has its rows' place in the list as
// `position`.
#pragma once

#include "db/rows.h"
#include "engine/commission/commission.h"

namespace endband::db {

// --- one row a quote: the row is a part of the quote itself

struct Header;  // what the quote is of; number and customer stand before it
template <>
struct Row<Header> {
  static constexpr std::string_view table = "quote";
  static constexpr std::string_view columns = "on_date, rules, title, binding, model, description, mass_mg";
  static void fields(auto const& io, auto& q) {
    io(q.on, q.rules, q.title, q.binding, q.model_name, q.description, q.mass_mg);
  }
};

struct Terms;  // the workshop's rules and the buyer's wishes that the offer follows from
template <>
struct Row<Terms> {
  static constexpr std::string_view table = "quote_terms";
  static constexpr std::string_view columns =
      "pay_wanted, charges_on_pay, overhead, hours_charged_s, contingency_num, contingency_den, "
      "least_charge, "
      "least_hourly, point_step, point_below, tax_mode, tax_rate_num, tax_rate_den, tax_name, "
      "deposit_share_num, "
      "deposit_share_den, deposit_step, goal, goal_num, goal_den, delivery_carriage, delivery_words";
  static void fields(auto const& io, auto& q) {
    auto& basis = q.shop.basis;
    auto& selling = q.selling;
    io(basis.pay_wanted, basis.charges_on_pay, basis.overhead, basis.hours_charged, q.shop.contingency,
       q.shop.least_charge, q.shop.least_hourly, selling.points.step, selling.points.below, selling.tax.mode,
       selling.tax.rate, selling.tax.name, selling.deposit.share, selling.deposit.step, q.goal,
       q.delivery.carriage, q.delivery.words);
  }
};

template <>
struct Row<CostSheet> {
  static constexpr std::string_view table = "quote_sheet";
  static constexpr std::string_view columns =
      "materials, labour, overhead, outside, allowances, earning, standing, total, outlay, seconds_num, "
      "seconds_den";
  static void fields(auto const& io, auto& s) {
    io(s.materials, s.labour, s.overhead, s.outside, s.allowances, s.earning, s.standing, s.total, s.outlay,
       s.seconds);
  }
};

template <>
struct Row<Offer> {
  static constexpr std::string_view table = "quote_offer";
  static constexpr std::string_view columns =
      "goods, goods_shown, carriage, carriage_shown, tax, total, deposit, balance, money_left, margin_num, "
      "margin_den";
  static void fields(auto const& io, auto& o) {
    io(o.goods, o.goods_shown, o.carriage, o.carriage_shown, o.tax, o.total, o.deposit, o.balance, o.left,
       o.margin);
  }
};

struct Order;  // how many are made, and what the covers of a set share
template <>
struct Row<Order> {
  static constexpr std::string_view table = "quote_order";
  static constexpr std::string_view columns = "copies, set_shares";
  static void fields(auto const& io, auto& q) { io(q.copies, q.set_shares); }
};

// The column that names the quote.
template <class T>
inline constexpr std::string_view quote_key = "quote";
template <>
inline constexpr std::string_view quote_key<Header> = "id";

// --- lists

template <>
struct Row<FrozenFigure> {
  static constexpr std::string_view table = "quote_figure";
  static constexpr std::string_view columns = "figure, value_e6, origin";
  static void fields(auto const& io, auto& f) { io(f.id, f.value_e6, f.origin); }
};

template <>
struct Row<FrozenChoice> {
  static constexpr std::string_view table = "quote_choice";
  static constexpr std::string_view columns = "role, material, origin";
  static void fields(auto const& io, auto& c) { io(c.role, c.material, c.origin); }
};

template <>
struct Row<Piece> {
  static constexpr std::string_view table = "quote_piece";
  static constexpr std::string_view columns =
      "item, part, material, count, height_um, width_um, grain, skin_group";
  static void fields(auto const& io, auto& p) {
    io(p.item, p.part, p.material, p.count, p.height, p.width, p.grain, p.skin_group);
  }
};

struct PieceDetail;  // beside the row of Piece, since engine rules 2
template <>
struct Row<PieceDetail> {
  static constexpr std::string_view table = "quote_piece_detail";
  static constexpr std::string_view columns =
      "lie, within_deg, grade, outline, trim_height_um, trim_width_um, volume, copies";
  static void fields(auto const& io, auto& p) {
    io(p.lay.lie, p.lay.within_deg, p.grade, p.outline, p.trim_height, p.trim_width, p.volume, p.copies);
  }
};

struct PlanDetail;  // beside the row of BillLine, since engine rules 3
template <>
struct Row<PlanDetail> {
  static constexpr std::string_view table = "quote_plan";
  static constexpr std::string_view columns = "cost, bound, guess";
  static void fields(auto const& io, auto& l) { io(l.plan_cost, l.plan_bound, l.plan_guess); }
};

struct HandDetail;  // beside the row of WorkLine, since engine rules 4
template <>
struct Row<HandDetail> {
  static constexpr std::string_view table = "quote_hand";
  static constexpr std::string_view columns = "rate";
  static void fields(auto const& io, auto& l) { io(l.rate); }
};

// Three that a quote has or has not, since engine rules 4.
template <>
struct Row<Promise> {
  static constexpr std::string_view table = "quote_promise";
  static constexpr std::string_view columns = "starts, asked_by, earliest, ready_50, ready_80, ready_95";
  static void fields(auto const& io, auto& p) {
    io(p.starts, p.asked_by, p.earliest, p.half, p.four_fifths, p.sure);
  }
};
struct RiskRow {
  SimulatedWith with;
  Money contingency;
};
template <>
struct Row<RiskRow> {
  static constexpr std::string_view table = "quote_risk";
  static constexpr std::string_view columns = "runs, seed, confidence_num, confidence_den, contingency";
  static void fields(auto const& io, auto& r) {
    io(r.with.runs, r.with.seed, r.with.confidence, r.contingency);
  }
};
struct OvertimeRow {
  Ratio seconds, share;
};
template <>
struct Row<OvertimeRow> {
  static constexpr std::string_view table = "quote_overtime";
  static constexpr std::string_view columns = "seconds_num, seconds_den, share_num, share_den";
  static void fields(auto const& io, auto& o) { io(o.seconds, o.share); }
};

struct WayWords {  // one of each axis
  std::string axis, way;
};
template <>
struct Row<WayWords> {
  static constexpr std::string_view table = "quote_way";
  static constexpr std::string_view columns = "axis, way";
  static void fields(auto const& io, auto& w) { io(w.axis, w.way); }
};

template <>
struct Row<VolumeMade> {
  static constexpr std::string_view table = "quote_volume";
  static constexpr std::string_view columns =
      "title, height_um, width_um, thickness_um, pages, sections, mass_mg";
  static void fields(auto const& io, auto& v) {
    io(v.title, v.height, v.width, v.thickness, v.pages, v.sections, v.mass);
  }
};

template <>
struct Row<CopyPrice> {
  static constexpr std::string_view table = "quote_copies";
  static constexpr std::string_view columns = "copies, shown, cost, seconds_num, seconds_den";
  static void fields(auto const& io, auto& c) { io(c.copies, c.shown, c.cost, c.seconds); }
};

template <>
struct Row<RepairRange> {
  static constexpr std::string_view table = "quote_repair";
  static constexpr std::string_view columns = "ceiling_num, ceiling_den, low, likely, high, ceiling";
  static void fields(auto const& io, auto& r) { io(r.ceiling_share, r.low, r.likely, r.high, r.ceiling); }
};

template <>
struct Row<InCustody> {
  static constexpr std::string_view table = "quote_custody";
  static constexpr std::string_view columns = "what, condition, declared";
  static void fields(auto const& io, auto& c) { io(c.what, c.condition, c.declared); }
};

template <>
struct Row<Warning> {
  static constexpr std::string_view table = "quote_warning";
  static constexpr std::string_view columns = "warning, is_e6, least_e6, most_e6, material";
  static void fields(auto const& io, auto& w) {
    io(w.code, Millionths{w.is}, Millionths{w.least}, Millionths{w.most}, ZeroIsNull{w.material.value});
  }
};

template <>
struct Row<BillLine> {  // its uses lie in a table of their own
  static constexpr std::string_view table = "quote_bill";
  static constexpr std::string_view columns =
      "material, material_version, price_version, how_found, dimension, net, spoil, cutting_loss, kept, "
      "pack_remainder, opened, charged, units_opened, customer_supplied, charging, unit_minor, "
      "unit_dimension, "
      "unit_pack, unit_currency, kept_worth_num, kept_worth_den, ruin_chance_num, ruin_chance_den";
  static void fields(auto const& io, auto& l) {
    io(l.material, l.material_version, ZeroIsNull{l.price_version}, l.how, l.net.dimension, l.net.n,
       l.spoil.n, l.cutting_loss.n, l.kept.n, l.pack_remainder.n, l.opened.n, l.charged.n, l.units_opened,
       l.customer_supplied, l.charging, l.unit.minor, l.unit.pack.dimension, l.unit.pack.n, l.unit.currency,
       l.kept_worth, l.ruin_chance);
  }
};

template <>
struct Row<Use> {
  static constexpr std::string_view table = "quote_use";
  static constexpr std::string_view columns = "item, part, dimension, net";
  static void fields(auto const& io, auto& u) { io(u.item, u.part, u.net.dimension, u.net.n); }
};

template <>
struct Row<WorkLine> {
  static constexpr std::string_view table = "quote_work";
  static constexpr std::string_view columns =
      "operation, part, step_version, count, mean_s_num, mean_s_den, low_s_num, low_s_den, high_s_num, "
      "high_s_den, "
      "wait_low_s, wait_high_s, words";
  static void fields(auto const& io, auto& w) {
    io(w.kind, w.part, ZeroIsNull{w.step_version}, w.count, w.mean_seconds, w.low_seconds, w.high_seconds,
       w.wait_low, w.wait_high, w.words);
  }
};

template <>
struct Row<Outside> {
  static constexpr std::string_view table = "quote_outside";
  static constexpr std::string_view columns = "words, price, at_cost";
  static void fields(auto const& io, auto& o) { io(o.words, o.price, o.at_cost); }
};

struct OutsideDetail;  // beside the row of Outside, since engine rules 2
template <>
struct Row<OutsideDetail> {
  static constexpr std::string_view table = "quote_outside_detail";
  static constexpr std::string_view columns =
      "kind, priced_by, supplier, each, dimension, quantity, least_charge, carriage, redo_num, redo_den, "
      "lead_s";
  static void fields(auto const& io, auto& o) {
    io(o.kind, o.by, o.supplier, o.each, o.quantity.dimension, o.quantity.n, o.least_charge, o.carriage,
       o.redo, o.lead);
  }
};

template <>
struct Row<CostLine> {
  static constexpr std::string_view table = "quote_cost";
  static constexpr std::string_view columns = "kind, part, source, at_cost, amount";
  static void fields(auto const& io, auto& c) { io(c.kind, c.part, c.source, c.at_cost, c.amount); }
};

template <>
struct Row<Money> {  // CostSheet::part_shares
  static constexpr std::string_view table = "quote_part_share";
  static constexpr std::string_view columns = "amount";
  static void fields(auto const& io, auto& money) { io(money); }
};

template <>
struct Row<Rung> {
  static constexpr std::string_view table = "quote_rung";
  static constexpr std::string_view columns = "price, money_left, hourly";
  static void fields(auto const& io, auto& r) { io(r.price, r.left, r.hourly); }
};

template <>
struct Row<OfferLine> {
  static constexpr std::string_view table = "quote_offer_line";
  static constexpr std::string_view columns = "component, net, shown";
  static void fields(auto const& io, auto& l) { io(l.component, l.net, l.shown); }
};

}  // namespace endband::db
