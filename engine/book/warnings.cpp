// What a binder should look at again. Nothing here refuses: the bands are plausible, not right.
#include "engine/book/making.h"

#include <algorithm>

namespace endband {

using enum FigureId;

namespace {

struct Band {
  double least, most;
  bool holds(double is) const { return is >= least && is <= most; }
};

// S. J. Vaughn, Printing and Bookbinding for Schools, 1914: squares of 1/8 to 3/16 in; or once to twice the
// thickness of the board (Ligatus, Language of Bindings, 'squares (boards)').
constexpr Band squares_mm{3.175, 4.7625};
constexpr double square_to_board_most = 2;
// Vaughn: 3/4 in; D. Cockerell, 1901, ch. XII: about an inch all round.
constexpr Band turn_ins_mm{19.05, 25.4};
// P. Adam, 1903, ch. VI: cloth is 1 to 1 1/2 cm larger all round; Vaughn's 3/4 in is the most that is told.
constexpr Band turn_ins_of_cloth_mm{10, 19.05};
// Cockerell, ch. VII: five, four for a small thick book; J. W. Zaehnsdorf, 1890, p. 23: up to seven for large
// folios.
constexpr Band usual_bands{4, 7};
// Common practice, no source: thinner leather does not hold the boards of a heavy book.
constexpr double thin_leather_mm = 0.6;
constexpr double heavy_book_g = 1000;
// Common practice, no source: a register that stands out less is hard to find.
constexpr double least_register_tail_mm = 20;

void warn_outside(Making& making, WarningCode code, double is, Band band) {
  if (!band.holds(is)) making.warn(code, is, band.least, band.most);
}

void warn_of_boards(Making& making) {
  if (!making.spec.has(Part::boards)) return;
  Band const squares{std::min(squares_mm.least, making[board_thickness]),
                     std::max(squares_mm.most, square_to_board_most * making[board_thickness])};
  warn_outside(making, WarningCode::square_unusual, making[square], squares);
  Band const turn_ins = making.is_leather(Role::leather) ? turn_ins_mm : turn_ins_of_cloth_mm;
  warn_outside(making, WarningCode::turn_in_unusual, making[turn_in], turn_ins);
}

void warn_of_bands(Making& making) {
  bool const may_have_bands = making.spec.ways.has(Way::raised_cords) || making.spec.has(Part::false_bands);
  if (may_have_bands) warn_outside(making, WarningCode::bands_unusual, making[bands], usual_bands);
}

// Single boards and wrappers hinge on no leather.
void warn_of_thin_leather(Making& making) {
  bool const hinges = !making.spec.ways.meet({Way::each_board, Way::wrapper});
  if (!hinges || !making.is_leather(Role::leather)) return;
  if (making[leather_pared] < thin_leather_mm && making[book_mass] > heavy_book_g)
    making.warn(WarningCode::thin_leather, making[leather_pared], thin_leather_mm);
}

void warn_of_register(Making& making) {
  if (!making.spec.has(Part::registers)) return;
  double const least = making[register_anchor] + making[leaf_height] + least_register_tail_mm;
  if (making[register_length] < least)
    making.warn(WarningCode::register_short, making[register_length], least);
}

bool is_used(Making const& making, MaterialId id) {
  Structure const& book = making.book;
  auto const of = [id](auto const& use) { return use.material == id; };
  return std::any_of(book.pieces.begin(), book.pieces.end(), of) ||
         std::any_of(book.runs.begin(), book.runs.end(), of) ||
         std::any_of(book.spreads.begin(), book.spreads.end(), of) ||
         std::any_of(book.strips.begin(), book.strips.end(), of) ||
         std::any_of(book.things.begin(), book.things.end(), of);
}

void warn_of_grain(Making& making) {
  MaterialId last{};  // one warning for each material; its pieces stand together
  for (Piece const& piece : making.book.pieces) {
    if (piece.grain != Grain::along_width || piece.material == last) continue;
    making.warn(WarningCode::grain_across, 0, 0, 0, piece.material);
    last = piece.material;
  }
}

}  // namespace

void warn_of_dimensions(Making& making) {
  warn_of_sewing(making);
  warn_of_boards(making);
  warn_of_bands(making);
  warn_of_thin_leather(making);
  warn_of_register(making);
}

void warn_of_materials(Making& making) {
  warn_of_grain(making);
  // Corners and clasps are mostly of brass, and the catalogue does not say which are not.
  Material const* const glue = making.material(Role::corner_adhesive);
  if (making.spec.has(Part::corners) && glue != nullptr && glue->flags.not_for_copper_alloys)
    making.warn(WarningCode::not_for_brass, 0, 0, 0, glue->id);
  for (Material const& of : making.catalogue.materials) {
    if (!of.flags.restricted && !of.flags.tarnishes) continue;
    if (!is_used(making, of.id)) continue;
    if (of.flags.restricted) making.warn(WarningCode::restricted_material, 0, 0, 0, of.id);
    if (of.flags.tarnishes) making.warn(WarningCode::leaf_tarnishes, 0, 0, 0, of.id);
  }
  for (MaterialId const id : making.spec.customer_supplies)
    if (is_used(making, id)) making.warn(WarningCode::customer_piece_cannot_be_replaced, 0, 0, 0, id);
}

}  // namespace endband
