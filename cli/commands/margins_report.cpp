// The looking back of one period on paper: what the commands of margins and steps say, with their figures.
#include "cli/commands/commands.h"
#include "cli/commands/margins_seen.h"
#include "cli/commands/paper_file.h"
#include "cli/commands/shop_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <array>
#include <variant>

namespace endband::cli {
namespace {

struct Reported {
  std::int64_t jobs = 0;
  PaperFile written;
  bool dry_run = false;
};

Json to_json(Reported const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"jobs", view.jobs},
                      {"file", view.written.file},
                      {"notices", notices_json(view.written)}};
}

Document to_document(Reported const& view) {
  Document document;
  add_written(document, fmt::format("The report on {} job{}", view.jobs, view.jobs == 1 ? "" : "s"),
              view.written, view.dry_run);
  return document;
}

// A part of the report: a command of the table, and what is said to it.
struct Section {
  std::string_view title, noun, verb, by;
};
constexpr std::array sections{
    Section{"Each job", "margins", "list", ""},
    Section{"By kind of binding", "margins", "list", "binding"},
    Section{"By outlet", "margins", "list", "outlet"},
    Section{"What things are worth", "margins", "worth", ""},
    Section{"What steps take", "steps", "learn", ""},
};

// The period and the choice of jobs are the report's; all else the section's own.
Args said_to(Section const& section, Args const& args) {
  std::map<std::string, FlagValue, std::less<>> flags;
  for (Flag const& flag : past_flags())
    if (auto const value = args.value(flag.name)) flags.emplace(flag.name, *value);
  if (!section.by.empty()) flags.emplace("--by", std::string(section.by));
  return {"margins report", {}, std::move(flags)};
}

// Beneath the section's heading; what to type next is of no use on paper.
void add_beneath(Document& report, Document const& of_command) {
  for (Block const& block : of_command.blocks) {
    auto const* const notice = std::get_if<Notice>(&block);
    if (notice != nullptr && notice->kind == NoticeKind::next) continue;
    if (auto const* const heading = std::get_if<Heading>(&block))
      report.heading(heading->text, 3);
    else
      report.add(block);
  }
}

Read<Document> report_of(Context& context, Args const& args) {
  Document report;
  for (Section const& section : sections) {
    auto const answer = find_command(section.noun, section.verb)->run(context, said_to(section, args));
    if (!answer) return tl::unexpected(answer.error());
    report.heading(std::string(section.title), 2);
    // The last is the section's own: sums of a kind come after the jobs that they are of.
    if (auto drawings = answer->drawings(); !drawings.empty()) report.add(std::move(drawings.back()));
    add_beneath(report, answer->document());
  }
  return report;
}

struct About {
  std::int64_t jobs = 0;
  std::string title;
  PaperStyle style;
};

Read<About> about(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto const filter = past_filter(workshop, args, context.on);
  if (!filter) return tl::unexpected(filter.error());
  auto const jobs = db::load_past(workshop, *filter).jobs;
  if (jobs.empty())
    return refuse({FaultCode::rule_refused,
                   args.where("--since"),
                   "",
                   "no job was finished in that time: there is nothing to look back on",
                   {}});
  std::string const maker = setting_in_force(workshop, "maker.name", context.on);
  return About{static_cast<std::int64_t>(jobs.size()),
               fmt::format("{}{}looking back {}", maker, maker.empty() ? "" : ": ", period_words(jobs)),
               paper_style(workshop, context.on)};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const head = about(context, **workshop, args);
  if (!head) return tl::unexpected(head.error());
  auto body = report_of(context, args);
  if (!body) return tl::unexpected(std::move(body.error()));
  Document document;
  document.heading(head->title, 1);
  document.blocks.insert(document.blocks.end(), body->blocks.begin(), body->blocks.end());
  Page page = page_of(head->style, head->title, context.on);
  page.mark = "INTERNAL: costs and earnings. Not for customers.";
  auto written = write_paper(context, args, {std::move(document), std::move(page), "looking-back"});
  if (!written) return tl::unexpected(std::move(written.error()));
  return Answer(Reported{head->jobs, std::move(*written), context.dry_run});
}

std::vector<Flag> flags() {
  std::vector<Flag> all = past_flags();
  for (Flag const& flag : paper_flags()) all.push_back(flag);
  return all;
}

}  // namespace

Command margins_report() {
  return {.noun = "margins",
          .verb = "report",
          .summary = "Write a period looked back on as a paper: margins, worth, what steps take",
          .about =
              "What `margins list`, `margins worth` and `steps learn` say, with their figures and the tables "
              "of the same numbers. For the workshop: it shows costs.",
          .words = {},
          .flags = flags(),
          .examples = {"margins report", "margins report --since 2026-01-01 --as pdf"},
          .refused_when = "no job was finished in that time",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
