// What can be said before anything is laid: which skin takes which piece, what no choice of skins can hold,
// and why.
#pragma once

#include "engine/cutting/skins/space.h"

namespace endband::cutting::skins {

enum class Takes : std::uint8_t { no, yes, unsure };  // `no` is proved

class Bounds {
 public:
  Bounds(SkinRequest const& request, Space const& space);

  Takes takes(int kind, int skin) const { return takes_[at(kind) * request_.skins.size() + at(skin)]; }
  // Why some piece can never be cut, or no stock is enough; empty: nothing is proved.
  std::vector<Obstacle> obstacles() const;
  // False: proved that these skins, so many of each, cannot hold all pieces.
  bool may_hold(std::vector<std::int64_t> const& copies) const;
  // No plan over so many of each costs less, worth of what is kept taken off.
  std::int64_t least_cost(std::vector<std::int64_t> const& copies) const;
  std::int64_t twice_usable_of(int skin) const { return usable_[at(skin)].front(); }

 private:
  static std::size_t at(int value) { return static_cast<std::size_t>(value); }
  void find_usable();
  void find_takes();
  void find_needs();
  Takes fits(int kind, int skin, bool flaws, bool grades, bool any_quarter_turn) const;
  Obstacle why_nowhere(int kind) const;
  bool group_fits(std::vector<int> const& kinds, std::vector<int> const& skins, bool one) const;

  SkinRequest const& request_;
  Space const& space_;
  std::vector<int> grades_;                        // by level, rising
  std::vector<std::vector<std::int64_t>> usable_;  // twice, by skin: whole, then of each level
  std::vector<std::int64_t> needed_;      // twice, of pieces of at least the level's grade; first: all
  std::vector<std::int64_t> least_area_;  // twice, by kind, as its corners are rounded where it is turned
  std::vector<Takes> takes_;
};

}  // namespace endband::cutting::skins
