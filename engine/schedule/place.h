// Places tasks one after another, each as early as those before it leave room: a serial schedule.
// J. E. Kelley, "The critical-path method: resources planning and scheduling", in Industrial Scheduling
// (1963) 347-365; R. Kolisch, "Serial and parallel resource-constrained project scheduling methods
// revisited", European Journal of Operational Research 90 (1996) 320-333.
#pragma once

#include "engine/schedule/project.h"

#include <memory>
#include <span>

namespace endband::schedule {

// A copy goes on from what is placed, and is cheap: place what is agreed once, and each question on a copy.
// The project must outlive it. Until a task is placed it may be changed or, at the end, added; resources and
// calendars stay as they are.
class Placer {
 public:
  explicit Placer(Project const& project);
  Placer(Placer const&);
  Placer(Placer&&) noexcept;
  Placer& operator=(Placer const&);
  Placer& operator=(Placer&&) noexcept;
  ~Placer();

  // At its earliest; a later task fills an earlier gap if it fits. Of several hands those that end the work
  // first, then the first listed. Returns what it placed: at `never` if it can never be done, as can then
  // nothing that is linked from it. Throws std::logic_error if it is placed already, or a task that it is
  // linked from is not.
  Placed const& place(int task);

  Plan const& plan() const;  // what is not placed is at 0
  bool placed(int task) const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

// All tasks in this order. Throws std::logic_error if it is not an order of all tasks in which each comes
// after those that it is linked from.
Plan place(Project const& project, std::span<int const> order);

}  // namespace endband::schedule
