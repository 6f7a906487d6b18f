// What is to be done, with what, and when it can be: tasks, links and resources in whole units of time.
// Nothing here knows books, people or money; the unit is the caller's (a second at the bench, a period in a
// published instance).
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

namespace endband::schedule {

using Time = std::int64_t;
inline constexpr Time never = std::numeric_limits<Time>::max();

// When a resource is open: [begin, end), in order, none touch. After the last it is closed.
struct Open {
  Time begin = 0, end = 0;
};
using Calendar = std::vector<Open>;

struct Resource {
  int capacity = 1;
  int calendar = -1;  // index into Project::calendars; -1: always open
};

// finish_start: start >= from.finish + lag; start_start: start >= from.start + lag; finish_finish: finish >=
// from.finish + lag. A lag may be negative. No task starts before 0.
enum class LinkKind : std::uint8_t { finish_start, start_start, finish_finish };
struct Link {
  int from = 0;
  LinkKind kind = LinkKind::finish_start;
  Time lag = 0;
};

struct Demand {
  int resource = 0;
  int amount = 1;
  bool through_wait = false;  // held until the wait after the work has ended, else only while it is worked on
};

// Work goes on only while its hands and what it demands are open, and stops and goes on where they close;
// with no hands it runs around the clock, as a wait does. It begins where it can go on at once. Its hands,
// and what is demanded, are held from start to end, closed hours too. What takes no time holds nothing and
// can be done at any hour.
struct Task {
  Time work = 0;           // of hands, or the duration of what needs none
  Time wait = 0;           // after it; the task finishes when the wait has ended
  std::vector<int> hands;  // resources of capacity 1, of which one does it all; empty: none
  bool unbroken =
      false;  // is not broken off where its hands close, if it fits into one stretch of theirs at all
  std::vector<Demand> demands;
  std::vector<Link> after;
  Time release = 0;  // not before
};

// From start to finish where nothing is closed meanwhile.
inline Time lasts(Task const& task) { return task.work + task.wait; }

struct Project {
  std::vector<Calendar> calendars;
  std::vector<Resource> resources;
  std::vector<Task> tasks;
};

// What can never be done is placed at `never`, with no hands.
struct Placed {
  Time start = 0;
  Time worked = 0;  // end of the work
  Time finish = 0;  // end of the wait
  int hands = -1;   // which resource works; -1: none
  friend bool operator==(Placed const&, Placed const&) = default;
};
struct Plan {
  std::vector<Placed> tasks;  // by task
  Time finish() const;        // of the last; 0 of no tasks
};

}  // namespace endband::schedule
