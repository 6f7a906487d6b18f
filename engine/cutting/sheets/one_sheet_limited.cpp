#include "engine/cutting/sheets/one_sheet_limited.h"

#include <algorithm>
#include <utility>

namespace endband::cutting::one_sheet {

Limited::Limited(Grid const& grid, std::vector<Want> const& wants, Packing const& packing)
    : xs_(&grid.xs), ys_(&grid.ys), wants_(&wants), packing_(&packing), laid_(grid.cells()) {
  for (Want const& want : wants) own_.push_back(want.value);
  for (std::size_t i = 0; i < wants.size(); ++i)
    for (bool const turned : {false, true}) {
      if (turned && !wants[i].turns) continue;
      Block const block = piece_block(wants[i], 0, turned);
      if (block.width > xs_->limit() || block.height > ys_->limit()) continue;
      std::size_t x = xs_->below(block.width), y = ys_->below(block.height);
      if ((*xs_)[x] < block.width) ++x;
      if ((*ys_)[y] < block.height) ++y;
      laid_[x * ys_->count() + y].emplace_back(static_cast<int>(i), turned);
    }
}

void Limited::run(std::vector<std::int64_t> const& guide) {
  guide_ = guide;
  std::size_t const size = laid_.size();
  most_.assign(size, 0);
  turned_most_.assign(size, 0);
  values_.assign(size, 0);
  cells_.assign(size, Cell{});
  counts_.assign(size * packing_->words(), 0);
  for (std::size_t x = 1; x < xs_->count(); ++x)
    for (std::size_t y = 1; y < ys_->count(); ++y) fill_cell(x, y);
}

void Limited::lay(std::size_t cell, int want, bool turned) {
  auto const index = static_cast<std::size_t>(want);
  if (guide_[index] <= most_[cell]) return;
  most_[cell] = guide_[index];
  values_[cell] = own_[index];
  cells_[cell] = {turned ? How::turned : How::piece, want, -1};
  Word* const counts = &counts_[cell * packing_->words()];
  std::fill_n(counts, packing_->words(), 0);
  counts[packing_->word_of(index)] = packing_->one(index);
}

void Limited::copy(std::size_t from, std::size_t to) {
  if (most_[from] <= most_[to]) return;
  most_[to] = most_[from];
  values_[to] = values_[from];
  cells_[to] = cells_[from];
  std::copy_n(counts(from), packing_->words(), &counts_[to * packing_->words()]);
}

void Limited::try_join(std::size_t cell, std::size_t first, std::size_t second, How how) {
  std::int64_t value = most_[first] + most_[second];
  bool const whole = packing_->fit(counts(first), counts(second));
  steps_ += 4;
  if (!whole) {
    steps_ += static_cast<std::int64_t>(wants_->size());
    value -= packing_->excess(counts(first), counts(second), guide_);
    if (value <= most_[cell]) return;
  }
  values_[cell] =
      values_[first] + values_[second] - (whole ? 0 : packing_->excess(counts(first), counts(second), own_));
  most_[cell] = value;
  cells_[cell] = {how, static_cast<int>(first), static_cast<int>(second)};
  Word* const to = &counts_[cell * packing_->words()];
  std::copy_n(counts(first), packing_->words(), to);
  if (whole) {
    packing_->add(to, counts(second));
  } else {
    packing_->add_capped(to, counts(second));
  }
}

void Limited::fill_cell(std::size_t x, std::size_t y) {
  std::size_t const nx = xs_->count(), ny = ys_->count(), cell = x * ny + y;
  copy(cell - ny, cell);
  copy(cell - 1, cell);
  for (auto const& [want, turned] : laid_[cell]) lay(cell, want, turned);
  std::int64_t const* const column = &turned_most_[y * nx];
  std::uint16_t const* rests = xs_->rests(x);
  std::size_t const x_end = xs_->half_end(x), y_end = ys_->half_end(y);
  for (std::size_t part = 1; part < x_end; ++part)
    if (column[part] + column[rests[part]] > most_[cell])
      try_join(cell, part * ny + y, rests[part] * ny + y, How::beside);
  std::int64_t const* const row = &most_[x * ny];
  rests = ys_->rests(y);
  for (std::size_t part = 1; part < y_end; ++part)
    if (row[part] + row[rests[part]] > most_[cell])
      try_join(cell, x * ny + part, x * ny + rests[part], How::above);
  turned_most_[y * nx + x] = most_[cell];
  steps_ += static_cast<std::int64_t>(x_end + y_end) / 4 + 4;
}

int Limited::plan(Tree& tree, std::size_t cell, std::vector<std::int64_t>& left) const {
  Cell const& now = cells_[cell];
  if (now.how == How::nothing) return -1;
  if (now.how == How::piece || now.how == How::turned) {
    auto const want = static_cast<std::size_t>(now.first);
    if (left[want] <= 0) return -1;
    --left[want];
    tree.blocks.push_back(piece_block((*wants_)[want], now.first, now.how == How::turned));
    return static_cast<int>(tree.blocks.size()) - 1;
  }
  int const first = plan(tree, static_cast<std::size_t>(now.first), left);
  return join(tree, first, plan(tree, static_cast<std::size_t>(now.second), left), now.how == How::above);
}

}  // namespace endband::cutting::one_sheet
