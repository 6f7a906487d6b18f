// The search for a plan of least cost: plans at once, the linear bound, dives along it, then every pattern
// that can hold the largest piece (bin completion; Korf 2003), as far as the meter goes.
#pragma once

#include "engine/cutting/lengths/greedy.h"
#include "engine/cutting/lengths/patterns.h"
#include "engine/cutting/lengths/relaxation.h"

#include <map>
#include <optional>

namespace endband::cutting::lengths {

struct Found {
  std::optional<Plan> plan;
  std::int64_t bound = 0;
  bool impossible = false;
};

class Search {
 public:
  Search(Problem const& problem, Meter& meter);
  Found run();

 private:
  using State = std::vector<std::int64_t>;

  bool closed() const { return impossible_ || (plan_ && cost_ <= bound_); }
  void offer(Plan plan);
  void offer_greedy(Rest const& rest, Fill fill, Open open);
  void at_once(Rest const& rest);
  void deepen(Rest const& rest);
  void root(Rest const& rest);
  bool dive(Rest const& rest, int turns, bool guide);
  bool fix(Rest& rest, Pattern const& pattern, std::int64_t times);
  bool explore(Rest const& rest, int depth);  // false: not all was looked at
  bool branch(Rest const& rest, Relaxed const& relaxed, int depth);
  bool seen(Rest const& rest);
  Costs const& costs(Rest const& rest);

  Problem const& problem_;
  Meter& meter_;
  std::optional<Plan> plan_;
  std::int64_t cost_;  // of the plan; where there is none, more than any
  std::int64_t slack_ = 0;
  std::int64_t bound_ = 0;
  bool impossible_ = false;
  Relaxation relaxation_;
  Plan fixed_;
  std::int64_t fixed_cost_ = 0;
  std::map<State, std::int64_t> seen_;
  std::map<State, Costs> costs_;  // by stock
  std::int64_t costs_up_to_ = 0;
};

}  // namespace endband::cutting::lengths
