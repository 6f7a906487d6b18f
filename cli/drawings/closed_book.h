// The closed book as its buyer will see it: spine and front, to scale, with its main dimensions.
#pragma once

#include "cli/document/drawing.h"
#include "engine/commission/commission.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace endband::cli {

// What is seen on the cover beside what a BuyerQuote says. Lengths in mm.
struct OnCover {
  struct Frame {
    double inset = 0, width = 0;  // from the edges of the board; of the line
  };
  std::vector<Frame> frames;
  bool lined_bands = false;  // a line on both sides of every band
  std::int64_t straps = 0;
  double strap_width = 0, strap_reach = 0;  // over the front, from the fore edge
};

// Of what a buyer's page may know. None of a box alone or of a set, whose volumes differ.
std::optional<Drawing> draw_closed_book(BuyerQuote const& quote, OnCover const& cover = {});

}  // namespace endband::cli
