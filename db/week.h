// A working week as words: "Mon-Fri 09:00-12:30 13:30-17:00, Sat 10:00-13:00".
#pragma once

#include "engine/fault/fault.h"
#include "engine/labour/bench.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// Days (Mon, Monday, Mon-Fri, "Mon Wed Fri"), then their hours (09:00-12:30, 9-17, 9.30-12); commas and
// semicolons are as good as blanks. Stretches that touch become one. All faults at once, each of one word;
// where is the caller's to say: bad_value (an unknown day, with near; hours without a day; a day without
// hours), out_of_range (25:00), contradiction (the end before the beginning; two stretches that overlap).
Read<WorkingWeek> read_week(std::string_view text);

// Days of the same hours together; read back it is the same week. Empty: no hours at all.
std::string week_text(WorkingWeek const& week);
// Its groups of days, for people: "Mon-Fri 09:00-12:30, 13:30-17:00".
std::vector<std::string> week_lines(WorkingWeek const& week);

}  // namespace endband::db
