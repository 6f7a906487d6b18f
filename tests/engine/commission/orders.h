// The plain book of the fixtures as a commission: every material at a price, every step with times.
#pragma once

#include "quotes.h"
#include "tests/fixtures/sample_spec.h"

namespace endband::testing {

// A pack of one: square metre, metre, kilogram, litre, piece, sheet or leaf.
inline PackPrice pack_of_one(Material const& material, std::int64_t minor) {
  static constexpr std::int64_t metre = 1'000'000;
  PackPrice price;
  price.version = 100 + material.id.value;
  price.pack.dimension = dimension_of(material.sold_by);
  price.pack.n = price.pack.dimension == Dimension::area    ? metre * metre
                 : price.pack.dimension == Dimension::count ? 1000
                                                            : metre;
  price.price = price.said = eur(minor);
  price.carriage = eur(0);
  return price;
}

inline StepLibrary all_steps() {
  StepLibrary library;
  for (OperationRow const& row : operation_table()) {
    Step step;
    step.version = 1;
    step.kind = row.kind;
    step.set_up = {{60}, {120}, {240}};
    step.each = {{30}, {47}, {95}};
    if (row.kind != OperationKind::extra_work) library.steps.push_back(step);
  }
  return library;
}

inline Commission an_order(int copies) {
  Commission of;
  of.catalogue = fixtures::sample_catalogue();
  of.catalogue.on = read_date("2026-11-25").value();
  for (Material& material : of.catalogue.materials) material.price = pack_of_one(material, 2'345);
  of.book = fixtures::sample_spec(of.catalogue);
  of.book.copies = copies;
  of.steps = all_steps();
  of.shop = {.currency = euro(),
             .basis = {eur(26'400'00), eur(5'280'00), eur(8'240'00), {1'200 * seconds_an_hour}},
             .contingency = {4, 100},
             .least_charge = eur(0),
             .least_hourly = eur(15'00)};
  of.selling = {.points = {1, 0}, .tax = {TaxMode::included, {19, 100}, "VAT"}, .deposit = {{40, 100}, 1}};
  of.goal = MarginGoal{{18, 100}};
  of.delivery = {eur(6'20), "post"};
  return of;
}

}  // namespace endband::testing
