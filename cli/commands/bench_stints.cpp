#include "cli/commands/bench_stints.h"

#include "engine/promise/hours.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <string_view>
#include <tuple>

namespace endband::cli {

using schedule::Time;

std::vector<Stint> stints_of(BenchPlan const& plan, Time until) {
  std::vector<Stint> stints;
  for (std::size_t i = 0; i < plan.tasks.size(); ++i) {
    schedule::Placed const& placed = plan.plan.tasks[i];
    if (placed.hands < 0 || placed.start >= until) continue;
    int const calendar = plan.project.resources[static_cast<std::size_t>(placed.hands)].calendar;
    for (schedule::Open const& open : plan.project.calendars[static_cast<std::size_t>(calendar)]) {
      Time const begin = std::max(open.begin, placed.start), end = std::min(open.end, placed.worked);
      if (begin < end && begin < until) stints.push_back({begin, end, placed.hands, static_cast<int>(i)});
    }
  }
  std::ranges::sort(stints, {}, [](Stint const& s) { return std::tuple(s.begin, s.person, s.task); });
  return stints;
}

std::string clock_words(Time moment) {
  Time const minutes = (moment % day_seconds) / 60;
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

std::string day_words(Date date) {
  constexpr std::array<std::string_view, 7> names{"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                  "Friday", "Saturday", "Sunday"};
  return fmt::format("{} {}", names[std::chrono::weekday(date).iso_encoding() - 1], date_text(date));
}

}  // namespace endband::cli
