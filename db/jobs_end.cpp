// How a job ends, or goes on as another book.
#include "db/job_rows.h"
#include "db/statement.h"
#include "db/stock_ledger.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace endband::db {
namespace {

// Nothing of a job is dated after its end.
std::optional<Fault> too_early(Connection& connection, JobHeader const& job, std::string_view command,
                               Date on) {
  static std::string const sql =
      "SELECT max(d) FROM (SELECT max(on_date) AS d FROM movement WHERE job = ?1 "
      "UNION ALL SELECT max(on_date) FROM job_time t WHERE job = ?1 AND " +
      standing("job_time", "t") + " UNION ALL SELECT max(on_date) FROM job_outside o WHERE job = ?1 AND " +
      standing("job_outside", "o") + " UNION ALL SELECT max(on_date) FROM job_event e WHERE job = ?1 AND " +
      standing("job_event", "e") + " UNION ALL SELECT max(on_date) FROM job_agreed a WHERE job = ?1 AND " +
      standing("job_agreed", "a") + ")";
  Statement select(connection, sql);
  select.bind(job.id).step();
  auto const last = select.value<std::optional<Date>>();
  if (!last || on >= *last) return std::nullopt;
  return job_refused(command, "--on", date_text(on),
                     "something of job " + job.number + " is dated " + date_text(*last));
}

// What would close the point.
std::string remedy(StillOpen const& point, std::string const& job) {
  switch (point.what) {
    case OpenPoint::gate:
      return "it waits for approval; endband job approve " + job + " \"" + point.name + "\"";
    case OpenPoint::material:
      return "it was quoted and not taken; endband job use " + job + " " + point.name +
             " says how much, with --without that there was none";
    case OpenPoint::no_time: return "no hours are told; endband job time " + job + " says them";
    case OpenPoint::outside:
      return "there is no bill of it; endband job use " + job + " --outside \"" + point.name +
             "\" --price says it, also of nothing";
    case OpenPoint::custody: return "the customer's goods are still here; endband job return " + job;
  }
  throw std::logic_error("an open point of no kind");
}

std::string_view field_of(OpenPoint what) {
  switch (what) {
    case OpenPoint::gate: return "gate";
    case OpenPoint::material: return "material";
    case OpenPoint::no_time: return "time";
    case OpenPoint::outside: return "outside";
    case OpenPoint::custody: return "custody";
  }
  throw std::logic_error("an open point of no kind");
}

std::vector<Fault> faults_of(std::vector<StillOpen> const& open, JobHeader const& job) {
  std::vector<Fault> faults;
  for (StillOpen const& point : open)
    faults.push_back(job_refused("finish", std::string(field_of(point.what)),
                                 point.name.empty() ? job.number : point.name, remedy(point, job.number)));
  return faults;
}

void add_result(Writing& writing, JobHeader const& job, ActualCost const& cost, Money kept, Money to_pay) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO job_result (job, materials, labour, overhead, outside, total, seconds, kept, "
                   "to_pay, entry) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  insert
      .bind(job.id, cost.materials, cost.labour, cost.overhead, cost.outside, cost.total, cost.time, kept,
            to_pay, writing.entry())
      .insert();
}

// What was bought for the job stays set aside for it.
void let_go_but_bought(Writing& writing, std::int64_t job) {
  struct SetAsideRow {
    MaterialId material;
    std::int64_t lot = 0, quantity = 0;
  };
  std::vector<SetAsideRow> rows;
  Statement select(writing.workshop().connection(),
                   "SELECT r.material, r.lot, r.quantity FROM reserved r LEFT JOIN lot l ON l.id = r.lot "
                   "WHERE r.job = ?1 AND r.quantity > 0 AND l.job IS NOT ?1 ORDER BY r.material, r.lot");
  select.bind(job);
  while (select.step()) {
    SetAsideRow& row = rows.emplace_back();
    select.read(row.material, row.lot, row.quantity);
  }
  for (SetAsideRow const& row : rows) change_reservation(writing, job, row.material, row.lot, -row.quantity);
}

// What the job took, and what lies there that was bought for it.
std::vector<Holding> held_or_bought(Workshop& workshop, JobHeader const& job) {
  std::vector<Holding> held = load_record(workshop, job).taken;
  Statement select(
      workshop.connection(),
      "SELECT l.material, l.dimension, sum(s.quantity) FROM lot l JOIN lot_state s ON s.lot = l.id "
      "WHERE l.job = ? AND l.source <> 'custody' AND s.quantity > 0 GROUP BY l.material");
  select.bind(job.id);
  while (select.step()) {
    Holding bought;
    select.read(bought.material, bought.dimension, bought.used);
    auto const found = std::find_if(held.begin(), held.end(),
                                    [&](Holding const& each) { return each.material == bought.material; });
    if (found == held.end())
      held.push_back(bought);
    else
      found->used = checked_add(found->used, bought.used);
  }
  return held;
}

}  // namespace

Read<ActualCost> finish(Writing& writing, JobHeader const& job, FrozenQuote const& agreed, Date on) {
  Workshop& workshop = writing.workshop();
  if (auto fault = not_open(workshop, job, "finish")) return refuse(*std::move(fault));
  JobRecord const record = load_record(workshop, job);
  std::vector<Fault> faults = faults_of(still_open(agreed, record), job);
  if (auto fault = too_early(workshop.connection(), job, "finish", on)) faults.push_back(*std::move(fault));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  ActualCost const cost = actual_cost(agreed, record);
  let_go(writing, job.id);
  add_job_event(writing, job.id, job_state_name(JobState::finished), "", on, "");
  add_result(writing, job, cost, job.price, job.to_pay);
  return cost;
}

Read<Settlement> cancel(Writing& writing, JobHeader const& job, FrozenQuote const& agreed,
                        std::optional<Money> keeps, Date on, std::string_view words) {
  Workshop& workshop = writing.workshop();
  if (auto fault = not_open(workshop, job, "cancel")) return refuse(*std::move(fault));
  std::vector<Fault> faults;
  if (keeps && keeps->minor < 0)
    faults.push_back(
        {FaultCode::out_of_range, {"job cancel", 0, 0, "--keep"}, money_text(*keeps), "nothing or more", {}});
  if (auto fault = too_early(workshop.connection(), job, "cancel", on)) faults.push_back(*std::move(fault));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  Settlement const settled = settle_cancelled(agreed, load_record(workshop, job), keeps);
  let_go(writing, job.id);
  add_job_event(writing, job.id, job_state_name(JobState::cancelled), "", on, words);
  add_result(writing, job, settled.cost, settled.keeps, settled.keeps + settled.tax);
  return settled;
}

Read<std::int64_t> change_agreed(Writing& writing, JobHeader const& job, QuoteHeader const& now,
                                 Change const& change, Date on, std::string_view words) {
  Workshop& workshop = writing.workshop();
  Connection& connection = workshop.connection();
  if (commission_of(connection, now.id) != commission_of(connection, job.quote.id) || now.id == job.quote.id)
    throw std::logic_error("a job goes on by another issue of its own commission");
  if (auto fault = not_open(workshop, job, "vary")) return refuse(*std::move(fault));
  if (change.price - change.difference != job.price)
    return refuse({FaultCode::changed_meanwhile,
                   {"job vary", 0, 0, "job"},
                   job.number,
                   "the change is of a price of " + money_text(change.price - change.difference),
                   {}});
  FrozenQuote const before = load_quote(workshop, job.quote.id);
  FrozenQuote const after = load_quote(workshop, now.id);
  Money const to_pay = to_pay_after(before, job.to_pay, after, change);
  add_quote_event(writing, job.quote.id, "revised", on, "");
  add_quote_event(writing, now.id, "accepted", on, words);
  std::int64_t const row = add_agreed(writing, {.job = job.id,
                                                .quote = now.id,
                                                .on = on,
                                                .price = change.price,
                                                .to_pay = to_pay,
                                                .deposit = std::min(job.deposit, to_pay),
                                                .thrown_away = change.thrown_price,
                                                .needed_on = job.needed_on,
                                                .words = std::string(words)});
  let_go_but_bought(writing, job.id);
  auto reserved = reserve_bill(writing, job.id, after, held_or_bought(workshop, job), on);
  if (!reserved) return tl::unexpected(std::move(reserved.error()));
  return row;
}

}  // namespace endband::db
