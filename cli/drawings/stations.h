// Where along the fold of a section the needle goes in and what it is sewn on.
#pragma once

#include "engine/book/structure.h"

#include <cstdint>
#include <string_view>
#include <vector>

namespace endband::cli {

enum class StationKind : std::uint8_t { kettle, support, hole };
struct Station {
  StationKind kind = StationKind::hole;
  double at = 0;     // middle, mm from the head of the trimmed leaf
  double width = 0;  // of a support along the fold; else 0
};

// From head to tail; empty where a figure is not known. Raised cords stand where the bands do, so that the
// panels between them are equal; other supports part the length between the kettle stitches equally; without
// supports the holes do, and the outermost stand where kettle stitches would.
std::vector<Station> stations_of(BookSpec const& book, Figures const& figures);

// Every hole, from head to tail: one at a kettle stitch; at a support one, or one at each side of it.
std::vector<double> holes_of(std::vector<Station> const& stations, Figures const& figures);

}  // namespace endband::cli
