// What past jobs took, beside what was believed of it: hours of a step, spoil of a material, enquiries.
#include "db/frozen.h"
#include "db/job_rows.h"
#include "db/past.h"
#include "db/statement.h"
#include "db/steps.h"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

namespace endband::db {
namespace {

using Places = std::unordered_map<std::int64_t, std::size_t>;  // of jobs in a list of them

Places places_of(std::span<PastJob const> jobs) {
  Places places;
  for (std::size_t i = 0; i < jobs.size(); ++i) places.emplace(jobs[i].job, i);
  return places;
}

std::vector<ToldStep> load_told(Workshop& workshop, Places const& places) {
  static std::string const sql = "SELECT job, operation, part, sum(seconds) FROM job_time t WHERE " +
                                 standing("job_time", "t") + " GROUP BY job, operation, part";
  Statement select(workshop.connection(), sql);
  std::vector<ToldStep> told;
  while (select.step()) {
    std::int64_t job = 0;
    std::string operation, part;
    ToldStep row;
    select.read(job, operation, part, row.time);
    auto const place = places.find(job);
    if (place == places.end()) continue;
    row.job = place->second;
    if (operation.empty())
      row.part = from_word<Part>(part);
    else
      row.operation = from_word<OperationKind>(operation);
    told.push_back(row);
  }
  return told;
}

std::vector<QuotedStep> load_quoted(Workshop& workshop, Places const& places) {
  static std::string const sql =
      "SELECT a.job, w.operation, w.part, w.step_version, w.count, w.mean_s_num, w.mean_s_den FROM "
      "job_agreed a JOIN quote_work w ON w.quote = a.quote WHERE w.step_version IS NOT NULL AND " +
      last_agreed("a");
  Statement select(workshop.connection(), sql);
  std::vector<QuotedStep> quoted;
  while (select.step()) {
    std::int64_t job = 0;
    QuotedStep row;
    select.read(job, row.operation, row.part, row.version, row.count, row.seconds);
    auto const place = places.find(job);
    if (place == places.end()) continue;
    row.job = place->second;
    quoted.push_back(row);
  }
  return quoted;
}

}  // namespace

StepsSeen load_steps_seen(Workshop& workshop, std::span<PastJob const> jobs, StepLibrary const& now) {
  Places const places = places_of(jobs);
  return steps_seen(load_told(workshop, places), load_quoted(workshop, places), load_step_times(workshop),
                    now);
}

std::vector<SpoilSeen> load_spoil_seen(Workshop& workshop, std::span<PastJob const> jobs) {
  std::unordered_set<std::int64_t> wanted;
  for (PastJob const& job : jobs) wanted.insert(job.job);
  auto const quoted_of = [](std::string const& column) {
    return "ifnull((SELECT sum(b." + column +
           ") FROM quote_bill b JOIN job_agreed a ON a.quote = b.quote WHERE a.job = m.job AND b.material = "
           "m.material AND " +
           last_agreed("a") + "), 0)";
  };
  static std::string const sql =
      "SELECT m.job, m.material, -sum(m.quantity), -sum(iif(m.kind = 'spoiled', m.quantity, 0)), " +
      quoted_of("spoil") + ", " + quoted_of("net") +
      " FROM movement m JOIN lot l ON l.id = m.lot WHERE m.job IS NOT NULL AND l.source <> 'custody' AND "
      "m.kind IN ('used', 'cut-away', 'spoiled', 'kept') GROUP BY m.material, m.job ORDER BY m.material, "
      "m.job";
  Statement select(workshop.connection(), sql);
  std::vector<SpoilSeen> all;
  while (select.step()) {
    std::int64_t job = 0, taken = 0, spoiled = 0, quoted = 0, net = 0;
    MaterialId material;
    select.read(job, material, taken, spoiled, quoted, net);
    if (!wanted.contains(job) || taken <= 0) continue;
    if (all.empty() || all.back().material != material) all.emplace_back().material = material;
    SpoilSeen& of = all.back();
    ++of.taken;
    if (quoted > 0)
      of.times.push_back(
          {static_cast<double>(quoted), static_cast<double>(std::max<std::int64_t>(0, spoiled))});
    if (net > 0 && 2 * (spoiled - quoted) >= net) ++of.ruined;
  }
  return all;
}

EnquiriesSeen load_enquiries_seen(Workshop& workshop, std::optional<Date> since, Date on) {
  static std::string const sql =
      "SELECT count(*), ifnull(sum(won), 0) FROM (SELECT EXISTS (SELECT 1 FROM job j JOIN job_agreed a ON "
      "a.job = j.id AND " +
      standing("job_agreed", "a") +
      " WHERE j.commission = q.commission) AS won, max(q.valid_until) AS until, min(q.on_date) AS began FROM "
      "quote q WHERE " +
      std::string(not_withdrawn) +
      " GROUP BY q.commission) WHERE (?1 IS NULL OR began >= ?1) AND (won OR until < ?2)";
  Statement select(workshop.connection(), sql);
  EnquiriesSeen seen;
  if (select.bind(since, on).step()) select.read(seen.quoted, seen.taken);
  return seen;
}

}  // namespace endband::db
