// Sets a step of the library: its times, who may do it, what it holds and what it comes after.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/commands/steps_words.h"
#include "cli/words/values.h"
#include "db/bench.h"
#include "db/steps.h"
#include "engine/book/precedence.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct StepSet {
  Changed changed;
  std::vector<std::string> warnings;
};

Json to_json(StepSet const& view) {
  Json::Object object = std::get<Json::Object>(to_json(view.changed).value());
  object.emplace_back("warnings", json_words(view.warnings));
  return object;
}

Document to_document(StepSet const& view) {
  Document document = to_document(view.changed);
  auto const next = std::find_if(document.blocks.begin(), document.blocks.end(), [](Block const& block) {
    auto const* const notice = std::get_if<Notice>(&block);
    return notice != nullptr && notice->kind == NoticeKind::next;
  });
  std::vector<Block> notices;
  for (std::string const& warning : view.warnings) notices.emplace_back(Notice{NoticeKind::warning, warning});
  document.blocks.insert(next, notices.begin(), notices.end());
  return document;
}

std::string joined(std::vector<std::string> const& words) {
  std::string text;
  for (std::string const& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

Fields fields_of(Step const& step) {
  return {{"set-up", times_words(step.set_up)},
          {"each", times_words(step.each)},
          {"wait", wait_words(step.wait_low, step.wait_high)},
          {"who", joined(step.who)},
          {"holds", step.place},
          {"after", joined(step_names(step.after))},
          {"caution", step.caution}};
}

template <class Row>
Fault not_of_bench(Where where, std::string const& code, std::string what, std::vector<Row> const& rows) {
  std::vector<std::string_view> known;
  for (Row const& row : rows) known.push_back(row.code);
  return {FaultCode::unknown_code, std::move(where), code, std::move(what), nearest(code, known)};
}

class Said {
 public:
  Said(Args const& args, Bench const& bench) : args_(args), bench_(bench) {}

  Read<Step> applied_to(Step step, bool is_new) {
    step.kind = args_.word<OperationKind>(0);
    if (is_new) need_times();
    if (auto const times = args_.get<Spread3>("--set-up")) step.set_up = *times;
    if (auto const times = args_.get<Spread3>("--each")) step.each = *times;
    if (auto const caution = args_.text("--caution")) step.caution = *caution;
    if (auto const wait = args_.get<Spread3>("--wait")) {
      step.wait_low = wait->low;
      step.wait_high = wait->high;
    }
    take_who(step);
    take_place(step);
    take_after(step);
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    return step;
  }

 private:
  void need_times() {
    for (std::string_view const needed : {"--set-up", "--each"})
      if (!args_.has(needed))
        faults_.push_back({FaultCode::bad_command,
                           args_.where(needed),
                           "",
                           "times such as 5/10/20 min, for a new step",
                           {}});
  }

  void take_who(Step& step) {
    auto who = args_.codes("--who");
    if (!who) return;
    for (std::string const& code : *who)
      if (bench_.person(code) == nullptr)
        faults_.push_back(not_of_bench(args_.where("--who"), code, "a person of the bench", bench_.people));
    step.who = *std::move(who);
  }

  void take_place(Step& step) {
    auto const places = args_.codes("--holds");
    if (!places) return;
    if (places->size() > 1)
      faults_.push_back(
          {FaultCode::bad_value, args_.where("--holds"), joined(*places), "one press or drying place", {}});
    for (std::string const& code : *places)
      if (bench_.place(code) == nullptr)
        faults_.push_back(not_of_bench(args_.where("--holds"), code, "a press or a drying place of the bench",
                                       bench_.places));
    step.place = places->empty() ? "" : places->front();
  }

  void take_after(Step& step) {
    auto const names = args_.codes("--after");
    if (!names) return;
    step.after.clear();
    for (std::string const& name : *names) {
      auto const read = located(read_flag(FlagType::operation, name), args_.where("--after"));
      if (!read) {
        faults_.insert(faults_.end(), read.error().begin(), read.error().end());
        continue;
      }
      auto const kind = std::get<OperationKind>(*read);
      if (kind == step.kind)
        faults_.push_back(
            {FaultCode::contradiction, args_.where("--after"), name, "a step other than itself", {}});
      step.after.push_back(kind);
    }
    std::sort(step.after.begin(), step.after.end());
  }

  Args const& args_;
  Bench const& bench_;
  std::vector<Fault> faults_;
};

// "sew-sections after glue-spine after sew-sections", from `first` where it is in the circle.
std::string circle_words(std::vector<OperationKind> circle, OperationKind first) {
  std::reverse(circle.begin(), circle.end());
  if (auto const at = std::find(circle.begin(), circle.end(), first); at != circle.end())
    std::rotate(circle.begin(), at, circle.end());
  std::string text;
  for (OperationKind const kind : circle) text += step_name(kind) + " after ";
  return text + step_name(circle.front());
}

// What is only seen once it is written: circles and gaps, on that day and on later ones.
std::vector<Fault> unfit(db::Workshop& workshop, Args const& args, Step const& step, Date from) {
  for (Date const day : db::step_days(workshop, from))
    if (auto const circle = db::circle_of_steps(workshop, day); !circle.empty())
      return {{FaultCode::contradiction,
               args.where("--after"),
               circle_words(circle, step.kind),
               "an order in which no step comes after itself",
               {}}};
  std::vector<Fault> faults;
  for (db::BenchGap const& gap : db::bench_gaps(workshop)) {
    if (gap.kind != step.kind) continue;
    bool const place = gap.lack == db::BenchGap::Lack::place;
    faults.push_back(
        {FaultCode::rule_refused,
         args.where(place ? "--holds" : "--who"),
         gap.code,
         fmt::format("the bench has {} no more from {} on", place ? "it" : "them", date_text(gap.from)),
         {}});
  }
  return faults;
}

std::vector<std::string> warnings_of(Step const& step) {
  if (!must_set(step.kind) || step.wait_high.n > 0) return {};
  return {
      fmt::format("nothing is given to set: {} leaves something wet or freshly glued, and no wait follows; "
                  "say one with --wait",
                  step_name(step.kind))};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const kind = args.word<OperationKind>(0);
  Date const from = args.get<Date>("--from").value_or(context.on);
  auto const library = db::load_steps(**workshop, from);
  Step const* const before = library.find(kind);
  Bench const bench = db::load_bench(**workshop, from);
  auto const step = Said(args, bench).applied_to(before == nullptr ? Step{} : *before, before == nullptr);
  if (!step) return tl::unexpected(step.error());
  StepSet view{
      {.deed = Deed::set,
       .noun = "step",
       .code = step_name(kind),
       .changes = changes_between(before == nullptr ? Fields{} : fields_of(*before), fields_of(*step)),
       .from = from,
       .dry_run = context.dry_run,
       .next = "endband steps list " + step_name(kind)},
      warnings_of(*step)};
  if (view.changed.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    db::set_step(writing, *step, from);
    if (auto faults = unfit(**workshop, args, *step, from); !faults.empty())
      return tl::unexpected(std::move(faults));
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

}  // namespace

Command steps_set() {
  return {
      .noun = "steps",
      .verb = "set",
      .summary = "Set how long a step takes, who does it, what it holds and what it comes after",
      .about =
          "Times are low/likely/high with one unit, or one time for all three. A change never touches quotes "
          "that are made. What is not named stays as it is. People, presses and drying places are of "
          "`endband bench "
          "show`. What a step comes after is beside the order that any book has, which stays.",
      .words = {{"STEP", FlagType::operation, "the step, such as sew-sections"}},
      .flags = {{"--set-up", FlagType::times, "once a book"},
                {"--each", FlagType::times, "for each of what drives the step: a section, a band ..."},
                {"--wait", FlagType::wait, "after the step; blocks the book, not you"},
                {"--who", FlagType::people, "those who may do it, the usual one first; \"\": anyone"},
                {"--holds", FlagType::places,
                 "the press or drying place it holds, through its wait; \"\": none"},
                {"--after", FlagType::steps, "steps that come before it; \"\": none"},
                {"--caution", FlagType::text, "shown beside the step"},
                {"--from", FlagType::date, "in force from this day; else from today"}},
      .examples = {"steps set sew-sections --each \"4/5/8 min\" --who wren",
                   "steps set glue-spine --wait \"2/4 h\" --holds lying-press --from 2026-12-01 --dry-run"},
      .refused_when = "the bench has nobody of those, or not that place, on some day from then on",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
