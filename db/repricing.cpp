#include "db/repricing.h"

#include "db/frozen.h"
#include "db/job_rows.h"
#include "db/materials.h"
#include "db/quote_rows.h"
#include "db/quote_selling_rows.h"
#include "db/settings.h"
#include "db/statement.h"
#include "db/steps.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace endband::db {
namespace {

// Which quotes; ?1 is the day.
std::string condition(QuotesWanted const& wanted) {
  std::string text = " WHERE (?1 IS NULL OR q.on_date >= ?1) AND " + std::string(not_withdrawn);
  if (wanted.accepted)
    text += " AND EXISTS (SELECT 1 FROM quote_event e WHERE e.quote = q.id AND e.event = 'accepted' AND " +
            standing("quote_event", "e") + ")";
  if (!wanted.every_issue)
    text +=
        " AND q.issue = (SELECT max(i.issue) FROM quote i WHERE i.commission = q.commission AND NOT EXISTS "
        "(SELECT 1 FROM quote_event w WHERE w.quote = i.id AND w.event = 'withdrawn' AND w.undoes IS NULL))";
  return text;
}

std::string headers_of(QuotesWanted const& wanted) {
  return "SELECT q.id, c.year, c.count, q.issue, q.title, q.binding, q.on_date FROM quote q "
         "JOIN commission c ON c.id = q.commission" +
         condition(wanted) + " ORDER BY q.id";
}

// The rows of one table in the order of their quotes, from one of them on. The first column is the quote.
class Rows {
 public:
  Rows(Connection& connection, std::string const& columns, std::string_view table, std::int64_t first,
       std::string_view order = "", std::string_view where = "")
      : select_(connection, "SELECT quote, " + columns + " FROM " + std::string(table) + " WHERE quote >= ?" +
                                std::string(where) + " ORDER BY quote" + std::string(order)) {
    select_.bind(first);
    step();
  }

  // Whether the row it stands at is of the quote. Goes past those of the quotes before it.
  bool at(std::int64_t quote) {
    while (quote_ < quote) step();
    return quote_ == quote;
  }
  // The rest of the row; then it stands at the next.
  template <class... T>
  void take(T&&... values) {
    select_.read(std::forward<T>(values)...);
    step();
  }
  template <class T>
  void take_row(auto& row) {
    Row<T>::fields(Take{select_}, row);
    step();
  }

 private:
  void step() {
    quote_ = select_.step() ? select_.value<std::int64_t>() : std::numeric_limits<std::int64_t>::max();
  }

  Statement select_;
  std::int64_t quote_ = 0;
};

constexpr std::string_view by_position = ", position";

template <class T>
std::string columns_of_row() {
  return std::string(Row<T>::columns);
}

[[noreturn]] void lacks(std::int64_t quote, std::string_view table) {
  throw StoreError(FaultCode::not_a_workshop,
                   "quote " + std::to_string(quote) + " has no row in " + std::string(table));
}

// A line of the bill with what its cost follows from.
void take_line(Rows& rows, BillLine& line, Currency currency) {
  rows.take(line.material, line.charged.dimension, line.charged.n, line.customer_supplied, line.unit.minor,
            line.unit.pack.n, line.ruin_chance);
  for (Amount* amount : {&line.net, &line.spoil, &line.cutting_loss, &line.kept, &line.pack_remainder,
                         &line.opened, &line.unit.pack})
    amount->dimension = line.charged.dimension;
  if (!line.customer_supplied) line.unit.currency = currency;
}

}  // namespace

struct QuoteStream::Tables {
  Connection& connection;
  Statement headers;
  bool more = false;
  std::int64_t first;  // the quote that the header stands at
  Rows terms, bill, work, hands, outside, redo, sheets, offers, risks, overtimes, sellings, outlets, fees,
      fee_steps, walks, taxes, discounts;

  Tables(Connection& of, QuotesWanted const& wanted)
      : connection(of),
        headers(of, headers_of(wanted)),
        first(next_header(wanted)),
        terms(of, columns_of_row<Terms>(), "quote_terms", first),
        bill(of,
             "material, dimension, charged, customer_supplied, unit_minor, unit_pack, ruin_chance_num, "
             "ruin_chance_den",
             "quote_bill", first, by_position),
        work(of, "operation, part, step_version, count, mean_s_num, mean_s_den", "quote_work", first,
             by_position),
        hands(of, "position, rate", "quote_hand", first, by_position, " AND rate IS NOT NULL"),
        outside(of, "price, at_cost", "quote_outside", first, by_position),
        redo(of, "position, redo_num, redo_den", "quote_outside_detail", first, by_position),
        sheets(of, "earning, total", "quote_sheet", first),
        offers(of, "goods, goods_shown, money_left", "quote_offer", first),
        risks(of, "contingency", "quote_risk", first),
        overtimes(of, columns_of_row<OvertimeRow>(), "quote_overtime", first),
        sellings(of, "pieces", "quote_selling", first),
        outlets(of, columns_of_row<OutletRow>(), "quote_outlet", first),
        fees(of, columns_of_row<Fee>(), "quote_fee", first, by_position),
        fee_steps(of, columns_of_row<FeeStepRow>(), "quote_fee_step", first, by_position),
        walks(of, "ticket, price", "quote_walk", first),
        taxes(of, columns_of_row<TaxOfLineRow>(), "quote_tax_of_line", first, by_position),
        discounts(of, columns_of_row<Discount>(), "quote_discount", first) {}

  std::int64_t next_header(QuotesWanted const& wanted) {
    headers.bind(wanted.since);
    more = headers.step();
    return more ? headers.value<std::int64_t>() : 0;
  }

  PastQuote take() {
    PastQuote past;
    past.id = first;
    std::string issue;
    headers.read(past.number.year, past.number.count, issue, past.title, past.binding, past.on);
    past.number.issue = issue.at(0);
    past.quote.shop.currency = connection.currency;
    take_rules(past.quote, past.id);
    take_sums(past.quote, past.id);
    take_selling(past.quote, past.id);
    take_bill(past.quote, past.id);
    take_work(past.quote, past.id);
    take_outside(past.quote, past.id);
    more = headers.step();
    if (more) first = headers.value<std::int64_t>();
    return past;
  }

 private:
  void take_rules(FrozenQuote& quote, std::int64_t id) {
    if (!terms.at(id)) lacks(id, "quote_terms");
    terms.take_row<Terms>(quote);
    if (risks.at(id)) {
      Money contingency;
      risks.take(contingency);
      quote.shop.simulated_contingency = contingency;
    }
    if (overtimes.at(id)) overtimes.take(quote.shop.overtime_seconds, quote.shop.overtime_share);
  }

  void take_sums(FrozenQuote& quote, std::int64_t id) {
    if (!sheets.at(id)) lacks(id, "quote_sheet");
    sheets.take(quote.sheet.earning, quote.sheet.total);
    if (!offers.at(id)) lacks(id, "quote_offer");
    offers.take(quote.offer.goods, quote.offer.goods_shown, quote.offer.left);
    if (walks.at(id)) walks.take(quote.offer.walk.ticket, quote.offer.walk.price);
  }

  void take_selling(FrozenQuote& quote, std::int64_t id) {
    if (sellings.at(id)) sellings.take(quote.selling.pieces);
    if (discounts.at(id)) discounts.take_row<Discount>(quote.selling.discount.emplace());
    while (taxes.at(id)) {
      TaxOfLineRow row;
      taxes.take_row<TaxOfLineRow>(row);
      std::optional<Component> component;
      if (!row.component.empty()) component = from_word<Component>(row.component);
      quote.selling.tax.own.push_back({component, std::move(row.name), row.rate});
    }
    if (outlets.at(id)) take_outlet(quote, id);
  }

  void take_outlet(FrozenQuote& quote, std::int64_t id) {
    OutletRow row;
    outlets.take_row<OutletRow>(row);
    quote.outlet_version = row.version;
    Outlet& outlet = quote.selling.outlet.emplace(std::move(row.outlet));
    outlet.currency = connection.currency;
    if (row.point_step) outlet.points = {*row.point_step, row.point_below.value_or(0)};
    while (fees.at(id)) fees.take_row<Fee>(outlet.fees.emplace_back());
    while (fee_steps.at(id)) {
      FeeStepRow step;
      fee_steps.take_row<FeeStepRow>(step);
      auto const fee = static_cast<std::size_t>(step.fee);
      if (fee >= outlet.fees.size()) lacks(id, "quote_fee");
      outlet.fees[fee].steps.push_back(step.step);
    }
  }

  // Uses are looked up of those lines only of which somebody asks for them.
  void take_bill(FrozenQuote& quote, std::int64_t id) {
    std::vector<BillLine>& lines = quote.bill.lines;
    lines.reserve(most_lines_);
    while (bill.at(id)) take_line(bill, lines.emplace_back(), connection.currency);
    most_lines_ = std::max(most_lines_, lines.size());
    bool const all = !quote.selling.tax.own.empty();
    for (std::size_t i = 0; i < lines.size(); ++i)
      if (all || !(lines[i].ruin_chance == Ratio(0))) take_uses(lines[i], id, static_cast<std::int64_t>(i));
  }

  void take_uses(BillLine& line, std::int64_t id, std::int64_t position) {
    Statement uses(connection,
                   "SELECT part, net FROM quote_use WHERE quote = ? AND bill = ? ORDER BY position");
    uses.bind(id, position);
    while (uses.step()) {
      Use& use = line.uses.emplace_back();
      uses.read(use.part, use.net.n);
      use.net.dimension = line.charged.dimension;
    }
  }

  void take_work(FrozenQuote& quote, std::int64_t id) {
    std::vector<WorkLine>& lines = quote.work.lines;
    lines.reserve(most_work_);
    while (work.at(id)) {
      WorkLine& line = lines.emplace_back();
      work.take(line.kind, line.part, ZeroIsNull{line.step_version}, line.count, line.mean_seconds);
    }
    most_work_ = std::max(most_work_, lines.size());
    while (hands.at(id)) {
      std::int64_t position = 0;
      Money rate;
      hands.take(position, rate);
      lines.at(static_cast<std::size_t>(position)).rate = rate;
    }
  }

  void take_outside(FrozenQuote& quote, std::int64_t id) {
    while (outside.at(id)) {
      Outside& row = quote.outside.emplace_back();
      outside.take(row.price, row.at_cost);
    }
    while (redo.at(id)) {
      std::int64_t position = 0;
      Ratio chance;
      redo.take(position, chance);
      quote.outside.at(static_cast<std::size_t>(position)).redo = chance;
    }
  }

  std::size_t most_lines_ = 0, most_work_ = 0;
};

QuoteStream::QuoteStream(Workshop& workshop, QuotesWanted const& wanted)
    : tables_(std::make_unique<Tables>(workshop.connection(), wanted)) {}
QuoteStream::~QuoteStream() = default;

std::vector<PastQuote> QuoteStream::next(std::size_t most) {
  std::vector<PastQuote> batch;
  batch.reserve(most);
  while (batch.size() < most && tables_->more) batch.push_back(tables_->take());
  return batch;
}

std::int64_t count_quotes(Workshop& workshop, QuotesWanted const& wanted) {
  Statement select(workshop.connection(), "SELECT count(*) FROM quote q" + condition(wanted));
  select.bind(wanted.since).step();
  return select.value<std::int64_t>();
}

Read<Today> load_today(Workshop& workshop, Date on) {
  Read<Shop> shop = load_shop(workshop, on);
  if (!shop) return tl::unexpected(std::move(shop.error()));
  Catalogue const catalogue{on, shop->buying, list_materials(workshop, on, std::nullopt)};
  return Today(catalogue, load_steps(workshop, on), shop->shop, load_step_times(workshop));
}

}  // namespace endband::db
