// How many pieces come out of a sheet or a skin when nobody has drawn a plan: plain rows, the grain respected. A lower
// bound on what a plan will reach, and said to be "by yield" wherever it is used.
#pragma once

#include "engine/book/structure.h"
#include "engine/measure/measure.h"

#include <cstdint>
#include <optional>
#include <span>

namespace endband {

// Equal pieces in rows and columns from one sheet; a piece whose grain matters lies one way only. 0: it does not fit.
// The sheet's second side is along its grain.
std::int64_t pieces_a_sheet(SheetSize sheet, Length height, Length width, Grain grain);

struct SheetYield {
  std::int64_t sheets = 0;  // opened
  Area used;                // sum of the pieces
};
// Pieces of several sizes: each size fills whole rows of shelves, longest first, on as few sheets as first fit finds;
// never fewer than one, never more than one kind's own count summed. nullopt: some piece is larger than the sheet.
std::optional<SheetYield> sheets_for(SheetSize sheet, std::span<Piece const> pieces);

struct SkinYield {
  std::int64_t skins = 0;
  Area used;
};
// Pieces from the usable rectangle of as few skins as first fit on shelves finds. A piece lies with its height along the
// backbone (`usable_height`), or turned when its grain is `any`. nullopt: some piece is larger than the rectangle.
std::optional<SkinYield> skins_for(Length usable_height, Length usable_width, std::span<Piece const> pieces);

}  // namespace endband
