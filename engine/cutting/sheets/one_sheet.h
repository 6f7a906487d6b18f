// One sheet, as the solvers of this folder ask for it in their inner loops. Everything here is padded: the
// kerf is added to both sides of every piece and of the sheet within its trim, so that pieces side by side
// simply add up.
#pragma once

#include "engine/cutting/sheets/sheets.h"

#include <cstdint>
#include <vector>

namespace endband::cutting::one_sheet {

struct Want {
  std::int64_t width = 0, height = 0;
  std::int64_t value = 0;   // of one; none is wanted where it is not positive
  std::int64_t copies = 1;  // at most
  bool turns = false;
};
struct Task {
  std::int64_t width = 0, height = 0;
  std::vector<Want> wants;
};

// A block is one piece, or two blocks beside each other or one above the other; the waste is above and
// beside.
struct Block {
  std::int64_t width = 0, height = 0;
  int first = -1, second = -1;  // indices of blocks; -1: a piece
  int want = -1;
  bool turned = false;
  bool above = false;  // the second lies above the first
};
struct Tree {
  std::vector<Block> blocks;  // parts before the whole
  int root = -1;              // -1: nothing is cut
};
struct Filling {
  Tree tree;
  std::vector<std::int64_t> counts;  // of each want
  std::int64_t value = 0, bound = 0;
  std::int64_t work = 0;
};

// The most value, copies kept; an answer at any work, also 0. A step is some twenty nanoseconds. Sides are
// positive, and the sum of copies x value stays below 2^62.
Filling fill(Task const& task, std::int64_t work);
// The same where copies are without limit.
Filling fill_unlimited(Task const& task);

Block piece_block(Want const& want, int index, bool turned);
// The two as one block, appended; either may be -1, nothing.
int join(Tree& tree, int first, int second, bool above);

struct Frame {                         // as the request has it, not padded
  std::int64_t width = 0, height = 0;  // of the whole sheet; of a roll, the length torn off
  std::int64_t kerf = 0;
  std::int64_t trim_x = 0, trim_y = 0;  // at either edge
  std::int64_t least_kept = 0;          // 0: nothing is kept
};
// Cuts, places and kept offcuts of a plan; the tree's root must fit. `Laid::piece` is the want's index.
CutSheet cut_sheet(Tree const& tree, Frame const& frame);

}  // namespace endband::cutting::one_sheet
