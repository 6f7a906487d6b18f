// What the shelf and the work begun were worth at the end of a day.
#include "db/quotes.h"
#include "db/stock_ledger.h"
#include "engine/costing/costing.h"

namespace endband::db {
namespace {

struct Begun {
  std::int64_t job = 0, quote = 0;
};

// Jobs begun by that day and not ended by its end, and the quote that was agreed on then.
std::vector<Begun> in_work(Connection& connection, Date on) {
  Statement select(
      connection,
      "SELECT j.id, (SELECT a.quote FROM job_agreed a WHERE a.job = j.id AND a.on_date <= ?1 AND a.undoes IS "
      "NULL AND NOT "
      "EXISTS (SELECT 1 FROM job_agreed u WHERE u.undoes = a.id) ORDER BY a.id DESC LIMIT 1) FROM job j "
      "WHERE j.on_date <= ?1 AND NOT EXISTS (SELECT 1 FROM job_event e WHERE e.job = j.id AND e.on_date <= "
      "?1 AND "
      "e.event IN ('finished', 'cancelled') AND e.undoes IS NULL AND NOT EXISTS (SELECT 1 FROM job_event u "
      "WHERE "
      "u.undoes = e.id))");
  select.bind(on);
  std::vector<Begun> jobs;
  while (select.step()) {
    Begun& each = jobs.emplace_back();
    select.read(each.job, ZeroIsNull{each.quote});
  }
  return jobs;
}

std::int64_t sum_of_job(Connection& connection, std::string_view sql, std::int64_t job, Date on) {
  Statement select(connection, sql);
  select.bind(job, on).step();
  return select.value<std::int64_t>();
}

std::int64_t shelf_value(Connection& connection, Date on) {
  Statement now(connection, "SELECT ifnull(sum(value), 0) FROM shelf");
  now.step();
  // Goods in custody have no value, so that no movement of theirs counts here.
  Statement later(
      connection,
      "SELECT ifnull(sum(v.value), 0) FROM shelf s CROSS JOIN movement v ON v.material = s.material "
      "AND v.on_date > ?");
  later.bind(on).step();
  return checked_sub(now.value<std::int64_t>(), later.value<std::int64_t>());
}

}  // namespace

StockValue stock_value(Workshop& workshop, Date on) {
  Connection& connection = workshop.connection();
  Currency const currency = workshop.currency();
  StockValue value{{shelf_value(connection, on), currency}, {0, currency}, {0, currency}};
  for (Begun const& each : in_work(connection, on)) {
    Money const goods{
        sum_of_job(connection, "SELECT -ifnull(sum(value), 0) FROM movement WHERE job = ? AND on_date <= ?",
                   each.job, on),
        currency};
    Money const billed{
        sum_of_job(connection, "SELECT ifnull(sum(price), 0) FROM job_outside WHERE job = ? AND on_date <= ?",
                   each.job, on),
        currency};
    value.in_work += goods + billed;
    Ratio const seconds(
        sum_of_job(connection, "SELECT ifnull(sum(seconds), 0) FROM job_time WHERE job = ? AND on_date <= ?",
                   each.job, on));
    if (seconds == Ratio(0) || each.quote == 0) continue;
    Rates const rates = rates_of(load_quote(workshop, each.quote).shop.basis);
    value.in_work_with_hours += Money{round_product(seconds, rates.labour, Rounding::half_away), currency} +
                                Money{round_product(seconds, rates.overhead, Rounding::half_away), currency};
  }
  value.in_work_with_hours += value.in_work;
  return value;
}

}  // namespace endband::db
