// What a binder should look at again in the sections and their sewing.
#include "engine/book/making.h"

#include <cmath>

namespace endband {

using enum FigureId;

namespace {

// Common practice, no source: sections run from 4 to 8 sheets folded once.
constexpr double least_folios = 4;
constexpr double most_folios = 8;

void warn_of_creep(Making& making) {
  if (!making.has(creep)) return;
  double const trim = making.book.figures.value_or(fore_edge_trim, 0);
  // An uncut edge stays stepped, as it is meant to.
  if (trim > 0 && making[creep] > trim) making.warn(WarningCode::creep_over_trim, trim, making[creep]);
}

void warn_of_sections(Making& making) {
  if (!making.has(sheets) || !making.has(sheets_per_section)) return;
  // A pamphlet has the one that its pages make.
  if (making.spec.ways.has(Way::pamphlet)) return;
  if (making[last_section_sheets] < making[sheets_per_section])
    making.warn(WarningCode::short_last_section, making[last_section_sheets], making[sheets_per_section]);
  double const folios = making[sheets_per_section] * std::exp2(making[folds] - 1);
  // Guards and what is mounted fill an album's sections beside its leaves.
  double const least = making.spec.has(Part::guards) ? 1 : least_folios;
  if (folios < least || folios > most_folios)
    making.warn(WarningCode::section_unusual, folios, least, most_folios);
}

// A flat spine wants no swell.
void warn_of_swell(Making& making) {
  if (!making.spec.has(Part::sewing) || making.spec.ways.has(Way::flat)) return;
  double const is = making[swell];
  if (is > making[swell_most])
    making.warn(WarningCode::swell_too_great, is, making[swell_least], making[swell_most]);
  if (making[shoulder] > 0 && making[spine_width] <= making[chord])
    making.warn(WarningCode::will_not_back, is, making[swell_least], making[swell_most]);
  else if (is < making[swell_low])
    making.warn(WarningCode::swell_too_small, is, making[swell_low], making[swell_most]);
}

}  // namespace

void warn_of_sewing(Making& making) {
  if (!making.spec.has(Part::text_block)) return;
  warn_of_creep(making);
  warn_of_sections(making);
  warn_of_swell(making);
}

}  // namespace endband
