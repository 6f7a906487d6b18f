// Jobs out to a spreadsheet, as whoever keeps the books asks for them. Jobs come in by workshop import.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/spreadsheet_columns.h"
#include "cli/commands/spreadsheets.h"

#include <algorithm>

namespace endband::cli {

std::vector<SpreadsheetColumn> job_columns() {
  return columns_of({
      {"--number", FlagType::code, "the job's number"},
      {"--quote", FlagType::code, "the quote agreed on now"},
      {"--customer", FlagType::code, "the customer's code; nobody for the shelf"},
      {"--title", FlagType::words, "of the book"},
      {"--state", FlagType::words, "open, held, finished or cancelled"},
      {"--accepted", FlagType::date, "the day on which it became a job"},
      {"--needed-on", FlagType::date, "the day it was promised for"},
      {"--ended", FlagType::date, "the day on which it was finished or called off"},
      {"--currency", FlagType::currency, "of all sums"},
      {"--price", FlagType::money, "without tax; of a job called off what is kept"},
      {"--carriage", FlagType::money, "without tax"},
      {"--tax", FlagType::money, "what is to pay beyond price and carriage"},
      {"--to-pay", FlagType::money, "price, carriage and tax"},
      {"--deposit", FlagType::money, "agreed"},
      {"--paid", FlagType::money, "so far, less what was given back"},
      {"--due", FlagType::money, "to pay less paid"},
      {"--hours", FlagType::number, "worked so far"},
      {"--materials", FlagType::money, "taken so far, at what they cost"},
      {"--labour", FlagType::money, "the hours at the rate agreed on"},
      {"--overhead", FlagType::money, "the hours at the overhead agreed on"},
      {"--outside", FlagType::money, "billed by others"},
      {"--cost", FlagType::money, "materials, labour, overhead and outside"},
      {"--sale", FlagType::money, "what the sale itself takes: fees, exchange and the like"},
      {"--left", FlagType::money, "price less cost and sale"},
  });
}

namespace {

std::string hours_decimal(Duration time) {
  std::int64_t const hundredths = mul_div(time.n, 100, 3600, Rounding::half_away);
  Ratio const hours(hundredths, 100);
  return percent_text(hours / Ratio(100), 2);
}

SheetFields row_of(JobSeen const& seen) {
  db::JobHeader const& job = seen.job;
  auto const day = [](std::optional<Date> date) { return date ? date_text(*date) : std::string(); };
  Money const none{0, job.kept.currency};
  // Of a job called off what is kept was settled as one sum.
  Money const carriage = job.state == db::JobState::cancelled ? none : seen.agreed.offer.carriage;
  return {{"number", job.number},
          {"quote", db::number_text(job.quote.number)},
          {"customer", job.quote.customer},
          {"title", job.quote.title},
          {"state", std::string(db::job_state_name(job.state))},
          {"accepted", date_text(job.since)},
          {"needed-on", day(job.needed_on)},
          {"ended", day(job.ended)},
          {"currency", std::string(job.kept.currency.code())},
          {"price", money_text(job.kept)},
          {"carriage", money_text(carriage)},
          {"tax", money_text(job.to_pay - job.kept - carriage)},
          {"to-pay", money_text(job.to_pay)},
          {"deposit", money_text(job.deposit)},
          {"paid", money_text(job.paid)},
          {"due", money_text(seen.due())},
          {"hours", hours_decimal(seen.cost.time)},
          {"materials", money_text(seen.cost.materials)},
          {"labour", money_text(seen.cost.labour)},
          {"overhead", money_text(seen.cost.overhead)},
          {"outside", money_text(seen.cost.outside)},
          {"cost", money_text(seen.cost.total)},
          {"sale", money_text(seen.sale)},
          {"left", money_text(seen.left_now())}};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  std::vector<db::JobHeader> jobs = db::list_jobs(**workshop, true);
  std::ranges::reverse(jobs);  // oldest first
  std::vector<SheetFields> rows;
  for (db::JobHeader const& job : jobs) {
    auto const seen = see_job(**workshop, Args("job export", {job.number}, {}), context.on);
    if (!seen) return tl::unexpected(seen.error());
    rows.push_back(row_of(*seen));
  }
  return exported(context, args, {"job", "jobs"}, job_columns(), rows);
}

std::string const about =
    std::string(export_about) +
    " All jobs stand in it, the oldest first, with what they have taken so far. Jobs only go out: past ones "
    "come in by endband workshop import.";

}  // namespace

Command job_export() {
  return {.noun = "job",
          .verb = "export",
          .summary = "Write the jobs with their sums as a table for a spreadsheet",
          .about = about,
          .words = {},
          .flags = export_flags(),
          .examples = {"job export --output jobs.csv", "job export --separator semicolon"},
          .refused_when = "the file is there already",
          .writes = true,
          .writes_with = {"--output"},
          .run = run};
}

}  // namespace endband::cli
