#include "tests/db/any_quote.h"

#include "db/outlets.h"
#include "engine/pricing/terms_text.h"
#include "tests/db/bench.h"

#include <array>

namespace endband::db::test {
namespace {

Ratio share(Draw& draw) { return Ratio(draw.to(99), 100 + draw.to(60)); }
Money money(Draw& draw, std::int64_t most) { return eur(draw.to(most)); }
MaterialId any_material(Draw& draw, Catalogue const& catalogue) {
  return catalogue.materials[static_cast<std::size_t>(draw.to(std::ssize(catalogue.materials) - 1))].id;
}

BillLine bill_line(Draw& draw, Material const& material) {
  BillLine line;
  line.material = material.id;
  line.material_version = material.version;
  line.how = draw.one_of(HowFound::as_said);
  line.charging = draw.one_of(Charging::whole);
  Dimension const dimension = dimension_of(material.sold_by);
  for (Amount* amount : {&line.net, &line.spoil, &line.cutting_loss, &line.kept, &line.pack_remainder})
    *amount = {dimension, draw.to(2'000'000)};
  line.opened = line.consumed() + line.kept + line.pack_remainder;
  line.kept_worth = share(draw);
  Amount const worth = {dimension, round_product(Ratio(line.kept.n), line.kept_worth, Rounding::down)};
  line.charged = line.charging == Charging::as_used ? line.consumed()
                 : line.charging == Charging::whole ? line.opened
                                                    : line.opened - worth;
  line.units_opened = draw.to(40);
  for (std::int64_t n = draw.to(3); n >= 0; --n)
    line.uses.push_back(
        {draw.one_of(Item::extra), draw.one_of(Part::repairs), {dimension, draw.to(1'000'000)}});
  line.ruin_chance = share(draw) * Ratio(1, 10);
  line.customer_supplied = draw.to(5) == 0;
  if (!line.customer_supplied) {
    line.price_version = material.price->version;
    line.unit = unit_cost(material, {});
  }
  return line;
}

WorkLine work_line(Draw& draw, std::vector<Step> const& steps) {
  WorkLine line{};
  line.part = draw.one_of(Part::repairs);
  line.count = Count{draw.to(90'000)};
  line.low_seconds = Ratio(draw.to(3600), 1 + draw.to(5));
  line.high_seconds = line.low_seconds + Ratio(draw.to(36'000));
  line.mean_seconds = (line.low_seconds * Ratio(5) + line.high_seconds) / Ratio(6);
  line.wait_low = Duration{draw.to(3600)};
  line.wait_high = line.wait_low + Duration{draw.to(86'400)};
  std::int64_t const step = draw.to(std::ssize(steps));
  if (step == std::ssize(steps)) {
    line.kind = OperationKind::extra_work;
    line.words = draw.words();
  } else {
    line.kind = steps[static_cast<std::size_t>(step)].kind;
    line.step_version = steps[static_cast<std::size_t>(step)].version;
  }
  return line;
}

Piece piece(Draw& draw, Catalogue const& catalogue) {
  Piece piece{};
  piece.item = draw.one_of(Item::extra);
  piece.part = draw.one_of(Part::repairs);
  piece.material = any_material(draw, catalogue);
  piece.count = 1 + draw.to(99);
  piece.height = Length{draw.to(900'000)};
  piece.width = Length{draw.to(900'000)};
  piece.grain = draw.one_of(Grain::along_width);
  piece.skin_group = static_cast<int>(draw.to(3));
  return piece;
}

void draw_detail(Draw& draw, Piece& piece) {
  piece.lay = {draw.one_of(Lie::backbone_along_width), static_cast<int>(draw.to(90))};
  piece.grade = draw.one_of(Grade::back);
  piece.outline = draw.one_of(Outline::two_corners);
  piece.trim_height = Length{draw.to(9000)};
  piece.trim_width = Length{draw.to(9000)};
  piece.volume = static_cast<int>(draw.to(4));
  piece.copies = 1 + static_cast<int>(draw.to(4));
}

void draw_detail(Draw& draw, Outside& outside) {
  outside.kind = draw.one_of(OutsideKind::other);
  outside.by = draw.one_of(OutsideBy::skin);
  outside.supplier = draw.words();
  outside.each = money(draw, 900);
  outside.quantity = {draw.coin() ? Dimension::count : Dimension::area, draw.to(90'000)};
  outside.least_charge = money(draw, 9000);
  outside.carriage = money(draw, 900);
  outside.redo = share(draw) * Ratio(9, 10);
  outside.lead = Duration{draw.to(900'000)};
  outside.price = price_of(outside);
}

Ways any_ways(Draw& draw) {
  Ways ways;
  for (std::size_t i = 0; i < way_count; ++i)
    if (auto const way = static_cast<Way>(i); draw.coin() && ways.only(way_row(way).axis).empty())
      ways = ways.with({way});
  return ways;
}

// What quotes keep since the rules of orders; what follows from the rest is made last, by `finish_order`.
void draw_order(Draw& draw, FrozenQuote& quote) {
  quote.ways = any_ways(draw);
  quote.copies = 1 + static_cast<int>(draw.to(9));
  quote.set_shares = draw.one_of(SetShares::skin);
  for (Piece& piece : quote.pieces) draw_detail(draw, piece);
  for (Outside& outside : quote.outside) draw_detail(draw, outside);
  for (std::int64_t n = draw.least + draw.to(2); n > 0; --n) {
    quote.volumes.push_back({draw.words(), Length{draw.to(900'000)}, Length{draw.to(900'000)},
                             Length{draw.to(90'000)}, draw.to(900), draw.to(90), Mass{draw.to(9'000'000)}});
    std::optional<Money> declared;
    if (draw.coin()) declared = money(draw, 90'000);
    quote.custody.push_back({draw.words(), draw.words(), declared});
  }
}

// What quotes keep since the rules of learning: rates of hands, the days named, what was simulated, overtime.
void draw_promise(Draw& draw, FrozenQuote& quote) {
  auto const has = [&] { return draw.least > 0 || draw.coin(); };
  for (WorkLine& line : quote.work.lines)
    if (draw.coin()) line.rate = money(draw, 9000);
  if (has()) {
    Promise promise;
    promise.starts = quote.on;
    Date day = quote.on;
    for (Date* each : {&promise.earliest, &promise.half, &promise.four_fifths, &promise.sure})
      *each = day += std::chrono::days(draw.to(20));
    if (draw.coin()) promise.asked_by = quote.on + std::chrono::days(draw.to(90));
    quote.promise = promise;
  }
  if (has()) {
    quote.simulated = SimulatedWith{1 + static_cast<int>(draw.to(9999)), 0, Ratio(4, 5)};
    quote.simulated->seed = draw.to(9999);
    quote.shop.simulated_contingency = money(draw, 90'000);
  }
  if (has()) {
    quote.shop.overtime_seconds = Ratio(1 + draw.to(90'000), 7);
    quote.shop.overtime_share = share(draw);
  }
}

Fee any_fee(Draw& draw, bool stepped) {
  Fee fee;
  fee.name = "fee " + draw.words();
  fee.base = draw.one_of(FeeBase::paid);
  fee.per = stepped ? FeePer::order : draw.one_of(FeePer::listing);
  fee.fixed = money(draw, 500);
  fee.payment = draw.coin();
  fee.kept = draw.coin();
  if (fee.per == FeePer::listing) {
    fee.every_days = static_cast<int>(draw.to(90));
    return fee;
  }
  Money from = eur(0);
  for (std::int64_t n = draw.least + draw.to(2); n > 0; --n) {
    fee.steps.push_back({from, Ratio(draw.to(20), 1000)});
    from += eur(1 + draw.to(90'000));
  }
  fee.on_whole = draw.coin();
  if (draw.coin()) fee.least = money(draw, 300);
  if (draw.coin()) fee.most = fee.least.value_or(eur(0)) + money(draw, 900);
  return fee;
}

Outlet any_outlet(Draw& draw) {
  Outlet outlet;
  outlet.code = "post";
  outlet.name = draw.words();
  outlet.kind = draw.one_of(OutletKind::trade);
  outlet.currency = euro();
  outlet.discount = Ratio(draw.to(40), 100);
  if (draw.coin()) outlet.tax_mode = draw.one_of(TaxMode::included);
  if (draw.coin()) outlet.tax_rate = Ratio(draw.to(25), 100);
  outlet.collects_tax = draw.coin();
  outlet.cash_step = draw.coin() ? 5 : 1;
  if (draw.coin()) outlet.points = {100, draw.to(99)};
  outlet.paid_after_days = static_cast<int>(draw.to(90));
  outlet.days_to_sell = static_cast<int>(draw.to(400));
  for (std::int64_t n = draw.least + draw.to(3); n > 0; --n)
    outlet.fees.push_back(any_fee(draw, draw.least > 0 && outlet.fees.empty()));
  ReturnTerms& back = outlet.returns;
  for (Ratio* each : {&back.change_of_mind, &back.loss_of_value, &back.fault, &back.lost, &back.unsold})
    *each = Ratio(draw.to(5), 100);
  back.handling = Duration{draw.to(3600)};
  back.mending = Duration{draw.to(9000)};
  back.excess = money(draw, 1000);
  back.insured = back.excess + money(draw, 50'000);
  back.carriage_back = money(draw, 1500);
  back.return_carriage = money(draw, 1500);
  return outlet;
}

// What quotes keep since the rules of selling. Fees leave something of every price, so that a sum can be met.
void draw_selling(Draw& draw, FrozenQuote& quote) {
  auto const has = [&] { return draw.least > 0 || draw.coin(); };
  quote.selling.pieces = 1 + draw.to(5);
  quote.selling.deposit.first_hours = money(draw, 9000);
  if (has()) {
    quote.selling.outlet = any_outlet(draw);
    quote.outlet_version = 1;
    quote.goal = draw.coin() ? Goal(ProfitGoal{money(draw, 90'000)}) : Goal(LeaveGoal{money(draw, 90'000)});
  }
  if (has()) quote.selling.discount = Discount{Ratio(draw.to(100), 100), "a reason: " + draw.words()};
  if (has()) {
    quote.selling.tax.own.push_back({std::nullopt, draw.words(), Ratio(draw.to(30), 100)});
    quote.selling.tax.own.push_back({Component::box, draw.words(), Ratio(draw.to(30), 100)});
  }
  if (has()) quote.made_to = MadeToOrder{draw.one_of(MadeTo::business), draw.words()};
  if (has())
    quote.options.push_back({"with " + draw.words(), "box", money(draw, 9000), eur(0) - money(draw, 9000),
                             money(draw, 9000), Ratio(draw.to(9000), 7)});
  if (has()) {
    Mass const mass{1 + draw.to(9'000'000)};
    quote.sent_by = SentBy{"wend",
                           1,
                           "AT",
                           mass,
                           Mass{draw.to(9000)},
                           mass + Mass{9000},
                           money(draw, 900),
                           money(draw, 900),
                           money(draw, 90'000)};
  }
}

void finish_order(Draw& draw, FrozenQuote& quote) {
  quote.copy_prices = {{quote.copies, quote.offer.goods_shown, quote.sheet.total, quote.sheet.seconds},
                       {quote.copies + 1, quote.offer.goods_shown + money(draw, 90'000),
                        quote.sheet.total + money(draw, 90'000), quote.sheet.seconds}};
  RepairTerms const terms{quote.bill,     quote.work,    quote.outside, quote.shop,
                          quote.delivery, quote.selling, quote.goal};
  quote.repairs = repair_range(terms, quote.offer, share(draw)).value();
}

// As such a quote is read: one book in its binding's usual ways, outside work paid as a whole.
void complete_older(FrozenQuote& quote) {
  quote.ways = style_named(quote.binding)->usual;
  for (Outside& outside : quote.outside) {
    outside.each = outside.price;
    outside.least_charge = outside.carriage = eur(0);
  }
}

void draw_rules(Draw& draw, FrozenQuote& quote) {
  quote.shop = {
      euro(),
      {money(draw, 4'000'000), money(draw, 900'000), money(draw, 900'000), {3600 * (1 + draw.to(1500))}},
      share(draw) * Ratio(1, 2),
      money(draw, 30'000),
      money(draw, 3000)};
  quote.selling.points.step = 1 + draw.to(1000);
  quote.selling.points.below = draw.to(quote.selling.points.step - 1);
  quote.selling.tax = {draw.one_of(TaxMode::included), share(draw), draw.words()};
  quote.selling.deposit = {share(draw), 1 + draw.to(500)};
  quote.goal =
      draw.coin() ? Goal(MarginGoal{share(draw) * Ratio(9, 10)}) : Goal(MarkupGoal{Ratio(draw.to(300), 100)});
  quote.delivery = {money(draw, 2000), draw.words()};
}

void draw_book(Draw& draw, Catalogue const& catalogue, FrozenQuote& quote) {
  for (std::size_t i = 0; i < figure_count; ++i)
    if (draw.coin())
      quote.figures.push_back(
          {static_cast<FigureId>(i), draw.to(4'000'000'000) - 1'000'000, draw.one_of(Origin::none)});
  for (std::size_t i = 0; i < role_count; ++i)
    if (draw.coin())
      quote.choices.push_back(
          {static_cast<Role>(i), any_material(draw, catalogue), draw.one_of(Origin::none)});
  for (std::int64_t n = draw.least + draw.to(6); n > 0; --n) quote.pieces.push_back(piece(draw, catalogue));
  auto const millionths = [&] { return static_cast<double>(draw.to(9'000'000'000)) / 1e6; };
  for (std::int64_t n = draw.least + draw.to(4); n > 0; --n)
    quote.warnings.push_back({draw.one_of(WarningCode::customer_piece_cannot_be_replaced), millionths(),
                              millionths(), millionths(),
                              draw.coin() ? any_material(draw, catalogue) : MaterialId{}});
}

}  // namespace

std::uint64_t Draw::next() {
  std::uint64_t z = state_ += 0x9e3779b97f4a7c15u;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

std::string Draw::words() {
  static constexpr std::array samples{"",
                                      "plain words",
                                      "O'Brien & \"Søn\" <script>",
                                      "emoji 🦦📚",
                                      "line\nbreak\ttab",
                                      "x'); DROP TABLE quote; --"};
  return to(6) == 0 ? std::string(200, 'w') : samples.at(static_cast<std::size_t>(to(5)));
}

void stock_workshop(Workshop& workshop) {
  Writing writing(workshop, info());
  (void)add_customer(writing, {0, "otter-stage", "Otter Stage", "", "", "", "", day("2026-01-01")}).value();
  for (std::string const code : {"laid-120", "laid-150", "end-grey", "wove-90", "rag-95"}) {
    (void)add_material(writing, paper(code), day("2026-01-01")).value();
    std::int64_t const cents = 3000 + 100 * static_cast<std::int64_t>(code.size());
    (void)add_price(writing, code, pack_of_sheets(50, cents, "2026-01-01")).value();
  }
  for (OperationKind kind : {OperationKind::sew_sections, OperationKind::cover_book})
    set_step(writing, {0, kind, {{60}, {120}, {300}}, {{60}, {120}, {300}}, {0}, {0}, "", {}, {}, {}},
             day("2026-01-01"));
  set_text(writing, TextOf::outlet, "post", outlet_example(), day("2026-01-01"));
  set_text(writing, TextOf::carriage, "wend", carriage_example(), day("2026-01-01"));
  writing.commit();
}

FrozenQuote any_quote(Workshop& workshop, std::uint64_t seed) {
  Draw draw(seed);
  Catalogue const catalogue =
      load_catalogue(workshop, material_codes(workshop), day("2026-11-25"), {}).value();
  std::vector<Step> const steps = load_steps(workshop, day("2026-11-25")).steps;
  FrozenQuote quote;
  // Of an odd seed it keeps all that any quote keeps.
  quote.rules = draw.least > 0 ? first_rules_of_selling + static_cast<int>(draw.to(3))
                               : 1 + static_cast<int>(draw.to(7));
  quote.on = day("2026-01-01") + std::chrono::days(draw.to(700));
  quote.title = draw.words();
  quote.binding = "raised-cords";
  quote.description = "endband = 1\n" + draw.words();
  quote.model_name = draw.words();
  quote.mass_mg = draw.to(4'000'000);
  draw_book(draw, catalogue, quote);
  draw_rules(draw, quote);
  for (Material const& material : catalogue.materials) {
    if (draw.least == 0 && draw.to(3) == 0) continue;
    quote.materials.push_back(material);
    quote.bill.lines.push_back(bill_line(draw, material));
  }
  for (std::int64_t n = draw.least + draw.to(8); n > 0; --n)
    quote.work.lines.push_back(work_line(draw, steps));
  if (draw.least > 0) quote.work.lines.front().part = Part::repairs;
  for (std::int64_t n = draw.least + draw.to(2); n > 0; --n)
    quote.outside.push_back({draw.words(), money(draw, 9000), draw.coin()});
  bool const orders = quote.rules >= first_rules_of_orders;
  if (orders)
    draw_order(draw, quote);
  else
    complete_older(quote);
  if (quote.rules >= first_rules_of_learning) draw_promise(draw, quote);
  if (quote.rules >= first_rules_of_selling) draw_selling(draw, quote);
  quote.sheet = cost(quote.bill, quote.work, quote.outside, quote.shop);
  quote.offer = offer(quote.sheet, quote.delivery, quote.selling, quote.goal, quote.shop).value();
  if (orders) finish_order(draw, quote);
  return quote;
}

}  // namespace endband::db::test
