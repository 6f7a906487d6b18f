// A cutting plan as it is followed at the bench: what lies where on each piece of stock, and the cuts in
// their order. All measures run from the upper left corner, to the right and down. A sheet has no head: it is
// laid so that the cuts are measured from the edges they are counted from. A skin lies with its neck up.
#pragma once

#include "engine/cutting/request.h"

#include <cstdint>
#include <utility>
#include <vector>

namespace endband::cli {

struct CutLaid {
  int piece = 0;                                     // index into CutRequest::pieces
  std::int64_t x = 0, y = 0, width = 0, height = 0;  // as it lies
  bool turned = false;                               // its height lies across
  int angle = 0;                                     // of a skin, when it is no quarter turn
  cutting::Polygon shape;                            // of a skin, y down
};

// What a part is that a cut has made.
enum class CutMade : std::uint8_t { nothing, piece, kept, waste, cut_further };
struct CutPart {
  CutMade what = CutMade::nothing;
  int piece = 0;
  std::int64_t height = 0, width = 0;
};
struct CutStep {
  CutPart of;
  bool across = false;                    // from left to right; else down
  std::int64_t at = 0;                    // from the part's upper or left edge
  std::int64_t x = 0, y = 0, length = 0;  // where the cut begins, how long it is
  CutPart first, second;                  // above or left; below or right
};

struct CutLeft {
  std::int64_t x = 0, y = 0, height = 0, width = 0;
};

enum class CutGoods : std::uint8_t { sheet, roll, skin, length, by_the_metre };

struct CutUse {
  int number = 0;          // of all that are shown, from 1
  std::int64_t times = 1;  // so many alike
  int stock = 0;           // index into CutRequest::stock
  CutGoods goods = CutGoods::sheet;
  std::int64_t height = 0, width = 0;  // of a roll: what is torn off; of a skin: its box; of a length: height
  std::vector<std::pair<int, std::int64_t>> counts;  // of each piece that is cut from it
  std::vector<CutLaid> laid;
  std::vector<CutStep> steps;
  std::vector<CutLeft> left;          // worth keeping
  std::int64_t taken = 0, whole = 0;  // area, or length: of the pieces, and of all; of one
  // Of a skin, y down from the corner of its box.
  cutting::Polygon outline;
  std::vector<cutting::Polygon> flaws;
  std::vector<cutting::Zone> zones;
  std::int64_t backbone = 0;
};

// Equal ones as one. `first_number`: of the first of them. Empty where nothing was planned.
std::vector<CutUse> cut_uses(CutRequest const& request, CutAnswer const& answer, Material const& material,
                             int first_number);

}  // namespace endband::cli
