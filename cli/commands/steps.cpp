// The step library: the list of it, or one step.
#include "db/steps.h"

#include "cli/commands/commands.h"
#include "cli/commands/steps_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

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
                             {"who", json_words(step.who)},
                             {"holds", step.place},
                             {"after", json_words(step_names(step.after))},
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
  if (!step.who.empty()) rows.rows.emplace_back("Done by", listed(step.who, "or"));
  if (!step.place.empty()) rows.rows.emplace_back("Holds", step.place);
  if (!step.after.empty()) rows.rows.emplace_back("Comes after", listed(step_names(step.after)));
  document.add(std::move(rows));
  if (!step.caution.empty())
    document.notice(NoticeKind::caution,
                    step.caution + " The product's label, local rules and licensed practice come first.");
  return document;
}

Document to_document(StepList const& view) {
  if (view.one && view.steps.size() == 1) return one_step(view.steps.front());
  Document document;
  Table table{{{"Step"},
               {"Set-up"},
               {"Each"},
               {"For each", Align::left, 2},
               {"Wait", Align::left, 1},
               {"Holds", Align::left, 3},
               {"Done by", Align::left, 4}},
              {}};
  for (Step const& step : view.steps)
    table.add({step_name(step.kind), times_words(step.set_up), times_words(step.each),
               std::string(driver_name(operation_row(step.kind).driver)),
               wait_words(step.wait_low, step.wait_high), step.place, listed(step.who, "or")});
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
      return refuse({FaultCode::missing_step, args.where(step_name(kind)), "", "times for this step", {}});
  }
  return Answer(std::move(view));
}

}  // namespace

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
