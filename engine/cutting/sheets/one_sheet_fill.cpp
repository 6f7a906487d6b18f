// The most valuable plan of one sheet: plans by dynamic programming under prices of the copies, the prices
// also giving the bound (Lagrangian relaxation of the copies; Christofides and Hadjiconstantinou 1995), then
// the exact search.
#include "engine/cutting/sheets/one_sheet_reduce.h"
#include "engine/cutting/sheets/one_sheet_search.h"
#include "engine/cutting/sheets/one_sheet_shelves.h"

#include <algorithm>
#include <optional>

namespace endband::cutting::one_sheet {

namespace {

__extension__ using Wide = __int128;

enum class Copies : std::uint8_t { kept, unlimited };

std::vector<Lengths> lengths(Task const& task, bool heights, Copies copies) {
  std::vector<Lengths> all;
  for (Want const& want : task.wants)
    for (bool const turned : {false, true}) {
      if (turned && (!want.turns || want.width == want.height)) continue;
      Block const block = piece_block(want, 0, turned);
      if (block.width > task.width || block.height > task.height) continue;
      std::int64_t const size = heights ? block.height : block.width;
      std::int64_t const most = (heights ? task.height : task.width) / size;
      all.push_back({size, copies == Copies::kept ? std::min(want.copies, most) : most});
    }
  return all;
}

std::vector<std::int64_t> values_of(Task const& task, std::int64_t scale) {
  std::vector<std::int64_t> values;
  for (Want const& want : task.wants) values.push_back(want.value * scale);
  return values;
}

// No plan is worth more than the densest pieces, the last of them in part, would be on the sheet's area.
std::int64_t area_bound(Task const& task, Copies copies) {
  struct Dense {
    std::int64_t value, copies;
    Wide area;
  };
  std::vector<Dense> all;
  Wide const sheet = static_cast<Wide>(task.width) * task.height;
  for (Want const& want : task.wants) {
    if (want.value <= 0) continue;
    Wide const area = static_cast<Wide>(want.width) * want.height;
    std::int64_t const most =
        static_cast<std::int64_t>(std::min<Wide>(sheet / area + 1, std::int64_t{1} << 40));
    all.push_back({want.value, copies == Copies::kept ? want.copies : most, area});
  }
  // Densities are compared as doubles would lose them: by cross products of at most 2^62 x 2^48.
  std::stable_sort(all.begin(), all.end(),
                   [](Dense const& a, Dense const& b) { return a.value * b.area > b.value * a.area; });
  Wide left = sheet, bound = 0;
  for (Dense const& kind : all) {
    if (kind.area * kind.copies <= left) {
      left -= kind.area * kind.copies;
      bound += static_cast<Wide>(kind.value) * kind.copies;
      continue;
    }
    bound += left * kind.value / kind.area;
    break;
  }
  return static_cast<std::int64_t>(std::min<Wide>(bound, std::int64_t{1} << 62));
}

// More points than this are thinned or shifted: a table of them would take far more than `steps`.
std::size_t many_points(std::int64_t steps) {
  std::size_t most = 100;
  while (most < 2000 && static_cast<std::int64_t>(most * most * most) / 100 < steps) most += most / 4;
  return most;
}

// The fewer of two sets that both will do.
Points normal_points(Task const& task, bool heights, Copies copies, std::size_t most) {
  std::int64_t const limit = heights ? task.height : task.width;
  Points halved(lengths(task, heights, Copies::unlimited), limit, most, Points::Kind::halved);
  if (copies == Copies::unlimited) return halved;
  Points kept(lengths(task, heights, copies), limit, most);
  return halved.complete() && halved.count() < kept.count() ? halved : kept;
}

// Points of which a plan can be made, thinned until a table takes at most `steps`.
Grid plain_grid(Task const& task, Copies copies, std::int64_t steps) {
  std::size_t most = many_points(steps);
  for (;; most = most * 3 / 4) {
    Grid grid{normal_points(task, false, copies, most), normal_points(task, true, copies, most)};
    if (table_steps(grid) <= steps || most < 12) return grid;
    most = std::min(most, std::max(grid.xs.count(), grid.ys.count()));
  }
}

// Points on which a table is never too low and takes at most `steps`; nothing where there are none.
class BoundingGrid {
 public:
  BoundingGrid(Task const& task, Copies copies, std::int64_t steps)
      : task_(task), most_(many_points(steps)), steps_(steps) {
    grid_ = {normal_points(task, false, copies, most_), normal_points(task, true, copies, most_)};
    if (!grid_.xs.complete()) shift(false);
    if (!grid_.ys.complete()) shift(true);
  }
  std::optional<Grid> found() {
    while (usable() && table_steps(grid_) > steps_) shift(grid_.xs.count() < grid_.ys.count());
    if (!usable()) return std::nullopt;
    return grid_;
  }

 private:
  void shift(bool heights) {
    Points& points = heights ? grid_.ys : grid_.xs;
    int& by = heights ? grid_.shift_y : grid_.shift_x;
    std::int64_t const limit = heights ? task_.height : task_.width;
    std::size_t const before = points.count();
    do {
      ++by;
    } while (static_cast<std::size_t>(limit >> by) + 1 >= std::min(before, most_));
    points = Points({{1, limit >> by}}, limit >> by, most_);
  }
  // Every piece still has some width and height.
  bool usable() const {
    return std::all_of(task_.wants.begin(), task_.wants.end(), [&](Want const& want) {
      std::int64_t const across = want.turns ? std::min(want.width, want.height) : want.width;
      std::int64_t const along = want.turns ? std::min(want.width, want.height) : want.height;
      return (across >> grid_.shift_x) > 0 && (along >> grid_.shift_y) > 0;
    });
  }

  Task const& task_;
  std::size_t most_;
  std::int64_t steps_;
  Grid grid_;
};

// What one step of work is in steps of a table.
constexpr std::int64_t step = 16;

class Filler {
 public:
  Filler(Task const& task, std::int64_t work)
      : task_(task), packing_(task.wants), total_(work * step), value_scale_(scale_of(task)) {}

  void run() {
    if (task_.wants.empty()) return;
    bound_ = area_bound(task_, Copies::kept);
    tree_ = shelves(task_);
    for (Block const& block : tree_.blocks)
      if (block.first < 0) value_ += task_.wants[static_cast<std::size_t>(block.want)].value;
    if (value_ >= bound_) return;
    Grid const plain = plain_grid(task_, Copies::kept, std::max(total_ / 16, least_steps));
    Limited limited(plain, task_.wants, packing_);
    std::optional<Grid> const fine =
        BoundingGrid(task_, Copies::kept, std::max(total_ / 5, least_steps)).found();
    prices_.assign(task_.wants.size(), 0);
    best_prices_ = prices_;
    try_plan(limited, prices_);
    if (value_ >= bound_ || !fine) return;
    // Prices may be sought on points that make no bound: they are no less good for it.
    bool const small = table_steps(*fine) <= std::max(total_ / 16, least_steps);
    find_prices(small ? *fine : plain, small, limited);
    if (value_ >= bound_ || spent_ >= total_) return;
    search(*fine, limited);
  }

  Tree const& tree() const { return tree_; }
  std::int64_t value() const { return value_; }
  std::int64_t bound() const { return std::max(bound_, value_); }
  std::int64_t work() const { return spent_ / step; }

 private:
  static constexpr std::int64_t least_steps = 20'000;

  // Prices are whole numbers: small values are scaled, so that they are fine enough.
  static std::int64_t scale_of(Task const& task) {
    Wide sum = 0;
    for (Want const& want : task.wants) sum += static_cast<Wide>(want.value) * want.copies;
    std::int64_t scale = 1;
    while (scale < 64 && sum * scale < (std::int64_t{1} << 50)) scale *= 2;
    return scale;
  }

  std::vector<std::int64_t> priced(std::vector<std::int64_t> const& prices) const {
    std::vector<std::int64_t> values;
    for (std::size_t i = 0; i < prices.size(); ++i)
      values.push_back(task_.wants[i].value * value_scale_ - prices[i]);
    return values;
  }
  std::int64_t constant(std::vector<std::int64_t> const& prices) const {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < prices.size(); ++i) sum += prices[i] * task_.wants[i].copies;
    return sum;
  }

  void try_plan(Limited& limited, std::vector<std::int64_t> const& prices) {
    std::vector<std::int64_t> guide = priced(prices);
    for (std::int64_t& value : guide) value = std::max<std::int64_t>(value, 1);
    std::int64_t const before = limited.steps();
    limited.run(guide);
    spent_ += limited.steps() - before;
    if (limited.value(limited.last()) <= value_) return;
    value_ = limited.value(limited.last());
    tree_ = Tree{};
    std::vector<std::int64_t> left;
    for (Want const& want : task_.wants) left.push_back(want.copies);
    tree_.root = limited.plan(tree_, limited.last(), left);
  }

  // Subgradient steps; each also gives a plan.
  void find_prices(Grid const& grid, bool bounds, Limited& limited) {
    int since = 0;
    std::int64_t pace = 16;  // sixteenths
    std::int64_t least = 0;
    for (int round = 0; round < 200 && pace > 0 && value_ < bound_ && spent_ < total_ / 2; ++round) {
      Table const table(grid, task_.wants, priced(prices_));
      spent_ += table_steps(grid);
      std::int64_t const level = table.most() + constant(prices_);
      if (bounds) bound_ = std::min(bound_, level / value_scale_);
      if (round == 0 || level < least) {
        least = level;
        best_prices_ = prices_;
        since = 0;
      } else if (++since == 4) {
        since = 0;
        pace = pace * 2 / 3;
      }
      Tree tree;
      tree.root = table.plan(tree);
      std::vector<std::int64_t> used(task_.wants.size(), 0);
      for (Block const& block : tree.blocks)
        if (block.first < 0) ++used[static_cast<std::size_t>(block.want)];
      if (!move_prices(used, level, pace)) break;
      if (round % 2 == 0) try_plan(limited, prices_);
    }
  }

  // False: the plan keeps to the copies, and the prices are right.
  bool move_prices(std::vector<std::int64_t> const& used, std::int64_t level, std::int64_t pace) {
    Wide norm = 0;
    for (std::size_t i = 0; i < used.size(); ++i) {
      std::int64_t const over = used[i] - task_.wants[i].copies;
      if (over > 0 || prices_[i] > 0) norm += static_cast<Wide>(over) * over;
    }
    if (norm == 0) return false;
    Wide const gap = level - static_cast<Wide>(value_) * value_scale_;
    for (std::size_t i = 0; i < used.size(); ++i) {
      std::int64_t const over = used[i] - task_.wants[i].copies;
      Wide const moved = prices_[i] + gap * over * pace / (16 * norm);
      Wide const most = static_cast<Wide>(task_.wants[i].value) * value_scale_;
      prices_[i] = static_cast<std::int64_t>(std::clamp<Wide>(moved, 0, most));
    }
    return true;
  }

  void search(Grid const& grid, Limited const& limited) {
    Bounds bounds{grid, value_scale_, {}};
    std::vector<std::int64_t> const none(task_.wants.size(), 0);
    for (auto const& prices : {best_prices_, none}) {
      bounds.pricings.push_back({priced(prices), constant(prices), {}});
      Table const table(grid, task_.wants, bounds.pricings.back().values);
      table.find_around(bounds.pricings.back().around);
      spent_ += 4 * table_steps(grid);
      bound_ = std::min(bound_, (table.most() + constant(prices)) / value_scale_);
      if (best_prices_ == none) break;
    }
    Search search(task_, packing_, bounds, limited, value_, bound_);
    search.run((total_ - spent_) / step);
    spent_ += search.steps() * step;
    bound_ = search.bound();
    if (!search.found()) return;
    value_ = search.value();
    tree_ = search.tree();
  }

  Task const& task_;
  Packing packing_;
  std::int64_t total_, spent_ = 0, value_scale_;
  std::vector<std::int64_t> prices_, best_prices_;
  Tree tree_;
  std::int64_t value_ = 0, bound_ = 0;
};

}  // namespace

Filling fill(Task const& task, std::int64_t work) {
  Reduced const reduced = reduce(task);
  Filler filler(reduced.task, std::clamp<std::int64_t>(work, 0, std::int64_t{1} << 40));
  filler.run();
  Filling filling = restore(task, reduced, filler.tree());
  filling.bound = reduced.whole ? filler.bound() : area_bound(task, Copies::kept);
  filling.work = filler.work();
  return filling;
}

Filling fill_unlimited(Task const& task) {
  Reduced const reduced = reduce(task);
  Tree tree;
  std::int64_t bound = 0;
  if (!reduced.task.wants.empty()) {
    constexpr std::int64_t most_steps = 300'000'000;
    Grid const grid = plain_grid(reduced.task, Copies::unlimited, most_steps);
    Table const table(grid, reduced.task.wants, values_of(reduced.task, 1));
    tree.root = table.plan(tree);
    bound = table.most();
    if (!grid.exact()) {
      bound = area_bound(reduced.task, Copies::unlimited);
      if (auto const high = BoundingGrid(reduced.task, Copies::unlimited, most_steps).found())
        bound = std::min(bound, Table(*high, reduced.task.wants, values_of(reduced.task, 1)).most());
    }
  }
  Filling filling = restore(task, reduced, tree);
  filling.bound = bound;
  return filling;
}

}  // namespace endband::cutting::one_sheet
