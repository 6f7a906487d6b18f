// What the hours told teach: each step's times, and the figures of spoil, ruin and lost enquiries, drawn
// towards what they were.
#include "cli/commands/commands.h"
#include "cli/commands/drawn.h"
#include "cli/commands/steps_learned.h"
#include "cli/drawings/figure.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace endband::cli {
namespace {

constexpr std::size_t most_rows = 12;
constexpr std::size_t most_drawn = 40;
constexpr std::size_t bar_width = 15;

struct StepsLearn {
  Learned learned;
  std::vector<std::string> accepted;  // names, in the order said
  std::optional<Date> from;           // in force from; none: nothing was accepted
  std::optional<std::string> folder;
  bool all = false, dry_run = false;
};

// In whole hundredths; what rounds to none is no change.
int hundredths_more(double ratio) { return static_cast<int>(std::lround(100 * (ratio - 1))); }
std::string per_cent_more(double ratio) {
  int const more = hundredths_more(ratio);
  return more == 0 ? "0 %" : fmt::format("{:+} %", more);
}
std::string range_words(Ranged const& ranged) {
  return fmt::format("{} to {}", per_cent_more(ranged.low), per_cent_more(ranged.high));
}
std::string percents(double share) { return fmt::format("{:.1f} %", 100 * share); }
std::string percent_range(Ranged const& ranged) {
  return fmt::format("{} to {}", percents(ranged.low), percents(ranged.high));
}

std::string spoil_range(LearnedSpoil const& spoil) {
  return fmt::format("{} to {}", percents(spoil.share(spoil.factor.low)),
                     percents(spoil.share(spoil.factor.high)));
}

Json far_json(LearnedStep const& step) {
  auto const each = [](FarJob const& far) {
    return Json(Json::Object{{"job", far.number},
                             {"times_e3", static_cast<std::int64_t>(std::llround(far.ratio * 1000))}});
  };
  return json_array(step.far, each);
}

Json step_json(LearnedStep const& step) {
  return Json::Object{{"step", operation_row(step.operation).name},
                      {"timed_s", step.timed_s},
                      {"took_s", step.took_s},
                      {"factor", ranged_json(step.factor)},
                      {"few", step.factor.n < few},
                      {"only_through", step.only ? Json(step.only->outlet) : Json()},
                      {"far", far_json(step)}};
}

Json spoil_json(LearnedSpoil const& spoil) {
  return Json::Object{{"material", spoil.code},
                      {"spoil", ratio_json(spoil.now)},
                      {"spoil_factor", spoil.factor.n > 0 ? ranged_json(spoil.factor) : Json()},
                      {"ruin", ratio_json(spoil.ruin_now)},
                      {"ruin_learned", spoil.ruin ? ranged_json(*spoil.ruin) : Json()}};
}

Json to_json(StepsLearn const& view) {
  Learned const& learned = view.learned;
  return Json::Object{
      {"dry_run", view.dry_run},
      {"jobs", static_cast<std::int64_t>(learned.jobs)},
      {"jobs_by_part", learned.jobs_by_part},
      {"steps", json_array(learned.steps, step_json)},
      {"materials", json_array(learned.materials, spoil_json)},
      {"enquiries", Json::Object{{"quoted", learned.enquiries.seen.quoted},
                                 {"taken", learned.enquiries.seen.taken},
                                 {"an_order", ratio_json(learned.enquiries.now)},
                                 {"an_order_learned", ranged_json(learned.enquiries.an_order)}}},
      {"accepted", json_words(view.accepted)},
      {"from", view.from ? Json(date_text(*view.from)) : Json()},
      {"folder", view.folder ? Json(*view.folder) : Json()}};
}

std::string far_words(LearnedStep const& step) {
  std::vector<std::string> words;
  for (FarJob const& far : step.far)
    words.push_back(fmt::format("{} took {:.1f} times", far.number, far.ratio));
  return listed(words);
}

bool names(std::vector<std::string> const& accepted, std::string_view name) {
  return std::ranges::find(accepted, name) != accepted.end();
}

// Once something was taken over: old beside new of that.
Document taken_over(StepsLearn const& view) {
  Document document;
  document.heading(fmt::format("{} from {}: {}", view.dry_run ? "Would be in force" : "In force",
                               date_text(*view.from), listed(view.accepted)));
  Table table{
      {{"What"}, {"n", Align::right}, {"Was", Align::right}, {"Is", Align::right}, {"Range", Align::right}},
      {}};
  for (LearnedStep const& step : view.learned.steps)
    if (std::string const name(operation_row(step.operation).name); names(view.accepted, name))
      table.add({name, std::to_string(step.factor.n), hours_words(Ratio(step.timed_s)),
                 hours_words(Ratio(std::llround(static_cast<double>(step.timed_s) * step.factor.value))),
                 range_words(step.factor)});
  for (LearnedSpoil const& spoil : view.learned.materials) {
    if (!names(view.accepted, spoil.code)) continue;
    if (spoil.factor.n > 0)
      table.add({spoil.code + ", spoil", std::to_string(spoil.factor.n), percent(spoil.now),
                 percents(spoil.share(spoil.factor.value)), spoil_range(spoil)});
    if (spoil.ruin)
      table.add({spoil.code + ", ruined", std::to_string(spoil.ruin->n), percent(spoil.ruin_now),
                 percents(spoil.ruin->value), percent_range(*spoil.ruin)});
  }
  LearnedEnquiries const& enquiries = view.learned.enquiries;
  if (names(view.accepted, "enquiries"))
    table.add({"enquiries for each order", std::to_string(enquiries.seen.quoted), number(enquiries.now),
               fmt::format("{:.2f}", enquiries.an_order.value),
               fmt::format("{:.2f} to {:.2f}", enquiries.an_order.low, enquiries.an_order.high)});
  document.add(std::move(table));
  document.paragraph(std::string("Times are of an average job. Quotes that are made keep theirs.") +
                     (view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband margins reprice");
  return document;
}

void add_steps(Document& document, StepsLearn const& view) {
  Table table{{{"Step"},
               {"Jobs", Align::right},
               {"Timed", Align::right, 2},
               {"Took", Align::right, 2},
               {"Learned", Align::right},
               {"Range", Align::right},
               {.title = "", .priority = 3, .bars = true}},
              {}};
  auto const& steps = view.learned.steps;
  std::size_t const shown = view.all ? steps.size() : std::min(steps.size(), most_rows);
  for (std::size_t i = 0; i < shown; ++i) {
    LearnedStep const& step = steps[i];
    table.add({std::string(operation_row(step.operation).name),
               fmt::format("{}{}", step.factor.n, step.factor.n < few ? " few" : ""),
               hours_words(Ratio(step.timed_s)), hours_words(Ratio(step.took_s)),
               per_cent_more(step.factor.value), range_words(step.factor),
               bar_text(hundredths_more(step.factor.value), -50, 50, bar_width)});
  }
  document.add(std::move(table));
  if (shown < steps.size())
    document.paragraph(fmt::format("{} more steps differ less; --all shows them.", steps.size() - shown));
  for (std::size_t i = 0; i < shown; ++i)
    if (!steps[i].far.empty())
      document.notice(NoticeKind::note,
                      fmt::format("{}: {} what it is timed at, far from the others; counted all the same.",
                                  operation_row(steps[i].operation).name, far_words(steps[i])));
}

void add_materials(Document& document, StepsLearn const& view) {
  Table table{{{"Material"},
               {"Jobs", Align::right},
               {"Spoil now", Align::right},
               {"Learned", Align::right},
               {"Range", Align::right}},
              {}};
  Table ruin{{{"Ruined"},
              {"Jobs", Align::right},
              {"Chance now", Align::right},
              {"Learned", Align::right},
              {"Range", Align::right}},
             {}};
  for (LearnedSpoil const& spoil : view.learned.materials) {
    if (spoil.worth_telling())
      table.add({spoil.code, std::to_string(spoil.factor.n), percent(spoil.now),
                 percents(spoil.share(spoil.factor.value)), spoil_range(spoil)});
    if (spoil.ruin)
      ruin.add({spoil.code, std::to_string(spoil.ruin->n), percent(spoil.ruin_now),
                percents(spoil.ruin->value), percent_range(*spoil.ruin)});
  }
  if (!table.rows.empty()) document.heading("Spoil that is not what was quoted", 2).add(std::move(table));
  if (!ruin.rows.empty()) document.heading("Chance to ruin the costly piece", 2).add(std::move(ruin));
}

void add_enquiries(Document& document, LearnedEnquiries const& enquiries) {
  if (enquiries.seen.quoted == 0) return;
  document.paragraph(
      fmt::format("Of {} commissions quoted {} were taken. Enquiries for each order: {} now, {:.2f} learned "
                  "({:.2f} to {:.2f}).",
                  enquiries.seen.quoted, enquiries.seen.taken, number(enquiries.now),
                  enquiries.an_order.value, enquiries.an_order.low, enquiries.an_order.high));
}

std::string headline(StepsLearn const& view) {
  auto const& steps = view.learned.steps;
  // What takes longer than it is timed is worked for nothing: it comes first.
  auto const weight = [](LearnedStep const& step) {
    return std::pair(step.factor.value > 1 && surely_out(step) > 0, surely_out(step));
  };
  auto const surest = std::ranges::max_element(steps, {}, weight);
  if (surest == steps.end() || surely_out(*surest) <= 0)
    return "No step is timed wrong by more than its range.";
  auto const others =
      std::ranges::count_if(steps, [](LearnedStep const& step) { return surely_out(step) > 0; }) - 1;
  std::string text = fmt::format(
      "To {} takes {} % {} than it is timed ({}, n {}).", operation_row(surest->operation).what,
      std::abs(hundredths_more(surest->factor.value)), surest->factor.value < 1 ? "less" : "longer",
      range_words(surest->factor), surest->factor.n);
  if (others > 0) text += fmt::format(" {} more steps lie outside their range.", others);
  return text;
}

// A step that is out only where it is sold through one outlet is that outlet's, not the step's.
void add_outlets_alone(Document& document, StepsLearn const& view) {
  for (LearnedStep const& step : view.learned.steps)
    if (step.only)
      document.notice(
          NoticeKind::note,
          fmt::format("{}: {} what is sold {} takes {} (n {}); the rest {} ({}). That is the outlet's, not "
                      "the step's.",
                      operation_row(step.operation).name, step.only->through.value > 1 ? "only" : "just",
                      outlet_words(step.only->outlet), per_cent_more(step.only->through.value),
                      step.only->through.n, per_cent_more(step.only->rest.value),
                      range_words(step.only->rest)));
}

Document to_document(StepsLearn const& view) {
  Document document;
  if (view.learned.steps.empty())
    return document.paragraph("No finished job told the hours of a single step yet.")
        .next("endband job time 26-001 sewing 09:10-11:40");
  if (view.from) return taken_over(view);
  document.heading(fmt::format("What {} past jobs teach", view.learned.jobs));
  document.paragraph(headline(view));
  add_steps(document, view);
  add_outlets_alone(document, view);
  if (view.learned.jobs_by_part > 0)
    document.notice(
        NoticeKind::note,
        fmt::format("{} of the jobs told hours of a whole part of the book, which teach no single step.",
                    view.learned.jobs_by_part));
  add_materials(document, view);
  add_enquiries(document, view.learned.enquiries);
  document.notice(NoticeKind::note,
                  "What was believed counts as four jobs that took just that (spoil too; a chance as twenty "
                  "jobs, an order as "
                  "ten enquiries), so few jobs move a figure little. Ranges hold 19 times of 20.");
  if (view.folder) document.paragraph("Figures are in " + *view.folder + ".");
  document.next(fmt::format("endband steps learn --accept {}",
                            operation_row(view.learned.steps.front().operation).name));
  return document;
}

RangeFigure figure_of(StepsLearn const& view) {
  RangeFigure figure{.title = headline(view),
                     .name = "steps",
                     .unit = "% more or less than timed",
                     .zero = 0,
                     .zero_words = "as timed",
                     .bars = false,
                     .rows = {}};
  for (LearnedStep const& step : view.learned.steps) {
    if (figure.rows.size() == most_drawn) break;
    Ranged const& factor = step.factor;
    figure.rows.push_back(
        {std::string(operation_row(step.operation).name), 100 * (factor.value - 1), 100 * (factor.low - 1),
         100 * (factor.high - 1),
         fmt::format("{} ({}), n {}", per_cent_more(factor.value), range_words(factor), factor.n),
         factor.n < few});
  }
  return figure;
}

std::vector<Drawing> drawings_of(StepsLearn const& view) { return {draw_ranges(figure_of(view))}; }

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  StepsLearn view{.learned = {},
                  .accepted = {},
                  .from = {},
                  .folder = args.text("--svg"),
                  .all = args.has("--all"),
                  .dry_run = context.dry_run};
  auto learned = learn(**workshop, args, context.on);
  if (!learned) return tl::unexpected(std::move(learned.error()));
  view.learned = std::move(*learned);
  std::vector<NewFile> files;
  if (view.folder) files = svg_files(drawings_of(view));
  if (auto const done = may_draw(context, args, view.folder, files); !done)
    return tl::unexpected(done.error());
  if (args.has("--accept")) {
    view.from = args.get<Date>("--from").value_or(context.on);
    auto accepted = in_one_writing(context, **workshop, [&](db::Writing& writing) {
      return accept(writing, view.learned, args, *view.from);
    });
    if (!accepted) return tl::unexpected(std::move(accepted.error()));
    view.accepted = std::move(*accepted);
  }
  if (auto const done = draw_files(context, view.folder, files); !done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

}  // namespace

Command steps_learn() {
  std::vector<Flag> flags = past_flags();
  flags.insert(flags.end(), {{"--accept", FlagType::learnt,
                              "steps, materials or enquiries whose learned figures are to be in force"},
                             {"--from", FlagType::date, "in force from this day; else from today"},
                             {"--all", FlagType::on, "all steps, not only those that differ most"},
                             {"--svg", FlagType::folder, "draw the figure into that folder"}});
  return {.noun = "steps",
          .verb = "learn",
          .summary = "Learn from the hours told how long steps really take",
          .about =
              "Old beside new for each step, with how many jobs it is of and its range; spoil, ruin and "
              "enquiries likewise. "
              "Nothing changes until --accept names it; quotes that are made keep what they were made with.",
          .words = {},
          .flags = std::move(flags),
          .examples = {"steps learn", "steps learn --accept sew-sections --from 2026-12-01 --dry-run"},
          .refused_when = "--accept names what nothing was learned of",
          .writes = true,
          .writes_with = {"--accept", "--svg"},
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
