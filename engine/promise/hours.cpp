#include "engine/promise/hours.h"

#include <algorithm>
#include <chrono>

namespace endband {

using schedule::Time;

schedule::Calendar calendar_of(Person const& person, Date on, int days, Duration overtime) {
  schedule::Calendar calendar;
  for (int day = 0; day < days; ++day) {
    Date const date = on + std::chrono::days(day);
    auto const& stretches = person.week.at(std::chrono::weekday(date).iso_encoding() - 1);
    bool const off = std::any_of(person.off.begin(), person.off.end(), [&](DaysOff const& span) {
      return span.first <= date && date <= span.last;
    });
    if (off || stretches.empty()) continue;
    Time const midnight = day * day_seconds;
    for (Stretch const& stretch : stretches)
      calendar.push_back({midnight + stretch.begin, midnight + stretch.end});
    calendar.back().end = std::min(calendar.back().end + overtime.n, midnight + day_seconds);
  }
  return calendar;
}

std::optional<Time> work_ends(schedule::Calendar const& calendar, Time from, Time work) {
  if (work <= 0) return from;
  for (schedule::Open const& open : calendar) {
    Time const begin = std::max(open.begin, from);
    if (begin >= open.end) continue;
    if (open.end - begin >= work) return begin + work;
    work -= open.end - begin;
  }
  return std::nullopt;
}

Time open_between(schedule::Calendar const& calendar, Time from, Time to) {
  Time sum = 0;
  for (schedule::Open const& open : calendar)
    sum += std::max<Time>(0, std::min(open.end, to) - std::max(open.begin, from));
  return sum;
}

}  // namespace endband
