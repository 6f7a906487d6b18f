// Jobs that have ended, looked back on: figures of many of them, and what one of them took.
#pragma once

#include "db/jobs.h"
#include "engine/review/difference.h"
#include "engine/review/lessons.h"
#include "engine/review/past.h"
#include "engine/review/step_times.h"
#include "engine/review/year.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// --- what the sale of a job's book really took
enum class SaleKind : std::uint8_t { fees, carriage, exchange, returned, tax };
inline constexpr std::size_t sale_kinds = 5;
std::string_view sale_kind_name(SaleKind kind);
// Of a finished job too: the bills come later. Faults: rule_refused of a job that was called off;
// out_of_range, nothing, or less than nothing in all.
Read<std::int64_t> add_sale(Writing& writing, JobHeader const& job, SaleKind kind, Money amount, Date on,
                            std::string_view words);
SaleTaken load_sale(Workshop& workshop, JobHeader const& job);

// --- many jobs
struct PastFilter {
  std::optional<Date> since, until;                      // of the day they ended, both included
  std::optional<std::string> binding, outlet, customer;  // an empty outlet: the workshop itself
};
struct Past {
  std::vector<PastJob> jobs;    // finished, by the day they ended
  std::int64_t called_off = 0;  // within the same days, whatever else is asked
  Money left_of_called_off;     // what was kept of them less what they had cost
};
Past load_past(Workshop& workshop, PastFilter const& filter);
void add_features(Workshop& workshop, std::span<PastJob> jobs);

StepsSeen load_steps_seen(Workshop& workshop, std::span<PastJob const> jobs, StepLibrary const& now);

std::vector<SpoilSeen> load_spoil_seen(Workshop& workshop, std::span<PastJob const> jobs);

// Quoted from `since` on, and of which it is known by `on` whether they were taken.
EnquiriesSeen load_enquiries_seen(Workshop& workshop, std::optional<Date> since, Date on);

// --- one job
std::vector<TakenOn> load_taken_on(Workshop& workshop, JobHeader const& job, BuyingRules const& buying);
AgreedFirst load_agreed_first(Workshop& workshop, JobHeader const& job);

// --- a stretch of time
struct Absorbed {  // by the jobs that ended within the days
  std::int64_t jobs = 0;
  Money overhead;
  Duration time;
};
Absorbed load_absorbed(Workshop& workshop, Date from, Date to);
std::vector<std::vector<InForceFrom>> load_overheads(Workshop& workshop);  // of each overhead.<name>
std::optional<Date> first_year_set(Workshop& workshop);  // from which the year's hours are said

}  // namespace endband::db
