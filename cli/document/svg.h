// A drawing as an SVG picture: one file that needs no other, prints to its scale and reads without colour.
#pragma once

#include "cli/document/drawing.h"

#include <string>

namespace endband::cli {

// The picture's own lengths are millimetres of the thing; its width and height on paper are those divided by
// the scale. Same drawing, same bytes. `black`: for paper that needs no colour, what is accented is heavier
// only.
std::string to_svg(Drawing const& drawing, bool black = false);

}  // namespace endband::cli
