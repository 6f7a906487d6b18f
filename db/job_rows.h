// What the writers and readers of jobs and of quote events share, inside db/ only.
#pragma once

#include "db/jobs.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// A condition: row `alias` of `table` is no undoing and was not undone.
std::string standing(std::string_view table, std::string_view alias);
// Conditions: row `alias` of job_agreed is what its job was agreed on at last, or first.
std::string last_agreed(std::string const& alias);
std::string first_agreed(std::string const& alias);

std::string job_number(QuoteNumber number);  // "26-014"

// The job that a commission has become, once its acceptance stands.
std::optional<std::int64_t> standing_job(Connection& connection, std::int64_t commission);
std::int64_t commission_of(Connection& connection, std::int64_t quote);

// rule_refused of a command of jobs.
Fault job_refused(std::string_view command, std::string field, std::string found, std::string reason);
// The job is not what the header says any more (changed_meanwhile).
std::optional<Fault> changed(Workshop& workshop, JobHeader const& job, std::string_view command);
// Changed, or ended (rule_refused).
std::optional<Fault> not_open(Workshop& workshop, JobHeader const& job, std::string_view command);

std::int64_t add_quote_event(Writing& writing, std::int64_t quote, std::string_view event, Date on,
                             std::string_view words);
std::int64_t add_job_event(Writing& writing, std::int64_t job, std::string_view event, std::string_view gate,
                           Date on, std::string_view words);

struct Agreed {
  std::int64_t job = 0, quote = 0;
  Date on;
  Money price, to_pay, deposit, thrown_away;
  std::optional<Date> needed_on;
  std::string words;
};
std::int64_t add_agreed(Writing& writing, Agreed const& agreed);

// Sets aside all that the bill needs beyond what the job holds, in the bill's order.
Read<std::vector<Reserved>> reserve_bill(Writing& writing, std::int64_t job, FrozenQuote const& quote,
                                         std::vector<Holding> const& held, Date on);

// What is the customer's and still here: the lots of it.
struct CustodyLot {
  std::int64_t lot = 0;
  MaterialId material;
  std::string mark;
  std::int64_t quantity = 0;
  Date moved_on;
};
std::vector<CustodyLot> lots_in_custody(Connection& connection, JobHeader const& job);
bool quoted_custody_here(Connection& connection, JobHeader const& job);

}  // namespace endband::db
