// Materials and lots as the ledger needs them.
#include "db/codes.h"
#include "db/frozen.h"
#include "db/materials.h"
#include "db/quotes.h"
#include "db/stock_ledger.h"

#include <algorithm>
#include <cstdio>
#include <stdexcept>

namespace endband::db {
namespace {

// ?1 is the day. A job that ended keeps nothing for itself.
std::string const lot_text =
    "SELECT l.id, l.mark, l.number, l.material, l.source, l.costed, l.on_date, s.moved_on, "
    "CASE WHEN l.job IS NULL OR EXISTS (SELECT 1 FROM job_event e WHERE e.job = l.job AND e.event IN "
    "('finished', 'cancelled') AND e.undoes IS NULL AND NOT EXISTS (SELECT 1 FROM job_event u WHERE u.undoes "
    "= "
    "e.id)) THEN NULL ELSE l.job END, l.owner, s.quantity, s.value, "
    "(SELECT value FROM lot_fact WHERE lot = l.id AND fact = 'keeps-until' ORDER BY id DESC LIMIT 1), "
    "(SELECT value FROM lot_fact WHERE lot = l.id AND fact = 'opened-on' ORDER BY id DESC LIMIT 1), "
    "u.keeps_days, u.keeps_opened_days "
    "FROM lot_state s JOIN lot l ON l.id = s.lot LEFT JOIN supply_version u ON u.id = (SELECT id FROM "
    "supply_version "
    "WHERE material = l.material AND valid_from <= ?1 ORDER BY valid_from DESC, id DESC LIMIT 1) ";

std::optional<Date> fact_date(std::optional<std::string> const& text) {
  if (!text || text->empty()) return std::nullopt;
  Read<Date> const date = read_date(*text);
  if (!date) throw StoreError(FaultCode::not_a_workshop, "not a date: " + *text);
  return *date;
}

Lot read_lot(Statement& select) {
  Lot lot;
  std::string letter;
  std::optional<std::string> keeps_until, opened_on;
  Supply supply;
  select.read(lot.id.value, letter, lot.mark.number, lot.material, lot.source, lot.costed, lot.since,
              lot.moved_on, ZeroIsNull{lot.job}, ZeroIsNull{lot.owner}, lot.quantity, lot.value, keeps_until,
              opened_on, supply.keeps_days, supply.keeps_opened_days);
  lot.mark.letter = letter.front();
  lot.good_until = good_until(lot.since, fact_date(keeps_until), fact_date(opened_on), supply);
  return lot;
}

Read<LotMark> mark_at(std::string_view text, Where const& where) { return located(read_mark(text), where); }

Fault unknown_lot(Workshop& workshop, std::string_view mark, Where const& where) {
  Statement last(workshop.connection(), "SELECT mark, max(number) FROM lot GROUP BY mark ORDER BY mark DESC");
  std::string known;
  while (last.step()) {
    std::string letter;
    std::int64_t number = 0;
    last.read(letter, number);
    known += (known.empty() ? "" : ", ") + mark_text({letter.front(), 1});
    if (number > 1) known += " to " + mark_text({letter.front(), number});
  }
  return {FaultCode::unknown_code,
          where,
          std::string(mark),
          known.empty() ? "a lot; there is none yet" : known,
          {}};
}

}  // namespace

std::optional<Date> good_until(Date since, std::optional<Date> keeps_until, std::optional<Date> opened_on,
                               Supply const& supply) {
  std::optional<Date> until = keeps_until;
  if (!until && supply.keeps_days) until = since + std::chrono::days(*supply.keeps_days);
  if (opened_on && supply.keeps_opened_days) {
    Date const opened = *opened_on + std::chrono::days(*supply.keeps_opened_days);
    until = until ? std::min(*until, opened) : opened;
  }
  return until;
}

Read<StockItem> find_item(Workshop& workshop, std::string_view code, Where const& where) {
  Statement select(
      workshop.connection(),
      "SELECT m.id, m.code, v.sold_by FROM material m JOIN material_version v ON v.id = (SELECT max(id) "
      "FROM material_version WHERE material = m.id) WHERE m.code = ?");
  if (!select.bind(code).step())
    return refuse({FaultCode::unknown_material, where, std::string(code), "a material of the workshop",
                   near_codes(code, material_codes(workshop))});
  StockItem item;
  select.read(item.id, item.code, item.sold_by);
  return item;
}

StockItem item_of(Workshop& workshop, MaterialId id) {
  Statement select(
      workshop.connection(),
      "SELECT m.id, m.code, v.sold_by FROM material m JOIN material_version v ON v.id = (SELECT max(id) "
      "FROM material_version WHERE material = m.id) WHERE m.id = ?");
  if (!select.bind(id).step()) throw std::out_of_range("no material " + std::to_string(id.value));
  StockItem item;
  select.read(item.id, item.code, item.sold_by);
  return item;
}

std::optional<Lot> load_lot(Connection& connection, LotMark mark, Date on) {
  static std::string const sql = lot_text + "WHERE l.mark = ?2 AND l.number = ?3";
  Statement select(connection, sql);
  if (!select.bind(on, std::string(1, mark.letter), mark.number).step()) return std::nullopt;
  return read_lot(select);
}

Lot load_lot(Connection& connection, LotId id, Date on) {
  static std::string const sql = lot_text + "WHERE s.lot = ?2";
  Statement select(connection, sql);
  if (!select.bind(on, id.value).step()) throw std::out_of_range("no lot " + std::to_string(id.value));
  return read_lot(select);
}

std::vector<Lot> open_lots(Connection& connection, MaterialId material, Date on) {
  static std::string const sql =
      lot_text + "WHERE s.material = ?2 AND s.quantity > 0 ORDER BY l.on_date, l.id";
  Statement select(connection, sql);
  select.bind(on, material);
  std::vector<Lot> lots;
  while (select.step()) lots.push_back(read_lot(select));
  return lots;
}

Read<Lot> lot_named(Workshop& workshop, std::string_view mark, Date on, Where const& where) {
  Read<LotMark> const read = mark_at(mark, where);
  if (!read) return tl::unexpected(read.error());
  std::optional<Lot> lot = load_lot(workshop.connection(), *read, on);
  if (!lot) return refuse(unknown_lot(workshop, mark, where));
  return *lot;
}

Read<Target> find_target(Workshop& workshop, std::string_view code_or_lot, Date on, Where const& where) {
  Read<StockItem> item = find_item(workshop, code_or_lot, where);
  if (item) return Target{*std::move(item), std::nullopt};
  if (!read_mark(code_or_lot)) return tl::unexpected(item.error());
  Read<Lot> lot = lot_named(workshop, code_or_lot, on, where);
  if (!lot) return tl::unexpected(lot.error());
  StockItem of = item_of(workshop, lot->material);
  return Target{std::move(of), *std::move(lot)};
}

std::string job_number(Connection& connection, std::int64_t job) {
  Statement select(
      connection,
      "SELECT c.year, c.count FROM job j JOIN commission c ON c.id = j.commission WHERE j.id = ?");
  if (!select.bind(job).step()) throw std::out_of_range("no job " + std::to_string(job));
  QuoteNumber number;
  select.read(number.year, number.count);
  std::string text = number_text(number);
  text.pop_back();  // a job has no issue
  return text;
}

bool job_ended(Connection& connection, std::int64_t job) {
  Statement select(
      connection,
      "SELECT 1 FROM job_event e WHERE e.job = ? AND e.event IN ('finished', 'cancelled') AND e.undoes IS "
      "NULL AND NOT EXISTS (SELECT 1 FROM job_event u WHERE u.undoes = e.id)");
  return select.bind(job).step();
}

Read<std::int64_t> open_job(Workshop& workshop, std::string_view number, Where const& where) {
  std::vector<std::int64_t> found;
  if (std::optional<AskedNumber> const asked = read_number(number); asked && !asked->issue) {
    static std::string const sql = "SELECT id FROM job WHERE commission IN " + std::string(asked_commissions);
    Statement select(workshop.connection(), sql);
    select.bind(asked->count, asked->year_of_century);
    while (select.step()) found.push_back(select.value<std::int64_t>());
  }
  if (found.size() != 1) {
    Fault fault{FaultCode::unknown_code, where, std::string(number), "a job's number, such as 26-014", {}};
    for (std::int64_t const each : found) fault.near.push_back(job_number(workshop.connection(), each));
    return refuse(std::move(fault));
  }
  if (job_ended(workshop.connection(), found.front()))
    return refuse({FaultCode::rule_refused, where, std::string(number), "a job that has not ended", {}});
  return found.front();
}

}  // namespace endband::db
