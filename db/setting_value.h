// A setting's value between the text that stands in the file and what it means.
#pragma once

#include "db/settings.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// The value in its one stored form ("35 %", "1100 h", "12.50"), or what is wrong with it. `where` is copied
// to faults.
Read<std::string> canonical_value(SettingRow const& row, std::string_view value, Currency currency,
                                  Where const& where);

// A workshop default as one line of a description, `sewing.thread = "linen-18-3"`, not yet read by its rules.
// Faults: unknown_key with near, bad_value.
Read<std::string> default_line(std::string_view key, std::string_view value, Where const& where);
// That line read as a description of its own: its faults, or none.
std::vector<Fault> check_default(std::string_view key, std::string_view value, Where const& where);

std::string share_text(Ratio share);  // "35 %", "7.5 %", "1/3"

}  // namespace endband::db
