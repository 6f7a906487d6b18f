// What the repositories of the shelf share: materials and lots as the ledger needs them, what is set aside,
// and the one place where a movement is written.
#pragma once

#include "db/statement.h"
#include "db/stock.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

struct StockItem {
  MaterialId id;
  std::string code;
  SoldBy sold_by = SoldBy::piece;
  bool single() const { return sold_by == SoldBy::skin; }  // each lot is one item
  Dimension dimension() const { return dimension_of(sold_by); }
  Amount amount(std::int64_t n) const { return {dimension(), n}; }
};
Read<StockItem> find_item(Workshop& workshop, std::string_view code, Where const& where);
StockItem item_of(Workshop& workshop, MaterialId id);

struct Lot {
  LotId id;
  LotMark mark;
  MaterialId material;
  LotSource source = LotSource::received;
  Costed costed = Costed::own;
  Date since, moved_on;
  std::int64_t job = 0;    // it was bought for this job, which has not ended
  std::int64_t owner = 0;  // a customer
  std::int64_t quantity = 0, value = 0;
  std::optional<Date> good_until;

  // An offcut serves only when it is named: its quantity does not say what can be cut from it.
  bool whole_goods() const { return source != LotSource::kept && source != LotSource::custody; }
  bool good_on(Date on) const { return !good_until || on <= *good_until; }
  LotBalance balance() const { return {id, costed, quantity, value}; }
};
std::optional<Lot> load_lot(Connection& connection, LotMark mark, Date on);
Lot load_lot(Connection& connection, LotId id, Date on);
std::vector<Lot> open_lots(Connection& connection, MaterialId material,
                           Date on);  // oldest first; custody too

// Until when a lot may be used: what was said of it, else its days from receipt; less once it is opened.
std::optional<Date> good_until(Date since, std::optional<Date> keeps_until, std::optional<Date> opened_on,
                               Supply const& supply);

// "goat-moss" or "K3": a lot, or all lots of a material.
struct Target {
  StockItem item;
  std::optional<Lot> lot;
};
Read<Target> find_target(Workshop& workshop, std::string_view code_or_lot, Date on, Where const& where);
Read<Lot> lot_named(Workshop& workshop, std::string_view mark, Date on, Where const& where);

struct Pool {
  PoolBalance balance;
  std::optional<Date> moved_on;
};
Pool load_pool(Connection& connection, MaterialId material);
CostFormula formula_on(Workshop& workshop, Date on);  // in use, else as the setting says

std::string job_number(Connection& connection, std::int64_t job);  // "26-014"
bool job_ended(Connection& connection, std::int64_t job);
// "26-014", or "14" while one year only has it; a job that has ended is rule_refused.
Read<std::int64_t> open_job(Workshop& workshop, std::string_view number, Where const& where);

// A movement of `lot` on a day before its last one, or the pool's.
std::optional<Fault> too_early(Lot const& lot, Pool const& pool, Date on, Where const& where);

// A lot as its first movement finds it.
struct NewLot {
  char letter = 'L';
  StockItem item;
  LotSource source = LotSource::received;
  Costed costed = Costed::own;
  Date on;
  std::int64_t delivery = 0, parent = 0, owner = 0, job = 0;
  std::string said;
  std::int64_t said_price = 0;
  Landed landed;
  std::optional<Length> height, width;
  std::optional<Thickness> thickness;
  std::string batch, shade;
};
Lot begin_lot(Writing& writing, NewLot const& lot);
void say_fact(Writing& writing, LotId lot, std::string_view fact, std::string_view value);

struct Movement {
  MovementKind kind = MovementKind::used;
  Date on;
  std::int64_t job = 0;
  std::string_view reason;
};
// Signed: into the lot positive. Overflow when the material's sum would leave its range.
void post_in(Writing& writing, Lot const& lot, std::int64_t quantity, std::int64_t value,
             Movement const& movement);
void post(Writing& writing, Lot const& lot, std::int64_t quantity, std::int64_t value,
          Movement const& movement);
// `wanted` out of the lots in this order, at the workshop's formula; together they hold that much.
Read<std::vector<Posting>> take_out(Writing& writing, std::vector<Lot> const& lots, std::int64_t wanted,
                                    Movement const& movement, Where const& where);

// What a job's offcuts took of each lot that they were cut from.
std::map<LotId, std::int64_t> kept_from(Connection& connection, std::int64_t job, MaterialId material);

// --- what is set aside
struct SetAside {
  std::int64_t job = 0, lot = 0;  // lot 0: any of the material
  std::int64_t quantity = 0;
};
std::vector<SetAside> set_aside(Connection& connection, MaterialId material);  // by all jobs
void change_reservation(Writing& writing, std::int64_t job, MaterialId material, std::int64_t lot,
                        std::int64_t quantity);

// What may serve a job: the lots it may take without being told which, the best first; `most` of them without
// what others have set aside.
struct Serving {
  std::vector<Lot> lots;
  std::int64_t there = 0, most = 0;
};
Serving serving(StockItem const& item, std::vector<Lot> const& open, std::vector<SetAside> const& aside,
                std::int64_t job, std::int64_t wanted, Date on);

}  // namespace endband::db
