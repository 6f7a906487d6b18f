// The step library: set a step's times, list them.
#include "db/steps.h"

#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

// One unit for the three, as they are typed: "5/10/20 min", "1 min 30 s" apart.
std::string times_words(Spread3 const& times) {
  if (times.low == times.high) return duration_text(times.low);
  auto const three = [&](std::int64_t unit, std::string_view name) {
    return fmt::format("{}/{}/{} {}", times.low.n / unit, times.likely.n / unit, times.high.n / unit, name);
  };
  auto const whole = [&](std::int64_t unit) {
    return times.low.n % unit == 0 && times.likely.n % unit == 0 && times.high.n % unit == 0;
  };
  if (whole(3600)) return three(3600, "h");
  return whole(60) ? three(60, "min") : three(1, "s");
}

std::string wait_words(Duration low, Duration high) {
  if (high.n == 0) return "";
  if (low == high) return duration_text(low);
  auto const two = [&](std::int64_t unit, std::string_view name) {
    return fmt::format("{}/{} {}", low.n / unit, high.n / unit, name);
  };
  if (low.n % 3600 == 0 && high.n % 3600 == 0) return two(3600, "h");
  return low.n % 60 == 0 && high.n % 60 == 0 ? two(60, "min") : two(1, "s");
}

Fields fields_of(Step const& step) {
  return {{"set-up", times_words(step.set_up)},
          {"each", times_words(step.each)},
          {"wait", wait_words(step.wait_low, step.wait_high)},
          {"caution", step.caution}};
}

std::string step_of(OperationKind kind) { return std::string(operation_row(kind).name); }

Read<Answer> run_set(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const kind = args.word<OperationKind>(0);
  Date const from = args.get<Date>("--from").value_or(context.on);
  auto const library = db::load_steps(**workshop, from);
  Step const* before = library.find(kind);
  std::vector<Fault> faults;
  if (before == nullptr)
    for (std::string_view needed : {"--set-up", "--each"})
      if (!args.has(needed))
        faults.push_back({FaultCode::bad_command,
                          args.where(needed),
                          "",
                          "times such as 5/10/20 min, for a new step",
                          {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  Step step = before == nullptr ? Step{} : *before;
  step.kind = kind;
  if (auto const times = args.get<Spread3>("--set-up")) step.set_up = *times;
  if (auto const times = args.get<Spread3>("--each")) step.each = *times;
  if (auto const caution = args.text("--caution")) step.caution = *caution;
  if (auto const wait = args.get<Spread3>("--wait")) {
    step.wait_low = wait->low;
    step.wait_high = wait->high;
  }
  Changed view{.deed = Deed::set,
               .noun = "step",
               .code = step_of(kind),
               .changes = changes_between(before == nullptr ? Fields{} : fields_of(*before), fields_of(step)),
               .from = from,
               .dry_run = context.dry_run,
               .next = "endband steps list " + step_of(kind)};
  if (view.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    db::set_step(writing, step, from);
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

struct StepList {
  std::vector<Step> steps;
  bool one = false;  // one step asked for: its caution in full
};

Json spread_json(Spread3 const& times) {
  return Json::Object{{"low_s", times.low.n}, {"likely_s", times.likely.n}, {"high_s", times.high.n}};
}

Json to_json(StepList const& view) {
  auto const step_json = [](Step const& step) {
    OperationRow const& row = operation_row(step.kind);
    return Json(Json::Object{{"step", row.name},
                             {"what", row.what},
                             {"driver", driver_name(row.driver)},
                             {"part", part_name(row.part)},
                             {"set_up", spread_json(step.set_up)},
                             {"each", spread_json(step.each)},
                             {"wait_low_s", step.wait_low.n},
                             {"wait_high_s", step.wait_high.n},
                             {"caution", step.caution}});
  };
  return Json::Object{{"steps", json_array(view.steps, step_json)}};
}

Document one_step(Step const& step) {
  OperationRow const& row = operation_row(step.kind);
  Document document;
  document.heading(fmt::format("{}: {}", row.name, row.what));
  KeyValues rows;
  rows.rows = {{"Set-up, once a book", times_words(step.set_up)},
               {fmt::format("For each {}", driver_name(row.driver)), times_words(step.each)}};
  std::string const wait = wait_words(step.wait_low, step.wait_high);
  if (!wait.empty()) rows.rows.emplace_back("Wait after it", wait);
  document.add(std::move(rows));
  if (!step.caution.empty())
    document.notice(NoticeKind::caution,
                    step.caution + " The product's label, local rules and licensed practice come first.");
  return document;
}

Document to_document(StepList const& view) {
  if (view.one && view.steps.size() == 1) return one_step(view.steps.front());
  Document document;
  Table table{{{"Step"}, {"Set-up"}, {"Each"}, {"For each", Align::left, 2}, {"Wait", Align::left, 1}}, {}};
  for (Step const& step : view.steps)
    table.add({step_of(step.kind), times_words(step.set_up), times_words(step.each),
               std::string(driver_name(operation_row(step.kind).driver)),
               wait_words(step.wait_low, step.wait_high)});
  if (table.rows.empty())
    document.paragraph("The step library is empty.");
  else
    document.paragraph("Times are low/likely/high; a wait blocks the book, not you.").add(std::move(table));
  document.next("endband steps list sew-sections shows one step with its caution");
  return document;
}

Read<Answer> run_list(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  StepList view{db::load_steps(**workshop, context.on).steps, args.word_count() > 0};
  if (view.one) {
    auto const kind = args.word<OperationKind>(0);
    std::erase_if(view.steps, [&](Step const& step) { return step.kind != kind; });
    if (view.steps.empty())
      return refuse({FaultCode::missing_step, args.where(step_of(kind)), "", "times for this step", {}});
  }
  return Answer(std::move(view));
}

}  // namespace

Command steps_set() {
  return {
      .noun = "steps",
      .verb = "set",
      .summary = "Set how long a step of the work takes",
      .about =
          "Times are low/likely/high with one unit, or one time for all three. A change never touches quotes "
          "that are made. What is not named stays as it is.",
      .words = {{"STEP", FlagType::operation, "the step, such as sew-sections"}},
      .flags = {{"--set-up", FlagType::times, "once a book"},
                {"--each", FlagType::times, "for each of what drives the step: a section, a band ..."},
                {"--wait", FlagType::wait, "after the step; blocks the book, not you"},
                {"--caution", FlagType::text, "shown beside the step"},
                {"--from", FlagType::date, "in force from this day; else from today"}},
      .examples = {"steps set sew-sections --each \"4/5/8 min\"",
                   "steps set glue-spine --wait \"2/4 h\" --from 2026-12-01 --dry-run"},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run_set};
}

Command steps_list() {
  return {
      .noun = "steps",
      .verb = "list",
      .summary = "List the steps with their times and waits",
      .about = "With the name of a step: that one, with its caution.",
      .words =
          {{.name = "STEP", .type = FlagType::operation, .help = "one step", .needed = false, .many = false}},
      .flags = {},
      .examples = {"steps list", "steps list sew-sections"},
      .refused_when = "the library has no times for the step",
      .writes = false,
      .lists = true,
      .run = run_list};
}

}  // namespace endband::cli
