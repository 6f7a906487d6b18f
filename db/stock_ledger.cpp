// The one place where a lot begins and a movement is written.
#include "db/stock_ledger.h"

#include "db/settings.h"

#include <algorithm>
#include <stdexcept>

namespace endband::db {

Pool load_pool(Connection& connection, MaterialId material) {
  Statement select(connection, "SELECT pooled, pooled_value, pooled_on FROM shelf WHERE material = ?");
  Pool pool;
  if (select.bind(material).step()) select.read(pool.balance.quantity, pool.balance.value, pool.moved_on);
  return pool;
}

std::optional<CostFormula> formula_in_use(Workshop& workshop) {
  Statement first(workshop.connection(), "SELECT on_date, entry FROM movement ORDER BY id LIMIT 1");
  if (!first.step()) return std::nullopt;
  Date on;
  std::int64_t entry = 0;
  first.read(on, entry);
  Statement setting(
      workshop.connection(),
      "SELECT value FROM setting_version WHERE name = 'stock.formula' AND valid_from <= ? AND entry <= ? "
      "ORDER BY valid_from DESC, id DESC LIMIT 1");
  setting.bind(on, entry);
  std::string const value = setting.step() ? setting.value<std::string>() : "";
  return from_word<CostFormula>(value.empty() ? setting_row("stock.formula")->fallback : value);
}

CostFormula formula_on(Workshop& workshop, Date on) {
  if (std::optional<CostFormula> const used = formula_in_use(workshop)) return *used;
  Statement setting(workshop.connection(),
                    "SELECT value FROM setting_version WHERE name = 'stock.formula' AND valid_from <= ? "
                    "ORDER BY valid_from DESC, id DESC LIMIT 1");
  setting.bind(on);
  std::string const value = setting.step() ? setting.value<std::string>() : "";
  return from_word<CostFormula>(value.empty() ? setting_row("stock.formula")->fallback : value);
}

std::optional<Fault> too_early(Lot const& lot, Pool const& pool, Date on, Where const& where) {
  Date last = lot.moved_on;
  if (lot.costed == Costed::pool && pool.moved_on) last = std::max(last, *pool.moved_on);
  if (on >= last) return std::nullopt;
  return Fault{FaultCode::rule_refused,
               {where.source, where.line, where.column, "on"},
               date_text(on),
               date_text(last) + " or later: " + mark_text(lot.mark) +
                   (lot.moved_on == last ? " last moved then" : " is at an average that last moved then"),
               {}};
}

Lot begin_lot(Writing& writing, NewLot const& lot) {
  Connection& connection = writing.workshop().connection();
  std::string const letter(1, lot.letter);
  Statement next(connection, "SELECT ifnull(max(number), 0) + 1 FROM lot WHERE mark = ?");
  next.bind(letter).step();
  LotMark const mark{lot.letter, next.value<std::int64_t>()};
  Statement insert(
      connection,
      "INSERT INTO lot (mark, number, material, dimension, source, costed, on_date, delivery, parent, "
      "owner, job, said, said_price, price, carriage, duty, tax, tax_borne, height_um, width_um, "
      "thickness_nm, batch, shade, entry) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  insert.bind(letter, mark.number, lot.item.id, lot.item.dimension(), lot.source, lot.costed, lot.on,
              ZeroIsNull{lot.delivery}, ZeroIsNull{lot.parent}, ZeroIsNull{lot.owner}, ZeroIsNull{lot.job},
              lot.said, lot.said_price, lot.landed.price.minor, lot.landed.carriage.minor,
              lot.landed.duty.minor, lot.landed.tax.minor, lot.landed.tax_borne.minor, lot.height, lot.width,
              lot.thickness, lot.batch, lot.shade, writing.entry());
  return load_lot(connection, LotId{insert.insert()}, lot.on);
}

void say_fact(Writing& writing, LotId lot, std::string_view fact, std::string_view value) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO lot_fact (lot, fact, value, entry) VALUES (?, ?, ?, ?)");
  insert.bind(lot.value, fact, value, writing.entry()).run();
}

void post(Writing& writing, Lot const& lot, std::int64_t quantity, std::int64_t value,
          Movement const& movement) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO movement (on_date, lot, material, kind, quantity, value, job, reason, entry) "
                   "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  insert
      .bind(movement.on, lot.id.value, lot.material, movement.kind, quantity, value, ZeroIsNull{movement.job},
            movement.reason, writing.entry())
      .run();
}

void post_in(Writing& writing, Lot const& lot, std::int64_t quantity, std::int64_t value,
             Movement const& movement) {
  Statement shelf(writing.workshop().connection(), "SELECT quantity, value FROM shelf WHERE material = ?");
  if (shelf.bind(lot.material).step()) {
    std::int64_t lies = 0, worth = 0;
    shelf.read(lies, worth);
    checked_add(lies, quantity);
    checked_add(worth, value);
  }
  post(writing, lot, quantity, value, movement);
}

Read<std::vector<Posting>> take_out(Writing& writing, std::vector<Lot> const& lots, std::int64_t wanted,
                                    Movement const& movement, Where const& where) {
  Pool pool;
  if (!lots.empty() && std::ranges::any_of(lots, [](Lot const& lot) { return lot.costed == Costed::pool; }))
    pool = load_pool(writing.workshop().connection(), lots.front().material);
  std::vector<LotBalance> balances;
  balances.reserve(lots.size());
  for (Lot const& lot : lots) balances.push_back(lot.balance());
  std::vector<Posting> const postings = take(balances, pool.balance, wanted);
  auto lot = lots.begin();
  std::int64_t taken = 0;
  for (Posting const& posting : postings) {
    lot = std::find_if(lot, lots.end(), [&](Lot const& each) { return each.id == posting.lot; });
    if (std::optional<Fault> fault = too_early(*lot, pool, movement.on, where))
      return refuse(*std::move(fault));
    post(writing, *lot, -posting.quantity, -posting.value, movement);
    taken += posting.quantity;
  }
  if (taken != wanted) throw std::logic_error("lots hold less than is taken of them");
  return postings;
}

std::vector<SetAside> set_aside(Connection& connection, MaterialId material) {
  Statement select(
      connection,
      "SELECT job, lot, quantity FROM reserved WHERE material = ? AND quantity > 0 ORDER BY job, lot");
  select.bind(material);
  std::vector<SetAside> all;
  while (select.step()) {
    SetAside& each = all.emplace_back();
    select.read(each.job, each.lot, each.quantity);
  }
  return all;
}

void change_reservation(Writing& writing, std::int64_t job, MaterialId material, std::int64_t lot,
                        std::int64_t quantity) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO reservation (job, material, lot, quantity, entry) VALUES (?, ?, ?, ?, ?)");
  insert.bind(job, material, ZeroIsNull{lot}, quantity, writing.entry()).run();
}

Serving serving(StockItem const& item, std::vector<Lot> const& open, std::vector<SetAside> const& aside,
                std::int64_t job, std::int64_t wanted, Date on) {
  auto const set_aside_for = [&](Lot const& lot, bool own) {
    return std::ranges::any_of(
        aside, [&](SetAside const& each) { return each.lot == lot.id.value && (each.job == job) == own; });
  };
  Serving serving;
  std::int64_t common = 0, own = 0, others = 0;
  std::vector<std::pair<int, Lot>> ranked;
  for (Lot const& lot : open) {
    if (!lot.whole_goods() || !lot.good_on(on)) continue;
    serving.there += lot.quantity;
    if ((lot.job != 0 && lot.job != job) || set_aside_for(lot, false)) continue;
    bool const bought = lot.job == job && job != 0, kept_for = set_aside_for(lot, true);
    (bought || kept_for ? own : common) += lot.quantity;
    ranked.emplace_back(bought ? 0 : kept_for ? 1 : 2, lot);
  }
  for (SetAside const& each : aside)
    if (each.lot == 0 && each.job != job) others += each.quantity;
  serving.most = own + std::max<std::int64_t>(0, common - others);
  // Of skins the smallest that is large enough: a piece is not put together from two.
  std::ranges::stable_sort(ranked, [&](auto const& a, auto const& b) {
    if (a.first != b.first || !item.single()) return a.first < b.first;
    bool const a_does = a.second.quantity >= wanted, b_does = b.second.quantity >= wanted;
    if (a_does != b_does) return a_does;
    return a_does && a.second.quantity < b.second.quantity;
  });
  for (auto const& [rank, lot] : ranked) serving.lots.push_back(lot);
  return serving;
}

}  // namespace endband::db
