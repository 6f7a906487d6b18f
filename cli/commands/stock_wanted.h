// What jobs, and quotes not yet accepted, still need of each material; and what lies there to serve them.
#pragma once

#include "db/jobs.h"
#include "db/quotes.h"
#include "db/stock.h"
#include "engine/stock/to_buy.h"

#include <string>
#include <vector>

namespace endband::cli {

// Of each material of the bill: what is consumed, or opened when it is charged whole, less what the job holds
// already and what it was said to do without. A customer's own goods are not wanted. Volumes that are to
// match want as many skins of one batch as are still to come.
std::vector<Wanted> wanted_of(FrozenQuote const& quote, JobRecord const& record, std::string const& job,
                              Date needed_on);

struct Wants {
  std::vector<Wanted> wanted;
  std::vector<OnShelf> shelf;
  std::vector<MaterialSupply> materials;  // wanted, or with a reorder point
  std::size_t jobs = 0;                   // open ones
};
// All open jobs, and what `also` is wanted. `by` is the day for which those need it that name none.
Wants gather_wants(db::Workshop& workshop, std::vector<Wanted> also, Date by, Date on);

}  // namespace endband::cli
