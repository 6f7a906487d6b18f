#include "engine/schedule/check.h"

#include <algorithm>
#include <optional>
#include <tuple>

namespace endband::schedule {

namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// Open hours of everything that must be open; nothing: any hour.
using Hours = std::optional<Calendar>;

void narrow(Hours& hours, Project const& project, int resource) {
  int const calendar = project.resources[at(resource)].calendar;
  if (calendar < 0) return;
  if (!hours) {
    hours = project.calendars[at(calendar)];
    return;
  }
  Calendar common;
  for (Open const& a : *hours)
    for (Open const& b : project.calendars[at(calendar)])
      if (std::max(a.begin, b.begin) < std::min(a.end, b.end))
        common.push_back({std::max(a.begin, b.begin), std::min(a.end, b.end)});
  hours = std::move(common);
}

Hours hours_of(Project const& project, Task const& task, Placed const& placed) {
  Hours hours;
  if (placed.hands >= 0) narrow(hours, project, placed.hands);
  for (Demand const& demand : task.demands) narrow(hours, project, demand.resource);
  return hours;
}

struct Held {
  Time from, to;
  int task;
  int amount;
};

class Check {
 public:
  Check(Project const& project, Plan const& plan) : project_{project}, plan_{plan} {}

  std::vector<PlanFault> faults() {
    if (plan_.tasks.size() != project_.tasks.size()) {
      say(Broken::count, -1);
      return faults_;
    }
    for (int i = 0; at(i) < plan_.tasks.size(); ++i) look_at(i);
    for (int i = 0; at(i) < project_.resources.size(); ++i) look_at_resource(i);
    return faults_;
  }

 private:
  void say(Broken broken, int task, int other = -1) { faults_.push_back({broken, task, other}); }
  bool placed(int i) const { return plan_.tasks[at(i)].finish != never; }

  void look_at(int i) {
    if (!placed(i)) return say(Broken::not_placed, i);
    Task const& task = project_.tasks[at(i)];
    Placed const& own = plan_.tasks[at(i)];
    if (own.start < 0) say(Broken::negative_start, i);
    if (own.start < task.release) say(Broken::release, i);
    if (own.finish - own.worked != task.wait) say(Broken::wait, i);
    for (Link const& link : task.after)
      if (placed(link.from) && !kept(link, plan_.tasks[at(link.from)], own)) say(Broken::link, i, link.from);
    bool const listed = std::count(task.hands.begin(), task.hands.end(), own.hands) > 0;
    if (task.hands.empty() ? own.hands != -1 : !listed) return say(Broken::hands, i);
    look_at_work(i, task, own);
  }

  static bool kept(Link const& link, Placed const& from, Placed const& own) {
    switch (link.kind) {
      case LinkKind::finish_start: return own.start - from.finish >= link.lag;
      case LinkKind::start_start: return own.start - from.start >= link.lag;
      case LinkKind::finish_finish: return own.finish - from.finish >= link.lag;
    }
    return false;
  }

  void look_at_work(int i, Task const& task, Placed const& own) {
    Hours const hours = hours_of(project_, task, own);
    if (!hours || task.work == 0) {
      if (own.worked - own.start != task.work) say(Broken::work, i);
      return;
    }
    Time done = 0, longest = 0;
    int stretches = 0;
    bool begins_open = false, ends_open = false;
    for (Open const& open : *hours) {
      Time const inside = std::min(open.end, own.worked) - std::max(open.begin, own.start);
      done += std::max<Time>(0, inside);
      stretches += inside > 0 ? 1 : 0;
      longest = std::max(longest, open.end - open.begin);
      begins_open = begins_open || (open.begin <= own.start && own.start < open.end);
      ends_open = ends_open || (open.begin < own.worked && own.worked <= open.end);
    }
    if (done != task.work) say(Broken::work, i);
    if (!begins_open || !ends_open) say(Broken::calendar, i);
    if (task.unbroken && task.work <= longest && stretches > 1) say(Broken::unbroken, i);
  }

  std::vector<Held> held_of(int resource) const {
    std::vector<Held> all;
    for (int i = 0; at(i) < plan_.tasks.size(); ++i) {
      if (!placed(i)) continue;
      Placed const& own = plan_.tasks[at(i)];
      if (own.hands == resource) all.push_back({own.start, own.worked, i, 1});
      for (Demand const& demand : project_.tasks[at(i)].demands)
        if (demand.resource == resource)
          all.push_back({own.start, demand.through_wait ? own.finish : own.worked, i, demand.amount});
    }
    std::erase_if(all, [](Held const& held) { return held.from >= held.to; });
    std::sort(all.begin(), all.end(), [](Held const& a, Held const& b) {
      return std::tie(a.from, a.task) < std::tie(b.from, b.task);
    });
    return all;
  }

  // More can be held than there is only from where some task begins to hold.
  void look_at_resource(int resource) {
    std::vector<Held> const all = held_of(resource);
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (i + 1 < all.size() && all[i + 1].from == all[i].from) continue;
      std::int64_t held = 0;
      for (std::size_t k = 0; k <= i; ++k) held += all[k].to > all[i].from ? all[k].amount : 0;
      if (held > project_.resources[at(resource)].capacity) say(Broken::capacity, all[i].task, resource);
    }
  }

  Project const& project_;
  Plan const& plan_;
  std::vector<PlanFault> faults_;
};

}  // namespace

std::string_view broken_name(Broken broken) {
  switch (broken) {
    case Broken::count: return "count";
    case Broken::not_placed: return "not-placed";
    case Broken::negative_start: return "negative-start";
    case Broken::release: return "release";
    case Broken::link: return "link";
    case Broken::hands: return "hands";
    case Broken::work: return "work";
    case Broken::calendar: return "calendar";
    case Broken::unbroken: return "unbroken";
    case Broken::wait: return "wait";
    case Broken::capacity: return "capacity";
  }
  return "";
}

std::vector<PlanFault> check(Project const& project, Plan const& plan) {
  return Check(project, plan).faults();
}

}  // namespace endband::schedule
