#include "engine/schedule/network.h"

#include <algorithm>
#include <functional>
#include <queue>
#include <stdexcept>

namespace endband::schedule {

namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

void require_tasks(Project const& project) {
  for (Task const& task : project.tasks)
    for (Link const& link : task.after)
      if (link.from < 0 || at(link.from) >= project.tasks.size())
        throw std::logic_error("a link comes from no task");
}

// The link as start >= from.start + weight.
Time weight(Project const& project, Task const& task, Link const& link) {
  Task const& from = project.tasks[at(link.from)];
  switch (link.kind) {
    case LinkKind::finish_start: return lasts(from) + link.lag;
    case LinkKind::start_start: return link.lag;
    case LinkKind::finish_finish: return lasts(from) + link.lag - lasts(task);
  }
  throw std::logic_error("no such link");
}

// Walks back along `before` from a task that a circle leads to.
Circle walked_back(std::vector<int> const& before, int task) {
  for (std::size_t i = 0; i < before.size(); ++i) task = before[at(task)];
  Circle circle{{task}};
  for (int next = before[at(task)]; next != task; next = before[at(next)]) circle.tasks.push_back(next);
  std::reverse(circle.tasks.begin(), circle.tasks.end());
  std::rotate(circle.tasks.begin(), std::min_element(circle.tasks.begin(), circle.tasks.end()),
              circle.tasks.end());
  return circle;
}

// `left`: how many links into a task are from tasks not yet in order; where it is not 0, a circle leads.
Circle circle_among(Project const& project, std::vector<int> const& left) {
  std::vector<int> before(left.size(), 0);
  int last = 0;
  for (std::size_t task = 0; task < left.size(); ++task) {
    if (left[task] == 0) continue;
    last = static_cast<int>(task);
    for (Link const& link : project.tasks[task].after)
      if (left[at(link.from)] > 0) before[task] = link.from;
  }
  return walked_back(before, last);
}

}  // namespace

tl::expected<std::vector<int>, Circle> link_order(Project const& project) {
  require_tasks(project);
  std::size_t const count = project.tasks.size();
  std::vector<std::vector<int>> followers(count);
  std::vector<int> left(count, 0);
  std::priority_queue<int, std::vector<int>, std::greater<>> free;
  for (std::size_t task = 0; task < count; ++task) {
    for (Link const& link : project.tasks[task].after)
      followers[at(link.from)].push_back(static_cast<int>(task));
    left[task] = static_cast<int>(project.tasks[task].after.size());
    if (left[task] == 0) free.push(static_cast<int>(task));
  }
  std::vector<int> order;
  order.reserve(count);
  while (!free.empty()) {
    order.push_back(free.top());
    free.pop();
    for (int follower : followers[at(order.back())])
      if (--left[at(follower)] == 0) free.push(follower);
  }
  if (order.size() < count) return tl::unexpected(circle_among(project, left));
  return order;
}

tl::expected<Network, Circle> critical_path(Project const& project) {
  auto const order = link_order(project);
  if (!order) return tl::unexpected(order.error());
  Network network;
  std::vector<Moments>& moments = network.tasks;
  moments.resize(project.tasks.size());
  for (int i : *order) {
    Task const& task = project.tasks[at(i)];
    Time start = std::max<Time>(0, task.release);
    for (Link const& link : task.after)
      start = std::max(start, moments[at(link.from)].early_start + weight(project, task, link));
    moments[at(i)].early_start = start;
    moments[at(i)].early_finish = start + lasts(task);
    network.length = std::max(network.length, moments[at(i)].early_finish);
  }
  for (std::size_t i = 0; i < moments.size(); ++i) {
    moments[i].late_start = network.length - lasts(project.tasks[i]);
    moments[i].free_float = network.length - moments[i].early_finish;
  }
  for (auto i = order->rbegin(); i != order->rend(); ++i) {
    Task const& task = project.tasks[at(*i)];
    Moments& own = moments[at(*i)];
    own.late_finish = own.late_start + lasts(task);
    own.total_float = own.late_start - own.early_start;
    for (Link const& link : task.after) {
      Moments& from = moments[at(link.from)];
      Time const apart = weight(project, task, link);
      from.late_start = std::min(from.late_start, own.late_start - apart);
      from.free_float = std::min(from.free_float, own.early_start - apart - from.early_start);
    }
  }
  return network;
}

tl::expected<std::vector<Time>, Circle> earliest_starts(Project const& project) {
  require_tasks(project);
  std::size_t const count = project.tasks.size();
  std::vector<Time> starts(count);
  std::vector<int> before(count, 0);
  for (std::size_t i = 0; i < count; ++i) starts[i] = std::max<Time>(0, project.tasks[i].release);
  for (std::size_t round = 0;; ++round) {
    int moved = -1;
    for (std::size_t i = 0; i < count; ++i) {
      Task const& task = project.tasks[i];
      for (Link const& link : task.after) {
        Time const least = starts[at(link.from)] + weight(project, task, link);
        if (least <= starts[i]) continue;
        starts[i] = least;
        before[i] = link.from;
        moved = static_cast<int>(i);
      }
    }
    if (moved < 0) return starts;
    if (round == count) return tl::unexpected(walked_back(before, moved));
  }
}

}  // namespace endband::schedule
