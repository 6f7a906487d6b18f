#include "db/frozen.h"

#include "db/material_rows.h"
#include "db/quote_rows.h"
#include "db/seal.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace endband::db {
namespace {

std::array<Rung, 5> rungs_of(Ladder const& ladder) {
  return {ladder.cash_floor, ladder.walk_away, ladder.full_cost, ladder.target, ladder.asked};
}

Ladder ladder_of(std::vector<Rung> const& rungs) {
  return {rungs.at(0), rungs.at(1), rungs.at(2), rungs.at(3), rungs.at(4)};
}

// The parts that are one row a quote or a plain list of rows: one walk for saving, loading and sealing.
template <class Visitor, class Quote>
void each_plain_part(Visitor& visit, Quote& quote) {
  visit.template one<Terms>(quote);
  visit.list(quote.figures);
  visit.list(quote.choices);
  visit.list(quote.pieces);
  visit.list(quote.warnings);
  visit.list(quote.bill.lines);
  visit.list(quote.work.lines);
  visit.list(quote.outside);
  visit.template one<CostSheet>(quote.sheet);
  visit.list(quote.sheet.lines);
  visit.list(quote.sheet.part_shares);
  visit.template one<Offer>(quote.offer);
  visit.list(quote.offer.lines);
}

bool keeps_orders(FrozenQuote const& quote) { return quote.rules >= first_rules_of_orders; }
bool keeps_plans(FrozenQuote const& quote) { return quote.rules >= first_rules_of_plans; }
bool keeps_promises(FrozenQuote const& quote) { return quote.rules >= first_rules_of_learning; }

// What quotes keep since the rules of orders, beside the above.
template <class Visitor, class Quote>
void each_part_of_orders(Visitor& visit, Quote& quote) {
  visit.template beside<PieceDetail>(quote.pieces);
  visit.template beside<OutsideDetail>(quote.outside);
  visit.template one<Order>(quote);
  visit.list(quote.volumes);
  visit.list(quote.copy_prices);
  visit.list(quote.custody);
}

struct Saver {
  Connection& connection;
  std::int64_t quote;

  template <class T>
  void one(auto const& row) {
    static std::string const sql = insert_text(Row<T>::table, "quote", Row<T>::columns);
    Statement insert(connection, sql);
    insert.bind(quote);
    Row<T>::fields(Bind{insert}, row);
    insert.run();
  }
  template <class List>
  void list(List const& rows) {
    beside<typename List::value_type>(rows);
  }
  template <class T>
  void beside(auto const& rows) {
    static std::string const sql = insert_text(Row<T>::table, "quote, position", Row<T>::columns);
    Statement insert(connection, sql);
    for (std::int64_t position = 0; auto const& row : rows) {
      insert.bind(quote, position++);
      Row<T>::fields(Bind{insert}, row);
      insert.run();
    }
  }
};

// Reads one row; damage is told with its table.
template <class T>
void read_row(Statement& select, auto& row) try {
  Row<T>::fields(Take{select}, row);
} catch (StoreError const& e) {
  throw StoreError(e.code, std::string(Row<T>::table) + ": " + e.what());
}

struct Loader {
  Connection& connection;
  std::int64_t quote;

  template <class T>
  void one(auto& row) {
    static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                   std::string(Row<T>::table) + " WHERE " + std::string(quote_key<T>) +
                                   " = ?";
    Statement select(connection, sql);
    if (!select.bind(quote).step())
      throw std::out_of_range("quote " + std::to_string(quote) + " has no row in " +
                              std::string(Row<T>::table));
    read_row<T>(select, row);
  }
  template <class T>
  void list(std::vector<T>& rows) {
    static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                   std::string(Row<T>::table) + " WHERE quote = ? ORDER BY position";
    Statement select(connection, sql);
    select.bind(quote);
    while (select.step()) read_row<T>(select, rows.emplace_back());
  }
  // Fills the rows that are there already.
  template <class T>
  void beside(auto& rows) {
    static std::string const sql = "SELECT " + std::string(Row<T>::columns) + " FROM " +
                                   std::string(Row<T>::table) + " WHERE quote = ? ORDER BY position";
    Statement select(connection, sql);
    select.bind(quote);
    for (auto& row : rows) {
      if (!select.step())
        throw std::out_of_range("quote " + std::to_string(quote) + " lacks a row in " +
                                std::string(Row<T>::table));
      read_row<T>(select, row);
    }
  }
};

struct Sealer {
  Currency currency;
  std::vector<PartSeal> seals;

  template <class T>
  void one(auto const& row) {
    Seal seal(currency);
    Row<T>::fields(Bind{seal}, row);
    keep(Row<T>::table, seal);
  }
  template <class List>
  void list(List const& rows) {
    beside<typename List::value_type>(rows);
  }
  template <class T>
  void beside(auto const& rows) {
    Seal seal(currency);
    for (auto const& row : rows) Row<T>::fields(Bind{seal}, row);
    keep(Row<T>::table, seal);
  }
  void keep(std::string_view table, Seal const& seal) {
    seals.push_back({std::string(table), seal.number()});
  }
};

// --- ways, and the range of repairs, which a quote has or has not

std::vector<WayWords> words_of(Ways ways) {
  std::vector<WayWords> words;
  for (std::size_t i = 0; i < axis_count; ++i)
    if (auto const way = ways.of(static_cast<Axis>(i)))
      words.push_back({std::string(axis_row(static_cast<Axis>(i)).key), std::string(way_row(*way).name)});
  return words;
}

Way way_of(WayWords const& words) {
  for (std::size_t i = 0; i < axis_count; ++i)
    if (auto const axis = static_cast<Axis>(i); axis_row(axis).key == words.axis)
      if (auto const way = way_named(axis, words.way)) return *way;
  throw StoreError(FaultCode::not_a_workshop, "quote_way: unknown word: " + words.axis + " " + words.way);
}

Ways ways_of(std::vector<WayWords> const& words) {
  Ways ways;
  for (WayWords const& row : words) ways = ways.with({way_of(row)});
  return ways;
}

template <class T>
std::vector<T> rows_of(std::optional<T> const& kept) {
  return kept ? std::vector{*kept} : std::vector<T>{};
}

std::vector<RiskRow> risk_of(FrozenQuote const& quote) {
  if (!quote.simulated || !quote.shop.simulated_contingency) return {};
  return {{*quote.simulated, *quote.shop.simulated_contingency}};
}

std::vector<OvertimeRow> overtime_of(FrozenQuote const& quote) {
  if (quote.shop.overtime_seconds == Ratio(0)) return {};
  return {{quote.shop.overtime_seconds, quote.shop.overtime_share}};
}

// What quotes keep since the rules of promises: rates of hands, the days named, overtime, what was simulated.
template <class Visitor>
void each_promise(Visitor& visit, FrozenQuote const& quote) {
  visit.template beside<HandDetail>(quote.work.lines);
  visit.list(rows_of(quote.promise));
  visit.list(risk_of(quote));
  visit.list(overtime_of(quote));
}

// A quote that is older than the ways of a binding was made in its usual ones, one book, and paid for what
// others did as a whole.
void complete_older(FrozenQuote& quote) {
  Style const* const style = style_named(quote.binding);
  if (style == nullptr) throw StoreError(FaultCode::not_a_workshop, "quote: unknown word: " + quote.binding);
  quote.ways = style->usual;
  Money const nothing{0, quote.shop.currency};
  for (Outside& outside : quote.outside) {
    outside.each = outside.price;
    outside.least_charge = outside.carriage = nothing;
  }
}

template <class T>
std::optional<T> load_one_or_none(Loader& loader) {
  std::vector<T> rows;
  loader.list(rows);
  return rows.empty() ? std::nullopt : std::optional<T>(std::move(rows.front()));
}

void load_orders(Loader& loader, FrozenQuote& quote) {
  each_part_of_orders(loader, quote);
  std::vector<WayWords> ways;
  loader.list(ways);
  quote.ways = ways_of(ways);
  quote.repairs = load_one_or_none<RepairRange>(loader);
}

void load_promises(Loader& loader, FrozenQuote& quote) {
  loader.beside<HandDetail>(quote.work.lines);
  quote.promise = load_one_or_none<Promise>(loader);
  if (auto const risk = load_one_or_none<RiskRow>(loader)) {
    quote.simulated = risk->with;
    quote.shop.simulated_contingency = risk->contingency;
  }
  if (auto const overtime = load_one_or_none<OvertimeRow>(loader)) {
    quote.shop.overtime_seconds = overtime->seconds;
    quote.shop.overtime_share = overtime->share;
  }
}

// --- the uses of each line of the bill

void check_dimensions(Bill const& bill) {  // a row has the dimension of its line once
  for (BillLine const& line : bill.lines)
    for (Amount amount :
         {line.spoil, line.cutting_loss, line.kept, line.pack_remainder, line.opened, line.charged})
      if (amount.dimension != line.net.dimension) throw std::logic_error("a bill line in two dimensions");
}

void restore_dimensions(Bill& bill) {
  for (BillLine& line : bill.lines)
    for (Amount* amount :
         {&line.spoil, &line.cutting_loss, &line.kept, &line.pack_remainder, &line.opened, &line.charged})
      amount->dimension = line.net.dimension;
}

void save_uses(Connection& connection, std::int64_t quote, Bill const& bill) {
  static std::string const sql = insert_text(Row<Use>::table, "quote, bill, position", Row<Use>::columns);
  Statement insert(connection, sql);
  for (std::int64_t line = 0; BillLine const& of_line : bill.lines) {
    for (std::int64_t position = 0; Use const& use : of_line.uses) {
      insert.bind(quote, line, position++);
      Row<Use>::fields(Bind{insert}, use);
      insert.run();
    }
    ++line;
  }
}

void load_uses(Connection& connection, std::int64_t quote, Bill& bill) {
  static std::string const sql = "SELECT bill, " + std::string(Row<Use>::columns) +
                                 " FROM quote_use WHERE quote = ? ORDER BY bill, position";
  Statement select(connection, sql);
  select.bind(quote);
  while (select.step()) {
    std::vector<Use>& uses = bill.lines.at(static_cast<std::size_t>(select.value<std::int64_t>())).uses;
    read_row<Use>(select, uses.emplace_back());
  }
}

void seal_uses(Sealer& sealer, Bill const& bill) {
  Seal seal(sealer.currency);
  for (std::int64_t line = 0; BillLine const& of_line : bill.lines) {
    for (Use const& use : of_line.uses) {
      seal.take(line);
      Row<Use>::fields(Bind{seal}, use);
    }
    ++line;
  }
  sealer.keep(Row<Use>::table, seal);
}

// --- materials: the versions that were used are immutable, so their ids say all

constexpr std::string_view material_table = "quote_material";

void save_materials(Connection& connection, std::int64_t quote, std::vector<Material> const& materials) {
  Statement insert(
      connection,
      "INSERT INTO quote_material (quote, position, material_version, price_version) VALUES (?, ?, ?, ?)");
  for (std::int64_t position = 0; Material const& material : materials) {
    std::int64_t const price = material.price ? material.price->version : 0;
    insert.bind(quote, position++, material.version, ZeroIsNull{price}).run();
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

void seal_materials(Sealer& sealer, std::vector<Material> const& materials) {
  Seal seal(sealer.currency);
  for (Material const& material : materials) {
    seal.take(material.id, material.code, material.version);
    Row<Material>::fields(Bind{seal}, material);
    if (!material.price) continue;
    seal.take(material.price->version);
    Row<PackPrice>::fields(Bind{seal}, *material.price);
  }
  sealer.keep(material_table, seal);
}

}  // namespace

QuoteIdentity load_identity(Connection& connection, std::int64_t quote) {
  Statement select(connection,
                   "SELECT c.year, c.count, q.issue, q.customer, q.valid_until, q.entry FROM quote q "
                   "JOIN commission c ON c.id = q.commission WHERE q.id = ?");
  if (!select.bind(quote).step()) throw std::out_of_range("no quote " + std::to_string(quote));
  QuoteIdentity identity;
  select.read(identity.year, identity.count, identity.issue, ZeroIsNull{identity.customer},
              identity.valid_until, identity.entry);
  return identity;
}

std::int64_t save_frozen(Connection& connection, std::int64_t commission, QuoteIdentity const& identity,
                         FrozenQuote const& frozen) {
  static std::string const sql = insert_text(
      Row<Header>::table, "commission, issue, customer, valid_until, entry", Row<Header>::columns);
  Statement insert(connection, sql);
  insert.bind(commission, identity.issue, ZeroIsNull{identity.customer}, identity.valid_until,
              identity.entry);
  Row<Header>::fields(Bind{insert}, frozen);
  std::int64_t const id = insert.insert();
  save_parts(connection, id, frozen);
  save_seals(connection, id, seals_of(connection.currency, load_identity(connection, id), frozen));
  return id;
}

void save_parts(Connection& connection, std::int64_t quote, FrozenQuote const& frozen) {
  check_dimensions(frozen.bill);
  Saver saver{connection, quote};
  each_plain_part(saver, frozen);
  saver.list(rungs_of(frozen.offer.ladder));
  save_uses(connection, quote, frozen.bill);
  save_materials(connection, quote, frozen.materials);
  if (keeps_plans(frozen)) saver.beside<PlanDetail>(frozen.bill.lines);
  if (keeps_promises(frozen)) each_promise(saver, frozen);
  if (!keeps_orders(frozen)) return;
  each_part_of_orders(saver, frozen);
  saver.list(words_of(frozen.ways));
  saver.list(rows_of(frozen.repairs));
}

FrozenQuote load_frozen(Connection& connection, std::int64_t quote) {
  FrozenQuote frozen;
  Loader loader{connection, quote};
  loader.one<Header>(frozen);
  frozen.shop.currency = connection.currency;
  each_plain_part(loader, frozen);
  restore_dimensions(frozen.bill);
  std::vector<Rung> rungs;
  loader.list(rungs);
  frozen.offer.ladder = ladder_of(rungs);
  load_uses(connection, quote, frozen.bill);
  frozen.materials = load_materials(connection, quote);
  if (keeps_plans(frozen)) loader.beside<PlanDetail>(frozen.bill.lines);
  if (keeps_promises(frozen)) load_promises(loader, frozen);
  if (keeps_orders(frozen))
    load_orders(loader, frozen);
  else
    complete_older(frozen);
  return frozen;
}

std::vector<PartSeal> seals_of(Currency currency, QuoteIdentity const& identity, FrozenQuote const& frozen) {
  Sealer sealer{currency, {}};
  each_plain_part(sealer, frozen);
  sealer.list(rungs_of(frozen.offer.ladder));
  seal_uses(sealer, frozen.bill);
  seal_materials(sealer, frozen.materials);
  if (keeps_plans(frozen)) sealer.beside<PlanDetail>(frozen.bill.lines);
  if (keeps_promises(frozen)) each_promise(sealer, frozen);
  if (keeps_orders(frozen)) {
    each_part_of_orders(sealer, frozen);
    sealer.list(words_of(frozen.ways));
    sealer.list(rows_of(frozen.repairs));
  }
  Seal header(currency);
  header.take(currency, identity.year, identity.count, identity.issue, identity.customer,
              identity.valid_until, identity.entry);
  Row<Header>::fields(Bind{header}, frozen);
  sealer.keep(Row<Header>::table, header);
  std::sort(sealer.seals.begin(), sealer.seals.end(),
            [](PartSeal const& a, PartSeal const& b) { return a.part < b.part; });
  return std::move(sealer.seals);
}

void save_seals(Connection& connection, std::int64_t quote, std::vector<PartSeal> const& seals) {
  Statement insert(connection, "INSERT INTO quote_seal (quote, part, seal) VALUES (?, ?, ?)");
  for (PartSeal const& seal : seals) insert.bind(quote, seal.part, seal.seal).run();
}

std::vector<PartSeal> load_seals(Connection& connection, std::int64_t quote) {
  Statement select(connection, "SELECT part, seal FROM quote_seal WHERE quote = ? ORDER BY part");
  select.bind(quote);
  std::vector<PartSeal> seals;
  while (select.step()) {
    PartSeal& seal = seals.emplace_back();
    select.read(seal.part, seal.seal);
  }
  return seals;
}

}  // namespace endband::db
