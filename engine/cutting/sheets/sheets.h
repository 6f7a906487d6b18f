// Rectangles from sheets and offcuts by guillotine cuts to any depth: each cut goes through from edge to edge
// of what lies before it. Width lies across the grain, height along it.
#pragma once

#include "engine/cutting/answer.h"

#include <optional>

namespace endband::cutting {

struct Sheet {  // a kind of sheet, one offcut, or a roll
  std::int64_t width = 0, height = 0;
  std::int64_t cost = 0;                 // of one; of a roll of its whole height
  std::optional<std::int64_t> copies{};  // nullopt: as many as wanted
  bool by_length =
      false;  // a roll, torn off across at the height the plan needs: cost x length / height, rounded up
};
struct Rect {
  std::int64_t width = 0, height = 0;
  std::int64_t copies = 1;
  bool turns = false;  // may lie by a quarter turn
};
struct SheetRequest {
  std::vector<Sheet> sheets;
  std::vector<Rect> pieces;
  std::int64_t kerf = 0;        // what one cut loses
  std::int64_t trim = 0;        // cut off all four edges of a sheet first; not off a roll's ends
  std::int64_t least_kept = 0;  // an offcut is kept when both its sides reach this; 0: none is kept
  Worth worth{};                // of a kept offcut, of the sheet's cost by area, rounded down for each
};

// Parts of a sheet bear numbers. Part 0 is the sheet within its trim (of a roll: the length torn off). Cut
// number k, from 0, parts `part` at `at` micrometres from its lower or left edge into part 2k + 1 (below or
// left, `at` long) and part 2k + 2 (what lies beyond the kerf; nothing where less than the kerf is left). A
// part is cut at most once.
struct Cut {
  int part = 0;
  bool across = false;  // the cut runs along the width, and parts the height
  std::int64_t at = 0;
};
struct Laid {
  int piece = 0;
  int part = 0;               // an uncut part of just the piece's size
  std::int64_t x = 0, y = 0;  // of its lower left corner, from the sheet's own, trim counted
  bool turned = false;
};
struct Offcut {
  int part = 0;
  std::int64_t x = 0, y = 0, width = 0, height = 0;
};
struct CutSheet {
  int sheet = 0;
  std::int64_t length = 0;  // torn off, of a roll; else 0
  std::vector<Laid> laid;
  std::vector<Cut> cuts;  // in the order they are made
  std::vector<Offcut> kept;
};

// Least sum of (cost of the sheets used - worth of what is kept); among equal ones the largest kept offcut. A
// side that is not positive, a negative cost, kerf, trim or count, or a sum that leaves 64 bits:
// std::logic_error. A step is about one position tried. There is an answer, or a proof that there is none,
// also at work = 0 (then by best fit alone); limited stock that best fit does not manage may be not_found.
Answer<CutSheet> plan_sheets(SheetRequest const& request, Budget const& budget);

// One sheet, and the pieces of greatest value that can be cut from it.
struct ValuedRect {
  Rect rect;               // copies: the most that are wanted
  std::int64_t value = 0;  // of one
};
struct OneSheet {
  CutSheet cut;
  std::int64_t value = 0, bound = 0;  // value <= bound
  std::int64_t work = 0;
  bool proved() const { return value >= bound; }
};
// Copies as wanted at most.
OneSheet best_of_sheet(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                       std::int64_t trim, Budget const& budget);
// Any number of copies of each: exact, without a budget (dynamic programming over normal positions, their
// number capped).
OneSheet best_of_sheet_unlimited(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                                 std::int64_t trim);

}  // namespace endband::cutting
