#include "db/frozen.h"

#include "db/frozen_bill.h"
#include "db/frozen_selling.h"
#include "db/quote_visitors.h"

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
bool keeps_selling(FrozenQuote const& quote) { return quote.rules >= first_rules_of_selling; }

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
  if (keeps_selling(frozen)) save_selling(saver, frozen);
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
  if (keeps_selling(frozen)) load_selling(loader, frozen);
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
  if (keeps_selling(frozen)) seal_selling(sealer, frozen);
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
