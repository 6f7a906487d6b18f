#include "engine/schedule/place.h"

#include "engine/schedule/hours.h"
#include "engine/schedule/profile.h"

#include <algorithm>
#include <stdexcept>

namespace endband::schedule {

namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

void require(bool holds, char const* what) {
  if (!holds) throw std::logic_error(what);
}

constexpr Placed not_ever{never, never, never, -1};

}  // namespace

// What the links and the release ask; never: a task before it is never done.
struct Placer::Bounds {
  Time start = 0;
  Time finish = 0;
};

struct Placer::Hold {
  int resource = 0;
  int working = 0;  // held while it is worked on
  int through = 0;  // held until the wait has ended, beside that
};

Placer::Placer(Project const& project) : project_{&project} {
  std::vector<Hours> calendars(project.calendars.begin(), project.calendars.end());
  calendars.emplace_back();
  calendars_ = std::make_shared<std::vector<Hours> const>(std::move(calendars));
  profiles_.reserve(project.resources.size());
  for (Resource const& resource : project.resources) {
    require(resource.calendar < static_cast<int>(project.calendars.size()),
            "a resource has no such calendar");
    profiles_.emplace_back(resource.capacity);
  }
}
Placer::Placer(Placer const&) = default;
Placer::Placer(Placer&&) noexcept = default;
Placer& Placer::operator=(Placer const&) = default;
Placer& Placer::operator=(Placer&&) noexcept = default;
Placer::~Placer() = default;

bool Placer::placed(int task) const { return at(task) < is_placed_.size() && is_placed_[at(task)]; }

Placer::Bounds Placer::bounds_of(Task const& task) const {
  Bounds bounds{std::max<Time>(0, task.release), 0};
  for (Link const& link : task.after) {
    require(link.from >= 0 && placed(link.from), "a task is placed before one that it is linked from");
    Placed const& from = plan_.tasks[at(link.from)];
    if (from.finish == never) return {never, never};
    switch (link.kind) {
      case LinkKind::finish_start: bounds.start = std::max(bounds.start, from.finish + link.lag); break;
      case LinkKind::start_start: bounds.start = std::max(bounds.start, from.start + link.lag); break;
      case LinkKind::finish_finish: bounds.finish = std::max(bounds.finish, from.finish + link.lag); break;
    }
  }
  return bounds;
}

void Placer::add_hold(Hold const& hold) {
  require(hold.resource >= 0 && at(hold.resource) < profiles_.size(), "there is no such resource");
  for (Hold& known : holds_)
    if (known.resource == hold.resource) {
      known.working += hold.working;
      known.through += hold.through;
      return;
    }
  holds_.push_back(hold);
}

void Placer::holds_of(Task const& task, int hands) {
  holds_.clear();
  if (hands >= 0) add_hold({hands, 1, 0});
  for (Demand const& demand : task.demands)
    add_hold(
        {demand.resource, demand.through_wait ? 0 : demand.amount, demand.through_wait ? demand.amount : 0});
}

// When all of them are open.
Hours const& Placer::hours_of_holds() {
  int first = -1;
  bool several = false;
  for (Hold const& hold : holds_) {
    int const calendar = project_->resources[at(hold.resource)].calendar;
    if (calendar < 0) continue;
    several = several || (first >= 0 && calendar != first);
    first = first < 0 ? calendar : first;
  }
  if (first < 0) return calendars_->back();
  if (!several) return (*calendars_)[at(first)];
  std::vector<int> wanted;
  for (Hold const& hold : holds_)
    if (int const calendar = project_->resources[at(hold.resource)].calendar; calendar >= 0)
      wanted.push_back(calendar);
  std::sort(wanted.begin(), wanted.end());
  for (Together const& known : together_)
    if (known.calendars == wanted) return *known.hours;
  Calendar common = project_->calendars[at(wanted[0])];
  for (int calendar : wanted) common = both(common, project_->calendars[at(calendar)]);
  together_.push_back({std::move(wanted), std::make_shared<Hours const>(common)});
  return *together_.back().hours;
}

Time Placer::blocked_until(Placed const& placed) const {
  Time until = placed.start;
  for (Hold const& hold : holds_) {
    Profile const& profile = profiles_[at(hold.resource)];
    until = std::max(until, profile.blocked_until(placed.start, placed.worked, hold.working + hold.through));
    if (hold.through > 0)
      until = std::max(until, profile.blocked_until(placed.start, placed.finish, hold.through));
  }
  return until;
}

Placed Placer::earliest(Task const& task, int hands, Bounds const& bounds) {
  holds_of(task, hands);
  Hours const& hours = hours_of_holds();
  Time from = bounds.start;
  if (bounds.finish > 0) {
    Time const end = bounds.finish - task.wait;
    from = std::max(from, task.work > 0 ? hours.least_start(end, task.work) : end);
  }
  std::size_t stretch = 0;
  while (from < never) {
    Placed placed{from, from, from + task.wait, hands};
    if (task.work > 0) {
      Hours::Stint const stint = hours.stint(from, task.work, task.unbroken, stretch);
      if (stint.end == never) return not_ever;
      stretch = stint.stretch;
      placed = {stint.start, stint.end, stint.end + task.wait, hands};
    }
    from = blocked_until(placed);
    if (from == placed.start) return placed;
  }
  return not_ever;
}

Placed const& Placer::place(int task) {
  require(task >= 0 && at(task) < project_->tasks.size(), "there is no such task");
  require(!placed(task), "a task is placed twice");
  if (is_placed_.size() < project_->tasks.size()) {
    is_placed_.resize(project_->tasks.size());
    plan_.tasks.resize(project_->tasks.size());
  }
  Task const& wanted = project_->tasks[at(task)];
  require(wanted.work >= 0 && wanted.wait >= 0, "a task lasts less than nothing");
  Bounds const bounds = bounds_of(wanted);
  Placed best = not_ever;
  if (bounds.start < never) {
    if (wanted.hands.empty()) best = earliest(wanted, -1, bounds);
    for (int hands : wanted.hands)
      if (Placed const found = earliest(wanted, hands, bounds); found.worked < best.worked) best = found;
  }
  is_placed_[at(task)] = true;
  plan_.tasks[at(task)] = best;
  if (best.finish < never) {
    if (wanted.hands.size() > 1) holds_of(wanted, best.hands);
    for (Hold const& hold : holds_) {
      Profile& profile = profiles_[at(hold.resource)];
      profile.hold(best.start, best.worked, hold.working);
      profile.hold(best.start, best.finish, hold.through);
    }
  }
  return plan_.tasks[at(task)];
}

Plan place(Project const& project, std::span<int const> order) {
  require(order.size() == project.tasks.size(), "the order is not one of all tasks");
  Placer placer(project);
  for (int task : order) placer.place(task);
  return placer.plan();
}

}  // namespace endband::schedule
