// Looking at the shelf: its materials, its lots, and what moved.
#include "db/quotes.h"
#include "db/stock_ledger.h"

#include <algorithm>
#include <chrono>

namespace endband::db {
namespace {

// A material's newest properties: what it is called and sold by now.
std::string const newest_version =
    "JOIN material_version v ON v.id = (SELECT id FROM material_version WHERE material = m.id ORDER BY "
    "valid_from DESC, id DESC LIMIT 1) ";

// The code, which who asks for one material knows, stands last.
constexpr std::string_view shelf_columns = "m.id, v.name, v.sold_by, s.quantity, s.value, s.reserved ";

ShelfRow read_shelf(Statement& select) {
  ShelfRow row;
  select.read(row.material, row.name, row.sold_by, row.quantity.n, row.value, row.reserved.n);
  row.quantity.dimension = row.reserved.dimension = dimension_of(row.sold_by);
  return row;
}

std::vector<ShelfRow> read_shelves(Statement& select) {
  std::vector<ShelfRow> rows;
  while (select.step()) {
    rows.push_back(read_shelf(select));
    select.read(rows.back().code);
  }
  return rows;
}

// What lay there at the end of a day is what lies there now less what moved later: few rows, for a day not
// long past. CROSS JOIN keeps SQLite to that order, a range of one index for each material.
std::vector<ShelfRow> shelf_at_end_of(Connection& connection, Date on) {
  static std::string const sql =
      "SELECT m.id, v.name, v.sold_by, s.quantity - ifnull(later.quantity, 0), s.value "
      "- ifnull(later.value, 0), 0, m.code "
      "FROM shelf s JOIN material m ON m.id = s.material " +
      newest_version +
      "LEFT JOIN (SELECT a.material, sum(a.quantity) AS quantity, sum(a.value) AS value FROM "
      "shelf f CROSS JOIN movement a ON "
      "a.material = f.material AND a.on_date > ?1 JOIN lot l ON l.id = a.lot AND l.source <> "
      "'custody' GROUP BY a.material) "
      "later ON later.material = s.material ORDER BY m.code";
  Statement select(connection, sql);
  select.bind(on);
  return read_shelves(select);
}

std::string const lot_row_text =
    "SELECT l.id, l.mark, l.number, l.material, m.code, v.name, v.sold_by, l.source, l.costed, l.on_date, "
    "ifnull(d.supplier, ''), ifnull(c.code, ''), CASE WHEN l.job IS NULL OR EXISTS (SELECT 1 FROM job_event "
    "e WHERE "
    "e.job = l.job AND e.event IN ('finished', 'cancelled') AND e.undoes IS NULL AND NOT EXISTS (SELECT 1 "
    "FROM "
    "job_event u WHERE u.undoes = e.id)) THEN NULL ELSE l.job END, "
    "ifnull(p.mark, ''), ifnull(p.number, 0), l.said, l.price, l.carriage, l.duty, l.tax, l.tax_borne, "
    "l.height_um, "
    "l.width_um, l.thickness_nm, l.batch, l.shade, "
    "(SELECT value FROM lot_fact WHERE lot = l.id AND fact = 'place' ORDER BY id DESC LIMIT 1), "
    "(SELECT value FROM lot_fact WHERE lot = l.id AND fact = 'note' ORDER BY id DESC LIMIT 1), "
    "(SELECT nullif(value, '') FROM lot_fact WHERE lot = l.id AND fact = 'keeps-until' ORDER BY id DESC "
    "LIMIT 1), "
    "(SELECT nullif(value, '') FROM lot_fact WHERE lot = l.id AND fact = 'opened-on' ORDER BY id DESC LIMIT "
    "1), "
    "u.keeps_days, u.keeps_opened_days, s.quantity, s.value, f.pooled, f.pooled_value "
    "FROM lot l JOIN lot_state s ON s.lot = l.id JOIN shelf f ON f.material = l.material JOIN material m ON "
    "m.id = "
    "l.material " +
    newest_version +
    "LEFT JOIN delivery d ON d.id = l.delivery LEFT JOIN customer c ON c.id = l.owner LEFT JOIN lot p ON "
    "p.id = "
    "l.parent LEFT JOIN supply_version u ON u.id = (SELECT id FROM supply_version WHERE material = "
    "l.material ORDER BY "
    "valid_from DESC, id DESC LIMIT 1) ";

void read_mark_of(Statement& select, LotMark& mark) {
  std::string letter;
  select.read(letter, mark.number);
  if (!letter.empty()) mark.letter = letter.front();
}

LotRow read_lot_row(Connection& connection, Statement& select) {
  LotRow row;
  LotMark parent;
  std::int64_t job = 0, value = 0;
  std::optional<std::string> place, note;
  Supply supply;
  PoolBalance pool;
  select.read(row.id.value);
  read_mark_of(select, row.mark);
  select.read(row.material, row.code, row.name, row.sold_by, row.source, row.costed, row.since, row.supplier,
              row.owner, ZeroIsNull{job});
  read_mark_of(select, parent);
  select.read(row.said, row.landed.price, row.landed.carriage, row.landed.duty, row.landed.tax,
              row.landed.tax_borne, row.height, row.width, row.thickness, row.batch, row.shade, place, note,
              row.keeps_until, row.opened_on, supply.keeps_days, supply.keeps_opened_days, row.quantity.n,
              value, pool.quantity, pool.value);
  if (job != 0) row.job = job_number(connection, job);
  if (parent.number != 0) row.parent = mark_text(parent);
  row.landed.total = row.landed.price + row.landed.carriage + row.landed.duty + row.landed.tax_borne;
  row.place = place.value_or("");
  row.note = note.value_or("");
  row.keeps_until = good_until(row.since, row.keeps_until, row.opened_on, supply);
  row.quantity.dimension = dimension_of(row.sold_by);
  if (row.costed == Costed::pool && row.quantity.n > 0)
    value = value_of_part(pool.value, pool.quantity, row.quantity.n);
  row.value = {value, connection.currency};
  return row;
}

constexpr std::string_view movement_text =
    "SELECT v.id, v.entry, v.undoes, v.on_date, v.lot, l.mark, l.number, m.code, l.dimension, v.kind, "
    "v.quantity, v.value, "
    "v.job, v.reason FROM movement v JOIN lot l ON l.id = v.lot JOIN material m ON m.id = v.material ";

MovementRow read_movement(Connection& connection, Statement& select) {
  MovementRow row;
  std::int64_t job = 0;
  select.read(row.id, row.entry, ZeroIsNull{row.undoes}, row.on, row.lot.value);
  read_mark_of(select, row.mark);
  select.read(row.code, row.dimension, row.kind, row.quantity, row.value, ZeroIsNull{job}, row.reason);
  if (job != 0) row.job = job_number(connection, job);
  return row;
}

}  // namespace

// The last entry of each material's range of the index: a search a material, not a walk over every movement.
std::optional<Date> last_moved_on(Workshop& workshop) {
  Statement select(
      workshop.connection(),
      "SELECT max((SELECT max(on_date) FROM movement WHERE material = s.material)) FROM shelf s");
  select.step();
  return select.value<std::optional<Date>>();
}

std::vector<ShelfRow> shelf(Workshop& workshop, std::optional<Date> on) {
  if (on) return shelf_at_end_of(workshop.connection(), *on);
  static std::string const sql = "SELECT " + std::string(shelf_columns) +
                                 ", m.code FROM material m JOIN shelf s ON s.material = m.id " +
                                 newest_version + "ORDER BY m.code";
  Statement select(workshop.connection(), sql);
  return read_shelves(select);
}

std::optional<ShelfRow> on_hand(Workshop& workshop, std::string_view code) {
  static std::string const sql =
      "SELECT " + std::string(shelf_columns) +
      "FROM material m JOIN shelf s ON s.material = m.id JOIN material_version v ON "
      "v.material = m.id WHERE m.code = ? ORDER BY v.valid_from DESC, v.id DESC LIMIT 1";
  Statement select(workshop.connection(), sql);
  if (!select.bind(code).step()) return std::nullopt;
  ShelfRow row = read_shelf(select);
  row.code = code;
  return row;
}

std::vector<LotRow> lots(Workshop& workshop, std::optional<std::string> code, bool closed_too) {
  static std::string const all =
      lot_row_text + "WHERE (?1 OR s.quantity > 0) ORDER BY m.code, l.on_date, l.id";
  static std::string const of_one =
      lot_row_text +
      "WHERE (?1 OR s.quantity > 0) AND l.material = (SELECT id FROM material WHERE code = ?2) "
      "ORDER BY l.on_date, l.id";
  Statement select(workshop.connection(), code ? of_one : all);
  select.bind(closed_too);
  if (code) select.bind(*code);
  std::vector<LotRow> rows;
  while (select.step()) rows.push_back(read_lot_row(workshop.connection(), select));
  return rows;
}

Read<LotRow> find_lot(Workshop& workshop, std::string_view mark) {
  Read<Lot> const lot = lot_named(workshop, mark, Date(), {"", 0, 0, "lot"});
  if (!lot) return tl::unexpected(lot.error());
  static std::string const sql = lot_row_text + "WHERE l.id = ?";
  Statement select(workshop.connection(), sql);
  select.bind(lot->id.value).step();
  return read_lot_row(workshop.connection(), select);
}

std::vector<MovementRow> movements(Workshop& workshop, std::optional<std::string> code_or_lot, int last) {
  static std::string const all = std::string(movement_text) + "ORDER BY v.id DESC LIMIT ?";
  static std::string const of_material =
      std::string(movement_text) + "WHERE v.material = ? ORDER BY v.id DESC LIMIT ?";
  static std::string const of_lot =
      std::string(movement_text) + "WHERE v.lot = ? ORDER BY v.on_date DESC, v.id DESC LIMIT ?";
  Read<Target> target = Target{};
  if (code_or_lot) target = find_target(workshop, *code_or_lot, Date(), {});
  if (!target) return {};
  Statement select(workshop.connection(), !code_or_lot ? all : target->lot ? of_lot : of_material);
  if (code_or_lot) select.bind(target->lot ? target->lot->id.value : target->item.id.value);
  select.bind(last);
  std::vector<MovementRow> rows;
  while (select.step()) rows.push_back(read_movement(workshop.connection(), select));
  return rows;
}

}  // namespace endband::db
