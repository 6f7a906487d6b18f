// Hours worked on a job.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// What hours were told of: an operation, or a part where nothing finer was said.
struct What {
  std::optional<OperationKind> operation;
  std::optional<Part> part;
};

struct Told {
  What what;
  WorkSpan span;
  bool less = false;
  bool finished = false;  // and nothing of it is left to do
};

struct TimeTold {
  JobSeen seen;  // after it
  std::vector<Told> told;
  bool dry_run = false;
};

WorkBeside as_beside(What const& what) { return {what.operation, what.part, {}, {}}; }

Json told_json(Told const& told) {
  auto const clock = [](std::string const& text) { return text.empty() ? Json() : Json(text); };
  return Json::Object{{"step", told.what.operation ? Json(operation_row(*told.what.operation).name) : Json()},
                      {"part", told.what.part ? Json(part_name(*told.what.part)) : Json()},
                      {"time_s", told.less ? -told.span.time.n : told.span.time.n},
                      {"began", clock(told.span.began)},
                      {"ended", clock(told.span.ended)},
                      {"finished", told.finished}};
}

Json to_json(TimeTold const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", job_json(view.seen.job)},
                      {"told", json_array(view.told, told_json)},
                      {"quoted_s", round(view.seen.agreed.sheet.seconds, Rounding::half_away)},
                      {"worked_s", view.seen.cost.time.n}};
}

std::string told_words(TimeTold const& view, Told const& told) {
  std::string const what = work_words(as_beside(told.what));
  if (told.span.time.n == 0) return fmt::format("Finished: {}.", what);
  std::string text =
      fmt::format("{}{} {}", told.less ? "Less " : "", hours_words(Ratio(told.span.time.n)), what);
  if (!told.span.began.empty()) text += fmt::format(", {} to {}", told.span.began, told.span.ended);
  for (WorkBeside const& work : view.seen.work)
    if (work.operation == told.what.operation && work.part == told.what.part)
      text += fmt::format(": {} of {} quoted", hours_words(Ratio(work.worked.n)),
                          hours_words(Ratio(work.quoted.n)));
  return text + (told.finished ? "; finished." : ".");
}

Document to_document(TimeTold const& view) {
  Document document;
  document.heading(job_title(view.seen.job));
  if (view.told.empty()) document.paragraph("Nothing to tell: all that was quoted is told.");
  if (view.told.size() == 1)
    document.paragraph(told_words(view, view.told.front()));
  else if (!view.told.empty())
    add_work(document, view.seen);
  document.paragraph(fmt::format("{} worked of {} quoted.{}", hours_words(Ratio(view.seen.cost.time.n)),
                                 hours_words(view.seen.agreed.sheet.seconds),
                                 view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband job show " + view.seen.job.number);
  return document;
}

std::string part_code(Part part) {
  std::string code(part_name(part));
  std::ranges::replace(code, ' ', '-');
  return code;
}

constexpr std::size_t part_count = static_cast<std::size_t>(Part::repairs) + 1;

Read<What> read_what(std::string const& word, Where const& where) {
  std::string text = word;
  std::ranges::replace(text, ' ', '-');
  if (auto const operation = operation_named(text); operation && *operation != OperationKind::extra_work)
    return What{operation, std::nullopt};
  std::vector<std::string> names;
  for (std::size_t i = 0; i < part_count; ++i) {
    names.push_back(part_code(static_cast<Part>(i)));
    if (names.back() == text) return What{std::nullopt, static_cast<Part>(i)};
  }
  for (std::string_view const name : choices(FlagType::operation)) names.emplace_back(name);
  std::vector<std::string_view> const known(names.begin(), names.end());
  std::vector<std::string> near = nearest(text, known);
  for (std::string_view const name : known)  // "sew" begins three of them
    if (near.size() < 3 && name.starts_with(text) && std::ranges::find(near, name) == near.end())
      near.emplace_back(name);
  return refuse({FaultCode::bad_value, where, word,
                 "a step, such as sew-sections, or a part of the book, such as sewing", std::move(near)});
}

// What was quoted and is not told yet.
std::vector<Told> rest_of(JobSeen const& seen) {
  std::vector<Told> told;
  for (WorkBeside const& work : seen.work)
    if (work.quoted > work.worked)
      told.push_back({{work.operation, work.part}, {work.quoted - work.worked, {}, {}}});
  return told;
}

Read<std::vector<Told>> told_by(JobSeen const& seen, Args const& args) {
  bool const as_quoted = args.has("--as-quoted");
  bool const finished = args.has("--finished");
  if (as_quoted && (args.word_count() > 1 || args.has("--less") || finished))
    return refuse({FaultCode::contradiction,
                   args.where("--as-quoted"),
                   "--as-quoted with hours beside it",
                   "one of the two",
                   {}});
  if (finished && args.has("--less"))
    return refuse(
        {FaultCode::contradiction, args.where("--finished"), "--finished with --less", "one of the two", {}});
  if (as_quoted) return rest_of(seen);
  if (args.word_count() < 2 || (args.word_count() < 3 && !finished))
    return refuse({FaultCode::bad_command,
                   args.where(args.word_count() < 2 ? "WHAT" : "SPAN"),
                   "",
                   args.word_count() < 2 ? "a step or a part, or --as-quoted"
                                         : "a time such as 09:10-11:40 or 2 h 30 min",
                   {}});
  auto const what = read_what(args.word(1), args.where("WHAT"));
  if (!what) return tl::unexpected(what.error());
  WorkSpan const span = args.word_count() < 3 ? WorkSpan{} : args.word<WorkSpan>(2);
  return std::vector<Told>{{*what, span, args.has("--less"), finished}};
}

Read<void> write(db::Writing& writing, JobSeen const& seen, std::vector<Told> const& told,
                 std::string const& words) {
  for (Told const& each : told) {
    std::optional<std::pair<std::string, std::string>> clock;
    if (!each.span.began.empty()) clock = {each.span.began, each.span.ended};
    Duration const time{each.less ? -each.span.time.n : each.span.time.n};
    if (time.n != 0 || !each.finished) {
      auto const done =
          db::add_time(writing, seen.job, each.what.operation, each.what.part, time, clock, seen.on, words);
      if (!done) return tl::unexpected(done.error());
    }
    if (!each.finished) continue;
    auto const said = db::say_finished(writing, seen.job, each.what.operation, each.what.part, seen.on);
    if (!said) return tl::unexpected(said.error());
  }
  return {};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const before = see_job(**workshop, args, context.on);
  if (!before) return tl::unexpected(before.error());
  auto told = told_by(*before, args);
  if (!told) return tl::unexpected(told.error());
  if (told->empty()) return Answer(TimeTold{*before, {}, context.dry_run});
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<TimeTold> {
    auto const done = write(writing, *before, *told, args.text("--words").value_or(""));
    if (!done) return tl::unexpected(done.error());
    auto after = see_job(writing.workshop(), args, context.on);
    if (!after) return tl::unexpected(after.error());
    return TimeTold{std::move(*after), std::move(*told), context.dry_run};
  });
  if (!view) return tl::unexpected(view.error());
  return Answer(std::move(*view));
}

}  // namespace

Command job_time() {
  return {.noun = "job",
          .verb = "time",
          .summary = "Tell the hours worked on a job",
          .about =
              "They stand beside those quoted, by step, or by part where a part is told. Work over midnight "
              "is of the "
              "day it began on. --as-quoted tells what is left of the quoted hours.",
          .words = {job_word,
                    {"WHAT", FlagType::worked,
                     "a step, such as sew-sections, or a part of the book, such as sewing", false},
                    {"SPAN", FlagType::span, "from when to when, 09:10-11:40, or how long, \"2 h 30 min\"",
                     false}},
          .flags = {{"--as-quoted", FlagType::on, "all that was quoted and not told yet"},
                    {"--less", FlagType::on, "so much was told too much: take it off again"},
                    {"--finished", FlagType::on, "nothing of it is left to do, however long it took"},
                    {"--words", FlagType::words, "what else is to be kept of it"}},
          .examples = {"job time 26-001 sewing 09:10-11:40",
                       "job time 26-001 pare-edges \"1 h 15 min\" --words \"a hard skin\""},
          .refused_when = "the job has ended, or more is taken off than was told",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
