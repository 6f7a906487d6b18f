#include "engine/cutting/skins/lines.h"

#include <algorithm>

namespace endband::cutting::skins {
namespace {

constexpr std::size_t most_held = 6'000'000;  // numbers and corners, before the cache begins anew

std::size_t index(std::int64_t value) { return static_cast<std::size_t>(value); }

// A point within a part, three times as large: the middle of a triangle of it.
Point middle_thrice(Polygon const& part) {
  for (std::size_t i = 2; i < part.size(); ++i) {
    Point const a = part[0], b = part[i - 1], c = part[i];
    if ((b.x - a.x) * (c.y - a.y) != (b.y - a.y) * (c.x - a.x)) return {a.x + b.x + c.x, a.y + b.y + c.y};
  }
  return {part[0].x * 3, part[0].y * 3};
}

}  // namespace

Lines::Lines(Space const& space) : space_{space}, tables_(space.sites.size() * space.shapes.size()) {}

Lines::Table& Lines::table(int site, int shape) {
  if (held_ > most_held) {
    for (Table& old : tables_) old = {};
    pool_.clear();
    between_.clear();
    held_ = 0;
  }
  Table& table = tables_[index(site) * space_.shapes.size() + index(shape)];
  if (table.built) return table;
  table.built = true;
  Site const& on = space_.sites[index(site)];
  Shape const& of = space_.shapes[index(shape)];
  Region const& region = on.regions[index(space_.kinds[index(of.kind)].level)];
  for (Polygon const& part : of.parts) {
    Polygon const bare = negated(part), wide = negated(grown(part, space_.margin));
    for (Wall const& wall : region.walls)
      table.barriers.push_back(barrier(minkowski_sum(wall.zone ? bare : wide, {wall.from, wall.to})));
  }
  held_ += table.barriers.size() * 24;
  work_ += static_cast<std::int64_t>(table.barriers.size()) * 8;
  return table;
}

std::span<Free const> Lines::at(int site, int shape, Axis axis, std::int64_t position) {
  Table& known = table(site, shape);
  Site const& on = space_.sites[index(site)];
  std::int64_t const count = (axis == Axis::column ? on.columns : on.rows) + 1;
  if (position < 0 || position >= count) return {};
  std::vector<std::int32_t>& places = axis == Axis::column ? known.columns : known.rows;
  bool const cached = count < 40'000;
  if (cached && places.empty()) {
    places.assign(index(count), 0);
    held_ += index(count) / 2;
  }
  if (cached && places[index(position)] != 0) {
    auto const at = index(places[index(position)] - 1);
    return {pool_.data() + at + 1, index(pool_[at].low)};
  }
  compute(known, on, space_.shapes[index(shape)], axis, position);
  if (!cached) return line_;
  auto const at = pool_.size();
  places[index(position)] = static_cast<std::int32_t>(at + 1);
  pool_.push_back({static_cast<std::int32_t>(line_.size()), 0});
  pool_.insert(pool_.end(), line_.begin(), line_.end());
  held_ += line_.size() + 1;
  return {pool_.data() + at + 1, line_.size()};
}

void Lines::compute(Table const& table, Site const& site, Shape const& shape, Axis axis,
                    std::int64_t position) {
  bool const column = axis == Axis::column;
  std::int64_t const step = space_.step, at = position * step;
  std::int64_t const last = column ? site.rows : site.columns;
  line_.clear();
  static_assert(sizeof(Free) == 8);
  std::vector<Free> taken;
  for (Barrier const& barrier : table.barriers) {
    if (column ? at <= barrier.box.left || at >= barrier.box.right
               : at <= barrier.box.bottom || at >= barrier.box.top)
      continue;
    Span span;
    if (!across(column ? barrier.area : barrier.mirrored, at, span)) continue;
    std::int64_t const from = std::max<std::int64_t>(floor_div(span.low, step) + 1, 0);
    std::int64_t const to = std::min(ceil_div(span.high, step) - 1, last);
    if (from <= to) taken.push_back({static_cast<std::int32_t>(from), static_cast<std::int32_t>(to)});
  }
  work_ += 1 + static_cast<std::int64_t>(table.barriers.size()) / 2;
  std::ranges::sort(taken, {}, &Free::low);
  taken.push_back({static_cast<std::int32_t>(last + 1), static_cast<std::int32_t>(last + 1)});
  // Each part for itself: where a seam lies just on a wall, no part crosses it, and they lie on either side.
  std::vector<Point> middles;
  for (Polygon const& part : shape.parts) middles.push_back(middle_thrice(part));
  Region const& region = site.regions[index(space_.kinds[index(shape.kind)].level)];
  std::int32_t from = 0;
  for (Free const& stretch : taken) {
    if (stretch.low > from) {
      std::int64_t const along = from * step;
      Point const corner = column ? Point{at, along} : Point{along, at};
      bool const inside = std::ranges::all_of(middles, [&](Point const& middle) {
        return in_region(region, {corner.x * 3 + middle.x, corner.y * 3 + middle.y});
      });
      if (inside) line_.push_back({from, stretch.low - 1});
    }
    from = std::max(from, stretch.high + 1);
  }
}

std::vector<Barrier> const& Lines::between(int other, int shape) {
  auto const [place, fresh] = between_.try_emplace({other, shape});
  if (!fresh) return place->second;
  for (Polygon const& fixed : space_.shapes[index(other)].parts)
    for (Polygon const& moving : space_.shapes[index(shape)].parts)
      place->second.push_back(barrier(minkowski_sum(fixed, negated(grown(moving, space_.margin)))));
  held_ += place->second.size() * 24;
  work_ += static_cast<std::int64_t>(place->second.size()) * 4;
  return place->second;
}

std::vector<Spot> const& Lines::seeds(int site, int shape) {
  Table& known = table(site, shape);
  if (!known.seeded) {
    known.seeded = true;
    find_seeds(known, site, shape);
  }
  return known.seeds;
}

void Lines::find_seeds(Table& table, int site, int shape) {
  constexpr std::size_t wanted = 24;
  struct Scored {
    std::int64_t score;
    Spot spot;
  };
  Site const& on = space_.sites[index(site)];
  Shape const& of = space_.shapes[index(shape)];
  std::vector<Scored> all;
  std::int64_t const lines = table.barriers.size() > 400 ? 12 : 40;
  auto const add = [&](std::int64_t x, std::int64_t y) {
    Box const cells = cells_under(space_, on, of, x, y);
    all.push_back({pressed(on, cells, 6, 0), {x, y}});
  };
  for (Axis const axis : {Axis::column, Axis::row}) {
    std::int64_t const count =
        std::max<std::int64_t>(axis == Axis::column ? on.columns - of.wide : on.rows - of.high, 0);
    std::int64_t const stride = count / lines + 1;
    for (std::int64_t position = count % stride / 2; position <= count; position += stride)
      for (Free const& free : at(site, shape, axis, position))
        for (std::int64_t const end : {free.low, free.high}) {
          if (axis == Axis::column)
            add(position, end);
          else
            add(end, position);
          if (free.low == free.high) break;
        }
  }
  work_ += static_cast<std::int64_t>(all.size());
  std::ranges::stable_sort(all, [](Scored const& a, Scored const& b) { return a.score > b.score; });
  table.seeds.clear();
  std::int64_t const apart = std::max(on.columns, on.rows) / 64 + 1;
  for (Scored const& next : all) {
    if (table.seeds.size() >= wanted) break;
    bool const near = std::ranges::any_of(table.seeds, [&](Spot const& s) {
      return std::abs(s.x - next.spot.x) < apart && std::abs(s.y - next.spot.y) < apart;
    });
    if (!near) table.seeds.push_back(next.spot);
  }
}

Box cells_under(Space const& space, Site const& site, Shape const& shape, std::int64_t x, std::int64_t y) {
  std::int64_t const cell = site.raster.cell() / space.step;
  return {x / cell, y / cell, (x + shape.wide + cell - 1) / cell, (y + shape.high + cell - 1) / cell};
}

std::int64_t pressed(Site const& site, Box const& cells, std::int64_t ring, std::int64_t free_less) {
  Box const outer{cells.left - ring, cells.bottom - ring, cells.right + ring, cells.top + ring};
  std::int64_t const frame = (outer.right - outer.left) * (outer.top - outer.bottom) -
                             (cells.right - cells.left) * (cells.top - cells.bottom);
  std::int64_t const free = site.raster.free_in(outer) - site.raster.free_in(cells) - free_less;
  return (frame - free) * 1024 / frame;
}

}  // namespace endband::cutting::skins
