// What reads the value of a flag; inside cli/command only.
#pragma once

#include "cli/command/flag.h"

#include <string>
#include <string_view>

namespace endband::cli {

// Without a place: that is the caller's to say.
Fault flag_fault(FaultCode code, std::string_view found, std::string expected);

Read<FlagValue> read_day(std::string_view text);          // a day of business: of the years 1900 to 2999
Read<FlagValue> read_clock(std::string_view text);        // "09:30"
Read<FlagValue> read_time(std::string_view text);         // "2 h 30 min": nothing, or more
Read<FlagValue> read_three_times(std::string_view text);  // "5/10/20 min"
Read<FlagValue> read_wait(std::string_view text);         // "8/12 h"
Read<FlagValue> read_span(std::string_view text);         // "09:10-11:40", "2 h 30 min"

}  // namespace endband::cli
