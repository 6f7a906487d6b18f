// What features, places and steps are really worth, as far as past jobs can tell it from chance.
#include "cli/commands/commands.h"
#include "cli/commands/drawn.h"
#include "cli/commands/margins_seen.h"
#include "cli/drawings/figure.h"
#include "cli/words/values.h"
#include "db/steps.h"
#include "engine/review/findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace endband::cli {
namespace {

struct MarginsWorth {
  std::vector<PastJob> jobs;
  std::vector<FeatureEffect> effects;
  std::vector<Finding> findings;
  std::vector<PastGroup> outlets;
  std::optional<std::string> folder;
  Currency currency;
};

FeatureRow const& feature(std::size_t row) { return feature_table()[row]; }

// "leaf laid", "clasps, blind lines and leather dyed by hand"
std::string effect_words(FeatureEffect const& effect) {
  std::vector<std::string> words{std::string(feature(effect.feature).words)};
  for (std::size_t const other : effect.always_with) words.emplace_back(feature(other).words);
  return listed(words);
}

std::string points(double share) { return fmt::format("{:+.1f}", 100 * share); }
std::string range_points(Ranged const& ranged) {
  return fmt::format("{} to {}", points(ranged.low), points(ranged.high));
}
std::string hours(double value) { return fmt::format("{:+.1f} h", value); }
// "22 % longer", "19 % less"
std::string longer(double ratio) {
  return fmt::format("{:.0f} % {}", std::abs(100 * (ratio - 1)), ratio < 1 ? "less" : "longer");
}
Money rounded(double minor, Currency currency) { return {std::llround(minor), currency}; }

std::string_view kind_name(FindingKind kind) {
  switch (kind) {
    case FindingKind::step_takes_longer: return "step-takes-longer";
    case FindingKind::step_takes_less: return "step-takes-less";
    case FindingKind::outlet_loses: return "outlet-loses";
    case FindingKind::feature_pays: return "feature-pays";
    case FindingKind::feature_costs: return "feature-costs";
  }
  return {};
}

// With what always comes with it.
std::string found_feature(MarginsWorth const& view, std::string const& name) {
  for (FeatureEffect const& effect : view.effects)
    if (feature(effect.feature).name == name) return effect_words(effect);
  return name;
}

std::string step_words(std::string const& name) {
  auto const operation = operation_named(name);
  return operation ? std::string(operation_row(*operation).what) : name;
}

std::string finding_words(MarginsWorth const& view, Finding const& finding) {
  Ranged const& size = finding.size;
  std::string const n = fmt::format("n {}", size.n);
  switch (finding.what) {
    case FindingKind::step_takes_longer:
    case FindingKind::step_takes_less:
      return fmt::format("To {} takes {} than it is timed ({} to {}, {})", step_words(finding.name),
                         longer(size.value), longer(size.low), longer(size.high), n);
    case FindingKind::outlet_loses:
      return fmt::format("What is sold {} loses money: {} {} of a job is left on average ({} to {}, {})",
                         outlet_words(finding.name), money_text(rounded(size.value, view.currency)),
                         view.currency.code(), money_text(rounded(size.low, view.currency)),
                         money_text(rounded(size.high, view.currency)), n);
    case FindingKind::feature_pays:
    case FindingKind::feature_costs: {
      return fmt::format("With {} the margin is {} points {} ({}, {})", found_feature(view, finding.name),
                         fmt::format("{:.1f}", std::abs(100 * size.value)),
                         finding.what == FindingKind::feature_pays ? "higher" : "lower", range_points(size),
                         n);
    }
  }
  return {};
}

Json finding_json(Finding const& finding) {
  return Json::Object{{"what", kind_name(finding.what)},
                      {"name", finding.name},
                      {"size", ranged_json(finding.size)},
                      {"chance_e6", static_cast<std::int64_t>(std::llround(finding.chance * 1e6))}};
}

Json effect_json(FeatureEffect const& effect) {
  auto const name = [](std::size_t row) { return Json(feature(row).name); };
  return Json::Object{{"feature", feature(effect.feature).name},
                      {"always_with", json_array(effect.always_with, name)},
                      {"with", effect.with},
                      {"without", effect.without},
                      {"margin", ranged_json(effect.margin)},
                      {"hours", ranged_json(effect.hours)},
                      {"chance_e6", static_cast<std::int64_t>(std::llround(effect.margin_chance * 1e6))}};
}

Json outlet_json(PastGroup const& group) {
  Json::Object object = std::get<Json::Object>(past_sum_json(group.sum).value());
  object.insert(object.begin(), {"outlet", group.name.empty() ? Json() : Json(group.name)});
  return object;
}

Json to_json(MarginsWorth const& view) {
  return Json::Object{{"jobs", static_cast<std::int64_t>(view.jobs.size())},
                      {"findings", json_array(view.findings, finding_json)},
                      {"features", json_array(view.effects, effect_json)},
                      {"outlets", json_array(view.outlets, outlet_json)},
                      {"folder", view.folder ? Json(*view.folder) : Json()}};
}

void add_features_table(Document& document, MarginsWorth const& view) {
  Table table{{{"Feature"},
               {"With", Align::right},
               {"Without", Align::right, 2},
               {"Margin, points", Align::decimal},
               {"Range", Align::right},
               {"Hours over the quote", Align::decimal, 3},
               {"Range", Align::right, 3}},
              {}};
  std::vector<FeatureEffect> effects = view.effects;
  std::ranges::stable_sort(effects, std::ranges::greater{},
                           [](FeatureEffect const& effect) { return effect.margin.value; });
  for (FeatureEffect const& effect : effects)
    table.add({effect_words(effect), std::to_string(effect.with), std::to_string(effect.without),
               points(effect.margin.value), range_points(effect.margin), hours(effect.hours.value),
               fmt::format("{} to {}", hours(effect.hours.low), hours(effect.hours.high))});
  document.heading("What each feature adds, all others held", 2);
  if (table.rows.empty()) {
    document.paragraph(fmt::format("No feature has {} jobs with it and {} without.", few, few));
    return;
  }
  document.add(std::move(table));
}

void add_outlets(Document& document, MarginsWorth const& view) {
  Table table{{{"Sold"},
               {"Jobs", Align::right},
               {"Margin", Align::decimal},
               {fmt::format("Left a job, {}", view.currency.code()), Align::decimal},
               {"An hour", Align::decimal}},
              {}};
  for (PastGroup const& group : view.outlets) {
    PastSum const& sum = group.sum;
    Money const each = scale(sum.left + sum.left_given, Ratio(1, sum.count), Rounding::half_away);
    table.add({outlet_words(group.name), fmt::format("{}{}", sum.count, sum.count < few ? " few" : ""),
               margin_words(sum.margin()), money_text(each), sum.hourly() ? money_text(*sum.hourly()) : ""});
  }
  document.heading("Where it was sold", 2).add(std::move(table));
}

Document to_document(MarginsWorth const& view) {
  Document document;
  if (view.jobs.empty())
    return document.paragraph("No job of that kind is finished.").next("endband job list");
  document.heading(fmt::format("What {} past jobs say, {}", view.jobs.size(), period_words(view.jobs)));
  if (view.findings.empty())
    document.paragraph("Nothing stands out that chance alone would not show as well.");
  for (Finding const& finding : view.findings) document.paragraph(finding_words(view, finding) + ".");
  add_features_table(document, view);
  add_outlets(document, view);
  document.notice(NoticeKind::note,
                  "Ranges hold 19 times of 20. What stands above is told so that in a year of nothing the "
                  "chance of naming "
                  "anything is below one in twenty. Features are told apart by one shrunk regression over "
                  "all jobs; what was "
                  "given away is added back.");
  if (view.folder) document.paragraph("Figures are in " + *view.folder + ".");
  document.next("endband steps learn");
  return document;
}

RangeFigure figure_of(MarginsWorth const& view) {
  RangeFigure figure{.title = "What each feature adds to the margin",
                     .name = "features",
                     .unit = "points of margin",
                     .zero = 0,
                     .zero_words = "no difference",
                     .bars = false,
                     .rows = {}};
  for (Finding const& finding : view.findings)
    if (finding.what == FindingKind::feature_pays || finding.what == FindingKind::feature_costs) {
      figure.title = finding_words(view, finding);
      break;
    }
  for (FeatureEffect const& effect : view.effects) {
    Ranged const& margin = effect.margin;
    figure.rows.push_back(
        {effect_words(effect), 100 * margin.value, 100 * margin.low, 100 * margin.high,
         fmt::format("{} ({}), n {}", points(margin.value), range_points(margin), effect.with), false});
  }
  std::ranges::stable_sort(figure.rows, std::ranges::greater{}, &RangeRow::value);
  return figure;
}

std::vector<Drawing> drawings_of(MarginsWorth const& view) {
  RangeFigure const figure = figure_of(view);
  if (figure.rows.empty()) return {};
  return {draw_ranges(figure)};
}

Read<MarginsWorth> seen(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto const filter = past_filter(workshop, args, context.on);
  if (!filter) return tl::unexpected(filter.error());
  MarginsWorth view;
  view.currency = workshop.currency();
  view.folder = args.text("--svg");
  view.jobs = db::load_past(workshop, *filter).jobs;
  db::add_features(workshop, view.jobs);
  auto const steps = db::load_steps_seen(workshop, view.jobs, db::load_steps(workshop, context.on));
  view.effects = feature_effects(view.jobs);
  view.findings = findings(view.jobs, steps.steps);
  view.outlets = grouped(view.jobs, GroupBy::outlet, view.currency);
  return view;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = seen(context, **workshop, args);
  if (!view) return tl::unexpected(std::move(view.error()));
  if (view->folder) {
    if (auto const done = draw(context, args, view->folder, svg_files({draw_ranges(figure_of(*view))}));
        !done)
      return tl::unexpected(done.error());
  }
  return Answer(std::move(*view));
}

}  // namespace

Command margins_worth() {
  std::vector<Flag> flags = past_flags();
  flags.push_back({"--svg", FlagType::folder, "draw the figures into that folder"});
  return {.noun = "margins",
          .verb = "worth",
          .summary = "Say what features, places and steps are really worth",
          .about =
              "From all finished jobs: what each feature adds to the margin and to the hours over those "
              "quoted, which "
              "outlet loses, which step takes another time than it is timed at. Never a number without how "
              "many jobs it "
              "is of, and its range.",
          .words = {},
          .flags = std::move(flags),
          .examples = {"margins worth", "margins worth --since 2026-01-01 --json"},
          .refused_when = "",
          .writes = true,
          .writes_with = {"--svg"},
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
