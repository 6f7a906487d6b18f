#include "db/codes.h"
#include "db/job_rows.h"
#include "db/statement.h"

#include <algorithm>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace endband::db {
namespace {

// What was told so far of the operation or part.
std::int64_t seconds_told(Connection& connection, std::int64_t job, std::string_view operation,
                          std::string_view part) {
  static std::string const sql =
      "SELECT ifnull(sum(seconds), 0) FROM job_time t WHERE job = ? AND operation = ? AND part = ? AND " +
      standing("job_time", "t");
  Statement select(connection, sql);
  select.bind(job, operation, part).step();
  return select.value<std::int64_t>();
}

// The material of a line of the bill that the job is made by.
Read<MaterialId> quoted_material(Connection& connection, JobHeader const& job, std::string_view code) {
  Statement select(
      connection,
      "SELECT m.code, m.id FROM quote_bill b JOIN material m ON m.id = b.material WHERE b.quote = ?");
  select.bind(job.quote.id);
  std::vector<std::string> codes;
  while (select.step()) {
    MaterialId material;
    select.read(codes.emplace_back(), material);
    if (codes.back() == code) return material;
  }
  return refuse({FaultCode::unknown_code,
                 {"job use", 0, 0, "code"},
                 std::string(code),
                 "a material of the job's quote",
                 near_codes(code, codes)});
}

bool is_held(JobRecord const& record, std::string_view gate) {
  return std::any_of(record.gates.begin(), record.gates.end(),
                     [&](Gate const& each) { return each.name == gate; });
}

std::optional<Fault> without_name(std::string_view command, std::string field, std::string_view name) {
  if (name.find_first_not_of(' ') != std::string_view::npos) return std::nullopt;
  return Fault{FaultCode::bad_value,
               {"job " + std::string(command), 0, 0, std::move(field)},
               std::string(name),
               "words that say which",
               {}};
}

void give_back(Writing& writing, JobHeader const& job, CustodyLot const& lot, Date on,
               std::string_view words) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO movement (on_date, lot, material, kind, quantity, value, job, reason, entry) "
                   "VALUES (?, ?, ?, 'given-back', ?, 0, ?, ?, ?)");
  insert.bind(on, lot.lot, lot.material, -lot.quantity, job.id, words, writing.entry()).insert();
}

}  // namespace

Fault job_refused(std::string_view command, std::string field, std::string found, std::string reason) {
  return {FaultCode::rule_refused,
          {"job " + std::string(command), 0, 0, std::move(field)},
          std::move(found),
          std::move(reason),
          {}};
}

std::optional<Fault> changed(Workshop& workshop, JobHeader const& job, std::string_view command) {
  static std::string const sql = "SELECT quote FROM job_agreed a WHERE job = ? AND " +
                                 standing("job_agreed", "a") + " ORDER BY id DESC LIMIT 1";
  Statement select(workshop.connection(), sql);
  if (select.bind(job.id).step() && select.value<std::int64_t>() == job.quote.id) return std::nullopt;
  return Fault{FaultCode::changed_meanwhile,
               {"job " + std::string(command), 0, 0, "job"},
               job.number,
               "another changed what it is made by, or took it back",
               {}};
}

std::optional<Fault> not_open(Workshop& workshop, JobHeader const& job, std::string_view command) {
  if (auto fault = changed(workshop, job, command)) return fault;
  static std::string const sql =
      "SELECT event, on_date FROM job_event e WHERE job = ? AND event IN ('finished', 'cancelled') AND " +
      standing("job_event", "e") + " ORDER BY id DESC LIMIT 1";
  Statement select(workshop.connection(), sql);
  if (!select.bind(job.id).step()) return std::nullopt;
  std::string event, on;
  select.read(event, on);
  return job_refused(command, "job", job.number, "it was " + event + " on " + on);
}

std::int64_t add_job_event(Writing& writing, std::int64_t job, std::string_view event, std::string_view gate,
                           Date on, std::string_view words) {
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO job_event (job, event, gate, words, on_date, entry) VALUES (?, ?, ?, ?, ?, ?)");
  return insert.bind(job, event, gate, words, on, writing.entry()).insert();
}

std::int64_t add_agreed(Writing& writing, Agreed const& agreed) {
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO job_agreed (job, quote, on_date, price, to_pay, deposit, thrown_away, needed_on, words, "
      "entry) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  return insert
      .bind(agreed.job, agreed.quote, agreed.on, agreed.price, agreed.to_pay, agreed.deposit,
            agreed.thrown_away, agreed.needed_on, agreed.words, writing.entry())
      .insert();
}

Read<std::int64_t> add_time(Writing& writing, JobHeader const& job, std::optional<OperationKind> operation,
                            std::optional<Part> part, Duration time,
                            std::optional<std::pair<std::string, std::string>> clock, Date on,
                            std::string_view words) {
  if (operation.has_value() == part.has_value()) throw std::logic_error("time of an operation or of a part");
  Connection& connection = writing.workshop().connection();
  if (auto fault = not_open(writing.workshop(), job, "time")) return refuse(*std::move(fault));
  std::string const on_operation(operation ? word(*operation) : "");
  std::string const on_part(part ? word(*part) : "");
  std::int64_t const told = seconds_told(connection, job.id, on_operation, on_part);
  if (time.n == 0 || checked_add(told, time.n) < 0)
    return refuse({FaultCode::out_of_range,
                   {"job time", 0, 0, "time"},
                   duration_text(time),
                   time.n == 0 ? "a time that is not nothing"
                               : "a correction of no more than was told, " + duration_text({told}),
                   {}});
  std::optional<std::string> began, ended;
  if (clock) std::tie(began, ended) = *clock;
  Statement insert(
      connection,
      "INSERT INTO job_time (job, operation, part, seconds, began, ended, on_date, words, entry) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  return insert.bind(job.id, on_operation, on_part, time, began, ended, on, words, writing.entry()).insert();
}

Read<std::int64_t> say_finished(Writing& writing, JobHeader const& job,
                                std::optional<OperationKind> operation, std::optional<Part> part, Date on) {
  if (operation.has_value() == part.has_value()) throw std::logic_error("an operation or a part is finished");
  Workshop& workshop = writing.workshop();
  if (auto fault = not_open(workshop, job, "time")) return refuse(*std::move(fault));
  for (Worked const& worked : load_record(workshop, job).worked)
    if (worked.finished && worked.operation == operation && worked.part == part)
      return refuse(job_refused("time", "--finished", job.number, "it was said already"));
  Statement insert(workshop.connection(),
                   "INSERT INTO job_done (job, operation, part, on_date, entry) VALUES (?, ?, ?, ?, ?)");
  std::string const on_operation(operation ? word(*operation) : "");
  std::string const on_part(part ? word(*part) : "");
  return insert.bind(job.id, on_operation, on_part, on, writing.entry()).insert();
}

Read<std::int64_t> add_payment(Writing& writing, JobHeader const& job, Money amount, Date on,
                               std::string_view words) {
  Workshop& workshop = writing.workshop();
  if (auto fault = changed(workshop, job, "paid")) return refuse(*std::move(fault));
  Money const paid = load_record(workshop, job).paid;
  if (amount.minor == 0 || (paid + amount).minor < 0)
    return refuse({FaultCode::out_of_range,
                   {"job paid", 0, 0, "amount"},
                   money_text(amount),
                   amount.minor == 0 ? "an amount that is not nothing"
                                     : "given back, no more than the " + money_text(paid) + " paid",
                   {}});
  Statement insert(workshop.connection(),
                   "INSERT INTO job_payment (job, amount, words, on_date, entry) VALUES (?, ?, ?, ?, ?)");
  return insert.bind(job.id, amount, words, on, writing.entry()).insert();
}

Read<std::int64_t> add_billed(Writing& writing, JobHeader const& job, std::string_view words, Money price,
                              Date on) {
  if (auto fault = not_open(writing.workshop(), job, "use")) return refuse(*std::move(fault));
  if (auto fault = without_name("use", "--outside", words)) return refuse(*std::move(fault));
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO job_outside (job, words, price, on_date, entry) VALUES (?, ?, ?, ?, ?)");
  return insert.bind(job.id, words, price, on, writing.entry()).insert();
}

Read<std::int64_t> say_without(Writing& writing, JobHeader const& job, std::string_view code) {
  Workshop& workshop = writing.workshop();
  if (auto fault = not_open(workshop, job, "use")) return refuse(*std::move(fault));
  Read<MaterialId> const material = quoted_material(workshop.connection(), job, code);
  if (!material) return tl::unexpected(material.error());
  JobRecord const record = load_record(workshop, job);
  for (Holding const& holding : record.taken)
    if (holding.material == *material && holding.quantity() != 0)
      return refuse(job_refused("use", "--without", std::string(code),
                                "the job took " + amount_text({holding.dimension, holding.quantity()}) +
                                    " of it; endband job return " + job.number + " " + std::string(code)));
  if (std::find(record.without.begin(), record.without.end(), *material) != record.without.end())
    return refuse(job_refused("use", "--without", std::string(code), "it was said already"));
  Statement insert(workshop.connection(), "INSERT INTO job_without (job, material, entry) VALUES (?, ?, ?)");
  return insert.bind(job.id, *material, writing.entry()).insert();
}

Read<std::int64_t> give_back_custody(Writing& writing, JobHeader const& job, Date on,
                                     std::string_view words) {
  Workshop& workshop = writing.workshop();
  if (auto fault = changed(workshop, job, "return")) return refuse(*std::move(fault));
  std::vector<CustodyLot> const lots = lots_in_custody(workshop.connection(), job);
  if (lots.empty() && !quoted_custody_here(workshop.connection(), job))
    return refuse(job_refused("return", "job", job.number, "nothing of the customer's is here for it"));
  std::vector<Fault> faults;
  for (CustodyLot const& lot : lots)
    if (on < lot.moved_on)
      faults.push_back(job_refused("return", "--on", date_text(on),
                                   lot.mark + " last moved on " + date_text(lot.moved_on)));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  for (CustodyLot const& lot : lots) give_back(writing, job, lot, on, words);
  return add_job_event(writing, job.id, "given-back", "", on, words);
}

Read<std::int64_t> hold(Writing& writing, JobHeader const& job, std::string_view gate, Date on,
                        std::string_view words) {
  Workshop& workshop = writing.workshop();
  if (auto fault = not_open(workshop, job, "hold")) return refuse(*std::move(fault));
  if (auto fault = without_name("hold", "gate", gate)) return refuse(*std::move(fault));
  if (is_held(load_record(workshop, job), gate))
    return refuse(job_refused("hold", "gate", std::string(gate), "it is held already"));
  return add_job_event(writing, job.id, "held", gate, on, words);
}

Read<std::int64_t> approve(Writing& writing, JobHeader const& job, std::string_view gate, Date on,
                           std::string_view words) {
  Workshop& workshop = writing.workshop();
  if (auto fault = not_open(workshop, job, "approve")) return refuse(*std::move(fault));
  JobRecord const record = load_record(workshop, job);
  if (record.gates.empty())
    return refuse(
        job_refused("approve", "gate", std::string(gate), "nothing of job " + job.number + " is held"));
  for (Gate const& held : record.gates) {
    if (held.name != gate) continue;
    if (on < held.since)
      return refuse(job_refused("approve", "--on", date_text(on), "it was held on " + date_text(held.since)));
    return add_job_event(writing, job.id, "approved", gate, on, words);
  }
  std::vector<std::string> names;
  for (Gate const& held : record.gates) names.push_back(held.name);
  return refuse({FaultCode::unknown_code,
                 {"job approve", 0, 0, "gate"},
                 std::string(gate),
                 "a gate that is held",
                 names});
}

}  // namespace endband::db
