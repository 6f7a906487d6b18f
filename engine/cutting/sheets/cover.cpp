#include "engine/cutting/sheets/cover.h"

#include "engine/cutting/sheets/finish.h"

#include <algorithm>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

class Covering {
 public:
  Covering(Job const& job, std::vector<Pattern> const& patterns, std::int64_t below, std::int64_t most_work)
      : job_(job), patterns_(patterns), below_(below), most_work_(most_work), holding_(job.types.size()) {
    for (std::size_t p = 0; p < patterns.size(); ++p)
      for (Use const& use : patterns[p].uses) holding_[at(use.type)].push_back(static_cast<int>(p));
  }

  void search(Rest const& rest, std::int64_t cost) {
    if (rest.count == 0) {
      below_ = cost;
      best_ = chosen_;
      found_ = true;
      return;
    }
    std::size_t type = 0;
    while (rest.pieces[type] == 0) ++type;
    std::vector<Option> options;
    for (int const p : holding_[type]) {
      Pattern const& pattern = patterns_[at(p)];
      if (rest.copies[at(pattern.kind)] == 0) continue;
      std::int64_t gain = 0;
      for (Use const& use : pattern.uses)
        gain += std::min(use.count, rest.pieces[at(use.type)]) * job_.types[at(use.type)].area;
      work_ += 1 + static_cast<std::int64_t>(pattern.uses.size()) / 4;
      std::int64_t const least = cost + pattern.cost + area_cost(job_, rest.copies, rest.area - gain);
      if (least < below_) options.push_back({least, gain, p});
    }
    std::sort(options.begin(), options.end(), [](Option const& a, Option const& b) {
      if (a.least != b.least) return a.least < b.least;
      return a.gain != b.gain ? a.gain > b.gain : a.pattern < b.pattern;
    });
    for (Option const& option : options) {
      if (work_ >= most_work_) return;
      if (option.least >= below_) return;
      Pattern const& pattern = patterns_[at(option.pattern)];
      Rest next = rest;
      for (Use const& use : pattern.uses) {
        std::int64_t const n = std::min(use.count, rest.pieces[at(use.type)]);
        next.pieces[at(use.type)] -= n;
        next.count -= n;
      }
      next.area -= option.gain;
      --next.copies[at(pattern.kind)];
      chosen_.push_back(option.pattern);
      search(next, cost + pattern.cost);
      chosen_.pop_back();
    }
  }

  std::optional<Plan> plan() const {
    if (!found_) return std::nullopt;
    Plan plan;
    Rest rest = whole(job_);
    for (int const p : best_) {
      Pattern pattern = patterns_[at(p)];
      for (Step& step : pattern.steps) {
        if (step.shape < 0) continue;
        std::int64_t& left = rest.pieces[at(job_.shapes[at(step.shape)].type)];
        if (left > 0)
          --left;
        else
          step.shape = -1;
      }
      count_up(job_, pattern);
      if (pattern.uses.empty()) continue;
      tidy(job_, pattern);
      set_cost(job_, pattern);
      plan.cost += pattern.cost;
      plan.patterns.push_back({std::move(pattern), 1});
    }
    return plan;
  }

  std::int64_t work() const { return work_; }

 private:
  struct Option {
    std::int64_t least = 0, gain = 0;
    int pattern = 0;
  };
  Job const& job_;
  std::vector<Pattern> const& patterns_;
  std::int64_t below_;
  std::int64_t most_work_;
  std::int64_t work_ = 0;
  std::vector<std::vector<int>> holding_;  // patterns by type
  std::vector<int> chosen_, best_;
  bool found_ = false;
};

}  // namespace

std::optional<Plan> cover(Job const& job, std::vector<Pattern> const& patterns, std::int64_t below,
                          std::int64_t most_work, std::int64_t& work) {
  Covering covering(job, patterns, below, most_work);
  covering.search(whole(job), 0);
  work += covering.work();
  return covering.plan();
}

}  // namespace endband::cutting::many
