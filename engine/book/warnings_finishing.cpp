// What a binder should look at again in endbands and lettering.
#include "engine/book/lettering.h"
#include "engine/book/making.h"

#include <cmath>

namespace endband {

using enum FigureId;

namespace {

// D. Cockerell, Bookbinding, and the Care of Books, 1901, ch. XI: the covered core is slightly lower than the
// square; J. B. Nicholson, A Manual of the Art of Bookbinding, 1856: as high as the square.
void warn_of_endbands(Making& making) {
  if (!making.has(core_thickness) || !making.has(square) || !making.spec.has(Part::endbands)) return;
  if (making.spec.ways.has(Way::stuck_on)) return;
  double const second = making[cores_an_endband] > 1 ? making[second_core_thickness] : 0;
  double const high = making[core_thickness] + second + 2 * making[silk_thickness];
  if (high > making[square]) making.warn(WarningCode::endband_too_high, high, 0, making[square]);
}

void warn_of_letters(Making& making) {
  if (!making.spec.has(Part::lettering) || making.spec.fount.empty()) return;
  auto const count = static_cast<int>(std::lround(making.book.figures.value_or(letter_lines, 1)));
  auto const lines = lines_of(making.spec.letters, count);
  for (MissingLetter const& missing :
       missing_letters(lines, making.spec.fount, *making.spec.ways.of(Axis::title)))
    making.warn(WarningCode::letter_missing, missing.owned, missing.needed,
                static_cast<double>(missing.letter));
}

}  // namespace

void warn_of_finishing(Making& making) {
  warn_of_endbands(making);
  warn_of_letters(making);
}

}  // namespace endband
