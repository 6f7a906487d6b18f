// For the .cpp files of this module only: lists of tasks, each task after those it is linked from (or, read
// from the end of a project, before them), and how new ones are made of old ones.
#pragma once

#include "engine/chance/random.h"
#include "engine/schedule/network.h"
#include "engine/schedule/project.h"

#include <vector>

namespace endband::schedule {

class Lists {
 public:
  Lists(Project const& project, Network const& network, std::uint64_t seed);

  // Every list that the links allow, in order of its tasks' numbers; none if there are more than `most`.
  std::vector<std::vector<int>> all(std::int64_t most) const;
  // Urgent tasks rather earlier: regret-based biased random sampling over latest finish times (A. Drexl,
  // "Scheduling of project networks by job assignment", Management Science 37 (1991) 1590-1602).
  std::vector<int> sampled();
  // Of two lists of one direction another, with small changes.
  std::vector<int> child(std::vector<int> const& one, std::vector<int> const& other);
  std::int64_t below(std::int64_t below) { return random_.below(below); }

 private:
  std::vector<int> with_middle_of_other(std::vector<int> const& one, std::vector<int> const& other);
  std::vector<int> around_peak_of_one(std::vector<int> const& one, std::vector<int> const& other);
  std::size_t peak(std::vector<int> const& list, std::size_t length);
  bool linked(int a, int b) const;
  void swap_some(std::vector<int>& list);
  void move_one(std::vector<int>& list);

  std::vector<std::vector<int>> after_;  // what is linked from it, by task
  std::vector<int> links_;               // into it
  std::vector<Time> late_finish_;
  std::vector<std::int64_t> weight_;  // work times what share it takes of what it demands, in thousandths
  std::vector<char> part_;
  Random random_;
};

}  // namespace endband::schedule
