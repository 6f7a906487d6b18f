#include "engine/schedule/chain.h"

#include <algorithm>

namespace endband::schedule {
namespace {

// Until when something kept a task, and what.
struct Reason {
  Because because = Because::nothing;
  Time until = 0;
  int task = -1;
};

class Backwards {
 public:
  Backwards(Project const& project, Plan const& plan) : project_(project), plan_(plan) {}

  // The latest of all that kept it; of two the one that was looked at first.
  Reason reason_of(int task) const {
    Task const& of = project_.tasks[index(task)];
    Reason latest{of.release > 0 ? Because::release : Because::nothing, of.release, -1};
    for (Link const& link : of.after) take(latest, {Because::link, until(link, task), link.from}, task);
    for (Demand const& demand : of.demands) take_holders(latest, demand, task);
    int const hands = placed(task).hands;
    for (int other = 0; other < count(); ++other)
      if (other != task && hands >= 0 && placed(other).hands == hands &&
          placed(other).worked > placed(other).start)
        take(latest, {Because::hands, placed(other).worked, other}, task);
    return latest;
  }

  Placed const& placed(int task) const { return plan_.tasks[index(task)]; }

 private:
  static std::size_t index(int task) { return static_cast<std::size_t>(task); }
  int count() const { return static_cast<int>(plan_.tasks.size()); }

  void take(Reason& latest, Reason const& reason, int task) const {
    bool const before = reason.until <= placed(task).start;
    bool const later =
        reason.until > latest.until || (reason.until == latest.until && latest.task < 0 && reason.until > 0);
    if (before && later) latest = reason;
  }

  // The moment from which on the link lets the task start.
  Time until(Link const& link, int task) const {
    Placed const& from = placed(link.from);
    switch (link.kind) {
      case LinkKind::finish_start: return from.finish + link.lag;
      case LinkKind::start_start: return from.start + link.lag;
      case LinkKind::finish_finish:
        return placed(task).start - (placed(task).finish - (from.finish + link.lag));
    }
    return 0;
  }

  Time held_until(int task, Demand const& demand) const {
    return demand.through_wait ? placed(task).finish : placed(task).worked;
  }

  int held_at(int resource, Time moment, int but) const {
    int sum = 0;
    for (int other = 0; other < count(); ++other)
      for (Demand const& demand : project_.tasks[index(other)].demands)
        if (other != but && demand.resource == resource && placed(other).start <= moment &&
            held_until(other, demand) > moment)
          sum += demand.amount;
    return sum;
  }

  // Who let go of it last, when there was too little of it for this task until then.
  void take_holders(Reason& latest, Demand const& wanted, int task) const {
    for (int other = 0; other < count(); ++other)
      for (Demand const& demand : project_.tasks[index(other)].demands) {
        Time const until = held_until(other, demand);
        if (other == task || demand.resource != wanted.resource || until <= placed(other).start) continue;
        bool const too_little = held_at(wanted.resource, until - 1, task) + wanted.amount >
                                project_.resources[index(wanted.resource)].capacity;
        if (too_little) take(latest, {Because::held, until, other}, task);
      }
  }

  Project const& project_;
  Plan const& plan_;
};

}  // namespace

Chain critical_chain(Project const& project, Plan const& plan, int task) {
  Backwards const backwards(project, plan);
  Chain chain;
  Time until = backwards.placed(task).finish;  // when the next one could start; of the last, its finish
  while (task >= 0) {
    Placed const& placed = backwards.placed(task);
    Reason const reason = backwards.reason_of(task);
    ChainLink link;
    link.task = task;
    link.because = reason.because;
    link.closed_before = placed.start - reason.until;
    Time const worked = std::clamp(until, placed.start, placed.worked);
    link.work = std::min(project.tasks[static_cast<std::size_t>(task)].work, worked - placed.start);
    link.closed = worked - placed.start - link.work;
    link.wait = until - worked;
    chain.links.push_back(link);
    chain.begin = reason.until;
    until = reason.until;
    // A link with a negative lag may lead to a task that starts later: the chain ends there.
    bool const back = reason.task >= 0 && backwards.placed(reason.task).start < placed.start;
    task = back ? reason.task : -1;
  }
  std::reverse(chain.links.begin(), chain.links.end());
  return chain;
}

}  // namespace endband::schedule
