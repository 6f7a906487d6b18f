// Whole books priced, frozen and repriced: what the tests of a past quote at today's prices start from.
#pragma once

#include "engine/review/reprice.h"
#include "tests/engine/commission/orders.h"

#include <vector>

namespace endband::testing {

inline FrozenQuote quoted(Commission const& commission) {
  return freeze(commission, price(commission).value(), "", "");
}

inline std::vector<StepTimes> times_of(StepLibrary const& library) {
  std::vector<StepTimes> times;
  for (Step const& step : library.steps)
    times.push_back({step.version, mean_of(step.set_up), mean_of(step.each)});
  return times;
}

// Versions of their own, as in a workshop.
inline void number_steps(StepLibrary& library) {
  std::int64_t version = 100;
  for (Step& step : library.steps) step.version = ++version;
}

inline Commission a_book(bool with_everything = true, int copies = 1) {
  Commission of = an_order(copies);
  if (with_everything) {
    of.book = fixtures::sample_spec_with_everything(of.catalogue);
    of.book.copies = copies;
  }
  number_steps(of.steps);
  return of;
}

// What holds now is a commission's, whatever the quote was made with.
inline Today today_of(Commission const& now, StepLibrary const& quoted_with) {
  return {now.catalogue, now.steps, now.shop, times_of(quoted_with)};
}

inline Material& material_of(Commission& of, std::string_view code) {
  for (Material& material : of.catalogue.materials)
    if (material.code == code) return material;
  throw std::out_of_range("no such material");
}
inline Step& step_of(Commission& of, OperationKind kind) {
  for (Step& step : of.steps.steps)
    if (step.kind == kind) return step;
  throw std::out_of_range("no such step");
}

// Only what a price follows from: see repriced().
inline FrozenQuote light(FrozenQuote const& quote) {
  FrozenQuote of;
  of.bill = quote.bill;
  for (BillLine& line : of.bill.lines)
    if (line.ruin_chance == Ratio(0) && quote.selling.tax.own.empty()) line.uses.clear();
  of.work = quote.work;
  for (WorkLine& line : of.work.lines) line.words.clear();
  of.outside = quote.outside;
  of.shop = quote.shop;
  of.selling = quote.selling;
  of.goal = quote.goal;
  of.delivery = quote.delivery;
  of.sheet = quote.sheet;
  of.sheet.lines.clear();
  of.sheet.part_shares.clear();
  of.offer = quote.offer;
  of.offer.lines.clear();
  of.offer.ladder = {};
  bool const kept = quote.selling.outlet || quote.selling.discount;
  of.offer.walk = {};
  if (kept) {
    of.offer.walk.ticket = quote.offer.walk.ticket;
    of.offer.walk.price = quote.offer.walk.price;
  }
  return of;
}

}  // namespace endband::testing
