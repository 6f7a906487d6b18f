// Which stock to try to make do with; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/search.h"

namespace endband::cutting::many {

// A choice of sheets that costs less than the best plan and has area enough, though without one of them it
// had not.
struct Selection {
  std::vector<std::int64_t> copies;  // by kind
  std::int64_t cost = 0, area = 0;
  std::vector<std::int64_t> values;  // what pieces count when it is tried again; at first empty
  std::int64_t tries = 0;
};

// All of them, or where they are more than `most` those that come first and some near the plan's own. Rolls
// are left out.
std::vector<Selection> selections(Job const& job, Plan const& plan, std::size_t most, Chance& chance);

}  // namespace endband::cutting::many
