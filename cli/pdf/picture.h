// A drawing on a page.
#pragma once

#include "cli/document/drawing.h"
#include "cli/pdf/type.h"

namespace endband::cli::pdf {

struct Size {
  double width = 0, height = 0;
};
// How large it comes out: at its own scale, or smaller where it would not fit into `room`. Drawings at true
// size keep theirs.
double shrunk_to(Drawing const& drawing, Size room);
Size size_of(Drawing const& drawing, double shrunk);

// Its upper left corner at (x, y).
// `black`: on paper that needs no colour what is accented is heavier only.
void draw(cairo_t* on, Type& type, Drawing const& drawing, Point corner, double shrunk, bool black);

}  // namespace endband::cli::pdf
