#include "engine/cutting/sheets/stock.h"

#include <algorithm>
#include <set>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

class Selecting {
 public:
  Selecting(Job const& job, std::int64_t below, std::size_t most) : job_(job), below_(below), most_(most) {
    now_.copies.resize(job.kinds.size());
  }

  // False: there are too many.
  bool all(std::size_t k) {
    if (++nodes_ > 40 * static_cast<std::int64_t>(most_) || found_.size() > most_) return false;
    if (now_.area >= job_.area) {
      if (least()) found_.push_back(now_);
      return true;
    }
    if (k == job_.kinds.size() || now_.cost + area_cost_from(k) >= below_) return true;
    Kind const& kind = job_.kinds[k];
    if (!all(k + 1)) return false;
    if (kind.roll) return true;
    std::int64_t taken = 0;
    bool complete = true;
    while (taken < kind.copies && now_.area < job_.area && now_.cost + kind.cost < below_ && complete) {
      ++taken;
      add(k, 1);
      complete = all(k + 1);
    }
    add(k, -taken);
    return complete;
  }

  void near(Plan const& plan, Chance& chance) {
    std::set<std::vector<std::int64_t>> seen;
    for (Selection const& selection : found_) seen.insert(selection.copies);
    for (std::size_t i = 0; i < most_; ++i) {
      now_ = Selection{};
      now_.copies.assign(job_.kinds.size(), 0);
      std::vector<std::size_t> used;
      for (Planned const& planned : plan.patterns) {
        if (job_.kinds[at(planned.pattern.kind)].roll) continue;
        add(at(planned.pattern.kind), planned.times);
        used.push_back(at(planned.pattern.kind));
      }
      if (used.empty()) return;
      for (std::int64_t out = 1 + chance.below(4); out > 0; --out) {
        std::size_t const k = used[at(chance.below(static_cast<std::int64_t>(used.size())))];
        if (now_.copies[k] > 0) add(k, -1);
      }
      for (int tries = 0; tries < 12 && now_.area < job_.area; ++tries) {
        std::size_t const k = at(chance.below(static_cast<std::int64_t>(job_.kinds.size())));
        if (!job_.kinds[k].roll && now_.copies[k] < job_.kinds[k].copies) add(k, 1);
      }
      if (now_.area < job_.area || now_.cost >= below_ || !least()) continue;
      if (seen.insert(now_.copies).second) found_.push_back(now_);
    }
  }

  std::vector<Selection> found() { return std::move(found_); }

 private:
  void add(std::size_t k, std::int64_t n) {
    now_.copies[k] += n;
    now_.cost += n * job_.kinds[k].cost;
    now_.area += n * job_.kinds[k].area;
  }
  bool least() const {
    for (std::size_t k = 0; k < now_.copies.size(); ++k)
      if (now_.copies[k] > 0 && now_.area - job_.kinds[k].area >= job_.area && job_.kinds[k].cost > 0)
        return false;
    return true;
  }
  std::int64_t area_cost_from(std::size_t k) const {  // kinds come the cheapest by area first
    Kind const& kind = job_.kinds[k];
    return static_cast<std::int64_t>(static_cast<Wide>(kind.cost) * (job_.area - now_.area) / kind.area);
  }

  Job const& job_;
  std::int64_t below_;
  std::size_t most_;
  std::int64_t nodes_ = 0;
  Selection now_;
  std::vector<Selection> found_;
};

}  // namespace

std::vector<Selection> selections(Job const& job, Plan const& plan, std::size_t most, Chance& chance) {
  Selecting selecting(job, plan.cost, most);
  if (!selecting.all(0)) selecting.near(plan, chance);
  return selecting.found();
}

}  // namespace endband::cutting::many
