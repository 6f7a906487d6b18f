// Why a task does not finish sooner: the chain of tasks before it of which each kept the next from starting,
// by a link, by hands that were busy or by a place that was held.
#pragma once

#include "engine/schedule/project.h"

#include <vector>

namespace endband::schedule {

enum class Because : std::uint8_t {
  nothing,  // it starts when time begins, or as soon as hours open
  release,  // not before
  link,     // the task before it in the chain
  hands,    // they were at the task before it
  held,     // what it demands was held by the task before it
};

// Times of a chain follow each other without a gap: begin, then work with the closed hours it is broken off
// by, then wait, until the next could start; what is left until that one does start is closed hours.
struct ChainLink {
  int task = 0;
  Because because = Because::nothing;  // why it did not start earlier
  int resource = -1;                   // hands, held: which
  Time closed_before =
      0;            // from when it could have, to its start: hours that are closed, or too short for it
  Time work = 0;    // done until the next one could start, or to its end
  Time closed = 0;  // that the work was broken off by
  Time wait = 0;    // after it, as far as the next one had to wait for it
};
struct Chain {
  std::vector<ChainLink> links;  // from the first to the task asked about
  Time begin = 0;                // from when it counts: 0, or the release of the first
};

// Of a task that is placed, in a plan that passes the check. `begin` and the times of the links sum to its
// finish; a lag counts as a wait. What kept a task is what ends last of all that forbids it to start at the
// last moment before its start at which its hours would let it; of equal ones a link before a place, a place
// before hands, and then a release. A chain ends early, with a later `begin`, where a link leads to a task
// that starts later (a negative lag, or finish to finish), and where nothing at all kept a task.
Chain critical_chain(Project const& project, Plan const& plan, int task);

}  // namespace endband::schedule
