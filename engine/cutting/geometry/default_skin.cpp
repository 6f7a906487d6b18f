#include "engine/cutting/geometry/outline.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

namespace endband::cutting {

namespace {

// A corner of the right side, tail to neck: a share of the usable rectangle, and how far the skin grows out
// beyond it, in hundredths. Growing only ever moves corners away from the rectangle, so that it is contained
// whatever the area.
struct Corner {
  std::int64_t of_half_width, of_height;
  std::int64_t grown_out, grown_up;
};
constexpr std::array<Corner, 9> right_side{{
    {0, 0, 0, -35},  // tail
    {50, 0, 10, -30},
    {100, 0, 45, -10},  // hind leg
    {100, 30, 20, 0},
    {100, 55, 35, 0},  // belly
    {100, 80, 30, 0},
    {100, 100, 40, 15},  // fore leg
    {60, 100, 10, 35},
    {35, 100, 5, 90},  // neck
}};

constexpr std::int64_t least_area = 100'000'000;  // 1 cm2: below, the corners of the strips would meet

struct Sides {
  std::int64_t height, width;
};

std::vector<Point> right_chain(Sides usable, std::int64_t grown) {
  std::vector<Point> chain;
  chain.reserve(right_side.size());
  for (Corner const& at : right_side)
    chain.push_back({(usable.width * at.of_half_width + 199) / 200 + grown * at.grown_out / 100,
                     usable.height * at.of_height / 100 + grown * at.grown_up / 100});
  return chain;
}

Polygon mirrored(Polygon polygon) {
  for (Point& corner : polygon) corner.x = -corner.x;
  std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

Polygon outline_by(std::vector<Point> const& chain) {
  Polygon outline = chain;
  for (std::size_t i = chain.size(); i-- > 0;)
    if (chain[i].x > 0) outline.push_back({-chain[i].x, chain[i].y});
  return outline;
}

// Between `percent` of the width and the edge, of the right half.
Polygon strip(std::vector<Point> const& chain, std::int64_t percent) {
  Polygon zone = chain;
  for (std::size_t i = chain.size(); i-- > 0;)
    if (chain[i].x > 0) zone.push_back({chain[i].x * percent / 100, chain[i].y});
  return zone;
}

std::int64_t root_of(std::int64_t square) {  // rounded down
  std::int64_t low = 0, high = 3'000'000'000;
  while (low < high) {
    std::int64_t const middle = (low + high + 1) / 2;
    if (middle <= square / middle)
      low = middle;
    else
      high = middle - 1;
  }
  return low;
}

Sides usable_sides(std::int64_t area, std::optional<std::int64_t> height, std::optional<std::int64_t> width) {
  std::int64_t const share = area / 10 * 7;
  if (!height && !width) height = std::max<std::int64_t>(1, root_of(share / 4 * 5));
  if (!height) height = std::max<std::int64_t>(1, share / *width);
  if (!width) width = std::max<std::int64_t>(1, share / *height);
  return {*height, *width};
}

std::int64_t twice_area_by(Sides usable, std::int64_t grown) {
  return twice_area(outline_by(right_chain(usable, grown)));
}

// With the area as nearly as whole micrometres of growth allow. A skin that would hardly grow is a plain
// rectangle.
std::vector<Point> chain_of(Sides usable, std::int64_t area) {
  constexpr std::int64_t least_growth = 1000;
  std::int64_t low = least_growth, high = largest_length;
  if (twice_area_by(usable, low) > 2 * area) {
    std::int64_t const half = (usable.width + 1) / 2;
    return {{half, 0}, {half, std::max(usable.height, area / (2 * half))}};
  }
  while (low < high) {
    std::int64_t const middle = (low + high + 1) / 2;
    if (twice_area_by(usable, middle) <= 2 * area)
      low = middle;
    else
      high = middle - 1;
  }
  bool const up = twice_area_by(usable, low + 1) - 2 * area < 2 * area - twice_area_by(usable, low);
  return right_chain(usable, up ? low + 1 : low);
}

bool too_long(Sides sides) { return sides.width > largest_length || sides.height > largest_length; }

}  // namespace

tl::expected<DefaultSkin, OutlineFault> default_skin(std::int64_t area,
                                                     std::optional<std::int64_t> usable_height,
                                                     std::optional<std::int64_t> usable_width) {
  if (area < least_area || usable_height.value_or(1) <= 0 || usable_width.value_or(1) <= 0)
    return tl::unexpected(OutlineFault{OutlineWrong::no_area});
  if (area > largest_length * largest_length || usable_height.value_or(0) > largest_length ||
      usable_width.value_or(0) > largest_length)
    return tl::unexpected(OutlineFault{OutlineWrong::too_large});
  DefaultSkin skin;
  Sides usable = usable_sides(area, usable_height, usable_width);
  if (too_long(usable)) return tl::unexpected(OutlineFault{OutlineWrong::too_large});
  skin.holds_usable = usable.width * usable.height <= area;
  if (!skin.holds_usable) {  // the same proportions, with 7/10 of the area
    std::int64_t const height = root_of(area / 10 * 7 / usable.width * usable.height);
    usable = usable_sides(area, std::max<std::int64_t>(1, height), std::nullopt);
    if (too_long(usable)) return tl::unexpected(OutlineFault{OutlineWrong::too_large});
  }
  std::vector<Point> const chain = chain_of(usable, area);
  Polygon const outline = outline_by(chain);
  Box const box = box_of(outline);
  if (too_long({box.top - box.bottom, box.right - box.left}))
    return tl::unexpected(OutlineFault{OutlineWrong::too_large});

  Point const to_corner{-box.left, -box.bottom};
  skin.outline = moved(outline, to_corner);
  for (auto const& [grade, percent] : {std::pair{1, 50}, std::pair{0, 80}})
    for (Polygon const& zone : {strip(chain, percent), mirrored(strip(chain, percent))})
      skin.zones.push_back({moved(zone, to_corner), grade});
  std::int64_t const half = usable.width / 2;
  skin.usable = {to_corner.x - half, to_corner.y, to_corner.x - half + usable.width,
                 to_corner.y + usable.height};
  return skin;
}

}  // namespace endband::cutting
