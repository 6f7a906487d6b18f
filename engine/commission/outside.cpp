#include "engine/commission/outside.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::int64_t um2_a_dm2 = 10'000'000'000;
constexpr double um2_a_mm2 = 1e6;

Area edges_of(Structure const& book) {
  return {std::llround(book.figures.value_or(FigureId::edges_area, 0) * um2_a_mm2)};
}

Area leather_of(Structure const& book, MaterialId leather) {
  Area sum;
  for (Piece const& piece : book.pieces)
    if (piece.part == Part::cover && piece.material == leather)
      sum += area(piece.height, piece.width) * piece.count;
  return sum;
}

Area area_of(OutsideTerms const& terms, OutsideMeasures const& measures) {
  if (terms.area) return *terms.area;
  if (terms.kind == OutsideKind::edge_gilding) return measures.edges;
  if (terms.kind == OutsideKind::splitting) return measures.leather;
  throw std::logic_error("outside work by the dm2 of nothing: " + terms.words);
}

Amount quantity_of(OutsideTerms const& terms, OutsideMeasures const& measures) {
  std::int64_t const copies = terms.each_copy ? measures.copies : 1;
  switch (terms.by) {
    case OutsideBy::whole: return amount(Count{1000} * copies);
    case OutsideBy::piece: return amount(Count{1000} * checked_mul(terms.count, copies));
    case OutsideBy::dm2: return amount(area_of(terms, measures) * copies);
    case OutsideBy::skin: return amount(Count{1000} * measures.skins);
  }
  throw std::logic_error("no such way to price outside work");
}

Money in(Currency currency, Money money) { return money.minor == 0 ? Money{0, currency} : money; }

}  // namespace

OutsideMeasures measures_of(std::span<Structure const> volumes, BookSpec const& book, Bill const& bill,
                            int copies) {
  OutsideMeasures measures;
  measures.copies = copies;
  Chosen const& leather = book.chosen(Role::leather);
  for (Structure const& volume : volumes) {
    measures.edges += edges_of(volume);
    if (leather.origin != Origin::none) measures.leather += leather_of(volume, leather.material);
  }
  if (leather.origin == Origin::none) return measures;
  for (BillLine const& line : bill.lines)
    if (line.material == leather.material) measures.skins += line.units_opened;
  return measures;
}

Outside outside_of(OutsideTerms const& terms, OutsideMeasures const& measures, Currency currency) {
  Outside outside;
  outside.words = terms.words;
  outside.at_cost = terms.at_cost;
  outside.redo = terms.redo;
  outside.kind = terms.kind;
  outside.by = terms.by;
  outside.supplier = terms.supplier;
  outside.each = in(currency, terms.price);
  outside.quantity = quantity_of(terms, measures);
  outside.least_charge = in(currency, terms.least_charge);
  outside.carriage = in(currency, terms.carriage);
  outside.lead = terms.lead;
  outside.price = price_of(outside);
  return outside;
}

Money price_of(Outside const& outside) {
  std::int64_t const unit = outside.quantity.dimension == Dimension::area ? um2_a_dm2 : 1000;
  Money const work = scale(outside.each, Ratio(outside.quantity.n, unit), Rounding::half_away);
  return std::max(work, outside.least_charge) + outside.carriage;
}

}  // namespace endband
