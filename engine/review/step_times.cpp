#include "engine/review/step_times.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace endband {
namespace {

using JobStep = std::pair<OperationKind, std::size_t>;  // by operation, then by job

double decimal(Ratio value) { return static_cast<double>(value.num()) / static_cast<double>(value.den()); }

// All lines of one step in one job.
struct Quoted {
  double seconds = 0;
  Count count;
  std::int64_t version = 0;
  Part part{};
};

std::map<JobStep, Quoted> by_step(std::span<QuotedStep const> lines) {
  std::map<JobStep, Quoted> steps;
  for (QuotedStep const& line : lines) {
    auto const [at, first] = steps.try_emplace({line.operation, line.job});
    Quoted& step = at->second;
    if (first) step.part = line.part;
    step.seconds += decimal(line.seconds);
    step.count.n += line.count.n;
    step.version = line.version;
  }
  return steps;
}

double timed_now(Quoted const& quoted, StepTimes const& then, Step const& now) {
  double const was = decimal(time_of(then.set_up, then.each, quoted.count, true));
  double const is = decimal(time_of(mean_of(now.set_up), mean_of(now.each), quoted.count, true));
  return was > 0 ? quoted.seconds * is / was : 0;
}

}  // namespace

Ratio time_of(Ratio set_up, Ratio each, Count count, bool with_set_up) {
  Ratio const run = each * Ratio(count.n, 1000);
  return with_set_up ? set_up + run : run;
}

StepsSeen steps_seen(std::span<ToldStep const> told, std::span<QuotedStep const> quoted,
                     std::span<StepTimes const> quoted_with, StepLibrary const& now) {
  std::map<JobStep, std::int64_t> seconds;
  std::set<std::pair<std::size_t, Part>> parts;
  std::set<std::size_t> jobs_by_part;
  for (ToldStep const& each : told) {
    if (each.operation) {
      seconds[{*each.operation, each.job}] += each.time.n;
      continue;
    }
    parts.emplace(each.job, *each.part);
    jobs_by_part.insert(each.job);
  }
  std::map<std::int64_t, StepTimes> versions;
  for (StepTimes const& each : quoted_with) versions.emplace(each.version, each);
  std::map<JobStep, Quoted> const lines = by_step(quoted);
  StepIndex const library(now);
  StepsSeen result;
  result.jobs_by_part = static_cast<std::int64_t>(jobs_by_part.size());
  for (auto const& [at, worked] : seconds) {
    auto const line = lines.find(at);
    Step const* const step = library.find(at.first);
    if (line == lines.end() || step == nullptr || parts.contains({at.second, line->second.part})) continue;
    double const believed = timed_now(line->second, versions.at(line->second.version), *step);
    if (believed <= 0) continue;
    if (result.steps.empty() || result.steps.back().operation != at.first)
      result.steps.push_back({at.first, {}, {}});
    result.steps.back().jobs.push_back(at.second);
    result.steps.back().times.push_back({believed, static_cast<double>(worked)});
  }
  return result;
}

}  // namespace endband
