// Templates for the bench, at the size of the thing: to be laid on it, pierced through or marked from. Each
// is a strip along the spine, the head up, measured from its upper end. One that is longer than the paper
// comes in pieces, each with a tab that goes under the piece before, up to a mark of the same letter. y is
// always the way from the strip's upper end, in whichever piece; and on every piece stands a bar of 100 mm.
#pragma once

#include "cli/drawings/sketch.h"
#include "engine/book/structure.h"

#include <vector>

namespace endband::cli {

inline constexpr double template_bar = 100;  // mm

// A strip that lies in the fold of a section as it is pierced, before it is trimmed: where the needle goes
// in. None where nothing is sewn, or a figure is not known.
std::vector<Drawing> sewing_templates(BookSpec const& book, Structure const& structure, Paper room);

// The back with its bands, raised or false, and the panels between; none without bands.
std::vector<Drawing> spine_templates(BookSpec const& book, Structure const& structure, Paper room);

// Where a strip is parted: its two ends and between them as few places as go on the paper, half way between
// two `places` where that can be.
std::vector<double> parted(double length, double most, std::vector<double> const& places);

}  // namespace endband::cli
