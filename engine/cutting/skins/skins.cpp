#include "engine/cutting/skins/skins.h"

#include "engine/cutting/skins/pack.h"

#include <numeric>

namespace endband::cutting {

Filled fill_skin(Skin const& skin, std::vector<SkinPiece> const& pieces, std::int64_t margin,
                 Budget const& budget) {
  std::vector<Skin> const skins{skin};
  skins::Packer packer(skins, pieces, margin);
  std::vector<int> units(packer.space().units.size());
  std::iota(units.begin(), units.end(), 0);
  skins::Packed packed = packer.pack({0}, units, budget);
  Filled filled;
  filled.cut = skins::cut_of(skins, 0, pieces, std::move(packed.bins.front()));
  filled.twice_area = packed.twice_area;
  filled.all = packed.all;
  filled.work = packed.work;
  return filled;
}

}  // namespace endband::cutting
