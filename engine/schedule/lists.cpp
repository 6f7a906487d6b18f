#include "engine/schedule/lists.h"

#include <algorithm>
#include <utility>

namespace endband::schedule {

namespace {

// One pair of neighbours in so many changes places.
constexpr int swap_once_in = 20;
constexpr int peak_tries = 3;

std::size_t at(int index) { return static_cast<std::size_t>(index); }
std::ptrdiff_t step(std::size_t index) { return static_cast<std::ptrdiff_t>(index); }

// Goes through every order of the tasks that the links allow, until there are more than `most`.
class EveryOrder {
 public:
  EveryOrder(std::vector<std::vector<int>> const& after, std::vector<int> left, std::int64_t most)
      : after_(after), left_(std::move(left)), most_(most) {
    extend();
    if (std::ssize(found_) > most_) found_.clear();
  }
  std::vector<std::vector<int>> take() { return std::move(found_); }

 private:
  void extend() {
    if (list_.size() == left_.size()) return found_.push_back(list_);
    for (std::size_t task = 0; task < left_.size() && std::ssize(found_) <= most_; ++task) {
      if (left_[task] != 0) continue;
      left_[task] = -1;  // in the list
      list_.push_back(static_cast<int>(task));
      for (int follower : after_[task]) --left_[at(follower)];
      extend();
      for (int follower : after_[task]) ++left_[at(follower)];
      list_.pop_back();
      left_[task] = 0;
    }
  }

  std::vector<std::vector<int>> const& after_;
  std::vector<int> left_, list_;  // links still to come, by task
  std::int64_t most_;
  std::vector<std::vector<int>> found_;
};

}  // namespace

Lists::Lists(Project const& project, Network const& network, std::uint64_t seed)
    : after_(project.tasks.size()), part_(project.tasks.size()), random_{seed} {
  for (std::size_t i = 0; i < project.tasks.size(); ++i) {
    Task const& task = project.tasks[i];
    for (Link const& link : task.after) after_[at(link.from)].push_back(static_cast<int>(i));
    links_.push_back(static_cast<int>(task.after.size()));
    late_finish_.push_back(network.tasks[i].late_finish);
    std::int64_t share = task.hands.empty() ? 0 : 1'000;
    for (Demand const& demand : task.demands)
      share += 1'000 * demand.amount / std::max(1, project.resources[at(demand.resource)].capacity);
    weight_.push_back(share * lasts(task));
  }
}

std::vector<std::vector<int>> Lists::all(std::int64_t most) const {
  return EveryOrder(after_, links_, most).take();
}

std::vector<int> Lists::sampled() {
  std::vector<int> left = links_, free, list;
  for (std::size_t i = 0; i < left.size(); ++i)
    if (left[i] == 0) free.push_back(static_cast<int>(i));
  while (!free.empty()) {
    Time latest = 0;
    for (int task : free) latest = std::max(latest, late_finish_[at(task)]);
    Time all = 0;
    for (int task : free) all += latest - late_finish_[at(task)] + 1;
    Time drawn = random_.below(all);
    std::size_t chosen = 0;
    while ((drawn -= latest - late_finish_[at(free[chosen])] + 1) >= 0) ++chosen;
    int const task = free[chosen];
    free.erase(free.begin() + step(chosen));
    list.push_back(task);
    for (int follower : after_[at(task)])
      if (--left[at(follower)] == 0) free.push_back(follower);
  }
  return list;
}

std::vector<int> Lists::child(std::vector<int> const& one, std::vector<int> const& other) {
  std::vector<int> list =
      random_.once_in(2) ? with_middle_of_other(one, other) : around_peak_of_one(one, other);
  swap_some(list);
  move_one(list);
  return list;
}

// Hartmann's two-point crossover.
std::vector<int> Lists::with_middle_of_other(std::vector<int> const& one, std::vector<int> const& other) {
  std::size_t first = at(static_cast<int>(random_.below(std::ssize(one))));
  std::size_t last = at(static_cast<int>(random_.below(std::ssize(one))));
  if (first > last) std::swap(first, last);
  std::vector<int> list(one.begin(), one.begin() + step(first));
  list.reserve(one.size());
  std::fill(part_.begin(), part_.end(), char{0});
  for (int task : list) part_[at(task)] = 1;
  auto const add = [&](std::vector<int> const& from, std::size_t until) {
    for (std::size_t i = 0; i < from.size() && list.size() < until; ++i)
      if (part_[at(from[i])] == 0) {
        part_[at(from[i])] = 1;
        list.push_back(from[i]);
      }
  };
  add(other, last);
  add(one, one.size());
  return list;
}

// The part of the list in which most is done stays; what comes before and after it is ordered as in the
// other: V. Valls, F. Ballestin and S. Quintanilla, "A hybrid genetic algorithm for the resource-constrained
// project scheduling problem", European Journal of Operational Research 185 (2008) 495-508, simplified.
std::vector<int> Lists::around_peak_of_one(std::vector<int> const& one, std::vector<int> const& other) {
  std::size_t const quarter = one.size() / 4;
  std::size_t const length = quarter + at(static_cast<int>(random_.below(std::ssize(one) / 2 + 1)));
  std::size_t const first = peak(one, length);
  for (std::size_t i = 0; i < one.size(); ++i)
    part_[at(one[i])] = static_cast<char>(i < first ? 0 : i < first + length ? 1 : 2);
  std::vector<int> list;
  list.reserve(one.size());
  for (int task : other)
    if (part_[at(task)] == 0) list.push_back(task);
  list.insert(list.end(), one.begin() + step(first), one.begin() + step(first + length));
  for (int task : other)
    if (part_[at(task)] == 2) list.push_back(task);
  return list;
}

// Of a few stretches of this length the one in which most is done.
std::size_t Lists::peak(std::vector<int> const& list, std::size_t length) {
  std::size_t best = 0;
  std::int64_t most = -1;
  for (int i = 0; i < peak_tries; ++i) {
    std::size_t const first = at(static_cast<int>(random_.below(std::ssize(list) - step(length) + 1)));
    std::int64_t sum = 0;
    for (std::size_t k = first; k < first + length; ++k) sum += weight_[at(list[k])];
    if (sum <= most) continue;
    most = sum;
    best = first;
  }
  return best;
}

bool Lists::linked(int a, int b) const {
  auto const leads = [&](int from, int to) {
    return std::find(after_[at(from)].begin(), after_[at(from)].end(), to) != after_[at(from)].end();
  };
  return leads(a, b) || leads(b, a);
}

void Lists::swap_some(std::vector<int>& list) {
  for (std::size_t i = 0; i + 1 < list.size(); ++i)
    if (random_.once_in(swap_once_in) && !linked(list[i], list[i + 1])) std::swap(list[i], list[i + 1]);
}

// Anywhere between the nearest tasks on both sides that it is linked with.
void Lists::move_one(std::vector<int>& list) {
  std::size_t const from = at(static_cast<int>(random_.below(std::ssize(list))));
  std::size_t least = from, most = from;
  while (least > 0 && !linked(list[least - 1], list[from])) --least;
  while (most + 1 < list.size() && !linked(list[from], list[most + 1])) ++most;
  std::size_t const to = least + at(static_cast<int>(random_.below(step(most - least + 1))));
  auto const begin = list.begin();
  if (to < from)
    std::rotate(begin + step(to), begin + step(from), begin + step(from + 1));
  else
    std::rotate(begin + step(from), begin + step(from + 1), begin + step(to + 1));
}

}  // namespace endband::schedule
