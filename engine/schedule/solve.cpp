#include "engine/schedule/solve.h"

#include "engine/schedule/builder.h"
#include "engine/schedule/lists.h"
#include "engine/schedule/network.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace endband::schedule {

namespace {

// Found by trial on random projects of 30 to 120 tasks: more lists for more schedules, fewer for longer
// lists.
std::size_t lists_for(std::int64_t schedules, std::size_t tasks) {
  std::int64_t const count = (25 + schedules / 60) * 92 / (60 + static_cast<std::int64_t>(tasks));
  return static_cast<std::size_t>(std::clamp<std::int64_t>(count, 8, 400));
}

class Search {
 public:
  Search(Project const& project, Network const& network, Effort const& effort, Time bound)
      : builder_{builder_of(project)},
        lists_{project, network, effort.seed},
        budget_{std::max<std::int64_t>(1, effort.schedules)},
        bound_{bound},
        size_{lists_for(budget_, project.tasks.size())} {}

  // Where the budget is enough for every order, through all of them: the search need not find the best of a
  // few.
  void run() {
    auto const every = lists_.all(budget_);
    for (std::size_t i = 0; i < every.size() && !done(); ++i) build(every[i], End::first);
    if (!every.empty()) return;
    while (populations_[0].size() < size_ && !done()) begin_one();
    while (!done()) breed();
  }
  Plan plan() { return builder_->plan(best_list_, best_from_); }
  std::int64_t spent() const { return spent_; }

 private:
  using Population = std::vector<Built>;  // lists that are to be packed from one end

  bool done() const {
    return spent_ >= budget_ || (spent_ > 0 && best_.undone == 0 && best_.finish <= bound_);
  }

  Built build(std::vector<int> const& list, End from) {
    Built built = builder_->build(list, from);
    if (spent_++ == 0 || built.length < best_) {
      best_ = built.length;
      best_list_ = list;
      best_from_ = from;
    }
    return built;
  }

  // Packed to the front, to the end, and to the front again.
  void begin_one() {
    Built first = build(lists_.sampled(), End::first);
    if (!builder_->from_both_ends()) {
      populations_[0].push_back(std::move(first));
      return;
    }
    if (done()) return;
    Built last = build(first.next, End::last);
    if (!done()) first = build(last.next, End::first);
    populations_[0].push_back(std::move(first));
    populations_[1].push_back(std::move(last));
  }

  // populations_[0] holds what was packed to the front, so its lists are to be packed from the end.
  void breed() {
    bool const both = builder_->from_both_ends();
    std::size_t const of = both ? static_cast<std::size_t>(lists_.below(2)) : 0;
    Population& parents = populations_[of];
    std::vector<int> const list = lists_.child(shorter_of_two(parents).next, shorter_of_two(parents).next);
    if (!both) return keep(parents, build(list, End::first));
    Built one = build(list, of == 0 ? End::last : End::first);
    if (!done()) keep(parents, build(one.next, of == 0 ? End::first : End::last));
    keep(populations_[1 - of], std::move(one));
  }

  std::size_t any(Population const& population) {
    return static_cast<std::size_t>(lists_.below(std::ssize(population)));
  }
  Built const& shorter_of_two(Population const& population) {
    std::size_t const a = any(population), b = any(population);
    return population[population[a].length <= population[b].length ? a : b];
  }
  // In the place of the longer of two, unless it is longer still or known.
  void keep(Population& population, Built built) {
    for (Built const& known : population)
      if (known.length == built.length && known.next == built.next) return;
    std::size_t const a = any(population), b = any(population);
    Built& longer = population[population[a].length >= population[b].length ? a : b];
    if (longer.length >= built.length) longer = std::move(built);
  }

  std::unique_ptr<Builder> builder_;
  Lists lists_;
  std::int64_t budget_;
  Time bound_;
  std::size_t size_;
  std::array<Population, 2> populations_;
  std::int64_t spent_ = 0;
  Length best_;
  std::vector<int> best_list_;
  End best_from_ = End::first;
};

}  // namespace

Solved solve(Project const& project, Effort const& effort) {
  auto const network = critical_path(project);
  if (!network) throw std::logic_error("the links lead in a circle");
  Solved solved;
  solved.bound = least_finish(project);
  if (project.tasks.empty()) return solved;
  Search search(project, *network, effort, solved.bound);
  search.run();
  solved.plan = search.plan();
  solved.schedules = search.spent();
  return solved;
}

}  // namespace endband::schedule
