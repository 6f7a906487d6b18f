// Jobs: each can be reckoned, and one that has ended has one result of its end, which is what its rows give
// when they are reckoned again.
#include "db/check.h"
#include "db/frozen.h"
#include "db/job_rows.h"
#include "db/statement.h"

#include <array>
#include <utility>

namespace endband::db {
namespace {

struct Result {
  std::int64_t id = 0;
  ActualCost cost;
  Money kept, to_pay;
};

std::optional<Result> standing_result(Connection& connection, JobHeader const& job) {
  static std::string const sql =
      "SELECT id, materials, labour, overhead, outside, total, seconds, kept, to_pay FROM job_result r "
      "WHERE job = ? AND " +
      standing("job_result", "r") + " ORDER BY id DESC LIMIT 1";
  Statement select(connection, sql);
  if (!select.bind(job.id).step()) return std::nullopt;
  Result result;
  ActualCost& cost = result.cost;
  select.read(result.id, cost.materials, cost.labour, cost.overhead, cost.outside, cost.total, cost.time,
              result.kept, result.to_pay);
  return result;
}

void check_cost(Findings& findings, Result const& result, ActualCost const& due) {
  ActualCost const& cost = result.cost;
  for (auto const& [what, found, expected] : {std::tuple{"materials of", cost.materials, due.materials},
                                              {"labour of", cost.labour, due.labour},
                                              {"overhead of", cost.overhead, due.overhead},
                                              {"work by others of", cost.outside, due.outside},
                                              {"a cost of", cost.total, due.total}})
    findings.hold("job_result", result.id, what, found, expected, "as the job's rows give");
  if (cost.time != due.time)
    findings.add("job_result", result.id, "hours of " + duration_text(cost.time),
                 duration_text(due.time) + ", as the job's rows give");
}

// What is kept of a job that was called off is the workshop's to say; the tax on it is not.
void check_settled(Findings& findings, Result const& result, FrozenQuote const& agreed,
                   JobRecord const& record) {
  if (result.kept.minor < 0) {
    findings.add("job_result", result.id, "keeps " + money_text(result.kept), "nothing or more");
    return;
  }
  Settlement const due = settle_cancelled(agreed, record, result.kept);
  findings.hold("job_result", result.id, "to pay", result.to_pay, due.keeps + due.tax,
                "what is kept and the tax on it");
}

void check_result(Findings& findings, JobHeader const& job, FrozenQuote const& agreed,
                  JobRecord const& record) {
  std::optional<Result> const result = standing_result(findings.connection(), job);
  if (!result) return;  // told by check_ends
  check_cost(findings, *result, actual_cost(agreed, record));
  if (job.state == JobState::cancelled) {
    check_settled(findings, *result, agreed, record);
    return;
  }
  findings.hold("job_result", result->id, "keeps", result->kept, job.price, "as the job was agreed on");
  findings.hold("job_result", result->id, "to pay", result->to_pay, job.to_pay, "as the job was agreed on");
}

// Of one that goes on too: what it cost so far, and what is due of it, is told wherever it is looked at.
void check_job(Findings& findings, JobHeader const& job) {
  findings.look_at("job", job.number, [&] {
    FrozenQuote const agreed = load_frozen(findings.connection(), job.quote.id);
    JobRecord const record = load_record(findings.workshop, job);
    (void)(job.price - actual_cost(agreed, record).total);
    (void)(job.to_pay - job.paid);
    if (job.ended) check_result(findings, job, agreed, record);
  });
}

// The end of a job and its result are written together.
void check_ends(Findings& findings) {
  std::string const ends =
      "job_event e WHERE e.event IN ('finished', 'cancelled') AND " + standing("job_event", "e");
  std::string const results = "job_result r WHERE " + standing("job_result", "r");
  Statement without(findings.connection(), "SELECT e.id FROM " + ends + " AND NOT EXISTS (SELECT 1 FROM " +
                                               results + " AND r.job = e.job AND r.entry = e.entry)");
  while (without.step())
    findings.add("job_event", without.value<std::int64_t>(), "ends a job without its result",
                 "a row of job_result");
  Statement stray(findings.connection(), "SELECT r.id FROM " + results + " AND NOT EXISTS (SELECT 1 FROM " +
                                             ends + " AND e.job = r.job AND e.entry = r.entry)");
  while (stray.step())
    findings.add("job_result", stray.value<std::int64_t>(), "is of a job that did not end then",
                 "written with the end of its job");
}

}  // namespace

void check_jobs(Findings& findings) {
  check_ends(findings);
  if (!job_sums_add_up(findings)) return;
  for (JobHeader const& job : list_jobs(findings.workshop, true)) check_job(findings, job);
}

}  // namespace endband::db
