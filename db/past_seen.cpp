// What past jobs took, beside what was believed of it: hours of a step, spoil of a material, enquiries.
#include "db/job_rows.h"
#include "db/past.h"
#include "db/statement.h"

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>
#include <unordered_set>

namespace endband::db {
namespace {

double decimal(Ratio value) { return static_cast<double>(value.num()) / static_cast<double>(value.den()); }

struct MeanTimes {  // of a version of a step, in seconds
  double set_up = 0, each = 0;
  double of(double count) const { return set_up + count * each; }
};

MeanTimes mean_times(Spread3 const& set_up, Spread3 const& each) {
  return {decimal(mean_of(set_up)), decimal(mean_of(each))};
}

std::unordered_map<std::int64_t, MeanTimes> all_versions(Workshop& workshop) {
  Statement select(workshop.connection(),
                   "SELECT id, set_up_low_s, set_up_likely_s, set_up_high_s, each_low_s, each_likely_s, "
                   "each_high_s FROM step_version");
  std::unordered_map<std::int64_t, MeanTimes> versions;
  while (select.step()) {
    std::int64_t id = 0;
    Spread3 set_up, each;
    select.read(id, set_up.low, set_up.likely, set_up.high, each.low, each.likely, each.high);
    versions.emplace(id, mean_times(set_up, each));
  }
  return versions;
}

struct QuotedStep {
  double seconds = 0, count = 0;
  std::int64_t version = 0;
};

// Of one job: what was told, and what was quoted of each step.
struct JobTimes {
  std::map<OperationKind, double> told;
  std::set<Part> parts_told;
  std::map<OperationKind, QuotedStep> quoted;
  std::map<OperationKind, Part> part_of;
};

using JobsTimes = std::unordered_map<std::int64_t, JobTimes>;

void add_told(Workshop& workshop, JobsTimes& jobs) {
  static std::string const sql = "SELECT job, operation, part, sum(seconds) FROM job_time t WHERE " +
                                 standing("job_time", "t") + " GROUP BY job, operation, part";
  Statement select(workshop.connection(), sql);
  while (select.step()) {
    std::int64_t job = 0, seconds = 0;
    std::string operation, part;
    select.read(job, operation, part, seconds);
    auto const found = jobs.find(job);
    if (found == jobs.end()) continue;
    if (operation.empty())
      found->second.parts_told.insert(from_word<Part>(part));
    else
      found->second.told[from_word<OperationKind>(operation)] += static_cast<double>(seconds);
  }
}

void add_quoted(Workshop& workshop, JobsTimes& jobs) {
  static std::string const sql =
      "SELECT a.job, w.operation, w.part, w.step_version, w.count, w.mean_s_num, w.mean_s_den FROM "
      "job_agreed a "
      "JOIN quote_work w ON w.quote = a.quote WHERE w.step_version IS NOT NULL AND a.id = (SELECT max(id) "
      "FROM "
      "job_agreed s WHERE s.job = a.job AND " +
      standing("job_agreed", "s") + ")";
  Statement select(workshop.connection(), sql);
  while (select.step()) {
    std::int64_t job = 0, version = 0;
    OperationKind kind{};
    Part part{};
    Count count{};
    Ratio seconds;
    select.read(job, kind, part, version, count, seconds);
    auto const found = jobs.find(job);
    if (found == jobs.end()) continue;
    QuotedStep& step = found->second.quoted[kind];
    step.seconds += decimal(seconds);
    step.count += static_cast<double>(count.n) / 1000;
    step.version = version;
    found->second.part_of.emplace(kind, part);
  }
}

// Quoted then, as it would be timed now: the same count at today's times.
std::optional<double> timed_now(QuotedStep const& quoted, MeanTimes const& then, Step const& now) {
  double const was = then.of(quoted.count);
  if (was <= 0) return std::nullopt;
  return quoted.seconds * mean_times(now.set_up, now.each).of(quoted.count) / was;
}

}  // namespace

StepsSeen load_steps_seen(Workshop& workshop, std::span<PastJob const> jobs, StepLibrary const& now) {
  JobsTimes times;
  for (PastJob const& job : jobs) times.try_emplace(job.job);
  add_told(workshop, times);
  add_quoted(workshop, times);
  auto const versions = all_versions(workshop);
  std::map<OperationKind, StepSeen> seen;
  StepsSeen result;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    JobTimes const& job = times.at(jobs[i].job);
    if (!job.parts_told.empty()) ++result.jobs_by_part;
    for (auto const& told : job.told) {
      auto const quoted = job.quoted.find(told.first);
      Step const* const step = now.find(told.first);
      if (quoted == job.quoted.end() || step == nullptr) continue;
      if (job.parts_told.contains(job.part_of.at(told.first))) continue;  // told with its part, too
      auto const believed = timed_now(quoted->second, versions.at(quoted->second.version), *step);
      if (!believed || *believed <= 0) continue;
      StepSeen& of = seen[told.first];
      of.operation = told.first;
      of.jobs.push_back(i);
      of.times.push_back({*believed, told.second});
    }
  }
  for (auto& each : seen) result.steps.push_back(std::move(each.second));
  return result;
}

std::vector<SpoilSeen> load_spoil_seen(Workshop& workshop, std::span<PastJob const> jobs) {
  std::unordered_set<std::int64_t> wanted;
  for (PastJob const& job : jobs) wanted.insert(job.job);
  static std::string const sql =
      "SELECT m.job, m.material, -sum(m.quantity), -sum(iif(m.kind = 'spoiled', m.quantity, 0)), "
      "ifnull((SELECT sum(b.spoil) FROM quote_bill b JOIN job_agreed a ON a.quote = b.quote WHERE a.job = "
      "m.job "
      "AND b.material = m.material AND a.id = (SELECT max(id) FROM job_agreed s WHERE s.job = a.job AND " +
      standing("job_agreed", "s") +
      ")), 0), ifnull((SELECT sum(b.net) FROM quote_bill b JOIN job_agreed a ON a.quote = b.quote WHERE "
      "a.job = "
      "m.job AND b.material = m.material AND a.id = (SELECT max(id) FROM job_agreed s WHERE s.job = a.job "
      "AND " +
      standing("job_agreed", "s") +
      ")), 0) FROM movement m JOIN lot l ON l.id = m.lot WHERE m.job IS NOT NULL AND l.source <> 'custody' "
      "AND "
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
      "a.job "
      "= j.id AND " +
      standing("job_agreed", "a") +
      " WHERE j.commission = q.commission) AS won, max(q.valid_until) AS until, min(q.on_date) AS began FROM "
      "quote q JOIN entry e ON e.seq = q.entry WHERE NOT EXISTS (SELECT 1 FROM entry u WHERE u.undoes = "
      "e.seq) "
      "GROUP BY q.commission) WHERE (?1 IS NULL OR began >= ?1) AND (won OR until < ?2)";
  Statement select(workshop.connection(), sql);
  EnquiriesSeen seen;
  if (select.bind(since, on).step()) select.read(seen.quoted, seen.taken);
  return seen;
}

}  // namespace endband::db
