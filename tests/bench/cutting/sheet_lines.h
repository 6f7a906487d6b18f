// What the two kinds of rectangle problems share.
#pragma once

#include "tests/bench/cutting/bench.h"

namespace endband::cutting::bench {

// `sheet`: its place among all; the pieces as they lie, in the file's units.
inline void add_laid(Json& placements, std::size_t sheet, CutSheet const& cut,
                     std::vector<Rect> const& pieces, std::int64_t scale) {
  for (Laid const& laid : cut.laid) {
    Rect const& rect = pieces.at(static_cast<std::size_t>(laid.piece));
    placements.push_back({{"sheet", sheet},
                          {"kind", cut.sheet},
                          {"piece", laid.piece},
                          {"x", in_units(laid.x, scale)},
                          {"y", in_units(laid.y, scale)},
                          {"w", in_units(laid.turned ? rect.height : rect.width, scale)},
                          {"h", in_units(laid.turned ? rect.width : rect.height, scale)},
                          {"angle", laid.turned ? 90 : 0}});
  }
}

}  // namespace endband::cutting::bench
