// What skins and strips share: reading pieces and polygons, writing what is laid.
#pragma once

#include "tests/bench/cutting/bench.h"

namespace endband::cutting::bench {

Polygon read_polygon(Json const& corners, std::int64_t scale);
// `top`: the grade of a piece that names none.
std::vector<SkinPiece> read_skin_pieces(Json const& items, std::int64_t scale, int top);
void add_laid(Json& placements, std::size_t skin, CutSkin const& cut, std::vector<SkinPiece> const& pieces,
              std::int64_t scale);
double total_area(std::vector<SkinPiece> const& pieces);  // twice it

}  // namespace endband::cutting::bench
