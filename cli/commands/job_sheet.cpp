// The paper of a job that lies on the bench.
#include "cli/commands/commands.h"
#include "cli/commands/job_sheet_parts.h"
#include "cli/commands/paper_file.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct SheetWritten {
  std::string job;
  PaperFile written;
  bool dry_run = false;
};

Json to_json(SheetWritten const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", view.job},
                      {"file", view.written.file},
                      {"notices", notices_json(view.written)}};
}

Document to_document(SheetWritten const& view) {
  Document document;
  add_written(document, "Job sheet " + view.job, view.written, view.dry_run);
  if (!view.dry_run)
    document.notice(
        NoticeKind::note,
        "Templates are drawn at true size: print at 100 %, actual size, and measure the bar beside them.");
  return document;
}

Read<JobSheet> read(Context const& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  return read_sheet(workshop, args, context.on);
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto sheet = read(context, **workshop, args);
  if (!sheet) return tl::unexpected(std::move(sheet.error()));
  plan_sheet(*sheet);
  std::string const number = sheet->seen.job.number;
  NewPaper paper{sheet_document(*sheet), page_of({}, "Job sheet " + number, context.on),
                 "job-sheet-" + number};
  auto written = write_paper(context, args, std::move(paper));
  if (!written) return tl::unexpected(std::move(written.error()));
  return Answer(SheetWritten{number, std::move(*written), context.dry_run});
}

}  // namespace

Command job_sheet() {
  return {.noun = "job",
          .verb = "sheet",
          .summary = "Write the paper of a job that lies on the bench",
          .about =
              "A file to print: the title letter by letter, the stages in working order with boxes "
              "for the real "
              "minutes, what to fetch and where it lies, how it is cut, and templates at true size. No price "
              "is on it, "
              "and of the customer only the initials.",
          .words = {job_word},
          .flags = paper_flags(),
          .examples = {"job sheet 26-001", "job sheet 26-001 --letter -o bench.pdf"},
          .refused_when = "the job has ended, or the file is there and --yes is not said",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
