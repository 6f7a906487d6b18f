#include "db/codes.h"
#include "db/frozen.h"
#include "db/job_rows.h"
#include "db/statement.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <stdexcept>
#include <utility>

namespace endband::db {
namespace {

constexpr std::array<std::string_view, 4> state_names{"open", "held", "finished", "cancelled"};

std::string sum_of(std::string_view kind) {
  return "sum(CASE kind WHEN '" + std::string(kind) + "' THEN quantity ELSE 0 END), ";
}

std::vector<Holding> load_taken(Connection& connection, std::int64_t job) {
  // Out of the lots is negative there, and what came back counts against it.
  static std::string const sql =
      "SELECT m.material, l.dimension, -" + sum_of("used") + "-" + sum_of("cut-away") + "-" +
      sum_of("spoiled") + sum_of("kept") +
      "-sum(m.value) FROM movement m JOIN lot l ON l.id = m.lot "
      "WHERE m.job = ? AND m.kind IN ('used', 'cut-away', 'spoiled', 'kept') GROUP BY m.material ORDER BY 1";
  Statement select(connection, sql);
  select.bind(job);
  std::vector<Holding> taken;
  while (select.step()) {
    Holding of;
    select.read(of.material, of.dimension, of.used, of.cut_away, of.spoiled, of.kept, of.value);
    bool const nothing = of.used == 0 && of.cut_away == 0 && of.spoiled == 0 && of.kept == 0;
    if (!nothing || of.value.minor != 0) taken.push_back(of);
  }
  return taken;
}

std::vector<MaterialId> load_without(Connection& connection, std::int64_t job) {
  static std::string const sql = "SELECT DISTINCT material FROM job_without w WHERE job = ? AND " +
                                 standing("job_without", "w") + " ORDER BY material";
  Statement select(connection, sql);
  select.bind(job);
  std::vector<MaterialId> without;
  while (select.step()) select.read(without.emplace_back());
  return without;
}

// What was said to be finished, hours told of it or not.
void add_finished(Connection& connection, std::int64_t job, std::vector<Worked>& worked) {
  static std::string const sql = "SELECT operation, part FROM job_done d WHERE job = ? AND " +
                                 standing("job_done", "d") + " ORDER BY id";
  Statement select(connection, sql);
  select.bind(job);
  while (select.step()) {
    std::string operation, part;
    select.read(operation, part);
    Worked row;
    if (!operation.empty()) row.operation = from_word<OperationKind>(operation);
    if (!part.empty()) row.part = from_word<Part>(part);
    auto const told = std::find_if(worked.begin(), worked.end(), [&](Worked const& each) {
      return each.operation == row.operation && each.part == row.part;
    });
    (told == worked.end() ? worked.emplace_back(row) : *told).finished = true;
  }
}

std::vector<Worked> load_worked(Connection& connection, std::int64_t job) {
  static std::string const sql = "SELECT operation, part, sum(seconds) FROM job_time t WHERE job = ? AND " +
                                 standing("job_time", "t") +
                                 " GROUP BY operation, part HAVING sum(seconds) <> 0 ORDER BY min(id)";
  Statement select(connection, sql);
  select.bind(job);
  std::vector<Worked> worked;
  while (select.step()) {
    std::string operation, part;
    Worked& row = worked.emplace_back();
    select.read(operation, part, row.time);
    if (!operation.empty()) row.operation = from_word<OperationKind>(operation);
    if (!part.empty()) row.part = from_word<Part>(part);
  }
  add_finished(connection, job, worked);
  return worked;
}

std::vector<Billed> load_billed(Connection& connection, std::int64_t job) {
  static std::string const sql = "SELECT words, price FROM job_outside o WHERE job = ? AND " +
                                 standing("job_outside", "o") + " ORDER BY id";
  Statement select(connection, sql);
  select.bind(job);
  std::vector<Billed> billed;
  while (select.step()) {
    Billed& row = billed.emplace_back();
    select.read(row.words, row.price);
  }
  return billed;
}

std::vector<Gate> load_gates(Connection& connection, std::int64_t job) {
  static std::string const sql =
      "SELECT gate, on_date FROM job_event e WHERE job = ? AND event = 'held' AND " +
      standing("job_event", "e") +
      " AND NOT EXISTS (SELECT 1 FROM job_event l WHERE l.job = e.job AND l.gate = e.gate AND l.id > e.id "
      "AND "
      "l.event IN ('held', 'approved') AND " +
      standing("job_event", "l") + ") ORDER BY id";
  Statement select(connection, sql);
  select.bind(job);
  std::vector<Gate> gates;
  while (select.step()) {
    Gate& gate = gates.emplace_back();
    select.read(gate.name, gate.since);
  }
  return gates;
}

Money load_paid(Connection& connection, std::int64_t job) {
  static std::string const sql =
      "SELECT ifnull(sum(amount), 0) FROM job_payment p WHERE job = ? AND " + standing("job_payment", "p");
  Statement select(connection, sql);
  select.bind(job).step();
  return select.value<Money>();
}

void load_settled(Connection& connection, JobHeader& job) {
  static std::string const sql = "SELECT kept, to_pay FROM job_result r WHERE job = ? AND " +
                                 standing("job_result", "r") + " ORDER BY id DESC LIMIT 1";
  Statement select(connection, sql);
  if (select.bind(job.id).step()) select.read(job.kept, job.to_pay);
}

void load_state(Connection& connection, JobHeader& job) {
  static std::string const sql =
      "SELECT event, on_date FROM job_event e WHERE job = ? AND event IN ('finished', 'cancelled') AND " +
      standing("job_event", "e") + " ORDER BY id DESC LIMIT 1";
  Statement select(connection, sql);
  if (select.bind(job.id).step()) {
    std::string event;
    select.read(event, job.ended.emplace());
    job.state = event == job_state_name(JobState::finished) ? JobState::finished : JobState::cancelled;
    if (job.state == JobState::cancelled) load_settled(connection, job);
  } else if (!load_gates(connection, job.id).empty()) {
    job.state = JobState::held;
  }
}

// The jobs whose acceptance stands, the newest first: all, or those that a number may mean.
std::vector<JobHeader> load_jobs(Workshop& workshop, std::optional<AskedNumber> const& asked) {
  static std::string const all =
      "SELECT j.id, a.quote, a.price, a.to_pay, a.deposit, a.needed_on, "
      "(SELECT on_date FROM job_agreed f WHERE f.job = j.id AND " +
      first_agreed("f") + ") FROM job j JOIN job_agreed a ON a.job = j.id AND " + last_agreed("a");
  constexpr std::string_view newest_first = " ORDER BY j.id DESC";
  static std::string const every = all + std::string(newest_first);
  static std::string const by_number =
      all + " WHERE j.commission IN " + std::string(asked_commissions) + std::string(newest_first);
  Statement select(workshop.connection(), asked ? by_number : every);
  if (asked) select.bind(asked->count, asked->year_of_century);
  std::vector<JobHeader> jobs;
  while (select.step()) {
    JobHeader& job = jobs.emplace_back();
    std::int64_t quote = 0;
    select.read(job.id, quote, job.price, job.to_pay, job.deposit, job.needed_on, job.since);
    job.kept = job.price;
    job.quote = load_header(workshop, quote);
    job.number = job_number(job.quote.number);
    job.paid = load_paid(workshop.connection(), job.id);
    load_state(workshop.connection(), job);
  }
  return jobs;
}

Fault unknown(Workshop& workshop, std::string_view number, std::vector<JobHeader> const& several) {
  Fault fault{
      FaultCode::unknown_code, {"", 0, 0, "job"}, std::string(number), "a job's number, such as 26-014", {}};
  std::vector<std::string> numbers;
  if (several.empty()) {
    for (JobHeader const& job : load_jobs(workshop, std::nullopt)) numbers.push_back(job.number);
    fault.near = near_codes(number, numbers);
    return fault;
  }
  fault.expected = "a number with its year";
  for (JobHeader const& job : several) fault.near.push_back(job.number);
  return fault;
}

std::string agreed_at(std::string const& end, std::string const& alias) {
  return alias + ".id = (SELECT " + end + "(id) FROM job_agreed s WHERE s.job = " + alias + ".job AND " +
         standing("job_agreed", "s") + ")";
}

}  // namespace

std::string standing(std::string_view table, std::string_view alias) {
  std::string const row(alias);
  return row + ".undoes IS NULL AND NOT EXISTS (SELECT 1 FROM " + std::string(table) +
         " undoing WHERE undoing.undoes = " + row + ".id)";
}

std::string last_agreed(std::string const& alias) { return agreed_at("max", alias); }
std::string first_agreed(std::string const& alias) { return agreed_at("min", alias); }

std::string job_number(QuoteNumber number) {
  std::string text = number_text(number);
  text.pop_back();
  return text;
}

std::int64_t commission_of(Connection& connection, std::int64_t quote) {
  Statement select(connection, "SELECT commission FROM quote WHERE id = ?");
  if (!select.bind(quote).step()) throw std::out_of_range("no quote " + std::to_string(quote));
  return select.value<std::int64_t>();
}

std::optional<std::int64_t> standing_job(Connection& connection, std::int64_t commission) {
  static std::string const sql = "SELECT j.id FROM job j JOIN job_agreed a ON a.job = j.id AND " +
                                 standing("job_agreed", "a") + " WHERE j.commission = ? LIMIT 1";
  Statement select(connection, sql);
  if (!select.bind(commission).step()) return std::nullopt;
  return select.value<std::int64_t>();
}

std::vector<CustodyLot> lots_in_custody(Connection& connection, JobHeader const& job) {
  Statement select(
      connection,
      "SELECT l.id, l.material, l.mark || l.number, s.quantity, s.moved_on FROM lot l "
      "JOIN lot_state s ON s.lot = l.id AND s.quantity > 0 WHERE l.source = 'custody' AND (l.job = ?1 OR "
      "l.job IS NULL AND l.owner = (SELECT customer FROM quote WHERE id = ?2) AND "
      "l.material IN (SELECT material FROM quote_bill WHERE quote = ?2)) ORDER BY l.id");
  select.bind(job.id, job.quote.id);
  std::vector<CustodyLot> lots;
  while (select.step()) {
    CustodyLot& lot = lots.emplace_back();
    select.read(lot.lot, lot.material, lot.mark, lot.quantity, lot.moved_on);
  }
  return lots;
}

bool quoted_custody_here(Connection& connection, JobHeader const& job) {
  static std::string const sql =
      "SELECT 1 FROM quote_custody WHERE quote = ?2 AND NOT EXISTS (SELECT 1 FROM job_event e WHERE e.job = "
      "?1 "
      "AND e.event = 'given-back' AND " +
      standing("job_event", "e") + ") LIMIT 1";
  Statement select(connection, sql);
  return select.bind(job.id, job.quote.id).step();
}

std::string_view job_state_name(JobState state) { return state_names.at(static_cast<std::size_t>(state)); }

std::vector<JobHeader> list_jobs(Workshop& workshop, bool ended_too) {
  std::vector<JobHeader> jobs = load_jobs(workshop, std::nullopt);
  if (!ended_too) std::erase_if(jobs, [](JobHeader const& job) { return job.ended.has_value(); });
  return jobs;
}

Read<JobHeader> find_job(Workshop& workshop, std::string_view number) {
  std::vector<JobHeader> found;
  if (auto const asked = read_number(number); asked && !asked->issue) found = load_jobs(workshop, asked);
  if (found.size() == 1) return std::move(found.front());
  return refuse(unknown(workshop, number, found));
}

int days_held(Workshop& workshop, JobHeader const& job, Date on) {
  static std::string const sql =
      "SELECT e.on_date, (SELECT min(l.on_date) FROM job_event l WHERE l.job = e.job AND l.gate = e.gate AND "
      "l.id > e.id AND l.event = 'approved' AND " +
      standing("job_event", "l") +
      ") FROM job_event e WHERE e.job = ? AND e.event = 'held' AND e.on_date <= ? AND " +
      standing("job_event", "e") + " ORDER BY e.on_date, e.id";
  Statement select(workshop.connection(), sql);
  select.bind(job.id, on);
  std::chrono::days sum{0};
  Date counted{};  // until that day all is
  while (select.step()) {
    Date held;
    std::optional<Date> approved;
    select.read(held, approved);
    Date const until = std::min(approved.value_or(on), on);
    Date const from = std::max(held, counted);
    if (until > from) sum += until - from;
    counted = std::max(counted, until);
  }
  return static_cast<int>(sum.count());
}

std::vector<Payment> payments(Workshop& workshop, JobHeader const& job) {
  static std::string const sql = "SELECT on_date, amount, words FROM job_payment p WHERE job = ? AND " +
                                 standing("job_payment", "p") + " ORDER BY id";
  Statement select(workshop.connection(), sql);
  select.bind(job.id);
  std::vector<Payment> all;
  while (select.step()) {
    Payment& payment = all.emplace_back();
    select.read(payment.on, payment.amount, payment.words);
  }
  return all;
}

JobRecord load_record(Workshop& workshop, JobHeader const& job) {
  Connection& connection = workshop.connection();
  JobRecord record;
  record.taken = load_taken(connection, job.id);
  record.without = load_without(connection, job.id);
  record.worked = load_worked(connection, job.id);
  record.billed = load_billed(connection, job.id);
  record.gates = load_gates(connection, job.id);
  record.paid = load_paid(connection, job.id);
  record.to_pay = job.to_pay;
  record.custody_here = quoted_custody_here(connection, job) || !lots_in_custody(connection, job).empty();
  return record;
}

}  // namespace endband::db
