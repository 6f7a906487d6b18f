#include "db/frozen.h"

#include "db/material_rows.h"
#include "db/quote_rows.h"

#include <array>
#include <span>
#include <stdexcept>
#include <vector>

namespace endband::db {
namespace {

// --- one row a quote

template <class T>
void save_one(Connection& connection, std::int64_t quote, auto const& row) {
  static std::string const sql = insert_text(Row<T>::table, "quote", Row<T>::columns);
  Statement insert(connection, sql);
  insert.bind(quote);
  Row<T>::fields(Bind{insert}, row);
  insert.run();
}

template <class T>
void load_one(Connection& connection, std::int64_t quote, auto& row, std::string_view key = "quote") {
  static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                 std::string(Row<T>::table) + " WHERE " + std::string(key) + " = ?";
  Statement select(connection, sql);
  if (!select.bind(quote).step())
    throw std::out_of_range("no row of quote " + std::to_string(quote) + " in " + std::string(Row<T>::table));
  Row<T>::fields(Take{select}, row);
}

// --- lists

template <class T>
void save_list(Connection& connection, std::int64_t quote, std::span<T const> rows) {
  static std::string const sql = insert_text(Row<T>::table, "quote, position", Row<T>::columns);
  Statement insert(connection, sql);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    insert.bind(quote, static_cast<std::int64_t>(i));
    Row<T>::fields(Bind{insert}, rows[i]);
    insert.run();
  }
}

template <class T>
std::vector<T> load_list(Connection& connection, std::int64_t quote) {
  static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                 std::string(Row<T>::table) + " WHERE quote = ? ORDER BY position";
  Statement select(connection, sql);
  select.bind(quote);
  std::vector<T> rows;
  while (select.step()) Row<T>::fields(Take{select}, rows.emplace_back());
  return rows;
}

// --- the bill with its uses

void save_uses(Connection& connection, std::int64_t quote, Bill const& bill) {
  static std::string const sql = insert_text(Row<Use>::table, "quote, bill, position", Row<Use>::columns);
  Statement insert(connection, sql);
  for (std::size_t line = 0; line < bill.lines.size(); ++line) {
    std::vector<Use> const& uses = bill.lines[line].uses;
    for (std::size_t i = 0; i < uses.size(); ++i) {
      insert.bind(quote, static_cast<std::int64_t>(line), static_cast<std::int64_t>(i));
      Row<Use>::fields(Bind{insert}, uses[i]);
      insert.run();
    }
  }
}

void load_uses(Connection& connection, std::int64_t quote, Bill& bill) {
  static std::string const sql = "SELECT bill, " + std::string(Row<Use>::columns) +
                                 " FROM quote_use WHERE quote = ? ORDER BY bill, position";
  Statement select(connection, sql);
  select.bind(quote);
  while (select.step()) {
    std::vector<Use>& uses = bill.lines.at(static_cast<std::size_t>(select.value<std::int64_t>())).uses;
    Row<Use>::fields(Take{select}, uses.emplace_back());
  }
}

void save_bill(Connection& connection, std::int64_t quote, Bill const& bill) {
  for (BillLine const& line : bill.lines)
    for (Amount amount :
         {line.spoil, line.cutting_loss, line.kept, line.pack_remainder, line.opened, line.charged})
      if (amount.dimension != line.net.dimension) throw std::logic_error("a bill line in two dimensions");
  save_list<BillLine>(connection, quote, bill.lines);
  save_uses(connection, quote, bill);
}

Bill load_bill(Connection& connection, std::int64_t quote) {
  Bill bill{load_list<BillLine>(connection, quote)};
  for (BillLine& line : bill.lines)  // the row has their dimension once
    for (Amount* amount :
         {&line.spoil, &line.cutting_loss, &line.kept, &line.pack_remainder, &line.opened, &line.charged})
      amount->dimension = line.net.dimension;
  load_uses(connection, quote, bill);
  return bill;
}

// --- materials: the versions that were used are immutable, so their ids say all

void save_materials(Connection& connection, std::int64_t quote, std::vector<Material> const& materials) {
  Statement insert(
      connection,
      "INSERT INTO quote_material (quote, position, material_version, price_version) VALUES (?, ?, ?, ?)");
  for (std::size_t i = 0; i < materials.size(); ++i) {
    std::int64_t const price = materials[i].price ? materials[i].price->version : 0;
    insert.bind(quote, static_cast<std::int64_t>(i), materials[i].version, ZeroIsNull{price}).run();
  }
}

std::vector<Material> load_materials(Connection& connection, std::int64_t quote) {
  static std::string const sql =
      "SELECT " + material_columns +
      " FROM quote_material q JOIN material_version v ON v.id = q.material_version "
      "JOIN material m ON m.id = v.material "
      "LEFT JOIN price_version p ON p.id = q.price_version "
      "WHERE q.quote = ? ORDER BY q.position";
  Statement select(connection, sql);
  select.bind(quote);
  std::vector<Material> materials;
  while (select.step()) materials.push_back(read_material(select));
  return materials;
}

std::array<Rung, 5> rungs_of(Ladder const& ladder) {
  return {ladder.cash_floor, ladder.walk_away, ladder.full_cost, ladder.target, ladder.asked};
}

Ladder ladder_of(std::vector<Rung> const& rungs) {
  return {rungs.at(0), rungs.at(1), rungs.at(2), rungs.at(3), rungs.at(4)};
}

}  // namespace

void save_parts(Connection& connection, std::int64_t quote, FrozenQuote const& frozen) {
  save_one<Terms>(connection, quote, frozen);
  save_list<FrozenFigure>(connection, quote, frozen.figures);
  save_list<FrozenChoice>(connection, quote, frozen.choices);
  save_list<Piece>(connection, quote, frozen.pieces);
  save_list<Warning>(connection, quote, frozen.warnings);
  save_materials(connection, quote, frozen.materials);
  save_bill(connection, quote, frozen.bill);
  save_list<WorkLine>(connection, quote, frozen.work.lines);
  save_list<Outside>(connection, quote, frozen.outside);
  save_one<CostSheet>(connection, quote, frozen.sheet);
  save_list<CostLine>(connection, quote, frozen.sheet.lines);
  save_list<Money>(connection, quote, frozen.sheet.part_shares);
  save_one<Offer>(connection, quote, frozen.offer);
  save_list<Rung>(connection, quote, rungs_of(frozen.offer.ladder));
  save_list<OfferLine>(connection, quote, frozen.offer.lines);
}

FrozenQuote load_frozen(Connection& connection, std::int64_t quote) {
  FrozenQuote frozen;
  load_one<Header>(connection, quote, frozen, "id");
  load_one<Terms>(connection, quote, frozen);
  frozen.shop.currency = connection.currency;
  frozen.figures = load_list<FrozenFigure>(connection, quote);
  frozen.choices = load_list<FrozenChoice>(connection, quote);
  frozen.pieces = load_list<Piece>(connection, quote);
  frozen.warnings = load_list<Warning>(connection, quote);
  frozen.materials = load_materials(connection, quote);
  frozen.bill = load_bill(connection, quote);
  frozen.work.lines = load_list<WorkLine>(connection, quote);
  frozen.outside = load_list<Outside>(connection, quote);
  load_one<CostSheet>(connection, quote, frozen.sheet);
  frozen.sheet.lines = load_list<CostLine>(connection, quote);
  frozen.sheet.part_shares = load_list<Money>(connection, quote);
  load_one<Offer>(connection, quote, frozen.offer);
  frozen.offer.ladder = ladder_of(load_list<Rung>(connection, quote));
  frozen.offer.lines = load_list<OfferLine>(connection, quote);
  return frozen;
}

}  // namespace endband::db
