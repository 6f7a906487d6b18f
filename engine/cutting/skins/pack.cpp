#include "engine/cutting/skins/pack.h"

#include "engine/cutting/geometry/convex.h"
#include "engine/cutting/geometry/fit.h"

#include <algorithm>
#include <limits>

namespace endband::cutting::skins {
namespace {

constexpr std::size_t most_exact = 250;  // units, beyond which a micrometre is not looked for

std::size_t index(std::int64_t value) { return static_cast<std::size_t>(value); }

}  // namespace

Packer::Packer(std::vector<Skin> const& skins, std::vector<SkinPiece> const& pieces, std::int64_t margin)
    : skins_{skins}, pieces_{pieces}, coarse_{space_of(skins, pieces, margin)} {}

Packed Packer::pack(std::vector<int> const& bins, std::vector<int> const& units, Budget const& budget) {
  Budget part = budget;
  bool const fine = coarse_.step > 1 && units.size() <= most_exact;
  if (fine) part.work = budget.work - budget.work / 16;
  Found found = search(coarse_, bins, units, part, nullptr, runs_++);
  if (found.all || !fine) return packed(coarse_, found);
  if (!exact_) exact_ = space_of(skins_, pieces_, coarse_.margin, 1);
  part.work = budget.work / 16;
  std::vector<std::vector<Laid>> const start = exactly(bins, found.bins);
  Found closer = search(*exact_, bins, units, part, &start, runs_);
  closer.work += found.work;
  return packed(*exact_, closer);
}

std::vector<std::vector<Laid>> Packer::exactly(std::vector<int> const& bins,
                                               std::vector<std::vector<Laid>> const& laid) const {
  std::vector<std::vector<Laid>> exact = laid;
  for (std::size_t bin = 0; bin < exact.size(); ++bin)
    for (Laid& piece : exact[bin]) {
      Shape const& shape = exact_->shapes[index(piece.shape)];
      piece.x *= coarse_.step;
      piece.y *= coarse_.step;
      piece.wide = shape.wide;
      piece.high = shape.high;
      piece.cells = cells_under(*exact_, exact_->sites[index(bins[bin])], shape, piece.x, piece.y);
    }
  return exact;
}

Packed Packer::packed(Space const& space, Found const& found) const {
  Packed result;
  result.twice_area = found.twice_area;
  result.all = found.all;
  result.work = found.work;
  result.placed.assign(space.units.size(), 0);
  result.bins.resize(found.bins.size());
  for (std::size_t bin = 0; bin < found.bins.size(); ++bin)
    for (Laid const& laid : found.bins[bin]) {
      result.placed[index(laid.unit)] = 1;
      result.bins[bin].push_back(
          {laid.piece, space.shapes[index(laid.shape)].angle, {laid.x * space.step, laid.y * space.step}});
    }
  return result;
}

CutSkin cut_of(std::vector<Skin> const& skins, int skin, std::vector<SkinPiece> const& pieces,
               std::vector<LaidPiece> laid) {
  Skin const& from = skins[index(skin)];
  Box const box = box_of(from.outline);
  Skin ground;
  ground.outline = moved(from.outline, {-box.left, -box.bottom});
  for (Polygon const& flaw : from.flaws) ground.flaws.push_back(moved(flaw, {-box.left, -box.bottom}));
  std::int64_t const width = box.right - box.left, height = box.top - box.bottom;
  Region const region = region_of(ground, std::numeric_limits<int>::min());
  std::vector<Wall> walls = region.walls;
  Cells cells = cells_of(region, width, height, ceil_div(std::max(width, height), 1000));
  CutSkin cut;
  cut.skin = skin;
  cut.twice_area_left = twice_usable(from.outline, from.flaws);
  for (LaidPiece& piece : laid) {
    Polygon const shape = turned(pieces[index(piece.piece)].shape, piece.angle);
    for (Polygon const& part : exact::convex_parts(shape)) take(cells, moved(part, piece.at));
    for (std::size_t i = 0; i < shape.size(); ++i) {
      Polygon const edge = moved({shape[i], shape[(i + 1) % shape.size()]}, piece.at);
      walls.push_back({edge[0], edge[1]});
    }
    cut.twice_area_left -= twice_area(shape);
    piece.at = {piece.at.x + box.left, piece.at.y + box.bottom};
  }
  Box left = largest_rectangle(cells, 1);
  if (left.right > left.left) {
    left = grown_between(left, walls);
    cut.largest_left = {left.left + box.left, left.bottom + box.bottom, left.right + box.left,
                        left.top + box.bottom};
  }
  cut.laid = std::move(laid);
  return cut;
}

}  // namespace endband::cutting::skins
