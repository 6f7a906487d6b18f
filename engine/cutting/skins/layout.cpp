#include "engine/cutting/skins/layout.h"

#include <algorithm>

namespace endband::cutting::skins {
namespace {

std::size_t index(std::int64_t value) { return static_cast<std::size_t>(value); }

std::int64_t shared_area(Box const& a, Box const& b) {
  std::int64_t const wide = std::min(a.right, b.right) - std::max(a.left, b.left);
  std::int64_t const high = std::min(a.top, b.top) - std::max(a.bottom, b.bottom);
  return wide > 0 && high > 0 ? wide * high : 0;
}

// The steps along a line, whole numbers strictly between low and high micrometres.
bool steps_within(Span const& span, std::int64_t step, std::int64_t from, Free& steps) {
  std::int64_t const low = floor_div(span.low, step) + 1 + from, high = ceil_div(span.high, step) - 1 + from;
  if (low > high) return false;
  steps = {static_cast<std::int32_t>(low), static_cast<std::int32_t>(high)};
  return true;
}

// Among very many pieces a choice of lines must do.
void thin(std::vector<std::int64_t>& lines, Random& random) {
  constexpr std::size_t most = 100;
  if (lines.size() <= most) return;
  for (std::size_t i = 0; i < most; ++i)
    std::swap(lines[i], lines[i + index(random.below(static_cast<std::int64_t>(lines.size() - i)))]);
  lines.resize(most);
}

}  // namespace

Layout::Layout(Space const& space, Lines& lines, std::vector<int> bins)
    : space_{space},
      lines_{lines},
      sites_{std::move(bins)},
      bins_(sites_.size()),
      placed_(space.units.size(), 0) {}

void Layout::clear() {
  for (auto& bin : bins_) bin.clear();
  std::ranges::fill(placed_, std::uint8_t{0});
  twice_area_ = 0;
  units_placed_ = 0;
}

void Layout::save(State& state) const {
  state.bins = bins_;
  state.placed = placed_;
  state.twice_area = twice_area_;
  state.units_placed = units_placed_;
}

void Layout::restore(State const& state) {
  bins_ = state.bins;
  placed_ = state.placed;
  twice_area_ = state.twice_area;
  units_placed_ = state.units_placed;
}

void Layout::put(int bin, Laid laid) {
  auto& placed = placed_[index(laid.unit)];
  if (placed == 0) {
    twice_area_ += space_.units[index(laid.unit)].twice_area;
    ++units_placed_;
  }
  placed = 1;
  bins_[index(bin)].push_back(laid);
}

void Layout::remove(int unit, std::vector<Freed>& freed) {
  if (!placed(unit)) return;
  for (std::size_t bin = 0; bin < bins_.size(); ++bin)
    std::erase_if(bins_[bin], [&](Laid const& laid) {
      if (laid.unit != unit) return false;
      freed.push_back({static_cast<int>(bin), laid.x, laid.y, laid.wide, laid.high});
      return true;
    });
  placed_[index(unit)] = 0;
  twice_area_ -= space_.units[index(unit)].twice_area;
  --units_placed_;
}

bool Layout::insert(int unit, Style const& style, Random& random, std::vector<Freed> const* freed) {
  if (placed(unit)) return false;
  Unit const& what = space_.units[index(unit)];
  int const bins = static_cast<int>(bins_.size());
  if (what.kinds.size() == 1 && !style.first_bin) return insert_into(unit, 0, bins, -1, style, random, freed);
  if (what.together == Together::one_skin) {
    for (int bin = 0; bin < bins; ++bin)
      if (insert_into(unit, bin, bin + 1, -1, style, random, freed)) return true;
    return false;
  }
  std::vector<int> batches;
  for (int const site : sites_) batches.push_back(space_.sites[index(site)].batch);
  std::ranges::sort(batches);
  batches.erase(std::unique(batches.begin(), batches.end()), batches.end());
  return std::ranges::any_of(
      batches, [&](int batch) { return insert_into(unit, 0, bins, batch, style, random, freed); });
}

bool Layout::insert_into(int unit, int first_bin, int last_bin, int batch, Style const& style, Random& random,
                         std::vector<Freed> const* freed) {
  Unit const& what = space_.units[index(unit)];
  bool all = true;
  for (std::size_t k = 0; k < what.kinds.size() && all; ++k) {
    Found best;
    for (int bin = first_bin; bin < last_bin; ++bin) {
      Site const& site = space_.sites[index(sites_[index(bin)])];
      if (batch >= 0 && site.batch != batch) continue;
      look(what.kinds[k], bin, style, random, freed, best);
      if (style.first_bin && best.bin >= 0) break;
    }
    all = best.bin >= 0;
    if (!all) break;
    best.laid.unit = unit;
    best.laid.piece = what.pieces[k];
    bins_[index(best.bin)].push_back(best.laid);
  }
  if (!all) {
    for (int bin = first_bin; bin < last_bin; ++bin)
      std::erase_if(bins_[index(bin)], [&](Laid const& laid) { return laid.unit == unit; });
    return false;
  }
  placed_[index(unit)] = 1;
  twice_area_ += what.twice_area;
  ++units_placed_;
  return true;
}

bool Layout::meets_freed(int bin, Shape const& shape, std::int64_t x, std::int64_t y,
                         std::vector<Freed> const& freed) const {
  return std::ranges::any_of(freed, [&](Freed const& f) {
    return f.bin == bin && x < f.x + f.wide && f.x < x + shape.wide && y < f.y + f.high &&
           f.y < y + shape.high;
  });
}

bool Layout::overlaps(Laid const& laid, int shape, std::int64_t x, std::int64_t y) {
  Shape const& moving = space_.shapes[index(shape)];
  if (x >= laid.x + laid.wide || laid.x >= x + moving.wide || y >= laid.y + laid.high ||
      laid.y >= y + moving.high)
    return false;
  if (laid.upright && moving.upright) return true;
  work_ += 4;
  return std::ranges::any_of(lines_.between(laid.shape, shape), [&](Barrier const& barrier) {
    Span span;
    Free steps;
    return across(barrier.area, (x - laid.x) * space_.step, span) &&
           steps_within(span, space_.step, laid.y, steps) && steps.low <= y && y <= steps.high;
  });
}

bool Layout::blocked(int bin, int shape, std::int64_t x, std::int64_t y) {
  return std::ranges::any_of(bins_[index(bin)],
                             [&](Laid const& laid) { return overlaps(laid, shape, x, y); });
}

bool Layout::force(int unit, int bin, Random& random, std::vector<int>& removed, std::vector<Freed>& freed) {
  Kind const& kind = space_.kinds[index(space_.units[index(unit)].kinds.front())];
  int const shape = static_cast<int>(random.between(kind.first_shape, kind.last_shape - 1));
  Shape const& moving = space_.shapes[index(shape)];
  int const site = sites_[index(bin)];
  std::vector<Spot> const& seeds = lines_.seeds(site, shape);
  ++work_;
  if (seeds.empty()) return false;
  Spot spot = seeds[index(random.below(std::ssize(seeds)))];
  if (random.below(2) == 0 && !bins_[index(bin)].empty()) {  // or beside a piece
    Laid const beside = bins_[index(bin)][index(random.below(std::ssize(bins_[index(bin)])))];
    bool const column = random.below(2) == 0, before = random.below(2) == 0;
    std::int64_t const position = column   ? before ? beside.x - moving.wide : beside.x + beside.wide
                                  : before ? beside.y - moving.high
                                           : beside.y + beside.high;
    std::span<Free const> const line = lines_.at(site, shape, column ? Axis::column : Axis::row, position);
    if (line.empty()) return false;
    Free const stretch = line[index(random.below(std::ssize(line)))];
    std::int64_t const along = random.below(2) == 0 ? stretch.low : stretch.high;
    spot = column ? Spot{position, along} : Spot{along, position};
  }
  std::vector<int> under;
  for (Laid const& laid : bins_[index(bin)])
    if (overlaps(laid, shape, spot.x, spot.y)) under.push_back(laid.unit);
  work_ += 4 + std::ssize(bins_[index(bin)]) / 4;
  for (int const other : under)
    if (placed(other)) {
      remove(other, freed);
      removed.push_back(other);
    }
  put(bin, {unit, space_.units[index(unit)].pieces.front(), shape, spot.x, spot.y, moving.wide, moving.high,
            cells_under(space_, space_.sites[index(site)], moving, spot.x, spot.y), moving.upright});
  return true;
}

// Appends the ends of the free stretches along the line.
void Layout::look_along(int bin, int shape, Axis axis, std::int64_t position) {
  bool const column = axis == Axis::column;
  std::span<Free const> const stretches = lines_.at(sites_[index(bin)], shape, axis, position);
  if (stretches.empty()) return;
  Shape const& moving = space_.shapes[index(shape)];
  std::int64_t const across_size = column ? moving.wide : moving.high;
  std::int64_t const along_size = column ? moving.high : moving.wide;
  taken_.clear();
  for (Laid const& laid : bins_[index(bin)]) {
    std::int64_t const from = column ? laid.x : laid.y, size = column ? laid.wide : laid.high;
    if (position >= from + size || from >= position + across_size) continue;
    std::int64_t const along = column ? laid.y : laid.x, length = column ? laid.high : laid.wide;
    if (laid.upright && moving.upright) {
      taken_.push_back(
          {static_cast<std::int32_t>(along - along_size + 1), static_cast<std::int32_t>(along + length - 1)});
      continue;
    }
    std::vector<Barrier> const& barriers = lines_.between(laid.shape, shape);
    work_ += std::ssize(barriers) / 2;
    for (Barrier const& barrier : barriers) {
      Span span;
      Free steps;
      if (across(column ? barrier.area : barrier.mirrored, (position - from) * space_.step, span) &&
          steps_within(span, space_.step, along, steps))
        taken_.push_back(steps);
    }
  }
  for (std::size_t i = 1; i < taken_.size(); ++i)
    for (std::size_t k = i; k > 0 && taken_[k].low < taken_[k - 1].low; --k)
      std::swap(taken_[k], taken_[k - 1]);
  auto const add = [&](std::int64_t along) {
    spots_.push_back(column ? Spot{position, along} : Spot{along, position});
  };
  for (Free const& stretch : stretches) {
    std::int32_t from = stretch.low;
    auto const emit = [&](std::int32_t to) {
      if (from > to) return;
      add(from);
      if (to > from) add(to);
    };
    for (Free const& taken : taken_) {
      if (taken.low > stretch.high) break;
      emit(std::min(taken.low - 1, stretch.high));
      from = std::max(from, taken.high + 1);
    }
    emit(stretch.high);
  }
}

void Layout::weigh(int bin, int shape, std::int64_t x, std::int64_t y, Style const& style, Random& random,
                   Found& best) {
  Site const& site = space_.sites[index(sites_[index(bin)])];
  Shape const& moving = space_.shapes[index(shape)];
  Box const cells = cells_under(space_, site, moving, x, y);
  Box const outer{cells.left - style.ring, cells.bottom - style.ring, cells.right + style.ring,
                  cells.top + style.ring};
  std::int64_t covered = 0;
  for (Laid const& laid : bins_[index(bin)])
    covered += shared_area(outer, laid.cells) - shared_area(cells, laid.cells);
  std::int64_t score = pressed(site, cells, style.ring, covered) * 64;
  score += style.pull_x * x * 64 / (site.columns + 1) + style.pull_y * y * 64 / (site.rows + 1);
  if (site.raster.ranked()) {
    std::int64_t const area =
        std::max<std::int64_t>((cells.right - cells.left) * (cells.top - cells.bottom), 1);
    score -= site.raster.ranks_in(cells) * 64 * 256 / area;
  }
  if (style.noise > 0) score += random.below(style.noise * 64);
  score += 1'000'000;  // never below 0
  if (score <= best.score) return;
  best.score = score;
  best.bin = bin;
  best.laid.shape = shape;
  best.laid.x = x;
  best.laid.y = y;
  best.laid.wide = moving.wide;
  best.laid.high = moving.high;
  best.laid.cells = cells;
  best.laid.upright = moving.upright;
}

void Layout::look(int kind, int bin, Style const& style, Random& random, std::vector<Freed> const* freed,
                  Found& best) {
  Kind const& what = space_.kinds[index(kind)];
  for (int shape = what.first_shape; shape < what.last_shape; ++shape) {
    Shape const& moving = space_.shapes[index(shape)];
    columns_.clear();
    rows_.clear();
    auto const add_column = [&](std::int64_t x) {
      if (!freed || std::ranges::any_of(*freed, [&](Freed const& f) {
            return f.bin == bin && x < f.x + f.wide && f.x < x + moving.wide;
          }))
        columns_.push_back(x);
    };
    auto const add_row = [&](std::int64_t y) {
      if (!freed || std::ranges::any_of(*freed, [&](Freed const& f) {
            return f.bin == bin && y < f.y + f.high && f.y < y + moving.high;
          }))
        rows_.push_back(y);
    };
    for (Laid const& laid : bins_[index(bin)]) {
      add_column(laid.x - moving.wide);
      add_column(laid.x + laid.wide);
      add_row(laid.y - moving.high);
      add_row(laid.y + laid.high);
      if (laid.upright && moving.upright) continue;
      for (Barrier const& barrier : lines_.between(laid.shape, shape)) {
        add_column(laid.x + floor_div(barrier.box.left, space_.step));
        add_column(laid.x + ceil_div(barrier.box.right, space_.step));
        add_row(laid.y + floor_div(barrier.box.bottom, space_.step));
        add_row(laid.y + ceil_div(barrier.box.top, space_.step));
      }
    }
    for (std::int64_t extra = 0; extra < style.extra_lines; ++extra) {
      Site const& site = space_.sites[index(sites_[index(bin)])];
      std::int64_t const x = random.below(std::max<std::int64_t>(site.columns - moving.wide, 0) / 4 + 1) * 4;
      std::int64_t const y = random.below(std::max<std::int64_t>(site.rows - moving.high, 0) / 4 + 1) * 4;
      add_column(x);
      add_row(y);
    }
    thin(columns_, random);
    thin(rows_, random);
    std::ranges::sort(columns_);
    columns_.erase(std::unique(columns_.begin(), columns_.end()), columns_.end());
    std::ranges::sort(rows_);
    rows_.erase(std::unique(rows_.begin(), rows_.end()), rows_.end());
    std::int64_t const before = lines_.work();
    spots_.clear();
    for (std::int64_t const x : columns_) look_along(bin, shape, Axis::column, x);
    for (std::int64_t const y : rows_) look_along(bin, shape, Axis::row, y);
    for (Spot const& spot : spots_)
      if (!freed || meets_freed(bin, moving, spot.x, spot.y, *freed))
        weigh(bin, shape, spot.x, spot.y, style, random, best);
    std::vector<Spot> const& seeds = lines_.seeds(sites_[index(bin)], shape);
    for (Spot const& spot : seeds)
      if ((!freed || meets_freed(bin, moving, spot.x, spot.y, *freed)) &&
          !blocked(bin, shape, spot.x, spot.y))
        weigh(bin, shape, spot.x, spot.y, style, random, best);
    work_ += 1 + lines_.work() - before +
             static_cast<std::int64_t>((columns_.size() + rows_.size() + spots_.size() + seeds.size()) *
                                       (4 + bins_[index(bin)].size()) / 4);
  }
}

}  // namespace endband::cutting::skins
