#include "engine/cutting/yield.h"

#include "engine/cutting/shelves.h"

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

void require_extent(Length a, Length b) {
  if (a.n <= 0 || b.n <= 0) throw std::logic_error("something without extent is cut");
}

std::int64_t up(std::int64_t value, std::int64_t by) { return value / by + (value % by > 0 ? 1 : 0); }

Area area_of(std::span<Piece const> pieces) {
  Area sum;
  for (Piece const& piece : pieces) {
    require_extent(piece.height, piece.width);
    if (piece.count < 0) throw std::logic_error("fewer than no pieces are cut");
    sum += area(piece.height, piece.width) * piece.count;
  }
  return sum;
}

// The shelves may run along either side; the better of the two is taken.
std::optional<std::int64_t> least_units(Length across, Length along, std::span<Piece const> pieces) {
  auto const one = units_on_shelves(across, along, GrainSide::along, pieces);
  auto const other = units_on_shelves(along, across, GrainSide::across, pieces);
  if (!one || !other) return one ? one : other;
  return std::min(*one, *other);
}

std::optional<Length> rows_of(Length roll_width, Length across, Length along, std::int64_t count) {
  std::int64_t const side_by_side = roll_width.n / across.n;
  if (side_by_side == 0) return std::nullopt;
  return along * up(count, side_by_side);
}

}  // namespace

std::int64_t pieces_a_sheet(SheetSize sheet, Length height, Length width, Grain grain) {
  require_extent(sheet.first, sheet.second);
  require_extent(height, width);
  std::int64_t const upright = (sheet.second.n / height.n) * (sheet.first.n / width.n);
  std::int64_t const turned = (sheet.second.n / width.n) * (sheet.first.n / height.n);
  switch (grain) {
    case Grain::along_height: return upright;
    case Grain::along_width: return turned;
    case Grain::any: break;
  }
  return std::max(upright, turned);
}

std::optional<SheetYield> sheets_for(SheetSize sheet, std::span<Piece const> pieces) {
  SheetYield result;
  result.used = area_of(pieces);
  for (Piece const& piece : pieces) {
    std::int64_t const yield = pieces_a_sheet(sheet, piece.height, piece.width, piece.grain);
    if (yield == 0) return std::nullopt;
    result.sheets = checked_add(result.sheets, up(piece.count, yield));
    result.share += Count{up(checked_mul(piece.count, 1000), yield)};
  }
  if (pieces.size() > 1 && result.sheets > 1)
    if (auto const shelved = least_units(sheet.first, sheet.second, pieces))
      result.sheets = std::min(result.sheets, *shelved);
  result.share = std::min(result.share, Count{1000} * result.sheets);
  return result;
}

std::optional<SkinYield> skins_for(Length usable_height, Length usable_width, std::span<Piece const> pieces) {
  require_extent(usable_height, usable_width);
  Area const used = area_of(pieces);
  auto const skins = least_units(usable_width, usable_height, pieces);
  if (!skins) return std::nullopt;
  return SkinYield{*skins, used};
}

std::optional<RollYield> roll_for(Length roll_width, std::span<Piece const> pieces) {
  require_extent(roll_width, roll_width);
  RollYield result;
  result.used = area_of(pieces);
  for (Piece const& piece : pieces) {
    std::optional<Length> best;
    if (piece.grain != Grain::along_width) best = rows_of(roll_width, piece.width, piece.height, piece.count);
    if (piece.grain != Grain::along_height) {
      auto const turned = rows_of(roll_width, piece.height, piece.width, piece.count);
      if (!best || (turned && *turned < *best)) best = turned;
    }
    if (!best) return std::nullopt;
    result.length += *best;
  }
  return result;
}

}  // namespace endband
