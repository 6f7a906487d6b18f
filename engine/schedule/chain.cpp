#include "engine/schedule/chain.h"

#include "engine/schedule/hours.h"

#include <algorithm>

namespace endband::schedule {

namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// Until when something kept a task, and what.
struct Reason {
  Because because = Because::nothing;
  Time until = 0;
  int task = -1;
  int resource = -1;
};

struct Hold {
  int resource;
  int amount;
  bool through_wait;
  bool by_hands;
};

class Backwards {
 public:
  Backwards(Project const& project, Plan const& plan) : project_{project}, plan_{plan} {}

  Placed const& placed(int task) const { return plan_.tasks[at(task)]; }

  Reason reason_of(int i) const {
    Task const& task = project_.tasks[at(i)];
    Placed const& own = placed(i);
    Hours const hours = hours_of(i);
    Time const before =
        task.work > 0 ? hours.last_start_before(own.start, task.work, task.unbroken) : own.start - 1;
    if (before < 0) return {};
    Reason last{Because::nothing, before};
    take_links(last, task, hours);
    Time const worked = task.work > 0 ? hours.stint(before, task.work, task.unbroken).end : before;
    take_holders(last, i, {before, worked, worked + task.wait, own.hands});
    if (task.release > last.until) last = {Because::release, task.release};
    if (last.because == Because::nothing) last.until = own.start;
    return last;
  }

  // Work done and closed hours from its start until `until`.
  ChainLink spent(int i, Time until) const {
    Placed const& own = placed(i);
    Time const worked = std::clamp(until, own.start, own.worked);
    ChainLink link;
    link.task = i;
    link.work = hours_of(i).open_within(own.start, worked);
    link.closed = worked - own.start - link.work;
    link.wait = until - worked;
    return link;
  }

 private:
  static void take(Reason& last, Reason const& reason) {
    if (reason.until > last.until) last = reason;
  }

  std::vector<Hold> holds_of(int i) const {
    std::vector<Hold> holds;
    for (Demand const& demand : project_.tasks[at(i)].demands)
      holds.push_back({demand.resource, demand.amount, demand.through_wait, false});
    if (placed(i).hands >= 0) holds.push_back({placed(i).hands, 1, false, true});
    return holds;
  }

  Hours hours_of(int i) const {
    int first = -1;
    Calendar common;
    for (Hold const& hold : holds_of(i)) {
      int const calendar = project_.resources[at(hold.resource)].calendar;
      if (calendar < 0 || calendar == first) continue;
      common = first < 0 ? project_.calendars[at(calendar)] : both(common, project_.calendars[at(calendar)]);
      first = first < 0 ? calendar : first;
    }
    return first < 0 ? Hours() : Hours(common);
  }

  void take_links(Reason& last, Task const& task, Hours const& hours) const {
    for (Link const& link : task.after) {
      Placed const& from = placed(link.from);
      Time until = 0;
      switch (link.kind) {
        case LinkKind::finish_start: until = from.finish + link.lag; break;
        case LinkKind::start_start: until = from.start + link.lag; break;
        case LinkKind::finish_finish: {
          Time const end = from.finish + link.lag - task.wait;
          until = task.work > 0 ? hours.least_start(end, task.work) : end;
        }
      }
      take(last, {Because::link, until, link.from});
    }
  }

  static Time end_of(Hold const& hold, Placed const& placed) {
    return hold.through_wait ? placed.finish : placed.worked;
  }
  static int held_at(std::vector<Hold> const& holds, Placed const& placed, int resource, Time moment) {
    int sum = 0;
    for (Hold const& hold : holds)
      if (hold.resource == resource && placed.start <= moment && moment < end_of(hold, placed))
        sum += hold.amount;
    return sum;
  }
  int held_by_others(int but, int resource, Time moment) const {
    int sum = 0;
    for (int i = 0; at(i) < plan_.tasks.size(); ++i)
      if (i != but && placed(i).start <= moment && moment < placed(i).finish)
        sum += held_at(holds_of(i), placed(i), resource, moment);
    return sum;
  }

  // Those it would have met, had it been placed there, and that had let go when it did start.
  void take_holders(Reason& last, int i, Placed const& there) const {
    std::vector<Hold> const own = holds_of(i);
    for (Hold const& wanted : own)
      for (int other = 0; at(other) < plan_.tasks.size(); ++other) {
        if (other == i || placed(other).finish <= last.until || placed(other).start > placed(i).start)
          continue;
        for (Hold const& held : holds_of(other)) {
          Time const until = end_of(held, placed(other));
          if (held.resource != wanted.resource || until <= last.until || until > placed(i).start) continue;
          Time const met = std::min(until, end_of(wanted, there)) - 1;
          if (met < std::max(there.start, placed(other).start)) continue;
          if (held_at(own, there, wanted.resource, met) + held_by_others(i, wanted.resource, met) >
              project_.resources[at(wanted.resource)].capacity)
            take(last, {wanted.by_hands ? Because::hands : Because::held, until, other, wanted.resource});
        }
      }
  }

  Project const& project_;
  Plan const& plan_;
};

}  // namespace

Chain critical_chain(Project const& project, Plan const& plan, int task) {
  Backwards const backwards(project, plan);
  std::vector<bool> seen(plan.tasks.size());
  Chain chain;
  Time until = backwards.placed(task).finish;  // when the next one could start; of the last, its finish
  while (task >= 0) {
    seen[at(task)] = true;
    Reason const reason = backwards.reason_of(task);
    ChainLink link = backwards.spent(task, until);
    link.because = reason.because;
    link.resource = reason.resource;
    link.closed_before = backwards.placed(task).start - reason.until;
    chain.links.push_back(link);
    chain.begin = until = reason.until;
    bool const back =
        reason.task >= 0 && !seen[at(reason.task)] && backwards.placed(reason.task).start <= until;
    task = back ? reason.task : -1;
  }
  std::reverse(chain.links.begin(), chain.links.end());
  return chain;
}

}  // namespace endband::schedule
