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

// What the links and the release ask; never: a task before it is never done.
struct Bounds {
  Time start = 0;
  Time finish = 0;
};

struct Hold {
  int resource = 0;
  int working = 0;  // held while it is worked on
  int through = 0;  // held until the wait has ended, beside that
};

}  // namespace

struct Placer::State {
  explicit State(Project const& of);

  bool placed(int task) const;
  Bounds bounds_of(Task const& task) const;
  void add_hold(Hold const& hold);
  void holds_of(Task const& task, int hands);
  Hours const& hours_of_holds();
  Placed earliest(Task const& task, int hands, Bounds const& bounds);
  Time blocked_until(Placed const& placed) const;
  Placed const& place(int task);

  Project const* project;
  SharedHours hours;
  std::vector<Profile> profiles;  // by resource
  std::vector<bool> is_placed;
  std::vector<Hold> holds;     // of the task that is looked at
  std::vector<int> calendars;  // theirs
  Plan plan;
};

Placer::State::State(Project const& of) : project{&of}, hours{of} {
  profiles.reserve(of.resources.size());
  for (Resource const& resource : of.resources) {
    require(resource.calendar < static_cast<int>(of.calendars.size()), "a resource has no such calendar");
    profiles.emplace_back(resource.capacity);
  }
}

bool Placer::State::placed(int task) const { return at(task) < is_placed.size() && is_placed[at(task)]; }

Bounds Placer::State::bounds_of(Task const& task) const {
  Bounds bounds{std::max<Time>(0, task.release), 0};
  for (Link const& link : task.after) {
    require(link.from >= 0 && placed(link.from), "a task is placed before one that it is linked from");
    Placed const& from = plan.tasks[at(link.from)];
    if (from.finish == never) return {never, never};
    switch (link.kind) {
      case LinkKind::finish_start: bounds.start = std::max(bounds.start, from.finish + link.lag); break;
      case LinkKind::start_start: bounds.start = std::max(bounds.start, from.start + link.lag); break;
      case LinkKind::finish_finish: bounds.finish = std::max(bounds.finish, from.finish + link.lag); break;
    }
  }
  return bounds;
}

void Placer::State::add_hold(Hold const& hold) {
  require(hold.resource >= 0 && at(hold.resource) < profiles.size(), "there is no such resource");
  for (Hold& known : holds)
    if (known.resource == hold.resource) {
      known.working += hold.working;
      known.through += hold.through;
      return;
    }
  holds.push_back(hold);
}

void Placer::State::holds_of(Task const& task, int hands) {
  holds.clear();
  if (hands >= 0) add_hold({hands, 1, 0});
  for (Demand const& demand : task.demands)
    add_hold(
        {demand.resource, demand.through_wait ? 0 : demand.amount, demand.through_wait ? demand.amount : 0});
}

// When all of them are open.
Hours const& Placer::State::hours_of_holds() {
  calendars.clear();
  for (Hold const& hold : holds) calendars.push_back(project->resources[at(hold.resource)].calendar);
  return hours.of(calendars);
}

Time Placer::State::blocked_until(Placed const& placed) const {
  Time until = placed.start;
  for (Hold const& hold : holds) {
    Profile const& profile = profiles[at(hold.resource)];
    until = std::max(until, profile.blocked_until(placed.start, placed.worked, hold.working + hold.through));
    if (hold.through > 0)
      until = std::max(until, profile.blocked_until(placed.start, placed.finish, hold.through));
  }
  return until;
}

Placed Placer::State::earliest(Task const& task, int hands, Bounds const& bounds) {
  holds_of(task, hands);
  Hours const& open = hours_of_holds();
  Time from = bounds.start;
  if (bounds.finish > 0) {
    Time const end = bounds.finish - task.wait;
    from = std::max(from, task.work > 0 ? open.least_start(end, task.work) : end);
  }
  std::size_t stretch = 0;
  while (from < never) {
    Placed placed{from, from, from + task.wait, hands};
    if (task.work > 0) {
      Hours::Stint const stint = open.stint(from, task.work, task.unbroken, stretch);
      if (stint.end == never) return not_ever;
      stretch = stint.stretch;
      placed = {stint.start, stint.end, stint.end + task.wait, hands};
    }
    from = blocked_until(placed);
    if (from == placed.start) return placed;
  }
  return not_ever;
}

Placed const& Placer::State::place(int task) {
  require(task >= 0 && at(task) < project->tasks.size(), "there is no such task");
  require(!placed(task), "a task is placed twice");
  if (is_placed.size() < project->tasks.size()) {
    is_placed.resize(project->tasks.size());
    plan.tasks.resize(project->tasks.size());
  }
  Task const& wanted = project->tasks[at(task)];
  require(wanted.work >= 0 && wanted.wait >= 0, "a task lasts less than nothing");
  Bounds const bounds = bounds_of(wanted);
  Placed best = not_ever;
  if (bounds.start < never) {
    if (wanted.hands.empty()) best = earliest(wanted, -1, bounds);
    for (int hands : wanted.hands)
      if (Placed const found = earliest(wanted, hands, bounds); found.worked < best.worked) best = found;
  }
  is_placed[at(task)] = true;
  plan.tasks[at(task)] = best;
  if (best.finish < never) {
    if (wanted.hands.size() > 1) holds_of(wanted, best.hands);
    for (Hold const& hold : holds) {
      Profile& profile = profiles[at(hold.resource)];
      profile.hold(best.start, best.worked, hold.working);
      profile.hold(best.start, best.finish, hold.through);
    }
  }
  return plan.tasks[at(task)];
}

Placer::Placer(Project const& project) : state_{std::make_unique<State>(project)} {}
Placer::Placer(Placer const& other) : state_{std::make_unique<State>(*other.state_)} {}
Placer::Placer(Placer&&) noexcept = default;
Placer& Placer::operator=(Placer const& other) { return *this = Placer(other); }
Placer& Placer::operator=(Placer&&) noexcept = default;
Placer::~Placer() = default;

Placed const& Placer::place(int task) { return state_->place(task); }
Plan const& Placer::plan() const { return state_->plan; }
bool Placer::placed(int task) const { return state_->placed(task); }

Plan place(Project const& project, std::span<int const> order) {
  require(order.size() == project.tasks.size(), "the order is not one of all tasks");
  Placer placer(project);
  for (int task : order) placer.place(task);
  return placer.plan();
}

}  // namespace endband::schedule
