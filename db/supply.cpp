// How a material is bought and how long it keeps: dated, immutable versions.
#include "db/stock_ledger.h"

#include <utility>

namespace endband::db {

Read<std::int64_t> set_supply(Writing& writing, std::string_view code, Supply const& supply,
                              Date valid_from) {
  auto const at = [](std::string_view field) { return Where{"stock supply", 0, 0, std::string(field)}; };
  Read<StockItem> const item = find_item(writing.workshop(), code, at("code"));
  if (!item) return tl::unexpected(item.error());
  constexpr std::int64_t longest_days = 36500;
  std::vector<Fault> faults;
  auto const quantity = [&](std::string_view field, std::optional<std::int64_t> value, std::int64_t least) {
    if (value && *value < least)
      faults.push_back({FaultCode::out_of_range,
                        at(field),
                        amount_text(item->amount(*value)),
                        least == 0 ? "0 or more" : "more than nothing",
                        {}});
  };
  auto const days = [&](std::string_view field, std::optional<std::int64_t> value) {
    if (value && (*value < 0 || *value > longest_days))
      faults.push_back({FaultCode::out_of_range,
                        at(field),
                        std::to_string(*value),
                        "0 to " + std::to_string(longest_days) + " days",
                        {}});
  };
  quantity("reorder-at", supply.reorder_at, 0);
  quantity("order-size", supply.order_size, 1);
  days("lead-days", supply.lead_days);
  days("keeps-days", supply.keeps_days);
  days("keeps-opened-days", supply.keeps_opened_days);
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO supply_version (material, valid_from, reorder_at, order_size, lead_days, keeps_days, "
      "keeps_opened_days, entry) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
  return insert
      .bind(item->id, valid_from, supply.reorder_at, supply.order_size, supply.lead_days, supply.keeps_days,
            supply.keeps_opened_days, writing.entry())
      .insert();
}

Supply find_supply(Workshop& workshop, MaterialId material, Date on) {
  Statement select(
      workshop.connection(),
      "SELECT reorder_at, order_size, lead_days, keeps_days, keeps_opened_days FROM supply_version "
      "WHERE material = ? AND valid_from <= ? ORDER BY valid_from DESC, id DESC LIMIT 1");
  Supply supply;
  if (select.bind(material, on).step())
    select.read(supply.reorder_at, supply.order_size, supply.lead_days, supply.keeps_days,
                supply.keeps_opened_days);
  return supply;
}

}  // namespace endband::db
