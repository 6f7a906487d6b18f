#include "engine/cutting/skins/search.h"

#include <algorithm>
#include <memory>
#include <numeric>

namespace endband::cutting::skins {
namespace {

std::size_t index(std::int64_t value) { return static_cast<std::size_t>(value); }

class Strand {
 public:
  Strand(Space const& space, std::vector<int> const& bins, std::vector<int> const& units, std::uint64_t seed)
      : space_{space}, lines_{space}, layout_{space, lines_, bins}, units_{units}, random_{seed} {}

  void run(std::int64_t work) {
    std::int64_t const end = layout_.work() + work;
    construct(layout_.work() + work / 6);
    layout_.restore(best_);
    std::int64_t const start = layout_.work();
    while (layout_.work() < end && best_.units_placed < units_.size()) {
      left_ = (end - layout_.work()) * 1024 / std::max<std::int64_t>(end - start, 1);
      ruin_and_recreate();
    }
  }
  Layout::State const& best() const { return best_; }
  std::int64_t work() const { return layout_.work(); }

 private:
  Style any_style() {
    Style style;
    style.ring = random_.between(2, 8);
    std::int64_t const pull = random_.below(3) * 60;
    style.pull_x = random_.between(-pull, pull);
    style.pull_y = random_.between(-pull, pull);
    style.noise = random_.below(2) * 40;
    return style;
  }

  void sort_by_noisy_area(std::vector<int>& order, std::int64_t noise) {
    keys_.resize(space_.units.size());
    for (int const unit : order)
      keys_[index(unit)] = space_.units[index(unit)].twice_area / 1024 * random_.between(1024 - noise, 1024 + noise);
    std::ranges::stable_sort(order, [&](int a, int b) { return keys_[index(a)] > keys_[index(b)]; });
  }

  void keep_if_best() {
    if (layout_.twice_area() > best_.twice_area || best_.bins.empty()) layout_.save(best_);
  }

  void construct(std::int64_t end) {
    std::vector<int> order = units_;
    for (std::int64_t noise = 0; noise == 0 || (layout_.work() < end && best_.units_placed < units_.size());
         noise = random_.between(50, 600)) {
      layout_.clear();
      Style const style = noise == 0 ? Style{} : any_style();
      sort_by_noisy_area(order, noise);
      for (int const unit : order) layout_.insert(unit, style, random_);
      keep_if_best();
    }
  }

  void ruin_and_recreate() {
    layout_.save(before_);
    freed_.clear();
    removed_.clear();
    ruin();
    std::vector<int>& order = order_;
    order.clear();
    for (int const unit : units_)
      if (!layout_.placed(unit)) order.push_back(unit);
    Style const style = any_style();
    sort_by_noisy_area(order, random_.between(50, 700));
    for (int const unit : order) {
      bool const was_in = std::ranges::find(removed_, unit) != removed_.end();
      layout_.insert(unit, style, random_, was_in ? nullptr : &freed_);
    }
    keep_if_best();
    std::int64_t const slack = best_.twice_area / 1024 * (left_ * 40 / 1024);
    if (layout_.twice_area() + random_.below(slack + 1) < before_.twice_area) layout_.restore(before_);
  }

  void ruin() {
    std::size_t total = 0;
    for (auto const& bin : layout_.bins()) total += bin.size();
    if (total == 0) return;
    auto pick = index(random_.below(static_cast<std::int64_t>(total)));
    std::size_t bin = 0;
    while (pick >= layout_.bins()[bin].size()) pick -= layout_.bins()[bin++].size();
    Laid const centre = layout_.bins()[bin][pick];
    std::int64_t const count = random_.between(1, 4);
    // The nearest by the gap between the boxes.
    struct Near {
      std::int64_t gap;
      int unit;
    };
    std::vector<Near> near;
    for (Laid const& laid : layout_.bins()[bin]) {
      std::int64_t const dx = std::max(laid.x - centre.x - centre.wide, centre.x - laid.x - laid.wide);
      std::int64_t const dy = std::max(laid.y - centre.y - centre.high, centre.y - laid.y - laid.high);
      near.push_back({std::max<std::int64_t>(dx, 0) + std::max<std::int64_t>(dy, 0) + random_.below(40), laid.unit});
    }
    std::ranges::stable_sort(near, [](Near const& a, Near const& b) { return a.gap < b.gap; });
    take_out(centre.unit);
    for (Near const& next : near) {
      if (std::ssize(removed_) >= count) break;
      take_out(next.unit);
    }
  }
  void take_out(int unit) {
    if (!layout_.placed(unit)) return;
    layout_.remove(unit, freed_);
    removed_.push_back(unit);
  }

  Space const& space_;
  Lines lines_;
  Layout layout_;
  std::vector<int> units_;
  Random random_;
  Layout::State best_, before_;
  std::vector<std::int64_t> keys_;
  std::vector<Freed> freed_;
  std::vector<int> removed_, order_;
  std::int64_t left_ = 1024;
};

}  // namespace

Found search(Space const& space, std::vector<int> const& bins, std::vector<int> const& units, Budget const& budget) {
  constexpr std::size_t strands = 2;
  std::vector<std::unique_ptr<Strand>> all;
  std::vector<std::function<void()>> tasks;
  for (std::size_t k = 0; k < strands; ++k) {
    all.push_back(std::make_unique<Strand>(space, bins, units, k + 1));
    tasks.emplace_back([strand = all.back().get(), work = budget.work / 2] { strand->run(work); });
  }
  if (budget.run_all) budget.run_all(tasks);
  else
    for (auto const& task : tasks) task();
  Found found;
  for (auto const& strand : all) {
    found.work += strand->work();
    if (!found.bins.empty() && strand->best().twice_area <= found.twice_area) continue;
    found.bins = strand->best().bins;
    found.twice_area = strand->best().twice_area;
    found.all = strand->best().units_placed == units.size();
  }
  return found;
}

}  // namespace endband::cutting::skins
