// Lists the jobs that are under way.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/words/values.h"

namespace endband::cli {
namespace {

struct JobList {
  std::vector<db::JobHeader> jobs;
  Currency currency;
  bool ended_too = false;
};

Json to_json(JobList const& view) { return Json::Object{{"jobs", json_array(view.jobs, job_json)}}; }

Document to_document(JobList const& view) {
  Document document;
  if (view.jobs.empty()) {
    document.paragraph(view.ended_too ? "No jobs yet." : "No jobs under way.")
        .next("endband quote accept NUMBER");
    return document;
  }
  std::string const currency(view.currency.code());
  Table table{{{"Job"},
               {"Customer", Align::left, 1},
               {"Title"},
               {"State"},
               {"Since", Align::left, 3},
               {"Needed on", Align::left},
               {"To pay " + currency, Align::decimal, 2},
               {"Due " + currency, Align::decimal}},
              {}};
  for (db::JobHeader const& job : view.jobs)
    table.add({job.number, job.quote.customer, job.quote.title, std::string(db::job_state_name(job.state)),
               date_text(job.since), job.needed_on ? date_text(*job.needed_on) : "", money_text(job.to_pay),
               money_text(job.to_pay - job.paid)});
  document.add(std::move(table));
  document.next("endband job show " + view.jobs.front().number);
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  bool const ended_too = args.has("--ended");
  return Answer(JobList{db::list_jobs(**workshop, ended_too), (*workshop)->currency(), ended_too});
}

}  // namespace

Command job_list() {
  return {.noun = "job",
          .verb = "list",
          .summary = "List the jobs under way, newest first",
          .about = "",
          .words = {},
          .flags = {{"--ended", FlagType::on, "those that are finished or cancelled too"}},
          .examples = {"job list", "job list --ended"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run};
}

}  // namespace endband::cli
