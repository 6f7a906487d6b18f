// What the shelf has for one job: what is set aside for it, and what it may take without leaving others
// short.
#pragma once

#include "db/stock.h"

#include <cstdint>
#include <vector>

namespace endband::db {

struct ItemForJob {
  LotMark mark;
  std::int64_t quantity = 0;
};
struct ForJob {
  std::int64_t set_aside = 0;  // for this job
  std::int64_t there = 0;      // all of the workshop's own that is whole and good on the day
  std::int64_t most = 0;       // of it, what this job may take
  std::vector<ItemForJob>
      items;  // of goods that are each of their own (skins): those it may take, the best first
};
// `each`: how large one item should be at least.
ForJob shelf_for_job(Workshop& workshop, std::int64_t job, MaterialId material, std::int64_t each, Date on);

}  // namespace endband::db
