// A setting's value between the text that stands in the file and what it means.
#pragma once

#include "db/settings.h"

#include <optional>
#include <string>
#include <string_view>

namespace endband::db {

// The value in its one stored form ("35 %", "1100 h", "12.50"), or what is wrong with it. `where` is copied
// to faults.
Read<std::string> canonical_value(SettingRow const& row, std::string_view value, Currency currency,
                                  Where const& where);

// Of a family whose members are known: a name that is none of them.
std::optional<Fault> fault_of_member(SettingRow const& row, std::string_view name, Where const& where);

// The value of a description's key as the workshop's default. Faults: unknown_key with near, and what the
// key's own row says of the value.
Read<Value> default_value(std::string_view key, std::string_view value, Where const& where);

std::string share_text(Ratio share);  // "35 %", "7.5 %", "1/3"

}  // namespace endband::db
