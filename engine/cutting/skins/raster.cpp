#include "engine/cutting/skins/raster.h"

#include <algorithm>
#include <limits>

namespace endband::cutting::skins {
namespace {

std::size_t index(Cells const& cells, std::int64_t column, std::int64_t row) {
  return static_cast<std::size_t>(row * cells.columns + column);
}

// The lowest and highest y of the segment between left and right, rounded outwards; false: none.
bool reach(Wall wall, std::int64_t left, std::int64_t right, std::int64_t& low, std::int64_t& high) {
  if (wall.from.x > wall.to.x) std::swap(wall.from, wall.to);
  std::int64_t const a = std::max(wall.from.x, left), b = std::min(wall.to.x, right);
  std::int64_t const dx = wall.to.x - wall.from.x, dy = wall.to.y - wall.from.y;
  if (dx == 0) {
    if (wall.from.x <= left || wall.from.x >= right) return false;
    low = std::min(wall.from.y, wall.to.y);
    high = std::max(wall.from.y, wall.to.y);
    return true;
  }
  if (a >= b) return false;
  std::int64_t const at_a = (a - wall.from.x) * dy, at_b = (b - wall.from.x) * dy;
  low = wall.from.y + floor_div(std::min(at_a, at_b), dx);
  high = wall.from.y + ceil_div(std::max(at_a, at_b), dx);
  return true;
}

void mark(Cells& cells, std::int64_t column, std::int64_t low, std::int64_t high, std::uint8_t value) {
  low = std::max<std::int64_t>(low, 0);
  high = std::min(high, cells.rows - 1);
  for (std::int64_t row = low; row <= high; ++row) cells.free[index(cells, column, row)] = value;
}

}  // namespace

Cells cells_of(Region const& region, std::int64_t width, std::int64_t height, std::int64_t cell) {
  Cells cells{width / cell, height / cell, cell, {}};
  // Between walls all cells of a column are alike, unless a wall lies exactly on the border: then `asked`
  // again.
  constexpr std::uint8_t unknown = 2, outside = 3, asked = 4;
  cells.free.assign(static_cast<std::size_t>(cells.columns * cells.rows), unknown);
  for (Wall const& wall : region.walls) {
    std::int64_t const first = std::max<std::int64_t>(floor_div(std::min(wall.from.x, wall.to.x), cell), 0);
    std::int64_t const last = std::min(floor_div(std::max(wall.from.x, wall.to.x), cell), cells.columns - 1);
    for (std::int64_t column = first; column <= last; ++column) {
      std::int64_t low = 0, high = 0;
      if (!reach(wall, column * cell, (column + 1) * cell, low, high)) continue;
      std::int64_t const row = floor_div(low, cell);
      if (low == high && row * cell == low) {
        if (row >= 0 && row < cells.rows && cells.free[index(cells, column, row)] != 0)
          cells.free[index(cells, column, row)] = asked;
      } else {
        mark(cells, column, row, ceil_div(high, cell) - 1 + (low == high), 0);
      }
    }
  }
  for (std::int64_t column = 0; column < cells.columns; ++column)
    for (std::int64_t row = 0; row < cells.rows; ++row) {
      std::uint8_t& here = cells.free[index(cells, column, row)];
      if (here == 0) continue;
      std::uint8_t const below = row > 0 ? cells.free[index(cells, column, row - 1)] : std::uint8_t{0};
      Point const middle{column * cell * 3 + cell * 3 / 2, row * cell * 3 + cell * 3 / 2};
      here = here == unknown && below != 0 ? below : in_region(region, middle) ? std::uint8_t{1} : outside;
    }
  for (std::uint8_t& free : cells.free) free = free == 1;
  return cells;
}

void take(Cells& cells, Polygon const& convex) {
  Box const box = box_of(convex);
  std::int64_t const first = std::max<std::int64_t>(floor_div(box.left, cells.cell), 0);
  std::int64_t const last = std::min(ceil_div(box.right, cells.cell), cells.columns) - 1;
  for (std::int64_t column = first; column <= last; ++column) {
    std::int64_t bottom = box.top, top = box.bottom;
    for (std::size_t i = 0; i < convex.size(); ++i) {
      std::int64_t low = 0, high = 0;
      if (!reach({convex[i], convex[(i + 1) % convex.size()]}, column * cells.cell, (column + 1) * cells.cell,
                 low, high))
        continue;
      bottom = std::min(bottom, low);
      top = std::max(top, high);
    }
    mark(cells, column, floor_div(bottom, cells.cell), ceil_div(top, cells.cell) - 1, 0);
  }
}

Box largest_rectangle(Cells const& cells, std::int64_t least) {
  struct Bar {
    std::int64_t from, height;
  };
  Box best;
  std::int64_t best_area = 0;
  std::vector<std::int64_t> heights(static_cast<std::size_t>(cells.columns + 1), 0);
  std::vector<Bar> stack;
  for (std::int64_t row = 0; row < cells.rows; ++row) {
    stack.clear();
    for (std::int64_t column = 0; column <= cells.columns; ++column) {
      std::int64_t& height = heights[static_cast<std::size_t>(column)];
      height = column < cells.columns && cells.free[index(cells, column, row)] ? height + 1 : 0;
      std::int64_t from = column;
      while (!stack.empty() && stack.back().height >= height) {
        auto const [left, high] = stack.back();
        stack.pop_back();
        from = left;
        std::int64_t const area = high * (column - left);
        if (area <= best_area || high * cells.cell < least || (column - left) * cells.cell < least) continue;
        best_area = area;
        best = {left * cells.cell, (row + 1 - high) * cells.cell, column * cells.cell,
                (row + 1) * cells.cell};
      }
      stack.push_back({from, height});
    }
  }
  return best;
}

Box grown_between(Box box, std::vector<Wall> const& walls) {
  // Turned by quarters, so that it always grows to the top.
  auto const quarter = [](Point p) { return Point{-p.y, p.x}; };
  std::vector<Wall> lying = walls;
  for (int side = 0; side < 4; ++side) {
    std::int64_t top = std::numeric_limits<std::int64_t>::max();
    for (Wall const& wall : lying) {
      std::int64_t low = 0, high = 0;
      if (reach(wall, box.left, box.right, low, high) && low >= box.top) top = std::min(top, low);
    }
    if (top != std::numeric_limits<std::int64_t>::max()) box.top = top;
    box = {-box.top, box.left, -box.bottom, box.right};
    for (Wall& wall : lying) wall = {quarter(wall.from), quarter(wall.to), wall.zone};
  }
  return box;
}

Raster::Raster(std::vector<Region> const& regions, std::int64_t width, std::int64_t height, std::int64_t cell)
    : cell_{cell}, columns_{width / cell}, rows_{height / cell} {
  std::vector<std::int32_t> free(static_cast<std::size_t>(columns_ * rows_), 0), ranks = free;
  for (Region const& region : regions) {
    Cells const cells = cells_of(region, width, height, cell);
    for (std::size_t i = 0; i < cells.free.size(); ++i) {
      if (!cells.free[i]) continue;
      if (free[i]) ++ranks[i];
      free[i] = 1;
    }
  }
  ranked_ = regions.size() > 1;
  auto const summed = [&](std::vector<std::int32_t> const& values) {
    std::vector<std::int32_t> table(static_cast<std::size_t>((columns_ + 1) * (rows_ + 1)), 0);
    for (std::int64_t row = 0; row < rows_; ++row)
      for (std::int64_t column = 0; column < columns_; ++column) {
        auto const at = static_cast<std::size_t>((row + 1) * (columns_ + 1) + column + 1);
        auto const below = at - static_cast<std::size_t>(columns_ + 1);
        table[at] = values[static_cast<std::size_t>(row * columns_ + column)] + table[at - 1] + table[below] -
                    table[below - 1];
      }
    return table;
  };
  free_ = summed(free);
  if (ranked_) ranks_ = summed(ranks);
}

std::int64_t Raster::sum(std::vector<std::int32_t> const& table, Box const& cells) const {
  std::int64_t const left = std::clamp<std::int64_t>(cells.left, 0, columns_);
  std::int64_t const right = std::clamp<std::int64_t>(cells.right, left, columns_);
  std::int64_t const bottom = std::clamp<std::int64_t>(cells.bottom, 0, rows_);
  std::int64_t const top = std::clamp<std::int64_t>(cells.top, bottom, rows_);
  auto const at = [&](std::int64_t column, std::int64_t row) {
    return std::int64_t{table[static_cast<std::size_t>(row * (columns_ + 1) + column)]};
  };
  return at(right, top) - at(left, top) - at(right, bottom) + at(left, bottom);
}

}  // namespace endband::cutting::skins
