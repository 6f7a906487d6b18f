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
    for (Stretch const& stretch : stretches) {
      // Who works past midnight goes on.
      if (!calendar.empty() && calendar.back().end == midnight + stretch.begin)
        calendar.back().end = midnight + stretch.end;
      else
        calendar.push_back({midnight + stretch.begin, midnight + stretch.end});
    }
    calendar.back().end = std::min(calendar.back().end + overtime.n, midnight + day_seconds);
  }
  return calendar;
}

}  // namespace endband
