// The whole workshop as text, in JSON Lines: a first line that says what it is, one line for each row of each
// table, and a last one with the count of rows, without which the text was cut off.
//
//   {"endband":"workshop","version":1,"schema":7}
//   {"entry":{"seq":1,"at_utc":"2026-01-05T08:00:00Z", ... ,"undoes":null}}
//   {"rows":1}
#pragma once

#include "cli/process/text_lines.h"
#include "db/whole.h"

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

namespace endband::cli {

// In pieces of many lines; gives back how many rows. `take` says whether it wants more.
std::int64_t write_workshop(db::Workshop& workshop, std::function<bool(std::string_view)> const& take);

struct WorkshopRead {
  db::Workshop workshop;
  std::int64_t rows = 0;
};
// Into a new file at `path`, which is left for the caller to remove where there are faults; those are of the
// text, each with its line, up to twenty.
Read<WorkshopRead> read_workshop(TextLines& text, std::string const& path);

}  // namespace endband::cli
