// Where a piece of a least grade may lie on a skin: within the outline, off the flaws and off what is poorer.
#pragma once

#include "engine/cutting/skins/convex.h"
#include "engine/cutting/skins/skins.h"

namespace endband::cutting::skins {

struct Wall {
  Point from, to;
  bool zone = false;  // the margin counts from outline and flaws only
};
struct Region {
  Polygon outline;
  std::vector<Polygon> closed;  // flaws and poorer zones
  std::vector<Polygon>
      open;              // better zones, when the rest of the skin is too poor; empty: all that is not closed
  bool nowhere = false;  // the rest is too poor and no zone is better
  std::vector<Wall> walls;  // no interior of a piece may meet one
};

Region region_of(Skin const& skin, int least_grade);

// The point, given three times as large as it is, lies in the region; it lies on no wall.
bool in_region(Region const& region, Point thrice);

}  // namespace endband::cutting::skins
