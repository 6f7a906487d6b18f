// Rectangles on shelves, first fit: for the .cpp files of this module only. A unit is a sheet or the
// rectangle of a skin. Shelves lie across it and stack up along it; a shelf is as high as the first piece on
// it.
#pragma once

#include "engine/book/structure.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace endband {

// Units that hold all pieces; nullopt when a piece, or a skin group, fits none. `across` and `along` are the
// sides of the empty unit, and the grain runs along the side that `grain_along` says.
enum class GrainSide : std::uint8_t { along, across };
std::optional<std::int64_t> units_on_shelves(Length across, Length along, GrainSide grain,
                                             std::span<Piece const> pieces);

}  // namespace endband
