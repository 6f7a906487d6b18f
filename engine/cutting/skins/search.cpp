#include "engine/cutting/skins/search.h"

#include "engine/cutting/skins/shelves.h"

#include <algorithm>
#include <memory>

namespace endband::cutting::skins {
namespace {
constexpr std::size_t many_units = 250;          // beyond, the first plan is laid in shelves
constexpr std::size_t most_at_once = 64;         // units that one step of the search tries to lay
constexpr std::int64_t least_work = 20'000'000;  // a first plan is laid whatever the budget, up to this

std::size_t index(std::int64_t value) { return static_cast<std::size_t>(value); }

class Strand {
 public:
  Strand(Space const& space, std::vector<int> const& bins, std::vector<int> const& units, int number)
      : space_{space},
        lines_{space},
        layout_{space, lines_, bins},
        units_{units},
        random_{static_cast<std::uint64_t>(number) + 1},
        noisy_{number % 2 == 1 ? 40 : 0} {}

  void start_from(std::vector<std::vector<Laid>> const& bins) {
    for (std::size_t bin = 0; bin < bins.size(); ++bin)
      for (Laid const& laid : bins[bin]) layout_.put(static_cast<int>(bin), laid);
    layout_.save(best_);
    started_ = true;
  }

  void run(std::int64_t allowed) {
    std::int64_t const end = work() + allowed;
    if (!started_ && (best_.bins.empty() || units_.size() <= many_units)) construct(work() + allowed / 3);
    layout_.restore(best_);
    std::int64_t const start = work();
    while (work() < end && !all()) {
      left_ = (end - work()) * 1024 / std::max<std::int64_t>(end - start, 1);
      ruin_and_recreate();
    }
  }
  bool all() const { return best_.units_placed == units_.size(); }
  Layout::State const& best() const { return best_; }
  std::int64_t work() const { return layout_.work() + shelf_work_ + steps_; }

 private:
  Style any_style() {
    Style style;
    style.ring = random_.between(2, 8);
    std::int64_t const pull = random_.below(3) * 60;
    style.pull_x = random_.between(-pull, pull);
    style.pull_y = random_.between(-pull, pull);
    style.noise = random_.below(100) < noisy_ ? 100 : 0;
    style.first_bin = layout_.bins().size() > 3 && random_.below(4) != 0;
    return style;
  }

  void sort_by_noisy_area(std::vector<int>& order, std::int64_t noise) {
    keys_.resize(space_.units.size());
    for (int const unit : order)
      keys_[index(unit)] =
          (space_.units[index(unit)].twice_area / 1024 + 1) * random_.between(1024 - noise, 1024 + noise);
    std::ranges::stable_sort(order, [&](int a, int b) { return keys_[index(a)] > keys_[index(b)]; });
  }
  void shuffle(std::vector<int>& order, std::size_t most) {
    for (std::size_t i = 0; i < order.size() && i < most; ++i)
      std::swap(order[i], order[i + index(random_.below(std::ssize(order) - static_cast<std::int64_t>(i)))]);
  }

  void keep_if_best() {
    steps_ += 1 + std::ssize(units_) / 16;  // states are copied
    if (layout_.twice_area() > best_.twice_area || best_.bins.empty()) layout_.save(best_);
  }

  // A kind that found no place finds none until something is taken out.
  void lay(std::vector<int> const& order, Style const& style) {
    failed_.assign(space_.kinds.size(), 0);
    for (int const unit : order) {
      std::vector<int> const& kinds = space_.units[index(unit)].kinds;
      steps_ += kinds.size() > 1 ? 1 : 0;
      if (kinds.size() == 1 && failed_[index(kinds.front())] != 0) continue;
      bool const was_in = freed_.empty() || std::ranges::find(removed_, unit) != removed_.end();
      bool const laid = layout_.insert(unit, style, random_, was_in ? nullptr : &freed_);
      if (!laid && kinds.size() == 1) failed_[index(kinds.front())] = 1;
    }
  }

  void construct(std::int64_t end) {
    std::vector<int> order = units_;
    freed_.clear();
    removed_.clear();
    if (units_.size() > many_units) {
      shelf_work_ += lay_in_shelves(space_, lines_, layout_, units_, std::max(least_work, end - work()));
      keep_if_best();
      return;
    }
    for (std::int64_t noise = 0; noise == 0 || (work() < end && !all()); noise = random_.between(50, 600)) {
      layout_.clear();
      sort_by_noisy_area(order, noise);
      lay(order, noise == 0 ? Style{} : any_style());
      keep_if_best();
    }
  }

  void ruin_and_recreate() {
    layout_.save(before_);
    freed_.clear();
    removed_.clear();
    if (random_.below(3) != 0 || !force()) ruin();
    order_.clear();
    for (int const unit : units_)
      if (!layout_.placed(unit) && std::ranges::find(removed_, unit) == removed_.end())
        order_.push_back(unit);
    if (order_.size() > most_at_once) {
      shuffle(order_, most_at_once);
      order_.resize(most_at_once);
    }
    order_.insert(order_.end(), removed_.begin(), removed_.end());
    Style const style = any_style();
    if (random_.below(10) == 0)
      shuffle(order_, order_.size());
    else
      sort_by_noisy_area(order_, random_.between(50, 900));
    lay(order_, style);
    keep_if_best();
    // The threshold falls from a fifth of the mean unit to nothing.
    std::int64_t const mean = best_.twice_area / static_cast<std::int64_t>(best_.units_placed + 1);
    std::int64_t const slack = mean / 1024 * left_ / 5;
    if (layout_.twice_area() + random_.below(slack + 1) < before_.twice_area) layout_.restore(before_);
  }

  // Ejection: a unit that is not laid takes the place of others.
  bool force() {
    order_.clear();
    for (int const unit : units_)
      if (!layout_.placed(unit) && space_.units[index(unit)].kinds.size() == 1) order_.push_back(unit);
    if (order_.empty()) return false;
    auto const bin = random_.below(std::ssize(layout_.bins()));
    return layout_.force(order_[index(random_.below(std::ssize(order_)))], static_cast<int>(bin), random_,
                         removed_, freed_) &&
           !removed_.empty();
  }

  // Takes out a piece and the nearest to it, by the gap between their boxes.
  void ruin() {
    std::size_t total = 0;
    for (auto const& bin : layout_.bins()) total += bin.size();
    if (total == 0) return;
    auto pick = index(random_.below(static_cast<std::int64_t>(total)));
    std::size_t bin = 0;
    while (pick >= layout_.bins()[bin].size()) pick -= layout_.bins()[bin++].size();
    Laid const centre = layout_.bins()[bin][pick];
    std::int64_t const count = random_.between(1, 5);
    near_.clear();
    for (Laid const& laid : layout_.bins()[bin]) {
      std::int64_t const dx = std::max(laid.x - centre.x - centre.wide, centre.x - laid.x - laid.wide);
      std::int64_t const dy = std::max(laid.y - centre.y - centre.high, centre.y - laid.y - laid.high);
      near_.push_back(
          {std::max<std::int64_t>(dx, 0) + std::max<std::int64_t>(dy, 0) + random_.below(40), laid.unit});
    }
    std::ranges::stable_sort(near_, {}, &Near::gap);
    take_out(centre.unit);
    for (Near const& next : near_) {
      if (std::ssize(removed_) >= count) break;
      take_out(next.unit);
    }
  }
  void take_out(int unit) {
    if (!layout_.placed(unit)) return;
    layout_.remove(unit, freed_);
    removed_.push_back(unit);
  }

  struct Near {
    std::int64_t gap;
    int unit;
  };
  Space const& space_;
  Lines lines_;
  Layout layout_;
  std::vector<int> units_;
  Random random_;
  bool started_ = false;
  std::int64_t noisy_;  // of 100 steps, how many score with noise
  Layout::State best_, before_;
  std::vector<std::int64_t> keys_;
  std::vector<std::uint8_t> failed_;
  std::vector<Freed> freed_;
  std::vector<int> removed_, order_;
  std::vector<Near> near_;
  std::int64_t left_ = 1024, shelf_work_ = 0, steps_ = 0;
};

}  // namespace

Found search(Space const& space, std::vector<int> const& bins, std::vector<int> const& units,
             Budget const& budget, std::vector<std::vector<Laid>> const* start, int run) {
  constexpr int strands = 2, rounds = 8;
  std::vector<std::unique_ptr<Strand>> all;
  for (int k = 0; k < strands; ++k) {
    all.push_back(std::make_unique<Strand>(space, bins, units, run * strands + k));
    if (start) all.back()->start_from(*start);
  }
  Found found;
  // A short first round: what is easy is soon done. After it each strand runs on for all that is left.
  std::int64_t const first = budget.work / strands / rounds;
  for (std::int64_t const share : {first, budget.work / strands - first}) {
    std::vector<std::function<void()>> tasks;
    for (auto const& strand : all) tasks.emplace_back([&strand, share] { strand->run(share); });
    if (budget.run_all)
      budget.run_all(tasks);
    else
      for (auto const& task : tasks) task();
    if (std::ranges::any_of(all, [](auto const& strand) { return strand->all(); })) break;
  }
  for (auto const& strand : all) {
    found.work += strand->work();
    if (!found.bins.empty() && strand->best().twice_area <= found.twice_area) continue;
    found.bins = strand->best().bins;
    found.twice_area = strand->best().twice_area;
    found.all = strand->all();
  }
  return found;
}

}  // namespace endband::cutting::skins
