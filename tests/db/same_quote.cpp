#include "tests/db/same_quote.h"

#include <tuple>

namespace endband::db::test {
namespace {

// Every field of a row as one comparable value.
auto fields(FrozenFigure const& f) { return std::tuple(f.id, f.value_e6, f.origin); }
auto fields(FrozenChoice const& c) { return std::tuple(c.role, c.material, c.origin); }
auto fields(Piece const& p) {
  return std::tuple(p.item, p.part, p.material, p.count, p.height, p.width, p.grain, p.skin_group, p.lay.lie,
                    p.lay.within_deg, p.grade, p.outline, p.trim_height, p.trim_width, p.volume, p.copies);
}
auto fields(Warning const& w) { return std::tuple(w.code, w.is, w.least, w.most, w.material); }
auto fields(Use const& u) { return std::tuple(u.item, u.part, u.net.dimension, u.net.n); }
auto fields(CostLine const& c) { return std::tuple(c.kind, c.part, c.source, c.at_cost, c.amount.minor); }
auto fields(Money const& m) { return std::tuple(m.minor, m.currency.code()); }
auto fields(OfferLine const& l) { return std::tuple(l.component, fields(l.net), fields(l.shown)); }
auto fields(Rung const& r) { return std::tuple(fields(r.price), fields(r.left), fields(r.hourly)); }
auto fields(Ratio const& r) { return std::tuple(r.num(), r.den()); }
auto fields(Amount const& a) { return std::tuple(a.dimension, a.n); }
auto fields(Outside const& o) {
  return std::tuple(o.words, fields(o.price), o.at_cost, fields(o.redo), o.kind, o.by, o.supplier,
                    fields(o.each), fields(o.quantity), fields(o.least_charge), fields(o.carriage), o.lead);
}
auto fields(VolumeMade const& v) {
  return std::tuple(v.title, v.height, v.width, v.thickness, v.pages, v.sections, v.mass);
}
auto fields(CopyPrice const& c) {
  return std::tuple(c.copies, fields(c.shown), fields(c.cost), fields(c.seconds));
}
auto fields(InCustody const& c) {
  return std::tuple(c.what, c.condition, c.declared ? c.declared->minor : -1);
}
auto fields(RepairRange const& r) {
  return std::tuple(fields(r.ceiling_share), fields(r.low), fields(r.likely), fields(r.high),
                    fields(r.ceiling));
}
auto fields(WorkLine const& w) {
  return std::tuple(w.kind, w.part, w.step_version, w.count, fields(w.mean_seconds), fields(w.low_seconds),
                    fields(w.high_seconds), w.wait_low, w.wait_high, w.words, w.rate ? w.rate->minor : -1);
}
auto fields(BillLine const& l) {
  return std::tuple(l.material, l.material_version, l.price_version, l.how, fields(l.net), fields(l.spoil),
                    fields(l.cutting_loss), fields(l.kept), fields(l.pack_remainder), fields(l.opened),
                    fields(l.charged), l.units_opened, l.customer_supplied, l.charging, l.unit.minor,
                    fields(l.unit.pack), l.unit.currency.code(), fields(l.kept_worth), fields(l.ruin_chance));
}
auto fields(PackPrice const& p) {
  return std::tuple(p.version, p.valid_from, fields(p.pack), fields(p.price), fields(p.said), fields(p.rate),
                    fields(p.carriage), fields(p.duty), fields(p.purchase_tax), p.supplier);
}
auto fields(Material const& m) {
  Properties const& p = m.properties;
  return std::tuple(
      std::tuple(m.id, m.version, m.code, m.name, m.buyer_words, m.kind, m.sold_by, m.flags.restricted,
                 m.flags.not_for_copper_alloys, m.flags.tarnishes, fields(m.spoil), fields(m.least_spoil),
                 fields(m.ruin_chance), m.charging, fields(m.kept_worth)),
      std::tuple(p.caliper, p.grammage_mg, p.density_kg_m3, p.sheet.has_value(), p.leaf_side,
                 p.usable_height));
}

class Difference {
 public:
  template <class T>
  void one(char const* name, T const& a, T const& b) {
    if (found.empty() && !(a == b)) found = name;
  }
  template <class T>
  void list(char const* name, std::vector<T> const& a, std::vector<T> const& b) {
    one(name, a.size(), b.size());
    for (std::size_t i = 0; found.empty() && i < a.size(); ++i)
      if (!(fields(a[i]) == fields(b[i]))) found = std::string(name) + "[" + std::to_string(i) + "]";
  }
  std::string found;
};

void compare_rules(Difference& d, FrozenQuote const& a, FrozenQuote const& b) {
  d.one("shop.currency", a.shop.currency, b.shop.currency);
  d.one("basis.pay_wanted", a.shop.basis.pay_wanted, b.shop.basis.pay_wanted);
  d.one("basis.charges_on_pay", a.shop.basis.charges_on_pay, b.shop.basis.charges_on_pay);
  d.one("basis.overhead", a.shop.basis.overhead, b.shop.basis.overhead);
  d.one("basis.hours_charged", a.shop.basis.hours_charged, b.shop.basis.hours_charged);
  d.one("shop.contingency", a.shop.contingency, b.shop.contingency);
  d.one("shop.least_charge", a.shop.least_charge, b.shop.least_charge);
  d.one("shop.least_hourly", a.shop.least_hourly, b.shop.least_hourly);
  d.one("shop.simulated_contingency", a.shop.simulated_contingency, b.shop.simulated_contingency);
  d.one("shop.overtime_seconds", a.shop.overtime_seconds, b.shop.overtime_seconds);
  d.one("shop.overtime_share", a.shop.overtime_share, b.shop.overtime_share);
  d.one("points.step", a.selling.points.step, b.selling.points.step);
  d.one("points.below", a.selling.points.below, b.selling.points.below);
  d.one("tax.mode", a.selling.tax.mode, b.selling.tax.mode);
  d.one("tax.rate", a.selling.tax.rate, b.selling.tax.rate);
  d.one("tax.name", a.selling.tax.name, b.selling.tax.name);
  d.one("deposit.share", a.selling.deposit.share, b.selling.deposit.share);
  d.one("deposit.step", a.selling.deposit.step, b.selling.deposit.step);
  d.one("goal", a.goal.index(), b.goal.index());
  struct Wanted {
    Ratio operator()(MarginGoal const& goal) const { return goal.margin; }
    Ratio operator()(MarkupGoal const& goal) const { return goal.markup; }
    Ratio operator()(ProfitGoal const& goal) const { return goal.left.minor; }
    Ratio operator()(HourlyGoal const& goal) const { return goal.an_hour.minor; }
    Ratio operator()(LeaveGoal const& goal) const { return goal.yours.minor; }
  };
  d.one("what the goal wants", std::visit(Wanted{}, a.goal), std::visit(Wanted{}, b.goal));
  d.one("delivery.carriage", a.delivery.carriage, b.delivery.carriage);
  d.one("delivery.words", a.delivery.words, b.delivery.words);
}

void compare_sheet(Difference& d, CostSheet const& a, CostSheet const& b) {
  d.list("sheet.lines", a.lines, b.lines);
  d.list("sheet.part_shares", a.part_shares, b.part_shares);
  d.one("sheet.materials", a.materials, b.materials);
  d.one("sheet.labour", a.labour, b.labour);
  d.one("sheet.overhead", a.overhead, b.overhead);
  d.one("sheet.outside", a.outside, b.outside);
  d.one("sheet.allowances", a.allowances, b.allowances);
  d.one("sheet.earning", a.earning, b.earning);
  d.one("sheet.standing", a.standing, b.standing);
  d.one("sheet.total", a.total, b.total);
  d.one("sheet.outlay", a.outlay, b.outlay);
  d.one("sheet.seconds", a.seconds, b.seconds);
}

void compare_offer(Difference& d, Offer const& a, Offer const& b) {
  d.one("ladder.cash_floor", fields(a.ladder.cash_floor), fields(b.ladder.cash_floor));
  d.one("ladder.walk_away", fields(a.ladder.walk_away), fields(b.ladder.walk_away));
  d.one("ladder.full_cost", fields(a.ladder.full_cost), fields(b.ladder.full_cost));
  d.one("ladder.target", fields(a.ladder.target), fields(b.ladder.target));
  d.one("ladder.asked", fields(a.ladder.asked), fields(b.ladder.asked));
  d.list("offer.lines", a.lines, b.lines);
  d.one("offer.goods", a.goods, b.goods);
  d.one("offer.goods_shown", a.goods_shown, b.goods_shown);
  d.one("offer.carriage", a.carriage, b.carriage);
  d.one("offer.carriage_shown", a.carriage_shown, b.carriage_shown);
  d.one("offer.tax", a.tax, b.tax);
  d.one("offer.total", a.total, b.total);
  d.one("offer.deposit", a.deposit, b.deposit);
  d.one("offer.balance", a.balance, b.balance);
  d.one("offer.left", a.left, b.left);
  d.one("offer.margin", a.margin, b.margin);
}

void compare_order(Difference& d, FrozenQuote const& a, FrozenQuote const& b) {
  d.one("ways", a.ways, b.ways);
  d.one("copies", a.copies, b.copies);
  d.one("set_shares", a.set_shares, b.set_shares);
  d.list("volumes", a.volumes, b.volumes);
  d.list("copy_prices", a.copy_prices, b.copy_prices);
  d.list("custody", a.custody, b.custody);
  d.one("promise", a.promise, b.promise);
  d.one("simulated", a.simulated.has_value(), b.simulated.has_value());
  if (d.found.empty() && a.simulated) {
    d.one("simulated.runs", a.simulated->runs, b.simulated->runs);
    d.one("simulated.seed", a.simulated->seed, b.simulated->seed);
    d.one("simulated.confidence", a.simulated->confidence, b.simulated->confidence);
  }
  d.one("repairs", a.repairs.has_value(), b.repairs.has_value());
  if (d.found.empty() && a.repairs) d.one("repairs", fields(*a.repairs), fields(*b.repairs));
}

void compare_selling(Difference& d, FrozenQuote const& a, FrozenQuote const& b) {
  d.one("pieces", a.selling.pieces, b.selling.pieces);
  d.one("outlet", a.selling.outlet.has_value(), b.selling.outlet.has_value());
  d.one("outlet_version", a.outlet_version, b.outlet_version);
  if (d.found.empty() && a.selling.outlet) {
    Outlet const& x = *a.selling.outlet;
    Outlet const& y = *b.selling.outlet;
    d.one("outlet's terms",
          std::tie(x.code, x.name, x.kind, x.currency, x.discount, x.tax_mode, x.tax_rate, x.collects_tax,
                   x.cash_step, x.points, x.paid_after_days, x.days_to_sell, x.returns),
          std::tie(y.code, y.name, y.kind, y.currency, y.discount, y.tax_mode, y.tax_rate, y.collects_tax,
                   y.cash_step, y.points, y.paid_after_days, y.days_to_sell, y.returns));
    d.one("fees", x.fees.size(), y.fees.size());
    for (std::size_t i = 0; d.found.empty() && i < x.fees.size(); ++i) {
      Fee const& f = x.fees[i];
      Fee const& g = y.fees[i];
      d.one("fee",
            std::tie(f.name, f.base, f.per, f.on_whole, f.fixed, f.least, f.most, f.every_days, f.payment,
                     f.kept),
            std::tie(g.name, g.base, g.per, g.on_whole, g.fixed, g.least, g.most, g.every_days, g.payment,
                     g.kept));
      d.one("steps", f.steps.size(), g.steps.size());
      for (std::size_t j = 0; d.found.empty() && j < f.steps.size(); ++j)
        d.one("step", std::tie(f.steps[j].from, f.steps[j].share),
              std::tie(g.steps[j].from, g.steps[j].share));
    }
  }
  if (a.selling.outlet || a.selling.discount) d.one("walk", a.offer.walk == b.offer.walk, true);
  d.one("discount", a.selling.discount.has_value(), b.selling.discount.has_value());
  if (d.found.empty() && a.selling.discount)
    d.one("discount", std::tie(a.selling.discount->share, a.selling.discount->reason),
          std::tie(b.selling.discount->share, b.selling.discount->reason));
  d.one("own taxes", a.selling.tax.own.size(), b.selling.tax.own.size());
  for (std::size_t i = 0; d.found.empty() && i < a.selling.tax.own.size(); ++i) {
    TaxOfLine const& x = a.selling.tax.own[i];
    TaxOfLine const& y = b.selling.tax.own[i];
    d.one("own tax", std::tie(x.component, x.name, x.rate), std::tie(y.component, y.name, y.rate));
  }
  d.one("first hours", a.selling.deposit.first_hours.minor, b.selling.deposit.first_hours.minor);
  d.one("options", a.options == b.options, true);
  d.one("made to", a.made_to == b.made_to, true);
  d.one("sent by", a.sent_by == b.sent_by, true);
}

}  // namespace

std::string first_difference(FrozenQuote const& a, FrozenQuote const& b) {
  Difference d;
  d.one("rules", a.rules, b.rules);
  d.one("on", a.on, b.on);
  d.one("title", a.title, b.title);
  d.one("binding", a.binding, b.binding);
  d.one("description", a.description, b.description);
  d.one("model_name", a.model_name, b.model_name);
  d.one("mass_mg", a.mass_mg, b.mass_mg);
  d.list("figures", a.figures, b.figures);
  d.list("choices", a.choices, b.choices);
  d.list("pieces", a.pieces, b.pieces);
  d.list("warnings", a.warnings, b.warnings);
  d.list("materials", a.materials, b.materials);
  for (std::size_t i = 0; d.found.empty() && i < a.materials.size(); ++i) {
    d.one("material's price", a.materials[i].price.has_value(), b.materials[i].price.has_value());
    if (d.found.empty() && a.materials[i].price)
      d.one("material's price", fields(*a.materials[i].price), fields(*b.materials[i].price));
  }
  d.list("bill.lines", a.bill.lines, b.bill.lines);
  for (std::size_t i = 0; d.found.empty() && i < a.bill.lines.size(); ++i)
    d.list("bill line's uses", a.bill.lines[i].uses, b.bill.lines[i].uses);
  d.list("work.lines", a.work.lines, b.work.lines);
  d.list("outside", a.outside, b.outside);
  compare_rules(d, a, b);
  compare_sheet(d, a.sheet, b.sheet);
  compare_offer(d, a.offer, b.offer);
  compare_order(d, a, b);
  compare_selling(d, a, b);
  return d.found;
}

}  // namespace endband::db::test
