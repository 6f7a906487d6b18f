// One frozen quote made by hand: a line of each way of charging, work, outside work of both sorts, tax
// included. Its cost sheet and offer are the engine's own, so that it replays.
#pragma once

#include "engine/commission/commission.h"

#include <utility>

namespace endband::testing {

inline constexpr std::int64_t seconds_an_hour = 3600;
inline Currency euro() { return read_currency("EUR").value(); }
inline Money eur(std::int64_t minor) { return {minor, euro()}; }
inline Amount pieces(std::int64_t thousandths) { return {Dimension::count, thousandths}; }

// net 3, spoil 0.5, cutting loss 0.25, kept 1, remainder 0.25: 5 opened.
inline BillLine bill_line(std::int64_t id, Charging charging, Part part) {
  BillLine line;
  line.material = {id};
  line.material_version = 10 + id;
  line.price_version = 20 + id;
  line.net = pieces(3000);
  line.spoil = pieces(500);
  line.cutting_loss = pieces(250);
  line.kept = pieces(1000);
  line.pack_remainder = pieces(250);
  line.opened = pieces(5000);
  line.units_opened = 5;
  line.uses = {{Item::cover_leather, part, pieces(2000)}, {Item::strap, Part::strap, pieces(1000)}};
  line.charging = charging;
  line.kept_worth = {1, 2};
  line.charged = charging == Charging::as_used ? pieces(3750)
                 : charging == Charging::whole ? pieces(5000)
                                               : pieces(4500);
  line.unit = {1'237, pieces(1000), euro()};
  return line;
}

inline WorkLine work_line(OperationKind kind, std::int64_t seconds, Part part) {
  WorkLine line;
  line.kind = kind;
  line.part = part;
  line.step_version = 30;
  line.count = {1000};
  line.mean_seconds = line.low_seconds = line.high_seconds = Ratio(seconds);
  return line;
}

inline Material material(std::int64_t id, std::string code, std::string buyer_words) {
  Material row;
  row.id = {id};
  row.version = 10 + id;
  row.code = std::move(code);
  row.name = "the binder's name of " + row.code;
  row.buyer_words = std::move(buyer_words);
  return row;
}

// Priced as a whole.
inline Outside outside(std::string words, Money price, bool at_cost) {
  Outside work;
  work.words = std::move(words);
  work.price = work.each = price;
  work.at_cost = at_cost;
  work.least_charge = work.carriage = eur(0);
  return work;
}

inline FrozenQuote quote_without_results() {
  FrozenQuote quote;
  quote.on = read_date("2026-11-25").value();
  quote.title = "The Book of Salt";
  quote.binding = "raised-cords";
  quote.description = "endband = 1";
  quote.model_name = "raised-cords";
  quote.figures = {{FigureId::pages, 300'000'000, Origin::computed},
                   {FigureId::sections, 24'000'000, Origin::computed},
                   {FigureId::bands, 4'000'000, Origin::said},
                   {FigureId::registers, 1'000'000, Origin::model},
                   {FigureId::closed_height, 258'000'400, Origin::computed},
                   {FigureId::closed_width, 186'000'500, Origin::computed},
                   {FigureId::closed_thickness, 47'123'499, Origin::computed}};
  quote.choices = {{Role::leather, {1}, Origin::said}, {Role::thread, {2}, Origin::workshop}};
  quote.materials = {material(1, "goat-green", "green goatskin"), material(2, "linen-18-3", "")};
  quote.bill.lines = {bill_line(1, Charging::as_used, Part::cover),
                      bill_line(2, Charging::whole_less_offcuts, Part::boards),
                      bill_line(3, Charging::whole, Part::text_block)};
  quote.bill.lines[0].ruin_chance = {3, 100};
  quote.work.lines = {work_line(OperationKind::pare_edges, 5'400, Part::cover),
                      work_line(OperationKind::sew_sections, 9'000, Part::sewing)};
  quote.outside = {outside("a die", eur(85'00), true), outside("edge gilding", eur(40'00), false)};
  quote.shop = {.currency = euro(),
                .basis = {eur(26'400'00), eur(5'280'00), eur(8'240'00), {1'200 * seconds_an_hour}},
                .contingency = {4, 100},
                .least_charge = eur(100'00),
                .least_hourly = eur(15'00)};
  quote.selling = {
      .points = {500, 100}, .tax = {TaxMode::included, {19, 100}, "VAT"}, .deposit = {{40, 100}, 1000}};
  quote.goal = MarginGoal{{30, 100}};
  quote.delivery = {eur(12'50), "insured post"};
  return quote;
}

inline FrozenQuote quote() {
  FrozenQuote made = quote_without_results();
  made.sheet = cost(made.bill, made.work, made.outside, made.shop);
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  return made;
}

}  // namespace endband::testing
