// For the .cpp files of this module only: how much of a resource is held, over time.
#pragma once

#include "engine/schedule/project.h"

#include <vector>

namespace endband::schedule {

class Profile {
 public:
  explicit Profile(int capacity) : capacity_{capacity} {}

  // The end of the last stretch within [from, to) in which `amount` more is too much; `from` if there is
  // none.
  Time blocked_until(Time from, Time to, int amount) const;
  void hold(Time from, Time to, int amount);

 private:
  struct Step {
    Time at;
    int held;  // until the next step
  };
  std::size_t first_after(Time time) const;
  void cut_at(Time time);

  int capacity_;
  std::vector<Step> steps_;  // by time, no two neighbours hold the same; before the first nothing is held
};

}  // namespace endband::schedule
