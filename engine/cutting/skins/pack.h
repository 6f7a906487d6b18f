// Packs chosen units into chosen skins: the search on coarse steps, then what is left over once more at whole
// micrometres.
#pragma once

#include "engine/cutting/skins/search.h"

#include <optional>

namespace endband::cutting::skins {

struct Packed {
  std::vector<std::vector<LaidPiece>> bins;
  std::vector<std::uint8_t> placed;  // by unit
  std::int64_t twice_area = 0;
  bool all = false;
  std::int64_t work = 0;
};

class Packer {
 public:
  Packer(std::vector<Skin> const& skins, std::vector<SkinPiece> const& pieces, std::int64_t margin);
  // `bins`: a skin each.
  Packed pack(std::vector<int> const& bins, std::vector<int> const& units, Budget const& budget);
  Space const& space() const { return coarse_; }

 private:
  Packed packed(Space const& space, Found const& found) const;
  std::vector<std::vector<Laid>> exactly(std::vector<int> const& bins,
                                         std::vector<std::vector<Laid>> const& laid) const;

  std::vector<Skin> const& skins_;
  std::vector<SkinPiece> const& pieces_;
  Space coarse_;
  int runs_ = 0;
  std::optional<Space> exact_;  // at whole micrometres, once it is needed
};

// What is left of the skin around the pieces.
CutSkin cut_of(std::vector<Skin> const& skins, int skin, std::vector<SkinPiece> const& pieces,
               std::vector<LaidPiece> laid);

}  // namespace endband::cutting::skins
