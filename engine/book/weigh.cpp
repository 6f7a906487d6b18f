// The masses that no rule gives: what was cut, run, spread and counted, each by the catalogue.
#include "engine/book/making.h"

#include <numbers>

namespace endband {
namespace {

double as_double(std::int64_t n) { return static_cast<double>(n); }
double as_double(Ratio ratio) { return as_double(ratio.num()) / as_double(ratio.den()); }

// Paper, boards and the cover have rules of their own.
bool weighed_by_rule(Item item) {
  return item == Item::text_sheets || item == Item::endpaper_sheets || item == Item::boards ||
         item == Item::cover_leather;
}
bool is_fitting(Item item) {
  return item == Item::corners || item == Item::clasps || item == Item::rivets || item == Item::strap ||
         item == Item::buckle || item == Item::stone;
}
bool in_the_book(Part part) { return part != Part::packing && part != Part::extras; }

// g for a mm2 of a sheet or a skin; 0 when the catalogue says nothing.
double areal_density(Material const& of) {
  Properties const& has = of.properties;
  if (has.grammage_mg) return as_double(*has.grammage_mg) * 1e-9;
  if (has.density_kg_m3 && has.caliper)
    return as_double(*has.density_kg_m3) * as_double(has.caliper->n) * 1e-12;
  return 0;
}

// g for a mm of thread, cord or ribbon.
double linear_density(Material const& of) {
  Properties const& has = of.properties;
  if (has.thread) return as_double(tex(*has.thread)) * 1e-6;
  if (has.width && has.grammage_mg) return as_double(has.width->n) * as_double(*has.grammage_mg) * 1e-12;
  if (has.density_kg_m3 && has.caliper) {
    double const diameter = as_double(has.caliper->n) * 1e-6;
    return std::numbers::pi / 4 * diameter * diameter * as_double(*has.density_kg_m3) * 1e-6;
  }
  return 0;
}

// g for a mm2 of one coat on one face, dry. What names no solids dries away.
double dry_spread(Material const& of) {
  Properties const& has = of.properties;
  if (!has.solids) return 0;
  double const solids = as_double(*has.solids);
  if (has.spread_mg_m2) return as_double(*has.spread_mg_m2) * solids * 1e-9;
  double const density = as_double(has.density_kg_m3.value_or(1000));  // as water
  return as_double(has.spread_ul_m2.value_or(0)) * density * solids * 1e-12;
}

double mass_of(Things const& things, Material const& of) {
  if (things.net.dimension == Dimension::mass) return as_double(things.net.n) / 1000;
  if (things.net.dimension != Dimension::count || !of.properties.piece_mass) return 0;
  return as_double(things.net.n) / 1000 * as_double(of.properties.piece_mass->n) / 1000;
}

}  // namespace

void weigh(Making& making) {
  double fittings = 0;
  double sundries = 0;
  auto const add = [&](Item item, double grams) { (is_fitting(item) ? fittings : sundries) += grams; };
  Structure const& book = making.book;
  for (Piece const& piece : book.pieces) {
    if (weighed_by_rule(piece.item)) continue;
    double const mm2 = as_double(piece.count) * as_double(piece.height.n) * as_double(piece.width.n) * 1e-6;
    add(piece.item, mm2 * areal_density(making.catalogue.at(piece.material)));
  }
  for (Run const& run : book.runs)
    add(run.item, as_double(run.count) * as_double(run.each.n) / 1000 *
                      linear_density(making.catalogue.at(run.material)));
  for (Spread const& spread : book.spreads)
    add(spread.item, as_double(spread.area.n) * 1e-6 * spread.coats * spread.faces *
                         dry_spread(making.catalogue.at(spread.material)));
  for (Things const& things : book.things)
    if (in_the_book(things.part)) add(things.item, mass_of(things, making.catalogue.at(things.material)));
  // Metal leaf is left out: a whole book of it weighs less than a third of a gram.
  if (!making.has(FigureId::fittings_mass))
    making.book.figures.set(FigureId::fittings_mass, fittings, Origin::catalogue);
  if (!making.has(FigureId::sundries_mass))
    making.book.figures.set(FigureId::sundries_mass, sundries, Origin::catalogue);
}

}  // namespace endband
