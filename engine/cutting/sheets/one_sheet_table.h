// The most value of every part, copies unlimited (Gilmore and Gomory 1966; Beasley 1985), and the most value
// around it.
#pragma once

#include "engine/cutting/sheets/one_sheet.h"
#include "engine/cutting/sheets/one_sheet_points.h"

namespace endband::cutting::one_sheet {

class Table {
 public:
  // `values`: of each want, in place of its own; what is not positive is left out. Every side is positive.
  Table(Grid const& grid, std::vector<Want> const& wants, std::vector<std::int64_t> const& values);

  std::int64_t at(std::size_t x, std::size_t y) const { return most_[x * ys_->count() + y]; }
  std::int64_t most() const { return most_.back(); }
  // A plan of the part's value, appended; -1: nothing. On shifted points its pieces need not fit together.
  int plan(Tree& tree, std::size_t x, std::size_t y) const;
  int plan(Tree& tree) const { return plan(tree, xs_->count() - 1, ys_->count() - 1); }

  // Fills `around` with: at most so much is cut from the rest of the sheet, where a block of that size lies
  // in it. It never grows with the block: else a block that leaves waste would be thought worse than it is.
  void find_around(std::vector<std::int64_t>& around) const;

 private:
  Block block(std::size_t want, bool turned) const;  // shifted as the grid is
  void lay_pieces();
  void split_width(std::size_t x);
  void split_height(std::size_t x);

  Grid const* grid_;
  Points const* xs_;
  Points const* ys_;
  std::vector<Want> const* wants_;
  std::vector<std::int64_t> values_;
  std::vector<std::int64_t> most_;
};

// Elementary steps of one filling; 16 or so are one step of work.
inline std::int64_t table_steps(Grid const& grid) {
  auto const nx = static_cast<std::int64_t>(grid.xs.count()), ny = static_cast<std::int64_t>(grid.ys.count());
  return nx * ny * (nx + ny) / 4;
}

}  // namespace endband::cutting::one_sheet
