// How many pieces come out of a sheet, a skin or a roll when nobody has drawn a plan: plain rows, the grain
// respected. What a plan can do is at least as good; wherever these counts are used they are said to be "by
// yield". A piece or a sheet without extent breaks the contract: std::logic_error.
#pragma once

#include "engine/book/structure.h"
#include "engine/measure/measure.h"

#include <cstdint>
#include <optional>
#include <span>

namespace endband {

// Equal pieces in rows and columns from one sheet; a piece whose grain matters lies one way only. 0: it does
// not fit. The sheet's second side is along its grain.
std::int64_t pieces_a_sheet(SheetSize sheet, Length height, Length width, Grain grain);

struct SheetYield {
  std::int64_t sheets = 0;  // opened
  // Of sheets: each piece takes 1 / pieces_a_sheet, each size rounded up to a thousandth; never more than
  // `sheets`, because small pieces come out of what large ones leave.
  Count share;
  Area used;  // sum of the pieces
};
// Pieces of several sizes: each size fills whole rows of shelves, longest first, along either side, on as few
// sheets as first fit finds; never more than each size's own count summed. nullopt: some piece is larger than
// the sheet. For one size the result never falls as the count grows. For several, first fit may, very seldom,
// lay one piece more on fewer sheets.
std::optional<SheetYield> sheets_for(SheetSize sheet, std::span<Piece const> pieces);

struct SkinYield {
  std::int64_t skins = 0;
  Area used;
};
// Pieces from the usable rectangle of as few skins as first fit on shelves finds. A piece lies with its
// height along the backbone (`usable_height`) when its grain is along its height, and turned or not when its
// grain is `any`. The pieces of a skin group > 0 come from one skin. nullopt: some piece, or some group, is
// larger than the rectangle.
std::optional<SkinYield> skins_for(Length usable_height, Length usable_width, std::span<Piece const> pieces);

struct RollYield {
  Length length;  // whole rows, each of one size, torn off across the roll
  Area used;
};
// Pieces from cloth or linen off a roll: rows across its width, the grain along its length; of the ways a
// piece may lie the one that takes less length. nullopt: some piece is wider than the roll.
std::optional<RollYield> roll_for(Length roll_width, std::span<Piece const> pieces);

}  // namespace endband
