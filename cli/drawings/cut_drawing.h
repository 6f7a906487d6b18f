// A cutting plan drawn for the bench: one piece of stock a drawing, to scale, with running measures from its
// upper left corner along two edges, each piece with its number and name along its grain, the numbers of the
// cuts in the margin.
#pragma once

#include "cli/document/drawing.h"
#include "cli/drawings/cut_layout.h"
#include "cli/drawings/sketch.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct CutNames {
  std::string stock;                // "Grey board, new sheet 700 x 1000 mm"
  std::string of;                   // the book
  std::vector<std::string> pieces;  // "boards", of each of the request
  std::vector<std::string> sizes;   // "219.6 x 164.4 mm", height by width
  bool guess = false;               // the outline of a skin is one
};

// "cut-3" of the third. Nothing of lengths.
std::optional<Drawing> draw_cut(CutUse const& use, CutNames const& names, OnPaper const& on = {});

}  // namespace endband::cli
