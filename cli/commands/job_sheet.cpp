// The paper of a job that lies on the bench: one HTML file that needs no other.
#include "cli/commands/commands.h"
#include "cli/commands/job_sheet_parts.h"
#include "cli/document/html.h"
#include "cli/process/put_files.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct SheetWritten {
  std::string job, file;
  bool dry_run = false;
};

Json to_json(SheetWritten const& view) {
  return Json::Object{{"dry_run", view.dry_run}, {"job", view.job}, {"file", view.file}};
}

Document to_document(SheetWritten const& view) {
  Document document;
  document.paragraph(
      fmt::format("Job sheet {} {} {}.", view.job, view.dry_run ? "would be in" : "is in", view.file));
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

struct Place {
  std::string folder, name;
};
Place place_of(std::string const& file) {
  std::size_t const slash = file.rfind('/');
  if (slash == std::string::npos) return {".", file};
  return {slash == 0 ? "/" : file.substr(0, slash), file.substr(slash + 1)};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto sheet = read(context, **workshop, args);
  if (!sheet) return tl::unexpected(std::move(sheet.error()));
  std::string const number = sheet->seen.job.number;
  std::string const file = args.text("--output").value_or(fmt::format("job-sheet-{}.html", number));
  Place const place = place_of(file);
  if (!context.yes && !files_there(place.folder, std::vector<NewFile>{{place.name, ""}}).empty())
    return refuse({FaultCode::already_exists, args.where("--output"), file, "--yes, to write over it", {}});
  plan_sheet(*sheet);
  std::string const name = "Job sheet " + number;
  std::string html =
      to_html(sheet_document(*sheet), {.title = name, .foot = name, .mark = {}, .letter = sheet->letter});
  std::vector<NewFile> const files{{place.name, std::move(html)}};
  if (!context.dry_run)
    if (auto const put = put_files(place.folder, files); !put) return tl::unexpected(put.error());
  return Answer(SheetWritten{number, file, context.dry_run});
}

}  // namespace

Command job_sheet() {
  return {.noun = "job",
          .verb = "sheet",
          .summary = "Write the paper of a job that lies on the bench",
          .about =
              "One HTML file to print: the title letter by letter, the stages in working order with boxes "
              "for the real "
              "minutes, what to fetch and where it lies, how it is cut, and templates at true size. No price "
              "is on it, "
              "and of the customer only the initials.",
          .words = {job_word},
          .flags = {{"--output", FlagType::file, "the file to write; else job-sheet-NUMBER.html", 'o'},
                    {"--letter", FlagType::on, "for US Letter paper; else A4"}},
          .examples = {"job sheet 26-001", "job sheet 26-001 --letter -o bench.html"},
          .refused_when = "the job has ended, or the file is there and --yes is not said",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
