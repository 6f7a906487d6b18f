#include "engine/cutting/shelves.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace endband {
namespace {

struct Lie {  // one way for a piece to lie
  std::int64_t across = 0, along = 0;
};

struct Size {  // equal pieces; the better way to lie comes first
  std::array<Lie, 2> lies;
  std::size_t ways = 0;
  std::int64_t count = 0;
  int group = 0;
};

struct Shelf {
  std::int64_t height = 0, left = 0;
};

struct Unit {
  std::int64_t times = 1;  // as many units are filled in this same way
  std::int64_t left = 0;   // along, above the topmost shelf
  std::vector<Shelf> shelves;
};

class Shelving {
 public:
  Shelving(std::int64_t across, std::int64_t along, GrainSide grain)
      : across_(across), along_(along), grain_(grain) {}

  std::optional<std::int64_t> units_for(std::span<Piece const> pieces) {
    std::vector<Size> sizes;
    sizes.reserve(pieces.size());
    for (Piece const& piece : pieces) {
      sizes.push_back(size_of(piece));
      if (sizes.back().ways == 0) return std::nullopt;
    }
    std::stable_sort(sizes.begin(), sizes.end(), [](Size const& a, Size const& b) {
      return std::pair(b.group, b.lies[0].along) < std::pair(a.group, a.lies[0].along);  // groups first
    });
    for (auto first = sizes.begin(); first != sizes.end();) {
      auto const last =
          first->group == 0 ? sizes.end() : std::find_if(first, sizes.end(), [&](Size const& size) {
            return size.group != first->group;
          });
      std::span<Size const> const together(first, last);
      if (first->group == 0)
        for (Size const& size : together) place(size);
      else if (!place_together(together))
        return std::nullopt;
      first = last;
    }
    std::int64_t units = 0;
    for (Unit const& unit : units_) units = checked_add(units, unit.times);
    return units;
  }

 private:
  std::int64_t pieces_a_unit(Lie lie) const { return (across_ / lie.across) * (along_ / lie.along); }

  Size size_of(Piece const& piece) const {
    bool const upright_along = grain_ == GrainSide::along;
    Lie const upright =
        upright_along ? Lie{piece.width.n, piece.height.n} : Lie{piece.height.n, piece.width.n};
    Lie const turned{upright.along, upright.across};
    Size size;
    size.count = piece.count;
    size.group = piece.skin_group;
    if (piece.grain != Grain::along_width && pieces_a_unit(upright) > 0) size.lies[size.ways++] = upright;
    if (piece.grain != Grain::along_height && pieces_a_unit(turned) > 0) size.lies[size.ways++] = turned;
    if (size.ways == 2) {
      std::int64_t const a = pieces_a_unit(size.lies[0]);
      std::int64_t const b = pieces_a_unit(size.lies[1]);
      if (b > a || (b == a && size.lies[1].along < size.lies[0].along)) std::swap(size.lies[0], size.lies[1]);
    }
    return size;
  }

  // Lays up to `count` of the pieces into one unit; says how many it took.
  std::int64_t fill(Unit& unit, Size const& size, std::int64_t count) const {
    std::int64_t placed = 0;
    std::span<Lie const> const lies(size.lies.data(), size.ways);
    for (Shelf& shelf : unit.shelves)
      for (Lie const& lie : lies) {
        if (lie.along > shelf.height) continue;
        std::int64_t const taken = std::min(count - placed, shelf.left / lie.across);
        shelf.left -= taken * lie.across;
        placed += taken;
      }
    for (Lie const& lie : lies)
      while (placed < count && lie.along <= unit.left) {
        std::int64_t const taken = std::min(count - placed, across_ / lie.across);
        unit.shelves.push_back({lie.along, across_ - taken * lie.across});
        unit.left -= lie.along;
        placed += taken;
      }
    return placed;
  }

  Unit empty() const { return {1, along_, {}}; }

  void place(Size const& size) {
    std::int64_t count = size.count;
    for (std::size_t i = 0; i < units_.size() && count > 0; ++i) {
      Unit filled = units_[i];
      std::int64_t const taken = fill(filled, size, count);
      if (taken == 0) continue;
      filled.times = std::min(units_[i].times, count / taken);
      count -= filled.times * taken;
      std::int64_t const untouched = units_[i].times - filled.times;
      std::swap(units_[i], filled);
      if (untouched == 0) continue;
      filled.times = untouched;
      units_.insert(units_.begin() + static_cast<std::ptrdiff_t>(i) + 1, std::move(filled));
    }
    while (count > 0) {
      Unit fresh = empty();
      std::int64_t const taken = fill(fresh, size, count);
      fresh.times = count / taken;
      count -= fresh.times * taken;
      units_.push_back(std::move(fresh));
    }
  }

  bool place_together(std::span<Size const> sizes) {
    auto const holds_all = [&](Unit& unit) {
      return std::all_of(sizes.begin(), sizes.end(),
                         [&](Size const& size) { return fill(unit, size, size.count) == size.count; });
    };
    for (Unit& unit : units_) {
      Unit trial = unit;
      if (!holds_all(trial)) continue;
      unit = std::move(trial);
      return true;
    }
    Unit fresh = empty();
    if (!holds_all(fresh)) return false;
    units_.push_back(std::move(fresh));
    return true;
  }

  std::int64_t across_, along_;
  GrainSide grain_;
  std::vector<Unit> units_;
};

}  // namespace

std::optional<std::int64_t> units_on_shelves(Length across, Length along, GrainSide grain,
                                             std::span<Piece const> pieces) {
  return Shelving(across.n, along.n, grain).units_for(pieces);
}

}  // namespace endband
