// A job as the binder looks at it: what was agreed, what it has taken, worked and cost so far beside what was
// quoted, and what is still to do. Read once, shown by several commands.
#pragma once

#include "cli/command/args.h"
#include "cli/command/command.h"
#include "cli/command/context.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "db/jobs.h"

#include <string>
#include <vector>

namespace endband::cli {

// A material of the job: quoted, taken, and what is to take against what the shelf has for it.
struct MaterialSeen {
  Material material;
  MaterialBeside beside;
  bool customers = false;  // the customer brings it
  bool without = false;    // said to be not needed after all
  Amount to_take{};        // of what is needed, what was not taken yet; nothing once it is said to be without
  Amount set_aside{};      // for this job
  Amount short_of{};       // of to_take, what the shelf cannot give
};

struct JobSeen {
  db::JobHeader job;
  FrozenQuote agreed;
  JobRecord record;
  ActualCost cost;
  Money sale;  // what it takes: as told by `job sold`, else as quoted
  std::vector<MaterialSeen> materials;
  std::vector<WorkBeside> work;
  std::vector<StillOpen> open;
  Date on;

  bool ended() const { return job.ended.has_value(); }
  Money due() const { return job.to_pay - job.paid; }
  // What may come back is allowed for until it does not.
  Money left_quoted() const {
    Money const left = job.price - agreed.sheet.total - sale_costs(agreed);
    return agreed.selling.outlet ? left - agreed.offer.walk.returns : left;
  }
  Money left_now() const { return job.kept - cost.total - sale; }
};
// Faults: unknown_code, at the word that named the job.
Read<JobSeen> see_job(db::Workshop& workshop, Args const& args, Date on);
Read<db::JobHeader> job_meant(db::Workshop& workshop, Args const& args);  // the first word
inline constexpr Word job_word{"NUMBER", FlagType::job,
                               "the job's number: 26-014, or 14 while one year only has it"};

Json job_json(db::JobHeader const& job);
Json cost_now_json(ActualCost const& cost);
Json quoted_cost_json(CostSheet const& sheet);
Json seen_json(JobSeen const& seen);  // an object: the whole of it

std::string work_words(WorkBeside const& work);  // "sew the sections on the supports", "sewing, all of it"
std::string open_words(StillOpen const& open);   // "linen-25-3: neither taken nor said to be without"
std::string due_words(Money due);  // "40.00 EUR still due", "paid in full", "12.00 EUR paid too much"
Money hourly(Money left, Money labour,
             Ratio seconds);  // what an hour earned: (left + labour) / hours; 0 of no hours

Table cost_table(JobSeen const& seen,
                 std::string now);  // cost quoted beside cost now, and what is left of the price
void add_work(Document& document, JobSeen const& seen);  // hours quoted beside worked
void add_open(Document& document, JobSeen const& seen);  // what is to be done before it can be finished

// What every command of a job says first: "Job 26-014, Hollow Tides, for Ida Quill".
std::string job_title(db::JobHeader const& job);

}  // namespace endband::cli
