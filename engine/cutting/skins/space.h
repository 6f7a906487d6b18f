// What is asked, made ready for the search: pieces as turned shapes on a grid of steps, skins as regions by
// least grade. A position is a whole number of steps from the lower left corner of the skin's box; a shape of
// margin and rounded up takes `wide` x `high` steps from there. Geometry against the skin and between
// polygons is exact at every step.
#pragma once

#include "engine/cutting/skins/raster.h"
#include "engine/cutting/skins/region.h"

namespace endband::cutting::skins {

struct Shape {
  int kind = 0;  // of piece
  int angle = 0;
  std::vector<Polygon> parts;  // convex, together at least the shape, its box beginning at (0, 0)
  std::int64_t twice_area = 0;
  std::int64_t width = 0, height = 0;
  std::int64_t wide = 0, high = 0;  // steps, with the margin to the next piece
  bool upright = false;             // a rectangle: fills its box
};
// Pieces that differ in nothing.
struct Kind {
  std::vector<int> pieces;  // indices into the request's, one for each copy
  int least_grade = 0;
  int level = 0;                        // of Site::regions
  int first_shape = 0, last_shape = 0;  // [first, last)
  std::int64_t twice_area = 0;
};
// What is placed whole or not at all: one piece, or a group.
struct Unit {
  std::vector<int> kinds;   // one for each piece, largest first
  std::vector<int> pieces;  // of the request, likewise
  Together together = Together::one_skin;
  std::int64_t twice_area = 0;
};
// One skin's shape, whatever its copies.
struct Site {
  Point origin;  // of its box
  std::int64_t width = 0, height = 0;
  std::int64_t columns = 0, rows = 0;  // steps that fit
  std::vector<Region> regions;         // by level, its corners moved by -origin
  Raster raster;
  int batch = 0;
};

struct Space {
  std::int64_t step = 1;
  std::int64_t margin = 0;
  std::vector<Kind> kinds;
  std::vector<Shape> shapes;
  std::vector<Unit> units;  // largest first
  std::vector<Site> sites;
};

// `step` 0: the coarsest that loses little. Throws std::logic_error where the request breaks its contract.
Space space_of(std::vector<Skin> const& skins, std::vector<SkinPiece> const& pieces, std::int64_t margin,
               std::int64_t step = 0);

}  // namespace endband::cutting::skins
