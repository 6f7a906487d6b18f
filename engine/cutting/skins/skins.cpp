#include "engine/cutting/skins/search.h"

#include <numeric>

namespace endband::cutting {
namespace {

using namespace skins;  // the parts of this solver

}  // namespace

Filled fill_skin(Skin const& skin, std::vector<SkinPiece> const& pieces, std::int64_t margin, Budget const& budget) {
  Space const space = space_of({skin}, pieces, margin);
  std::vector<int> units(space.units.size());
  std::iota(units.begin(), units.end(), 0);
  Found const found = search(space, {0}, units, budget);
  Filled filled;
  filled.twice_area = found.twice_area;
  filled.all = found.all;
  filled.work = found.work;
  for (Laid const& laid : found.bins[0])
    filled.cut.laid.push_back({laid.piece, space.shapes[static_cast<std::size_t>(laid.shape)].angle,
                               {laid.x * space.step + space.sites[0].origin.x, laid.y * space.step + space.sites[0].origin.y}});
  return filled;
}

}  // namespace endband::cutting
