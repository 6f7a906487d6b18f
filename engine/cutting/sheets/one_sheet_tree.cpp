// From blocks to the list of cuts.
#include "engine/cutting/sheets/one_sheet.h"

#include <algorithm>

namespace endband::cutting::one_sheet {

Block piece_block(Want const& want, int index, bool turned) {
  Block block;
  block.width = turned ? want.height : want.width;
  block.height = turned ? want.width : want.height;
  block.want = index;
  block.turned = turned;
  return block;
}

int join(Tree& tree, int first, int second, bool above) {
  if (first < 0) return second;
  if (second < 0) return first;
  Block const& a = tree.blocks[static_cast<std::size_t>(first)];
  Block const& b = tree.blocks[static_cast<std::size_t>(second)];
  Block block;
  block.width = above ? std::max(a.width, b.width) : a.width + b.width;
  block.height = above ? a.height + b.height : std::max(a.height, b.height);
  block.first = first;
  block.second = second;
  block.above = above;
  tree.blocks.push_back(block);
  return static_cast<int>(tree.blocks.size()) - 1;
}

namespace {

struct Part {  // sides padded
  int number = 0;
  std::int64_t x = 0, y = 0, width = 0, height = 0;
};

class Cutter {
 public:
  Cutter(Tree const& tree, Frame const& frame) : tree_(tree), frame_(frame) {}

  CutSheet run() {
    Part const whole{0, frame_.trim_x, frame_.trim_y, frame_.width - 2 * frame_.trim_x + frame_.kerf,
                     frame_.height - 2 * frame_.trim_y + frame_.kerf};
    if (tree_.root < 0) {
      keep(whole);
    } else {
      cut_out(tree_.root, whole);
    }
    return std::move(sheet_);
  }

 private:
  // Parts `part`, which becomes its lower or left piece of `size`; what lies beyond is returned, without a
  // number where nothing is left.
  Part part_off(Part& part, bool across, std::int64_t size) {
    int const made = 2 * static_cast<int>(sheet_.cuts.size());
    sheet_.cuts.push_back({part.number, across, size - frame_.kerf});
    Part rest = part;
    (across ? rest.y : rest.x) += size;
    (across ? rest.height : rest.width) -= size;
    (across ? part.height : part.width) = size;
    part.number = made + 1;
    rest.number = made + 2;
    return rest;
  }

  void cut_out(int index, Part part) {
    Block const& block = tree_.blocks[static_cast<std::size_t>(index)];
    trim_to(block, part);
    if (block.first < 0) {
      sheet_.laid.push_back({block.want, part.number, part.x, part.y, block.turned});
      return;
    }
    Block const& first = tree_.blocks[static_cast<std::size_t>(block.first)];
    Part const rest = part_off(part, block.above, block.above ? first.height : first.width);
    cut_out(block.first, part);
    cut_out(block.second, rest);
  }

  // Of what is too much on two sides, the larger rectangle comes off whole.
  void trim_to(Block const& block, Part& part) {
    std::int64_t const right = part.width - block.width, top = part.height - block.height;
    __extension__ using Wide = __int128;
    bool const top_first = static_cast<Wide>(top) * part.width >= static_cast<Wide>(right) * part.height;
    for (bool const across : {top_first, !top_first})
      if ((across ? top : right) > 0) keep(part_off(part, across, across ? block.height : block.width));
  }

  void keep(Part const& part) {
    std::int64_t const width = part.width - frame_.kerf, height = part.height - frame_.kerf;
    if (frame_.least_kept > 0 && width >= frame_.least_kept && height >= frame_.least_kept)
      sheet_.kept.push_back({part.number, part.x, part.y, width, height});
  }

  Tree const& tree_;
  Frame const& frame_;
  CutSheet sheet_;
};

}  // namespace

CutSheet cut_sheet(Tree const& tree, Frame const& frame) { return Cutter(tree, frame).run(); }

}  // namespace endband::cutting::one_sheet
