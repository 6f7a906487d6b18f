#include "engine/cutting/sheets/bound.h"

#include <algorithm>
#include <limits>
#include <set>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

// A function of lengths that never gives the sum of parts more than the whole (dual feasible up to scale).
// With one for widths and one for heights, the products of all pieces of a sheet stay within the sheet's own
// product: Fekete and Schepers 2004; Carlier, Clautiaux, Moukrim 2007 for `rounded`.
struct Scale {
  enum class Form : std::uint8_t { plain, large, rounded } form = Form::plain;
  std::int64_t by = 1, whole = 0;

  std::int64_t of(std::int64_t x) const {
    switch (form) {
      case Form::plain: return x;
      case Form::large: return x < by ? 0 : x > whole - by ? whole : x;
      case Form::rounded: break;
    }
    if (2 * x > whole) return 2 * (whole / by - (whole - x) / by);
    return 2 * x == whole ? whole / by : 2 * (x / by);
  }
};

std::vector<Scale> scales(std::vector<std::int64_t> const& lengths, std::int64_t whole, std::size_t most) {
  std::set<std::int64_t> small;
  for (std::int64_t const length : lengths) {
    if (2 * length <= whole) small.insert(length);
    if (2 * length > whole && length < whole) small.insert(whole - length + 1);
  }
  if (whole >= 2) small.insert(whole / 2);
  std::vector<Scale> found{{}};
  std::size_t const stride = small.size() / most + 1;
  std::size_t i = 0;
  for (std::int64_t const by : small) {
    if (i++ % stride != 0 || 2 * by > whole) continue;
    found.push_back({Scale::Form::large, by, whole});
    found.push_back({Scale::Form::rounded, by, whole});
  }
  return found;
}

struct Stock {
  std::int64_t cost = 0, copies = 0;
  std::int64_t holds = 0;
  bool divisible = false;  // a roll: any part of it for that part of its cost
};

// The least cost of stock that holds at least `need`: knapsack cover, exact where the nodes suffice.
class Covering {
 public:
  explicit Covering(std::vector<Stock> stock) : stock_(std::move(stock)) {
    std::erase_if(stock_, [](Stock const& s) { return s.holds <= 0; });
    std::stable_sort(stock_.begin(), stock_.end(), [](Stock const& a, Stock const& b) {
      return static_cast<Wide>(a.cost) * b.holds < static_cast<Wide>(b.cost) * a.holds;
    });
  }
  bool holds(Wide need) const {
    Wide all = 0;
    for (Stock const& s : stock_) all += static_cast<Wide>(s.holds) * s.copies;
    return all >= need;
  }
  // As if all stock from `first` on were divisible; rounded up, or down.
  std::int64_t fluid(std::size_t first, Wide need, bool up = true) const {
    Wide cost = 0;
    for (std::size_t i = first; i < stock_.size() && need > 0; ++i) {
      Stock const& s = stock_[i];
      Wide const all = static_cast<Wide>(s.holds) * s.copies;
      if (all < need) {
        cost += static_cast<Wide>(s.cost) * s.copies;
        need -= all;
        continue;
      }
      cost += need / s.holds * s.cost + (need % s.holds * s.cost + (up ? s.holds - 1 : 0)) / s.holds;
      need = 0;
    }
    Wide const most = std::numeric_limits<std::int64_t>::max() / 4;
    return static_cast<std::int64_t>(need > 0 || cost > most ? most : cost);
  }
  std::int64_t exact(Wide need, int nodes) {
    nodes_ = nodes;
    best_ = std::numeric_limits<std::int64_t>::max() / 4;
    std::int64_t const least = fluid(0, need);
    search(0, need, 0);
    return nodes_ > 0 ? best_ : least;
  }

 private:
  void search(std::size_t i, Wide need, std::int64_t cost) {
    if (--nodes_ <= 0) return;
    if (need <= 0) {
      best_ = std::min(best_, cost);
      return;
    }
    if (i == stock_.size() || cost + fluid(i, need) >= best_) return;
    Stock const& s = stock_[i];
    if (s.divisible) {
      best_ = std::min(best_, cost + fluid(i, need));
      return;
    }
    Wide const wanted = (need + s.holds - 1) / s.holds;
    for (std::int64_t n = static_cast<std::int64_t>(std::min<Wide>(s.copies, wanted)); n >= 0; --n) {
      if (nodes_ <= 0) return;
      search(i + 1, need - static_cast<Wide>(n) * s.holds, cost + n * s.cost);
    }
  }

  std::vector<Stock> stock_;
  std::int64_t best_ = 0;
  int nodes_ = 0;
};

class Bounds {
 public:
  explicit Bounds(Job const& job) : job_(job), request_(*job.request) {
    for (Kind const& kind : job.kinds) rolls_ = rolls_ || kind.roll;
  }

  std::optional<std::int64_t> cost() {
    std::vector<std::int64_t> widths, heights;
    std::int64_t wide = 0, high = 0;
    for (Shape const& shape : job_.shapes) {
      widths.push_back(shape.width);
      heights.push_back(shape.height);
    }
    for (Kind const& kind : job_.kinds) {
      wide = std::max(wide, kind.width);
      high = std::max(high, kind.height);
    }
    std::size_t const most = std::clamp<std::size_t>(2000 / (job_.types.size() + job_.kinds.size()), 1, 24);
    auto const across = scales(widths, wide, most);
    auto const along = rolls_ ? std::vector<Scale>{{}} : scales(heights, high, most);
    std::int64_t best = 0;
    struct Pair {
      std::int64_t fluid = 0;
      std::size_t f = 0, g = 0;
    };
    std::vector<Pair> pairs;
    for (std::size_t f = 0; f < across.size(); ++f)
      for (std::size_t g = 0; g < along.size(); ++g) {
        Covering const covering(stock(across[f], along[g]));
        Wide const need = needed(across[f], along[g]);
        if (!covering.holds(need)) return std::nullopt;
        pairs.push_back({covering.fluid(0, need), f, g});
      }
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](Pair const& a, Pair const& b) { return a.fluid > b.fluid; });
    for (std::size_t i = 0; i < pairs.size() && i < 60; ++i) {
      Covering covering(stock(across[pairs[i].f], along[pairs[i].g]));
      best = std::max(best, covering.exact(needed(across[pairs[i].f], along[pairs[i].g]), 1500));
    }
    return best;
  }

  bool rolls_only() const {
    return std::all_of(job_.kinds.begin(), job_.kinds.end(), [](Kind const& kind) { return kind.roll; });
  }
  // Of rolls alone: some length is torn off that the longest piece fits in.
  std::int64_t longest() const {
    std::int64_t least = 0;
    for (Type const& type : job_.types) {
      std::int64_t of_type = std::numeric_limits<std::int64_t>::max();
      for (Kind const& kind : job_.kinds) {
        Sheet const& roll = request_.sheets[at(kind.sheet)];
        auto const lies = [&](std::int64_t across, std::int64_t along) {
          if (across <= kind.width && along <= kind.height)
            of_type = std::min(of_type, torn_cost(roll.cost, height(along), roll.height));
        };
        lies(type.width, type.height);
        if (type.turns) lies(type.height, type.width);
      }
      least = std::max(least, of_type);
    }
    return least;
  }

  // Each sheet's cost by the area of its pieces alone, as if all were used to the last corner; rounded down.
  std::int64_t by_area() const {
    std::vector<Stock> stock;
    Wide need = 0;
    for (Kind const& kind : job_.kinds) {
      Sheet const& sheet = request_.sheets[at(kind.sheet)];
      stock.push_back({kind.cost, kind.copies, times(sheet.width, sheet.height), true});
    }
    for (Type const& type : job_.types)
      need += static_cast<Wide>(type.width - request_.kerf) * (type.height - request_.kerf) * type.count;
    return Covering(std::move(stock)).fluid(0, need, false);
  }

 private:
  // Off a roll any length may be torn, so heights are the pieces' own then, without a kerf.
  std::int64_t height(std::int64_t grown) const { return rolls_ ? grown - request_.kerf : grown; }

  std::vector<Stock> stock(Scale const& f, Scale const& g) const {
    std::vector<Stock> found;
    for (Kind const& kind : job_.kinds) {
      std::int64_t const across = f.of(kind.width), along = g.of(height(kind.height));
      Wide const holds = static_cast<Wide>(across) * along;
      found.push_back(
          {kind.cost, kind.copies,
           static_cast<std::int64_t>(std::min<Wide>(holds, std::numeric_limits<std::int64_t>::max())),
           kind.roll});
    }
    return found;
  }

  Wide needed(Scale const& f, Scale const& g) const {
    Wide need = 0;
    for (Type const& type : job_.types) {
      Wide least = static_cast<Wide>(f.of(type.width)) * g.of(height(type.height));
      if (!fits(type.width, type.height)) least = std::numeric_limits<std::int64_t>::max();
      if (type.turns && fits(type.height, type.width))
        least = std::min(least, static_cast<Wide>(f.of(type.height)) * g.of(height(type.width)));
      need += least * type.count;
    }
    return need;
  }

  bool fits(std::int64_t width, std::int64_t height) const {
    return std::any_of(job_.kinds.begin(), job_.kinds.end(),
                       [&](Kind const& kind) { return width <= kind.width && height <= kind.height; });
  }

  Job const& job_;
  SheetRequest const& request_;
  bool rolls_ = false;
};

}  // namespace

std::optional<std::int64_t> bound_of(Job const& job) {
  Bounds bounds(job);
  auto const cost = bounds.cost();
  if (!cost) return cost;
  // Nothing of what was torn off a roll is kept.
  if (bounds.rolls_only()) return std::max(*cost, bounds.longest());
  if (!job.worth_counts()) return cost;
  // Of a sheet from which area a is cut at most the rest is kept: it costs at least c (1 - w) + w c a / A
  // net.
  Worth const worth = job.request->worth;
  Wide const least =
      static_cast<Wide>(worth.den - worth.num) * *cost + static_cast<Wide>(worth.num) * bounds.by_area();
  return static_cast<std::int64_t>((least + worth.den - 1) / worth.den);
}

}  // namespace endband::cutting::many
