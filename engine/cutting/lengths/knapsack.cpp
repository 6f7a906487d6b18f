#include "engine/cutting/lengths/knapsack.h"

#include <algorithm>

namespace endband::cutting::lengths {
namespace {

constexpr std::int64_t largest_table = 4'000'000;  // cells
constexpr std::int64_t cells_in_step = 20;
constexpr std::size_t most_others = 16;
constexpr std::int64_t nodes_in_search = 20'000;  // where no table can be had

struct Item {
  std::size_t type;
  std::int64_t size;
  std::int64_t value;
  std::int64_t count;
};

std::vector<Item> items_of(Problem const& problem, Rest const& rest, std::vector<std::int64_t> const& values,
                           std::int64_t capacity) {
  std::vector<Item> items;
  for (std::size_t t = 0; t < problem.types.size(); ++t) {
    std::int64_t const size = problem.types[t].size;
    std::int64_t const count = std::min(rest.demand[t], capacity / size);
    if (values[t] > 0 && count > 0) items.push_back({t, size, values[t], count});
  }
  return items;
}

// Copies in lumps of 1, 2, 4 ..., so that each lump is taken or left.
std::vector<Item> lumps_of(std::vector<Item> const& items) {
  std::vector<Item> lumps;
  for (auto const& item : items) {
    for (std::int64_t left = item.count, lump = 1; left > 0; left -= lump, lump *= 2) {
      lump = std::min(lump, left);
      lumps.push_back({item.type, item.size * lump, item.value * lump, lump});
    }
  }
  return lumps;
}

class Table {
 public:
  Table(std::vector<Item> lumps, std::int64_t capacity)
      : lumps_(std::move(lumps)),
        width_(static_cast<std::size_t>(capacity) + 1),
        best_(width_, 0),
        taken_(width_ * lumps_.size(), 0) {
    for (std::size_t l = 0; l < lumps_.size(); ++l) add(l);
  }

  Filling at(std::int64_t capacity) const {
    auto const c = static_cast<std::size_t>(capacity);
    Filling filling{best_[c], best_[c], back(lumps_.size(), c), {}};
    bool last = true;  // that one is the filling itself
    for (std::size_t l = lumps_.size(); l-- > 0 && filling.others.size() < most_others;) {
      if (taken_[l * width_ + c] == 0) continue;
      if (!last) filling.others.push_back(back(l + 1, c));
      last = false;
    }
    return filling;
  }

 private:
  // The best of the first lumps alone.
  std::vector<Part> back(std::size_t lumps, std::size_t left) const {
    std::vector<Part> parts;
    for (std::size_t l = lumps; l-- > 0;) {
      if (taken_[l * width_ + left] == 0) continue;
      left -= static_cast<std::size_t>(lumps_[l].size);
      if (!parts.empty() && parts.back().type == lumps_[l].type) {
        parts.back().count += lumps_[l].count;
      } else {
        parts.push_back({lumps_[l].type, lumps_[l].count});
      }
    }
    std::reverse(parts.begin(), parts.end());
    return parts;
  }

  void add(std::size_t l) {
    auto const size = static_cast<std::size_t>(lumps_[l].size);
    std::int64_t const value = lumps_[l].value;
    std::int64_t* const best = best_.data();
    unsigned char* const taken = taken_.data() + l * width_;
    for (std::size_t c = width_; c-- > size;) {
      std::int64_t const with = best[c - size] + value;
      bool const better = with > best[c];
      best[c] = better ? with : best[c];
      taken[c] = better ? 1 : 0;
    }
  }

  std::vector<Item> lumps_;
  std::size_t width_;
  std::vector<std::int64_t> best_;
  std::vector<unsigned char> taken_;
};

class Search {
 public:
  Search(std::vector<Item> items, std::int64_t nodes) : items_(std::move(items)), nodes_(nodes) {
    std::stable_sort(items_.begin(), items_.end(), [](Item const& a, Item const& b) {
      return Wide{a.value} * b.size > Wide{b.value} * a.size;
    });
    counts_.assign(items_.size(), 0);
    smallest_.assign(items_.size() + 1, INT64_MAX);
    for (std::size_t i = items_.size(); i-- > 0;) smallest_[i] = std::min(smallest_[i + 1], items_[i].size);
  }

  Filling fill(std::int64_t capacity) {
    std::int64_t const continuous = continuous_bound(0, capacity, INT64_MAX);
    descend(0, capacity, 0);
    Filling filling{nodes_ > 0 ? best_ : continuous, best_, {}, {}};
    for (std::size_t i = 0; i < items_.size(); ++i) {
      if (best_counts_.size() > i && best_counts_[i] > 0)
        filling.parts.push_back({items_[i].type, best_counts_[i]});
    }
    std::sort(filling.parts.begin(), filling.parts.end(),
              [](Part const& a, Part const& b) { return a.type < b.type; });
    return filling;
  }
  std::int64_t nodes() const { return std::max<std::int64_t>(0, nodes_); }

 private:
  // Stops where it is above `enough`.
  std::int64_t continuous_bound(std::size_t from, std::int64_t capacity, std::int64_t enough) {
    std::int64_t value = 0;
    for (std::size_t i = from; i < items_.size() && value <= enough; ++i) {
      ++scanned_;
      std::int64_t const count = std::min(items_[i].count, capacity / items_[i].size);
      value += count * items_[i].value;
      capacity -= count * items_[i].size;
      if (count < items_[i].count) {
        return value + static_cast<std::int64_t>(Wide{capacity} * items_[i].value / items_[i].size);
      }
    }
    return value;
  }

  void descend(std::size_t from, std::int64_t capacity, std::int64_t value) {
    --nodes_;
    if (value > best_) {
      best_ = value;
      best_counts_ = counts_;
    }
    if (from == items_.size() || capacity < smallest_[from] || nodes_ <= 0) return;
    nodes_ -= static_cast<std::int64_t>(scanned_) / 16;
    scanned_ = 0;
    if (value + continuous_bound(from, capacity, best_ - value) <= best_) return;
    Item const& item = items_[from];
    for (std::int64_t count = std::min(item.count, capacity / item.size); count >= 0 && nodes_ > 0; --count) {
      counts_[from] = count;
      descend(from + 1, capacity - count * item.size, value + count * item.value);
    }
    counts_[from] = 0;
  }

  std::vector<Item> items_;
  std::vector<std::int64_t> smallest_;
  std::vector<std::int64_t> counts_;
  std::vector<std::int64_t> best_counts_;
  std::int64_t best_ = 0;
  std::size_t scanned_ = 0;  // items, for the last bound
  std::int64_t nodes_;
};

}  // namespace

namespace {

// False where `nodes` did not do; the fillings are then as good as was seen.
bool search_all(Problem const& problem, Rest const& rest, std::vector<std::int64_t> const& values,
                std::int64_t nodes, std::vector<Filling>& fillings, Meter& meter) {
  bool all = true;
  for (std::size_t s = 0; s < problem.stocks.size() && all; ++s) {
    if (rest.stock[s] == 0) continue;
    std::int64_t const capacity = problem.stocks[s].capacity;
    Search search(items_of(problem, rest, values, capacity), nodes);
    fillings[s] = search.fill(capacity);
    all = search.nodes() > 0;
    meter.spend(nodes - search.nodes() + 1);
  }
  return all;
}

}  // namespace

std::vector<Filling> best_fillings(Problem const& problem, Rest const& rest,
                                   std::vector<std::int64_t> const& values, Meter& meter) {
  std::vector<Filling> fillings(problem.stocks.size());
  std::int64_t longest = 0;
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    if (rest.stock[s] > 0) longest = std::max(longest, problem.stocks[s].capacity);
  }
  auto lumps = lumps_of(items_of(problem, rest, values, longest));
  Wide const cells = Wide{longest} * static_cast<std::int64_t>(lumps.size());
  bool const tabled = cells <= largest_table;
  std::int64_t const steps = tabled ? static_cast<std::int64_t>(cells) / cells_in_step : 0;
  std::int64_t const stocks = static_cast<std::int64_t>(problem.stocks.size());
  if (search_all(problem, rest, values, tabled ? steps / (4 * stocks) + 1 : nodes_in_search, fillings,
                 meter) ||
      !tabled) {
    return fillings;
  }
  meter.spend(steps + 1);
  Table const table(std::move(lumps), longest);
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    if (rest.stock[s] > 0) fillings[s] = table.at(problem.stocks[s].capacity);
  }
  return fillings;
}

}  // namespace endband::cutting::lengths
