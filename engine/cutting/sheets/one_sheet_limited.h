// One good plan for every part, copies kept: dynamic programming that holds a single plan per part, so
// without proof (after Morabito and Pureza 2010).
#pragma once

#include "engine/cutting/sheets/one_sheet_counts.h"
#include "engine/cutting/sheets/one_sheet_points.h"

namespace endband::cutting::one_sheet {

class Limited {
 public:
  Limited(Grid const& grid, std::vector<Want> const& wants,
          Packing const& packing);  // the grid is not shifted

  // `guide`: what one of each is worth while plans are compared.
  void run(std::vector<std::int64_t> const& guide);
  std::int64_t value(std::size_t cell) const { return values_[cell]; }  // by the wants' own values
  std::size_t last() const { return cells_.size() - 1; }
  std::size_t cell(std::int64_t width, std::int64_t height) const {
    return xs_->below(width) * ys_->count() + ys_->below(height);
  }
  Word const* counts(std::size_t cell) const { return &counts_[cell * packing_->words()]; }
  // The plan of a cell, appended. What is too much of `left`, the copies not cut yet, is left out, and `left`
  // falls.
  int plan(Tree& tree, std::size_t cell, std::vector<std::int64_t>& left) const;
  std::int64_t steps() const { return steps_; }

 private:
  enum class How : std::uint8_t { nothing, piece, turned, beside, above };
  struct Cell {
    How how = How::nothing;
    int first = -1, second = -1;  // cells; of a piece, first is the want
  };
  void lay(std::size_t cell, int want, bool turned);
  void copy(std::size_t from, std::size_t to);
  void try_join(std::size_t cell, std::size_t first, std::size_t second, How how);
  void fill_cell(std::size_t x, std::size_t y);

  Points const* xs_;
  Points const* ys_;
  std::vector<Want> const* wants_;
  Packing const* packing_;
  std::vector<std::int64_t> guide_, own_;
  std::vector<std::int64_t> most_, turned_most_, values_;  // by cell; by columns, for the inner loop
  std::vector<Cell> cells_;
  std::vector<Word> counts_;
  std::vector<std::vector<std::pair<int, bool>>> laid_;  // the pieces that start to fit in each cell
  std::int64_t steps_ = 0;
};

}  // namespace endband::cutting::one_sheet
