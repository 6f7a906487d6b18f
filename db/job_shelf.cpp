#include "db/job_shelf.h"

#include "db/stock_ledger.h"

namespace endband::db {

ForJob shelf_for_job(Workshop& workshop, std::int64_t job, MaterialId material, std::int64_t each, Date on) {
  Connection& connection = workshop.connection();
  StockItem const item = item_of(workshop, material);
  std::vector<SetAside> const aside = set_aside(connection, material);
  Serving const serves = serving(item, open_lots(connection, material, on), aside, job, each, on);
  ForJob result;
  for (SetAside const& row : aside)
    if (row.job == job) result.set_aside += row.quantity;
  result.there = serves.there;
  result.most = serves.most;
  if (item.single())
    for (Lot const& lot : serves.lots) result.items.push_back({lot.mark, lot.quantity});
  return result;
}

}  // namespace endband::db
