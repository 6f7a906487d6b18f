// The working hours of people as calendars of a plan, in seconds from midnight of its first day.
#pragma once

#include "engine/labour/bench.h"
#include "engine/schedule/project.h"

namespace endband {

inline constexpr schedule::Time day_seconds = 86'400;

// `days` days from `on`; a day with hours that is not off ends later by `overtime`, at midnight at the
// latest.
schedule::Calendar calendar_of(Person const& person, Date on, int days, Duration overtime);

}  // namespace endband
