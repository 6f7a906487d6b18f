#include "tests/bench/schedule/book.h"

#include "engine/schedule/check.h"
#include "engine/schedule/place.h"

#include <chrono>
#include <numeric>

namespace endband::schedule::bench {

namespace {

constexpr Time minute = 60, hour = 60 * minute, day = 24 * hour;
constexpr int jobs = 10, steps = 60;

// Weekdays 9:00 to 12:30 and 13:30 to 17:00, two years.
Calendar weekdays() {
  Calendar calendar;
  for (int i = 0; i < 728; ++i) {
    if (i % 7 >= 5) continue;
    calendar.push_back({i * day + 9 * hour, i * day + 12 * hour + 30 * minute});
    calendar.push_back({i * day + 13 * hour + 30 * minute, i * day + 17 * hour});
  }
  return calendar;
}

// Steps of a quarter of an hour to two hours, one after another with some in parallel; every fourth is
// pressed or dried for hours to a day.
void add_book(Project& project, int number) {
  int const first = static_cast<int>(project.tasks.size());
  for (int i = 0; i < steps; ++i) {
    int const mixed = (i * 7 + number * 5) % 8;
    Task task;
    task.work = (1 + mixed) * 15 * minute;
    task.hands = i % 3 == 0 ? std::vector{0, 1} : std::vector{(i + number) % 2};
    if (i % 4 == 3) {
      task.wait = (2 + mixed * 3) * hour;
      task.demands = {{i % 8 == 3 ? 2 : 3, 1, true}};
    }
    task.unbroken = i % 10 == 9;
    if (i > 0) task.after.push_back({first + i - 1 - (i % 5 == 4 ? 1 : 0), LinkKind::finish_start, 0});
    if (i > 7 && i % 6 == 0) task.after.push_back({first + i - 7, LinkKind::finish_start, hour});
    project.tasks.push_back(std::move(task));
  }
}

template <class Run>
double least_ms(Run const& run) {
  double least = 1e9;
  for (int i = 0; i < 50; ++i) {
    auto const begin = std::chrono::steady_clock::now();
    run();
    std::chrono::duration<double, std::milli> const taken = std::chrono::steady_clock::now() - begin;
    least = std::min(least, taken.count());
  }
  return least;
}

}  // namespace

BookTime time_book() {
  Project project{{weekdays()}, {{1, 0}, {1, 0}, {1, -1}, {2, -1}}, {}};
  for (int i = 0; i <= jobs; ++i) add_book(project, i);
  Placer agreed(project);
  for (int i = 0; i < jobs * steps; ++i) agreed.place(i);
  BookTime time;
  Plan plan;
  time.book_ms = least_ms([&] {
    Placer asked = agreed;
    for (int i = jobs * steps; i < (jobs + 1) * steps; ++i) asked.place(i);
    plan = asked.plan();
  });
  time.right = check(project, plan).empty();
  std::vector<int> order(project.tasks.size());
  std::iota(order.begin(), order.end(), 0);
  time.all_ms = least_ms([&] { plan = place(project, order); });
  time.right = time.right && check(project, plan).empty();
  return time;
}

}  // namespace endband::schedule::bench
