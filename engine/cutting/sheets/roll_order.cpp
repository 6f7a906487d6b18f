#include "engine/cutting/sheets/roll_order.h"

#include <algorithm>

namespace endband::cutting::one_sheet {

std::vector<Strip> Decoder::run(Order const& order) {
  order_ = &order;
  left_.clear();
  for (Want const& want : task_.wants) left_.push_back(want.copies);
  std::vector<Strip> strips;
  for (int const want : order.wants)
    while (left_[static_cast<std::size_t>(want)] > 0) {
      strip_ = Strip{};
      strip_.counts.assign(left_.size(), 0);
      int const first = put({want, order.turned[static_cast<std::size_t>(want)], 0, 0});
      Block const block = strip_.tree.blocks.back();
      strip_.height = block.height;
      strip_.tree.root = join(strip_.tree, first, fill(task_.width - block.width, block.height), false);
      strips.push_back(std::move(strip_));
    }
  return strips;
}

int Decoder::put(Lay const& lay) {
  auto const want = static_cast<std::size_t>(lay.want);
  --left_[want];
  ++strip_.counts[want];
  strip_.tree.blocks.push_back(piece_block(task_.wants[want], lay.want, lay.turned));
  return static_cast<int>(strip_.tree.blocks.size()) - 1;
}

Decoder::Lay Decoder::best_for(std::int64_t width, std::int64_t height) {
  Lay best;
  for (int const want : order_->wants) {
    if (left_[static_cast<std::size_t>(want)] <= 0) continue;
    for (bool const turned : {false, true}) {
      if (turned && !task_.wants[static_cast<std::size_t>(want)].turns) continue;
      Block const block = piece_block(task_.wants[static_cast<std::size_t>(want)], want, turned);
      if (block.width > width || block.height > height) continue;
      int const rank = (block.width == width ? 1 : 0) + (block.height == height ? 1 : 0);
      bool const in_order = order_->longest_first && rank == 0;
      std::int64_t const area =
          in_order ? 1 : (rank == 0 ? block.width * block.height : block.width + block.height);
      if (best.want < 0 || rank > best.rank || (rank == best.rank && area > best.area))
        best = {want, turned, rank, area};
    }
    if (best.rank == 2) break;
  }
  steps_ += static_cast<std::int64_t>(order_->wants.size()) / 3 + 4;
  return best;
}

int Decoder::fill(std::int64_t width, std::int64_t height) {
  if (width <= 0 || height <= 0) return -1;
  Lay const lay = best_for(width, height);
  if (lay.want < 0) return -1;
  int const own = put(lay);
  Block const block = strip_.tree.blocks.back();
  std::int64_t const right = width - block.width, top = height - block.height;
  __extension__ using Wide = __int128;
  // The larger of the two rests stays whole.
  if (static_cast<Wide>(right) * height >= static_cast<Wide>(top) * width) {
    int const column = join(strip_.tree, own, fill(block.width, top), true);
    return join(strip_.tree, column, fill(right, height), false);
  }
  int const row = join(strip_.tree, own, fill(right, block.height), false);
  return join(strip_.tree, row, fill(width, top), true);
}

}  // namespace endband::cutting::one_sheet
