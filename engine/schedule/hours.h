// For the .cpp files of this module only: a calendar with its sums, so that the end of a piece of work is
// found by one search; and those of several at once.
#pragma once

#include "engine/schedule/project.h"

#include <memory>
#include <span>
#include <vector>

namespace endband::schedule {

class Hours {
 public:
  Hours() = default;  // always open
  explicit Hours(Calendar const& calendar);

  struct Stint {
    Time start = never, end = never;
    std::size_t stretch = 0;  // where it was found; hand it back to search on from there
  };
  // The earliest that `work` > 0 can begin at or after `from`, and its end; `never` if the hours end before.
  // `unbroken`: in one stretch, if any is as long.
  Stint stint(Time from, Time work, bool unbroken, std::size_t stretch = 0) const;
  // No stint of `work` > 0 that begins before this ends at or after `end`; `never` if none ends so late.
  Time least_start(Time end, Time work) const;
  // The last at which `work` > 0 could begin before `start`; the least number if there is none.
  Time last_start_before(Time start, Time work, bool unbroken) const;
  Time open_within(Time from, Time to) const;

 private:
  struct Stretch {
    Time begin, end, before;  // before: open time until it begins
  };
  std::size_t first_ending_after(Time time, std::size_t stretch) const;

  bool always_ = true;
  Time longest_ = 0;
  std::vector<Stretch> stretches_;
};

// Open when both are.
Calendar both(Calendar const& a, Calendar const& b);

// The hours at which several resources are all open, summed once for each set of calendars. A copy is cheap.
// The project must outlive it; its calendars stay as they are.
class SharedHours {
 public:
  // Throws std::logic_error of a calendar that is out of order.
  explicit SharedHours(Project const& project);

  // Indices of the project's calendars, in any order, also twice; -1: always open. What is returned
  // stays as long as this object.
  Hours const& of(std::span<int const> calendars);

 private:
  struct Common {
    std::vector<int> calendars;
    std::shared_ptr<Hours const> hours;
  };
  Project const* project_;
  std::shared_ptr<std::vector<Hours> const> each_;  // the last is always open
  std::vector<Common> common_;
};

}  // namespace endband::schedule
