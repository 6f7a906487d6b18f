// The working hours of people as calendars of a plan, in seconds from midnight of its first day.
#pragma once

#include "engine/labour/bench.h"
#include "engine/schedule/project.h"

namespace endband {

inline constexpr schedule::Time day_seconds = 86'400;

// `days` days from `on`; a day with hours that is not off ends later by `overtime`, at midnight at the
// latest.
schedule::Calendar calendar_of(Person const& person, Date on, int days, Duration overtime);

// When so much work is done that is begun at `from`; nothing when the calendar ends before.
std::optional<schedule::Time> work_ends(schedule::Calendar const& calendar, schedule::Time from,
                                        schedule::Time work);

// Open time of [from, to).
schedule::Time open_between(schedule::Calendar const& calendar, schedule::Time from, schedule::Time to);

}  // namespace endband
