#include "engine/cutting/sheets/one_sheet_table.h"

#include <algorithm>

namespace endband::cutting::one_sheet {

Table::Table(Grid const& grid, std::vector<Want> const& wants, std::vector<std::int64_t> const& values)
    : grid_(&grid), xs_(&grid.xs), ys_(&grid.ys), wants_(&wants), values_(values), most_(grid.cells(), 0) {
  lay_pieces();
  for (std::size_t x = 1; x < xs_->count(); ++x) {
    split_width(x);
    split_height(x);
  }
}

Block Table::block(std::size_t want, bool turned) const {
  Block block = piece_block((*wants_)[want], static_cast<int>(want), turned);
  block.width >>= grid_->shift_x;
  block.height >>= grid_->shift_y;
  return block;
}

void Table::lay_pieces() {
  for (std::size_t i = 0; i < wants_->size(); ++i) {
    if (values_[i] <= 0) continue;
    for (bool const turned : {false, true}) {
      if (turned && !(*wants_)[i].turns) continue;
      Block const block = this->block(i, turned);
      if (block.width > xs_->limit() || block.height > ys_->limit()) continue;
      std::size_t x = xs_->below(block.width), y = ys_->below(block.height);
      if ((*xs_)[x] < block.width) ++x;
      if ((*ys_)[y] < block.height) ++y;
      std::int64_t& cell = most_[x * ys_->count() + y];
      cell = std::max(cell, values_[i]);
    }
  }
}

// Whole rows at once; the rows of narrower parts stand already.
void Table::split_width(std::size_t x) {
  std::size_t const n = ys_->count(), end = xs_->half_end(x);
  std::uint16_t const* const rests = xs_->rests(x);
  std::int64_t* const row = &most_[x * n];
  std::int64_t const* const before = row - n;
  for (std::size_t y = 0; y < n; ++y) row[y] = std::max(row[y], before[y]);
  for (std::size_t part = 1; part < end; ++part) {
    std::int64_t const* const first = &most_[part * n];
    std::int64_t const* const second = &most_[rests[part] * n];
    for (std::size_t y = 0; y < n; ++y) row[y] = std::max(row[y], first[y] + second[y]);
  }
}

void Table::split_height(std::size_t x) {
  std::int64_t* const row = &most_[x * ys_->count()];
  for (std::size_t y = 1; y < ys_->count(); ++y) {
    std::int64_t best = std::max(row[y], row[y - 1]);
    std::uint16_t const* const rests = ys_->rests(y);
    std::size_t const end = ys_->half_end(y);
    for (std::size_t part = 1; part < end; ++part) best = std::max(best, row[part] + row[rests[part]]);
    row[y] = best;
  }
}

int Table::plan(Tree& tree, std::size_t x, std::size_t y) const {
  std::int64_t const value = at(x, y);
  if (value == 0) return -1;
  while (at(x - 1, y) == value) --x;
  while (at(x, y - 1) == value) --y;
  for (std::size_t i = 0; i < wants_->size(); ++i)
    for (bool const turned : {false, true}) {
      if (values_[i] != value || (turned && !(*wants_)[i].turns)) continue;
      Block const block = this->block(i, turned);
      if (block.width > (*xs_)[x] || block.height > (*ys_)[y]) continue;
      tree.blocks.push_back(piece_block((*wants_)[i], static_cast<int>(i), turned));
      return static_cast<int>(tree.blocks.size()) - 1;
    }
  for (std::size_t part = 1; part < xs_->half_end(x); ++part)
    if (at(part, y) + at(xs_->rest(x, part), y) == value) {
      int const first = plan(tree, part, y);
      return join(tree, first, plan(tree, xs_->rest(x, part), y), false);
    }
  for (std::size_t part = 1; part < ys_->half_end(y); ++part)
    if (at(x, part) + at(x, ys_->rest(y, part)) == value) {
      int const first = plan(tree, x, part);
      return join(tree, first, plan(tree, x, ys_->rest(y, part)), true);
    }
  return -1;
}

void Table::find_around(std::vector<std::int64_t>& around) const {
  std::size_t const nx = xs_->count(), ny = ys_->count();
  around.assign(nx * ny, 0);
  for (std::size_t x = nx; x-- > 1;) {
    std::int64_t* const row = &around[x * ny];
    for (std::size_t whole = x + 1; whole < nx; ++whole) {
      std::int64_t const* const beside = &most_[xs_->beside(whole, x) * ny];
      std::int64_t const* const outer = &around[whole * ny];
      for (std::size_t y = 1; y < ny; ++y) row[y] = std::max(row[y], beside[y] + outer[y]);
    }
    std::int64_t const* const above = &most_[x * ny];
    for (std::size_t y = ny - 1; y-- > 1;) {
      std::int64_t best = std::max(row[y], row[y + 1]);
      for (std::size_t whole = y + 1; whole < ny; ++whole)
        best = std::max(best, above[ys_->beside(whole, y)] + row[whole]);
      row[y] = best;
    }
  }
}

}  // namespace endband::cutting::one_sheet
