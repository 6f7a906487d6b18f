// The list of ended jobs: one statement, for there may be very many of them.
#include "db/past.h"

#include "db/job_rows.h"
#include "db/statement.h"
#include "engine/pricing/walk.h"

#include <unordered_map>

namespace endband::db {
namespace {

// What one row of the list says beside what a PastJob keeps.
struct Quoted {
  Money total, kept, carriage, tax;
  std::optional<Money> price, yours, fees, exchange;  // of a walk through an outlet
  std::optional<Ratio> discount;
  std::optional<Money> lines;  // without tax, before any discount
  Ratio seconds;
  bool changed = false;  // another price was agreed on than was quoted
};

std::string past_text() {
  return "SELECT j.id, a.quote, c.year, c.count, q.title, q.binding, ifnull(o.code, ''), ifnull(cu.code, "
         "''), "
         "q.on_date, "
         "e.on_date, foff.money_left, sh.labour, r.labour, r.seconds, "
         "r.total, r.kept, t.delivery_carriage, ifnull(iif(o.collects_tax = 1, 0, w.tax_due), off.tax), "
         "a.price <> off.goods, w.price, w.yours, w.all_fees, w.exchange_cost, "
         "d.share_num, d.share_den, "
         "(SELECT sum(net) FROM quote_offer_line l WHERE l.quote = d.quote), sh.seconds_num, sh.seconds_den, "
         "sale.fees, sale.carriage, sale.exchange, sale.returned, sale.tax "
         "FROM job_event e JOIN job j ON j.id = e.job "
         "JOIN job_result r ON r.job = j.id AND r.entry = e.entry AND r.undoes IS NULL "
         "JOIN commission c ON c.id = j.commission "
         "JOIN job_agreed a ON a.job = j.id AND " +
         last_agreed("a") + " JOIN job_agreed f ON f.job = j.id AND " + first_agreed("f") +
         " JOIN quote q ON q.id = a.quote JOIN quote_sheet sh ON sh.quote = a.quote "
         "JOIN quote_offer off ON off.quote = a.quote JOIN quote_offer foff ON foff.quote = f.quote "
         "JOIN quote_terms t ON t.quote = a.quote "
         "LEFT JOIN quote_outlet o ON o.quote = a.quote LEFT JOIN quote_walk w ON w.quote = o.quote "
         "LEFT JOIN quote_discount d ON d.quote = a.quote LEFT JOIN customer cu ON cu.id = q.customer "
         "LEFT JOIN (SELECT job, sum(iif(kind = 'fees', amount, NULL)) AS fees, "
         "sum(iif(kind = 'carriage', amount, NULL)) AS carriage, "
         "sum(iif(kind = 'exchange', amount, NULL)) AS exchange, "
         "sum(iif(kind = 'returned', amount, NULL)) AS returned, "
         "sum(iif(kind = 'tax', amount, NULL)) AS tax FROM job_sale x WHERE " +
         standing("job_sale", "x") +
         " GROUP BY job) sale ON sale.job = j.id "
         "WHERE e.event = 'finished' AND " +
         standing("job_event", "e") +
         " AND (?1 IS NULL OR e.on_date >= ?1) AND (?2 IS NULL OR e.on_date <= ?2) "
         "AND (?3 IS NULL OR q.binding = ?3) AND (?4 IS NULL OR ifnull(o.code, '') = ?4) "
         "AND (?5 IS NULL OR cu.code = ?5) ORDER BY e.on_date, e.id";
}

SaleQuoted quoted_sale(Quoted const& row) {
  Money const none{0, row.kept.currency};
  SaleQuoted quoted{none, row.fees.value_or(none), row.carriage, row.exchange.value_or(none), row.tax, none};
  if (row.price && row.yours) quoted.whole = *row.price - *row.yours;
  return quoted;
}

// What a discount gave away: of the price, and of what would have been left of it. An outlet takes its share
// of a full price too.
void add_given(Workshop& workshop, std::int64_t quote_id, Quoted const& row, PastJob& job) {
  job.left_given = {0, job.price.currency};
  job.full_price = job.price;
  if (!row.discount || !row.lines) return;
  if (!row.price) {
    job.left_given = scale(*row.lines, *row.discount, Rounding::half_away);
    job.full_price = job.price + job.left_given;
    return;
  }
  FrozenQuote const quote = load_quote(workshop, quote_id);
  Walk const& given = quote.offer.walk;
  Walk const full = walk({quote.sheet, quote.delivery, quote.selling, quote.shop}, given.ticket);
  job.full_price = job.price + full.price - given.price;
  job.left_given = full.left - given.left;
}

PastJob read_job(Workshop& workshop, Statement& select) {
  PastJob job;
  Quoted row;
  SaleTaken sale;
  QuoteNumber number;
  std::int64_t quote = 0;
  select.read(job.job, quote, number.year, number.count, job.title, job.binding, job.outlet, job.customer,
              job.quoted_on, job.ended, job.left_quoted, job.labour_quoted, job.labour, job.seconds,
              row.total, row.kept, row.carriage, row.tax, row.changed, row.price, row.yours, row.fees,
              row.exchange, Pair{row.discount}, row.lines, row.seconds, sale.fees, sale.carriage,
              sale.exchange, sale.returned, sale.tax);
  job.number = job_number(number);
  job.price = row.kept;
  add_given(workshop, quote, row, job);
  // Of tax told beside a price that was changed, what was charged of it follows from the quote's rates.
  SaleQuoted const quoted =
      row.changed && sale.tax ? sale_quoted(load_quote(workshop, quote), row.kept) : quoted_sale(row);
  job.left = row.kept - row.total - sale_cost(quoted, sale);
  job.seconds_quoted = round(row.seconds, Rounding::half_away);
  return job;
}

void load_called_off(Workshop& workshop, PastFilter const& filter, Past& past) {
  static std::string const sql =
      "SELECT count(*), ifnull(sum(r.kept - r.total), 0) FROM job_event e JOIN job_result r ON r.job = e.job "
      "AND "
      "r.entry = e.entry AND r.undoes IS NULL WHERE e.event = 'cancelled' AND " +
      standing("job_event", "e") + " AND (?1 IS NULL OR e.on_date >= ?1) AND (?2 IS NULL OR e.on_date <= ?2)";
  Statement select(workshop.connection(), sql);
  if (select.bind(filter.since, filter.until).step()) select.read(past.called_off, past.left_of_called_off);
}

}  // namespace

Past load_past(Workshop& workshop, PastFilter const& filter) {
  static std::string const sql = past_text();
  Past past;
  Statement select(workshop.connection(), sql);
  select.bind(filter.since, filter.until, filter.binding, filter.outlet, filter.customer);
  while (select.step()) past.jobs.push_back(read_job(workshop, select));
  load_called_off(workshop, filter, past);
  return past;
}

void add_features(Workshop& workshop, std::span<PastJob> jobs) {
  std::unordered_map<std::int64_t, PastJob*> by_id;
  for (PastJob& job : jobs) by_id.emplace(job.job, &job);
  static std::string const sql =
      "SELECT a.job, w.operation FROM job_agreed a JOIN quote_work w ON w.quote = a.quote WHERE " +
      last_agreed("a");
  Statement select(workshop.connection(), sql);
  while (select.step()) {
    std::int64_t job = 0;
    OperationKind kind{};
    select.read(job, kind);
    if (auto const found = by_id.find(job); found != by_id.end())
      found->second->features |= features_made_by(kind);
  }
}

}  // namespace endband::db
