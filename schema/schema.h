// The steps that make a workshop file, or bring an older one up to date: the numbered .sql files of this
// folder, in order, embedded when the program is built. A released file is never edited; a change is a new
// file.
#pragma once

#include <span>
#include <string_view>

namespace endband::schema {

inline constexpr int application_id = 0x456e6462;  // "Endb", at byte 68 of a workshop file

struct Migration {
  int version = 0;        // user_version of a file that has it; set by the text itself
  std::string_view name;  // "0001_workshop"
  std::string_view sql;
};
std::span<Migration const> migrations();  // versions 1, 2, 3 ...

}  // namespace endband::schema
