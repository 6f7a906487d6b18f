// What larger sets of changes are expected to come to, by the differences that singles and pairs make, and
// those of which the best is expected. Private to the search within a budget.
#pragma once

#include "engine/commission/options.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace endband {

// First those that change the first group, its first alternative before its second.
bool comes_first(Choices const& a, Choices const& b);

// In minor units: of a set what it comes to, of a change what it adds.
struct ForetoldEffect {
  std::int64_t total = 0, left = 0;
};

// The differences that single changes make, and what pairs make beyond those of their two. A single that
// cannot be made adds nothing of itself: what it does stands with its pairs.
class Differences {
 public:
  Differences(std::span<int const> alternatives, Outcome const& as_it_is);

  // Of one change, or of two once both are told by themselves. Throws Overflow.
  void tell(Choices const& choices, std::optional<Outcome> const& outcome);

  std::size_t groups() const { return first_.size() - 1; }
  int alternatives(std::size_t group) const { return static_cast<int>(first_[group + 1] - first_[group]); }
  // A change by its number: those of the first group first.
  std::size_t change(std::size_t group, int alternative) const {
    return first_[group] + static_cast<std::size_t>(alternative - 1);
  }
  ForetoldEffect as_it_is() const { return as_it_is_; }
  ForetoldEffect own(std::size_t change) const { return own_[change]; }
  ForetoldEffect together(std::size_t a, std::size_t b) const { return pairs_[a * own_.size() + b].effect; }
  bool possible(std::size_t a, std::size_t b) const { return pairs_[a * own_.size() + b].possible; }

 private:
  struct Pair {
    ForetoldEffect effect;
    bool possible = true;
  };
  ForetoldEffect beyond(Outcome const& outcome, std::span<std::size_t const> changes);

  std::vector<std::size_t> first_;   // change of each group, and one past the last
  std::vector<ForetoldEffect> own_;  // by change
  std::vector<Pair> pairs_;          // by two changes, either way round
  ForetoldEffect as_it_is_;
  std::int64_t largest_ = 0;  // no sum of differences leaves it
};

struct Ranked {
  std::vector<Choices> sets;  // the best expected first
  std::size_t within = 0;     // so many of them are expected within the budget
  std::int64_t looked_at = 0;
  bool all = true;  // false: `work` ended first
};
// The `most` best of the sets of so many changes, pairs that cannot be made left out: those expected within
// the budget, most left first, then the others by their total; of equals the first in order. Which they are
// does not depend on the order in which they are looked at, unless `work` ends.
Ranked best_expected(Differences const& differences, int changes, std::int64_t budget, std::size_t most,
                     std::int64_t work);

}  // namespace endband
