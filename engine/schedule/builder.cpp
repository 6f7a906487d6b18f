#include "engine/schedule/builder.h"

#include <algorithm>
#include <queue>
#include <tuple>

namespace endband::schedule {

namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

class FromBothEnds : public Builder {
 public:
  explicit FromBothEnds(Plain plain) : plain_{std::move(plain)}, starts_(at(plain_.size())) {}
  bool from_both_ends() const override { return true; }

  // What ends last comes first from the other end; of equal ends, as the links already allow.
  Built build(std::vector<int> const& list, End from) override {
    Built built{{0, plain_.unit() * plain_.build(list, from, starts_)}, {list.rbegin(), list.rend()}};
    auto const ends = [&](int task) { return starts_[at(task)] + plain_.lasts(task); };
    std::stable_sort(built.next.begin(), built.next.end(), [&](int a, int b) { return ends(a) > ends(b); });
    return built;
  }

  Plan plan(std::vector<int> const& list, End from) override {
    int const length = plain_.build(list, from, starts_);
    if (from == End::last)
      for (int i = 0; i < plain_.size(); ++i) starts_[at(i)] = length - starts_[at(i)] - plain_.lasts(i);
    return plain_.plan(starts_);
  }

 private:
  Plain plain_;
  std::vector<int> starts_;
};

class Placing : public Builder {
 public:
  explicit Placing(Project const& project)
      : project_{project}, empty_{project}, after_(project.tasks.size()) {
    for (std::size_t i = 0; i < project.tasks.size(); ++i)
      for (Link const& link : project.tasks[i].after) after_[at(link.from)].push_back(static_cast<int>(i));
  }
  bool from_both_ends() const override { return false; }

  Built build(std::vector<int> const& list, End) override {
    Plan const made = plan(list, End::first);
    Built built{{}, by_start(made, list)};
    for (Placed const& task : made.tasks) {
      if (task.finish == never)
        ++built.length.undone;
      else
        built.length.finish = std::max(built.length.finish, task.finish);
    }
    return built;
  }

  Plan plan(std::vector<int> const& list, End) override {
    Placer placer = empty_;
    for (int task : list) placer.place(task);
    return placer.plan();
  }

 private:
  // As they start, as far as the links allow; of equal starts as they were listed.
  std::vector<int> by_start(Plan const& plan, std::vector<int> const& list) const {
    std::vector<int> place(list.size()), left(list.size());
    for (std::size_t i = 0; i < list.size(); ++i) {
      place[at(list[i])] = static_cast<int>(i);
      left[i] = static_cast<int>(project_.tasks[i].after.size());
    }
    using Turn = std::tuple<Time, int, int>;
    std::priority_queue<Turn, std::vector<Turn>, std::greater<>> free;
    auto const add = [&](int task) { free.emplace(plan.tasks[at(task)].start, place[at(task)], task); };
    for (int task : list)
      if (left[at(task)] == 0) add(task);
    std::vector<int> order;
    while (!free.empty()) {
      order.push_back(std::get<2>(free.top()));
      free.pop();
      for (int task : after_[at(order.back())])
        if (--left[at(task)] == 0) add(task);
    }
    return order;
  }

  Project const& project_;
  Placer empty_;
  std::vector<std::vector<int>> after_;
};

}  // namespace

std::unique_ptr<Builder> builder_of(Project const& project) {
  if (auto plain = Plain::of(project)) return std::make_unique<FromBothEnds>(*std::move(plain));
  return std::make_unique<Placing>(project);
}

}  // namespace endband::schedule
