// Quotes that move on, and the jobs that accepted ones become.
#pragma once

#include "db/quotes.h"
#include "db/stock.h"
#include "engine/job/job.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// --- quotes
enum class QuoteState : std::uint8_t { open, sent, accepted, declined, lapsed, revised, withdrawn };
std::string_view quote_state_name(QuoteState state);
struct QuoteEvent {
  std::string event;  // "sent"
  Date on;
  std::string words;
};
QuoteState quote_state(Workshop& workshop, std::int64_t quote, Date valid_until, Date on);
std::vector<QuoteEvent> quote_events(Workshop& workshop, std::int64_t quote);
// The latest event stands; without one, or once sent, a quote lapses after its last day. One that was taken
// back is withdrawn, and stays so. Faults rule_refused: of a day before the quote's; a quote that was
// accepted, declined or revised, or has lapsed, is not sent; an accepted or revised one is not declined; an
// accepted, revised or lapsed one is not accepted, nor a second issue of a commission that is a job already.
// One that was declined may still be accepted while it holds.
Read<std::int64_t> quote_send(Writing& writing, QuoteHeader const& quote, Date on, std::string_view words);
Read<std::int64_t> quote_decline(Writing& writing, QuoteHeader const& quote, Date on, std::string_view words);

struct AcceptedJob {
  std::int64_t job = 0;
  std::string number;  // "26-014"
  Money deposit;
  std::vector<Reserved> reserved;  // in the bill's order
};
// Sets aside what lies on the shelf of all that the bill needs; what the customer supplies is not set aside.
Read<AcceptedJob> quote_accept(Writing& writing, QuoteHeader const& quote, Date on,
                               std::optional<Date> needed_on);

// --- jobs
enum class JobState : std::uint8_t { open, held, finished, cancelled };
std::string_view job_state_name(JobState state);
struct JobHeader {
  std::int64_t id = 0;
  std::string number;  // "26-014"
  QuoteHeader quote;   // agreed on now
  Date since;
  std::optional<Date> needed_on;
  JobState state = JobState::open;
  std::optional<Date> ended;
  Money price, to_pay, deposit, paid;  // of a job called off: to_pay and kept are what was settled
  Money kept;                          // of the price, without tax
};
std::vector<JobHeader> list_jobs(Workshop& workshop, bool ended_too);  // newest first
Read<JobHeader> find_job(Workshop& workshop,
                         std::string_view number);  // "26-014", "14"; unknown_code with near numbers
JobRecord load_record(Workshop& workshop, JobHeader const& job);
// What the customer paid and was given back (negative), in the order it was told; what was undone is not
// there.
struct Payment {
  Date on;
  Money amount;
  std::string words;
};
std::vector<Payment> payments(Workshop& workshop, JobHeader const& job);
// Days until `on` on which at least one gate was held: from the day it was, to the day it was approved.
int days_held(Workshop& workshop, JobHeader const& job, Date on);

// All of these refuse a job that has ended (rule_refused), but payments and what goes home: the balance comes
// with the finished book, and a job that is called off leaves both to be given back. They refuse a header
// that no longer holds (changed_meanwhile). Negative time corrects, of no more than was told; a negative
// payment is given back, of no more than was paid.
Read<std::int64_t> add_time(Writing& writing, JobHeader const& job, std::optional<OperationKind> operation,
                            std::optional<Part> part, Duration time,
                            std::optional<std::pair<std::string, std::string>> clock, Date on,
                            std::string_view words);
// Nothing of the operation or part is left to do; said once.
Read<std::int64_t> say_finished(Writing& writing, JobHeader const& job,
                                std::optional<OperationKind> operation, std::optional<Part> part, Date on);
Read<std::int64_t> add_payment(Writing& writing, JobHeader const& job, Money amount, Date on,
                               std::string_view words);
Read<std::int64_t> add_billed(Writing& writing, JobHeader const& job, std::string_view words, Money price,
                              Date on);
Read<std::int64_t> say_without(Writing& writing, JobHeader const& job, std::string_view code);
// Everything of the customer's goes home: what the quote has in custody, and what is left of the lots in
// custody for this job, or of the customer's unassigned ones of materials in its bill.
Read<std::int64_t> give_back_custody(Writing& writing, JobHeader const& job, Date on, std::string_view words);
// A gate is held once until it is approved; approved when it is held. Faults: rule_refused, unknown_code with
// the gates held.
Read<std::int64_t> hold(Writing& writing, JobHeader const& job, std::string_view gate, Date on,
                        std::string_view words);
Read<std::int64_t> approve(Writing& writing, JobHeader const& job, std::string_view gate, Date on,
                           std::string_view words);
// Both end the job: what is still set aside is let go. Not dated before the last that was recorded of the
// job. `finish` refuses, all at once, each point that is still open.
Read<ActualCost> finish(Writing& writing, JobHeader const& job, FrozenQuote const& agreed, Date on);
Read<Settlement> cancel(Writing& writing, JobHeader const& job, FrozenQuote const& agreed,
                        std::optional<Money> keeps, Date on, std::string_view words);
// The job goes on by another issue of its commission, already saved, at the price of the change: that one is
// now accepted, the one before revised, and set aside is what the new bill needs beyond what the job holds.
Read<std::int64_t> change_agreed(Writing& writing, JobHeader const& job, QuoteHeader const& now,
                                 Change const& change, Date on, std::string_view words);

// A new issue of a commission: "26-014c" beside earlier ones, which are then `revised`, all but one that was
// accepted (change_agreed decides on that). Faults: rule_refused after issue z.
Read<QuoteHeader> save_issue(Writing& writing, QuoteHeader const& of, Date valid_until,
                             FrozenQuote const& quote);

}  // namespace endband::db
