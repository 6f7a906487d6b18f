// Setting goods aside for a job, and letting them go.
#include "db/stock_ledger.h"

#include <algorithm>

namespace endband::db {
namespace {

// Whole items that nobody has set aside, each large enough for its share of what is wanted, the smallest of
// those first. Without a number of items, as few as will do.
void reserve_items(Writing& writing, StockItem const& item, std::vector<Lot> free, std::int64_t job,
                   std::int64_t items, Reserved& result) {
  std::ranges::stable_sort(free, {}, &Lot::quantity);
  std::int64_t const each = items > 0 ? (result.wanted.n + items - 1) / items : 0;
  std::int64_t left = result.wanted.n;
  while (left > 0 && !free.empty()) {
    std::int64_t const least = items > 0 ? std::min(each, left) : left;
    auto lot = std::ranges::find_if(free, [&](Lot const& l) { return l.quantity >= least; });
    if (lot == free.end()) {
      if (items > 0) return;  // two small ones make no large one
      lot = std::prev(free.end());
    }
    change_reservation(writing, job, item.id, lot->id.value, lot->quantity);
    std::int64_t const serves = std::min(lot->quantity, least);
    result.reserved.n += serves;
    result.items.push_back(lot->mark);
    left -= serves;
    free.erase(lot);
  }
}

}  // namespace

Read<Reserved> reserve(Writing& writing, std::int64_t job, MaterialId material, Amount wanted,
                       std::int64_t single_items, Date on) {
  Connection& connection = writing.workshop().connection();
  StockItem const item = item_of(writing.workshop(), material);
  if (wanted.dimension != item.dimension() || wanted.n < 0)
    return refuse({FaultCode::wrong_unit,
                   {"quote accept", 0, 0, "quantity"},
                   amount_text(wanted),
                   "a quantity of " + item.code,
                   {}});
  Reserved result{material, item.code, wanted, item.amount(0), {}};
  std::vector<SetAside> const aside = set_aside(connection, material);
  auto const bespoke = [&](Lot const& lot) {
    return !lot.whole_goods() || !lot.good_on(on) || lot.job != 0 ||
           std::ranges::any_of(aside, [&](SetAside const& each) { return each.lot == lot.id.value; });
  };
  std::vector<Lot> free = open_lots(connection, material, on);
  std::erase_if(free, bespoke);
  if (item.single()) {
    reserve_items(writing, item, std::move(free), job, single_items, result);
    return result;
  }
  std::int64_t there = 0;
  for (Lot const& lot : free) there += lot.quantity;
  for (SetAside const& each : aside)
    if (each.lot == 0) there -= each.quantity;
  result.reserved.n = std::clamp<std::int64_t>(there, 0, wanted.n);
  if (result.reserved.n > 0) change_reservation(writing, job, material, 0, result.reserved.n);
  return result;
}

void let_go(Writing& writing, std::int64_t job) {
  struct Row {
    MaterialId material;
    std::int64_t lot = 0, quantity = 0;
  };
  std::vector<Row> rows;
  {
    Statement select(
        writing.workshop().connection(),
        "SELECT material, lot, quantity FROM reserved WHERE job = ? AND quantity > 0 ORDER BY material, lot");
    select.bind(job);
    while (select.step()) {
      Row& row = rows.emplace_back();
      select.read(row.material, row.lot, row.quantity);
    }
  }
  for (Row const& row : rows) change_reservation(writing, job, row.material, row.lot, -row.quantity);
}

}  // namespace endband::db
