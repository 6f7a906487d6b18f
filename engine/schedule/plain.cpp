#include "engine/schedule/plain.h"

#include <algorithm>
#include <numeric>

namespace endband::schedule {

namespace {

constexpr int most_capacity = 0x7FFF;
constexpr Time most_length = 60'000;  // units
constexpr std::uint64_t guards = 0x8000800080008000U;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// What a task holds of each resource while it lasts, or nothing if not all is held for just as long.
std::optional<std::vector<int>> held_by(Project const& project, Task const& task) {
  std::vector<int> held(project.resources.size(), 0);
  if (task.hands.size() > 1 || (!task.hands.empty() && task.wait > 0)) return std::nullopt;
  if (!task.hands.empty()) ++held[at(task.hands[0])];
  for (Demand const& demand : task.demands) {
    if (task.wait > 0 && !demand.through_wait) return std::nullopt;
    held[at(demand.resource)] += demand.amount;
  }
  for (std::size_t i = 0; i < held.size(); ++i)
    if (held[i] > 0 && (project.resources[i].calendar >= 0 || project.resources[i].capacity > most_capacity))
      return std::nullopt;
  if (task.work + task.wait > 0)
    for (std::size_t i = 0; i < held.size(); ++i)
      if (held[i] > project.resources[i].capacity) return std::nullopt;
  return held;
}

}  // namespace

std::optional<Plain> Plain::of(Project const& project) {
  Plain plain;
  std::size_t const count = project.tasks.size();
  Time unit = 0, length = 0;
  for (Task const& task : project.tasks) {
    if (task.release > 0) return std::nullopt;
    unit = std::gcd(unit, std::gcd(task.work + task.wait, task.work));
    length += task.work + task.wait;
    for (Link const& link : task.after) {
      if (link.kind != LinkKind::finish_start || link.lag < 0) return std::nullopt;
      unit = std::gcd(unit, link.lag);
      length += link.lag;
    }
  }
  plain.unit_ = std::max<Time>(1, unit);
  if (length / plain.unit_ > most_length) return std::nullopt;
  plain.words_ = (project.resources.size() + 3) / 4;
  plain.demands_.assign(count * plain.words_, 0);
  plain.capacity_.assign(plain.words_, 0);
  for (std::size_t i = 0; i < project.resources.size(); ++i) {
    int const capacity = std::clamp(project.resources[i].capacity, 0, most_capacity);
    plain.capacity_[i / 4] |= static_cast<std::uint64_t>(capacity) << (i % 4 * 16);
  }
  plain.before_.resize(count);
  plain.after_.resize(count);
  for (std::size_t i = 0; i < count; ++i) {
    Task const& task = project.tasks[i];
    auto const held = held_by(project, task);
    if (!held) return std::nullopt;
    plain.lasts_.push_back(static_cast<int>((task.work + task.wait) / plain.unit_));
    plain.waits_.push_back(static_cast<int>(task.wait / plain.unit_));
    plain.hands_.push_back(task.hands.empty() ? -1 : task.hands[0]);
    if (plain.lasts_[i] > 0)
      for (std::size_t k = 0; k < held->size(); ++k)
        plain.demands_[i * plain.words_ + k / 4] |= static_cast<std::uint64_t>((*held)[k]) << (k % 4 * 16);
    for (Link const& link : task.after) {
      int const lag = static_cast<int>(link.lag / plain.unit_);
      plain.before_[i].push_back({link.from, lag});
      plain.after_[at(link.from)].push_back({static_cast<int>(i), lag});
    }
  }
  std::size_t const times = static_cast<std::size_t>(length / plain.unit_) + 1;
  for (std::size_t time = 0; time < times; ++time)
    plain.free_.insert(plain.free_.end(), plain.capacity_.begin(), plain.capacity_.end());
  return plain;
}

int Plain::earliest(int task, End from, std::span<int const> starts) const {
  int start = 0;
  for (Neighbour const& other : (from == End::first ? before_ : after_)[at(task)])
    start = std::max(start, starts[at(other.task)] + lasts(other.task) + other.lag);
  return start;
}

// The last time at which it does not fit says where to try next.
int Plain::fitting(int task, int start) const {
  std::uint64_t const* const wanted = demands_.data() + at(task) * words_;
  int const length = lasts(task);
  if (words_ == 1) {
    std::uint64_t const amount = wanted[0];
    for (int time = start + length - 1; time >= start; --time)
      if ((((free_[at(time)] | guards) - amount) & guards) != guards) {
        start = time + 1;
        time = start + length;
      }
    return start;
  }
  for (int time = start + length - 1; time >= start; --time)
    for (std::size_t word = 0; word < words_; ++word)
      if ((((free_[at(time) * words_ + word] | guards) - wanted[word]) & guards) != guards) {
        start = time + 1;
        time = start + length;
        break;
      }
  return start;
}

int Plain::build(std::span<int const> order, End from, std::span<int> starts) {
  for (std::size_t time = 0; time < dirty_; ++time)
    std::copy(capacity_.begin(), capacity_.end(), free_.begin() + static_cast<std::ptrdiff_t>(time * words_));
  int length = 0;
  for (int task : order) {
    int const start = fitting(task, earliest(task, from, starts));
    int const end = start + lasts(task);
    for (int time = start; time < end; ++time)
      for (std::size_t word = 0; word < words_; ++word)
        free_[at(time) * words_ + word] -= demands_[at(task) * words_ + word];
    starts[at(task)] = start;
    length = std::max(length, end);
  }
  dirty_ = at(length);
  return length;
}

Plan Plain::plan(std::span<int const> starts) const {
  Plan plan;
  for (std::size_t i = 0; i < lasts_.size(); ++i) {
    Time const start = unit_ * starts[i];
    Time const finish = start + unit_ * lasts_[i];
    plan.tasks.push_back({start, finish - unit_ * waits_[i], finish, hands_[i]});
  }
  return plan;
}

}  // namespace endband::schedule
