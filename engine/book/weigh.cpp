// The masses that no rule gives: what was cut, run, spread and counted, each by the catalogue.
#include "engine/book/making.h"

#include <numbers>

namespace endband {
namespace {

double as_double(std::int64_t n) { return static_cast<double>(n); }
double as_double(Ratio ratio) { return as_double(ratio.num()) / as_double(ratio.den()); }

// Paper, boards, the cover and its sides have rules of their own.
bool weighed_by_rule(Item item) {
  return item == Item::text_sheets || item == Item::endpaper_sheets || item == Item::boards ||
         item == Item::cover_leather || item == Item::cover_sides;
}
bool is_fitting(Item item) {
  return item == Item::corners || item == Item::clasps || item == Item::rivets || item == Item::furniture ||
         item == Item::strap || item == Item::buckle || item == Item::stone || item == Item::tie;
}
bool in_the_book(Part part) { return part != Part::packing && part != Part::extras && part != Part::box; }

// g for a mm2 of a sheet or a skin; 0 when the catalogue says nothing.
double areal_density(Material const& of) {
  Properties const& has = of.properties;
  if (has.grammage_mg) return as_double(*has.grammage_mg) * 1e-9;
  if (has.density_kg_m3 && has.caliper)
    return as_double(*has.density_kg_m3) * as_double(has.caliper->n) * 1e-12;
  return 0;
}

// Corners of the spine's leather are as thin and as dense as it; others as the catalogue has them.
double areal_density_of_corners(Making const& making, Material const& of) {
  Material const* const cover = making.material(Role::leather);
  if (cover != nullptr && cover->id == of.id)
    return making[FigureId::leather_pared] * making[FigureId::leather_density] * 1e-6;
  if (double const known = areal_density(of); known > 0) return known;
  return of.properties.caliper
             ? as_double(of.properties.caliper->n) * 1e-6 * making[FigureId::leather_density] * 1e-6
             : 0;
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

double mm2_of(Piece const& piece) {
  return as_double(piece.count) * as_double(piece.height.n) * as_double(piece.width.n) * 1e-6;
}
double mass_of(Piece const& piece, Material const& of) { return mm2_of(piece) * areal_density(of); }
double mass_of(Run const& run, Material const& of) {
  return as_double(run.count) * as_double(run.each.n) / 1000 * linear_density(of);
}
double mass_of(Spread const& spread, Material const& of) {
  return as_double(spread.area.n) * 1e-6 * spread.coats * spread.faces * dry_spread(of);
}
double mass_of(Things const& things, Material const& of) {
  if (things.net.dimension == Dimension::mass) return as_double(things.net.n) / 1000;
  if (things.net.dimension == Dimension::length) return as_double(things.net.n) / 1000 * linear_density(of);
  if (things.net.dimension == Dimension::volume)
    return as_double(things.net.n) * as_double(of.properties.density_kg_m3.value_or(0)) * 1e-6;
  if (things.net.dimension != Dimension::count || !of.properties.piece_mass) return 0;
  return as_double(things.net.n) / 1000 * as_double(of.properties.piece_mass->n) / 1000;
}

}  // namespace

void weigh(Making& making) {
  double fittings = 0;
  double sundries = 0;
  double corners = 0;
  auto const add = [&](Item item, double grams) {
    (item == Item::cover_corners ? corners : is_fitting(item) ? fittings : sundries) += grams;
  };
  Structure const& book = making.book;
  for (Piece const& piece : book.pieces) {
    if (weighed_by_rule(piece.item) || !in_the_book(piece.part)) continue;
    Material const& of = making.catalogue.at(piece.material);
    add(piece.item, piece.item == Item::cover_corners ? mm2_of(piece) * areal_density_of_corners(making, of)
                                                      : mass_of(piece, of));
  }
  for (Run const& run : book.runs)
    if (in_the_book(run.part)) add(run.item, mass_of(run, making.catalogue.at(run.material)));
  for (Spread const& spread : book.spreads)
    if (in_the_book(spread.part)) add(spread.item, mass_of(spread, making.catalogue.at(spread.material)));
  for (Things const& things : book.things)
    if (in_the_book(things.part)) add(things.item, mass_of(things, making.catalogue.at(things.material)));
  // Metal leaf is left out: a whole book of it weighs less than a third of a gram.
  if (!making.has(FigureId::corners_mass))
    making.book.figures.set(FigureId::corners_mass, corners, Origin::catalogue);
  if (!making.has(FigureId::fittings_mass))
    making.book.figures.set(FigureId::fittings_mass, fittings, Origin::catalogue);
  if (!making.has(FigureId::sundries_mass))
    making.book.figures.set(FigureId::sundries_mass, sundries, Origin::catalogue);
}

double mass_made(Making const& making, Part part) {
  double grams = 0;
  Structure const& book = making.book;
  for (Piece const& piece : book.pieces)
    if (piece.part == part) grams += mass_of(piece, making.catalogue.at(piece.material));
  for (Run const& run : book.runs)
    if (run.part == part) grams += mass_of(run, making.catalogue.at(run.material));
  for (Spread const& spread : book.spreads)
    if (spread.part == part) grams += mass_of(spread, making.catalogue.at(spread.material));
  for (Things const& things : book.things)
    if (things.part == part) grams += mass_of(things, making.catalogue.at(things.material));
  return grams;
}

}  // namespace endband
