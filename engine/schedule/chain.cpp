#include "engine/schedule/chain.h"

#include "engine/schedule/hours.h"

#include <algorithm>
#include <span>

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

std::vector<Hold> holds_of(Task const& task, int hands) {
  std::vector<Hold> holds;
  for (Demand const& demand : task.demands)
    holds.push_back({demand.resource, demand.amount, demand.through_wait, false});
  if (hands >= 0) holds.push_back({hands, 1, false, true});
  return holds;
}

Time end_of(Hold const& hold, Placed const& placed) {
  return hold.through_wait ? placed.finish : placed.worked;
}

// Who held each resource, and until when.
class Holders {
 public:
  struct Held {
    Time begin, until;
    int task, amount;
  };

  Holders(Project const& project, Plan const& plan) : of_(project.resources.size()) {
    for (int i = 0; at(i) < plan.tasks.size(); ++i) {
      Placed const& placed = plan.tasks[at(i)];
      if (placed.start == never) continue;
      for (Hold const& hold : holds_of(project.tasks[at(i)], placed.hands))
        of_[at(hold.resource)].add({placed.start, end_of(hold, placed), i, hold.amount});
    }
    auto const later = [](Held const& a, Held const& b) { return a.until > b.until; };
    for (Resource& resource : of_) std::stable_sort(resource.held.begin(), resource.held.end(), later);
  }

  // Those that let go after one moment and not after the other; the last first, and of equal ones the first
  // task.
  std::span<Held const> let_go(int resource, Time after, Time until) const {
    std::vector<Held> const& held = of_[at(resource)].held;
    auto const begin = first_until(held, until);
    return {begin, first_until(held, after)};
  }

  int amount_at(Time moment, int resource, int but) const {
    Resource const& of = of_[at(resource)];
    int sum = 0;
    // Whoever lets go later than the longest hold from this moment has not begun.
    for (Held const& held : let_go(resource, moment, sum_of(moment, of.longest)))
      if (held.begin <= moment && held.task != but) sum += held.amount;
    return sum;
  }

 private:
  struct Resource {
    std::vector<Held> held;
    Time longest = 0;

    void add(Held const& hold) {
      held.push_back(hold);
      longest = std::max(longest, hold.until - hold.begin);
    }
  };

  static Time sum_of(Time moment, Time longest) {
    return moment > never - longest ? never : moment + longest;
  }
  static std::vector<Held>::const_iterator first_until(std::vector<Held> const& held, Time until) {
    return std::partition_point(held.begin(), held.end(), [&](Held const& h) { return h.until > until; });
  }

  std::vector<Resource> of_;
};

class Backwards {
 public:
  Backwards(Project const& project, Plan const& plan)
      : project_{project}, plan_{plan}, hours_{project}, holders_{project, plan} {}

  Placed const& placed(int task) const { return plan_.tasks[at(task)]; }

  Reason reason_of(int i) {
    Task const& task = project_.tasks[at(i)];
    Placed const& own = placed(i);
    Hours const& hours = hours_of(i);
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
  ChainLink spent(int i, Time until) {
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

  std::vector<Hold> own_holds(int i) const { return holds_of(project_.tasks[at(i)], placed(i).hands); }

  Hours const& hours_of(int i) {
    std::vector<int> calendars;
    for (Hold const& hold : own_holds(i)) calendars.push_back(project_.resources[at(hold.resource)].calendar);
    return hours_.of(calendars);
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

  static int held_at(std::vector<Hold> const& holds, Placed const& placed, int resource, Time moment) {
    int sum = 0;
    for (Hold const& hold : holds)
      if (hold.resource == resource && placed.start <= moment && moment < end_of(hold, placed))
        sum += hold.amount;
    return sum;
  }

  // Those it would have met, had it been placed there, and that had let go when it did start.
  void take_holders(Reason& last, int i, Placed const& there) const {
    std::vector<Hold> const own = own_holds(i);
    for (Hold const& wanted : own)
      for (Holders::Held const& held : holders_.let_go(wanted.resource, last.until, placed(i).start)) {
        if (held.task == i || held.begin > placed(i).start) continue;
        Time const met = std::min(held.until, end_of(wanted, there)) - 1;
        if (met < std::max(there.start, held.begin)) continue;
        if (held_at(own, there, wanted.resource, met) + holders_.amount_at(met, wanted.resource, i) <=
            project_.resources[at(wanted.resource)].capacity)
          continue;
        last = {wanted.by_hands ? Because::hands : Because::held, held.until, held.task, wanted.resource};
        break;
      }
  }

  Project const& project_;
  Plan const& plan_;
  SharedHours hours_;
  Holders holders_;
};

}  // namespace

Chain critical_chain(Project const& project, Plan const& plan, int task) {
  Backwards backwards(project, plan);
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
