// A skin as cells: a cell is free when it lies wholly on the skin and wholly off its flaws (every cell that
// an edge meets is taken). Counts over rectangles of cells guide the search; the largest rectangle left is
// found on the cells.
#pragma once

#include "engine/cutting/skins/region.h"

namespace endband::cutting::skins {

class Raster {
 public:
  Raster() = default;
  // The region's box begins at (0, 0). `grade_at` ranks cells: cells that are free in regions[k] for more k
  // are better.
  Raster(std::vector<Region> const& regions, std::int64_t width, std::int64_t height, std::int64_t cell);

  std::int64_t cell() const { return cell_; }
  std::int64_t columns() const { return columns_; }
  std::int64_t rows() const { return rows_; }
  // Free cells of [left, right) x [bottom, top), cut to the raster.
  std::int64_t free_in(Box const& cells) const { return sum(free_, cells); }
  // Sum of the ranks of the free cells there: 0 where only the humblest pieces may lie.
  std::int64_t ranks_in(Box const& cells) const { return sum(ranks_, cells); }
  bool ranked() const { return ranked_; }

 private:
  std::int64_t sum(std::vector<std::int32_t> const& table, Box const& cells) const;
  std::int64_t cell_ = 1, columns_ = 0, rows_ = 0;
  std::vector<std::int32_t> free_, ranks_;  // summed from the lower left (Crow 1984)
  bool ranked_ = false;
};

// Cells of a region, row by row from the bottom: 1 free, 0 taken.
struct Cells {
  std::int64_t columns = 0, rows = 0, cell = 1;
  std::vector<std::uint8_t> free;
};
Cells cells_of(Region const& region, std::int64_t width, std::int64_t height, std::int64_t cell);
// Takes every cell that the interior of the convex polygon may meet.
void take(Cells& cells, Polygon const& convex);
// The largest rectangle of free cells, in micrometres; by the stack of a histogram. Empty: none with both
// sides at least `least`.
// The rectangle grown to each side in turn, exactly, until an edge stops it.
Box grown_between(Box box, std::vector<Wall> const& walls);
Box largest_rectangle(Cells const& cells, std::int64_t least);

}  // namespace endband::cutting::skins
