#include "engine/book/structure.h"

#include "engine/book/making.h"
#include "engine/book/rule.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

namespace endband {
namespace {

void reserve_for_one_book(Structure& book) {
  book.pieces.reserve(16);
  book.runs.reserve(8);
  book.spreads.reserve(24);
  book.strips.reserve(8);
  book.things.reserve(16);
  book.operations.reserve(operation_count + 4);
  book.warnings.reserve(8);
}

void require_finite(Figures const& figures) {
  for (std::size_t i = 0; i < figure_count; ++i) {
    auto const id = static_cast<FigureId>(i);
    if (!std::isfinite(figures[id].value))
      throw std::logic_error("figure is no number: " + std::string(figure_row(id).name));
  }
}

void compute_figures(Making& making) {
  complete(making);
  apply_rules(making.book.figures, making.spec.ways);
  grow_for_underlays(making);
  apply_rules(making.book.figures, making.spec.ways);
  require_finite(making.book.figures);
}

void make_book(Making& making) {
  make_text_block(making);
  make_guards(making);
  make_endpapers(making);
  make_sewing(making);
  make_spine(making);
  make_boards(making);
  make_endbands(making);
  make_registers(making);
  make_edges(making);
  make_underlays(making);
  make_cover(making);
  make_ties(making);
}

void make_parts(Making& making) {
  if (making.spec.has(Part::text_block)) make_book(making);  // else a box alone
  make_finishing(making);
  make_insets(making);
  make_fittings(making);
  make_repairs(making);
}

void close_book(Making& making) {
  Structure& book = making.book;
  weigh(making);
  apply_rules(book.figures, making.spec.ways);
  book.mass = {std::llround(making[FigureId::book_mass] * 1000)};
  book.closed_height = cut_to(making[FigureId::closed_height]);
  book.closed_width = cut_to(making[FigureId::closed_width]);
  book.closed_thickness = cut_to(making[FigureId::closed_thickness]);
}

// A box alone is what is sold: its size and mass, and no figure of the book that it has not.
void keep_the_box_alone(Making const& making) {
  Structure& book = making.book;
  book.mass = {std::llround(making[FigureId::box_mass] * 1000)};
  book.closed_height = cut_to(making[FigureId::box_height]);
  book.closed_width = cut_to(making[FigureId::box_width]);
  book.closed_thickness = cut_to(making[FigureId::box_depth]);
  for (std::size_t i = 0; i < figure_count; ++i)
    if (auto const id = static_cast<FigureId>(i); !making.spec.has(figure_row(id).part))
      book.figures.set(id, 0, Origin::none);
}

}  // namespace

Structure structure(BookSpec const& spec, Catalogue const& catalogue) {
  Structure book;
  reserve_for_one_book(book);
  book.figures = spec.given;
  Making making(spec, catalogue, book);
  compute_figures(making);
  make_parts(making);
  close_book(making);
  make_box(making);
  make_packing(making);
  apply_rules(book.figures, spec.ways);
  make_office_and_extras(making);
  if (spec.has(Part::text_block)) warn_of_dimensions(making);
  warn_of_materials(making);
  warn_of_finishing(making);
  if (!spec.has(Part::text_block)) keep_the_box_alone(making);
  // The parts name their operations as they are made; the bench does them in the order of the list.
  std::sort(book.operations.begin(), book.operations.end(), [](Operation const& a, Operation const& b) {
    return std::pair(a.kind, a.extra) < std::pair(b.kind, b.extra);
  });
  return book;
}

Folded fold(SheetSize sheet, int folds) {
  Length across = sheet.first;
  Length along_grain = sheet.second;
  for (int i = 0; i < folds; ++i) {
    Length& longer = across > along_grain ? across : along_grain;
    longer.n /= 2;  // a hair of a micrometre
  }
  return {std::max(across, along_grain), std::min(across, along_grain), along_grain >= across};
}

}  // namespace endband
