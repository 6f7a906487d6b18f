// Past jobs side by side: what was quoted to be left of them, and what was.
#include "cli/commands/commands.h"
#include "cli/commands/drawn.h"
#include "cli/commands/margins_seen.h"
#include "cli/drawings/figure.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr std::size_t most_drawn = 40;
constexpr std::size_t bar_width = 17;

struct MarginsList {
  db::Past past;
  std::optional<GroupBy> by;
  std::vector<PastGroup> groups;
  std::optional<std::string> folder;
  Currency currency;
  PastSum all;            // of the jobs
  bool narrowed = false;  // not all jobs were asked for

  bool gave_away() const { return all.given_away.minor != 0; }
};

PastSum sum_of(PastJob const& job) {
  PastSum sum(job.price.currency);
  sum.add(job);
  return sum;
}

double percent_of(std::optional<Ratio> share) { return share ? 100 * decimal(*share) : 0; }

std::string group_words(MarginsList const& view, std::string const& name) {
  if (!name.empty()) return name;
  return view.by == GroupBy::outlet ? "own" : "for the shelf";
}

Json group_json(PastGroup const& group) {
  Json::Object object = std::get<Json::Object>(past_sum_json(group.sum).value());
  object.insert(object.begin(), {"name", group.name.empty() ? Json() : Json(group.name)});
  return object;
}

Json to_json(MarginsList const& view) {
  Json rows = view.by ? json_array(view.groups, group_json) : json_array(view.past.jobs, past_job_json);
  return Json::Object{{"by", view.by ? Json(group_by_name(*view.by)) : Json()},
                      {"rows", std::move(rows)},
                      {"all", past_sum_json(view.all)},
                      {"called_off", view.past.called_off},
                      {"left_of_called_off", money_json(view.past.left_of_called_off)},
                      {"folder", view.folder ? Json(*view.folder) : Json()}};
}

std::vector<std::string> figures_of(MarginsList const& view, PastSum const& sum) {
  std::vector<std::string> cells{
      margin_words(sum.margin_quoted()),     margin_words(sum.margin()),
      money_text(sum.left + sum.left_given), hours_words(Ratio(sum.seconds_quoted)),
      hours_words(Ratio(sum.seconds)),       sum.hourly() ? money_text(*sum.hourly()) : ""};
  if (view.gave_away()) cells.push_back(sum.given_away.minor == 0 ? "" : money_text(sum.given_away));
  return cells;
}

void add_columns(MarginsList const& view, Table& table) {
  table.columns.insert(table.columns.end(), {{"Quoted", Align::decimal},
                                             {"Margin", Align::decimal},
                                             {fmt::format("Left {}", view.currency.code()), Align::decimal},
                                             {"Hours quoted", Align::right, 2},
                                             {"Worked", Align::right},
                                             {"An hour", Align::decimal}});
  if (view.gave_away()) table.columns.push_back({"Given away", Align::decimal, 1});
}

std::vector<std::string> joined(std::vector<std::string> first, std::vector<std::string> const& rest) {
  first.insert(first.end(), rest.begin(), rest.end());
  return first;
}

Table jobs_table(MarginsList const& view) {
  Table table{{{"Job"}, {"Finished", Align::left, 3}, {"Title", Align::left, 4}}, {}};
  add_columns(view, table);
  for (PastJob const& job : view.past.jobs)
    table.add(joined({job.number, date_text(job.ended), job.title}, figures_of(view, sum_of(job))));
  table.add_total(joined({"All", "", ""}, figures_of(view, view.all)));
  return table;
}

// Bars of what an hour earned, on one scale.
Table groups_table(MarginsList const& view) {
  Table table{{{std::string(group_by_name(*view.by))}, {"Jobs", Align::right}}, {}};
  std::string& title = table.columns.front().title;
  title.front() = static_cast<char>(title.front() - 'a' + 'A');
  add_columns(view, table);
  table.columns.push_back({.title = "", .priority = 5, .bars = true});
  double low = 0, high = 0;
  for (PastGroup const& group : view.groups)
    if (auto const hourly = group.sum.hourly()) {
      low = std::min(low, major(*hourly));
      high = std::max(high, major(*hourly));
    }
  for (PastGroup const& group : view.groups) {
    auto const hourly = group.sum.hourly();
    auto cells = joined({group_words(view, group.name),
                         fmt::format("{}{}", group.sum.count, group.sum.count < few ? " few" : "")},
                        figures_of(view, group.sum));
    cells.push_back(hourly ? bar_text(major(*hourly), low, high, bar_width) : "");
    table.add(std::move(cells));
  }
  if (view.by != GroupBy::feature) {
    auto cells = joined({"All", std::to_string(view.all.count)}, figures_of(view, view.all));
    cells.emplace_back();
    table.add_total(std::move(cells));
  }
  return table;
}

// The group that earns most an hour and the one that earns least, of those that are not few.
std::optional<std::string> finding(MarginsList const& view) {
  std::vector<PastGroup const*> known;
  for (PastGroup const& group : view.groups)
    if (group.sum.count >= few && group.sum.hourly()) known.push_back(&group);
  if (known.size() < 2) return std::nullopt;
  auto const by_hourly = [](PastGroup const* group) { return group->sum.hourly()->minor; };
  auto const [least, most] = std::ranges::minmax_element(known, {}, by_hourly);
  return fmt::format("{} earns most, {} an hour; {} least, {}", group_words(view, (*most)->name),
                     money_words(*(*most)->sum.hourly()), group_words(view, (*least)->name),
                     money_words(*(*least)->sum.hourly()));
}

std::string whole_words(MarginsList const& view) {
  PastSum const& all = view.all;
  return fmt::format("{} job{} finished {}: {} left of {} without tax, {} quoted to be.", all.count,
                     all.count == 1 ? "" : "s", period_words(view.past.jobs), money_words(all.left),
                     money_text(all.full_price - all.given_away), money_text(all.left_quoted));
}

Document to_document(MarginsList const& view) {
  Document document;
  if (view.past.jobs.empty())
    return document.paragraph(view.narrowed ? "No job of that kind is finished." : "No job is finished yet.")
        .next("endband job list");
  document.heading(view.by ? "What past jobs earned, by " + std::string(group_by_name(*view.by))
                           : std::string("What past jobs earned"));
  document.paragraph(whole_words(view));
  document.add(view.by ? groups_table(view) : jobs_table(view));
  if (view.by)
    if (auto const found = finding(view)) document.paragraph(*found + ".");
  bool const has_few = view.by && std::ranges::any_of(view.groups, [](PastGroup const& group) {
                         return group.sum.count < few;
                       });
  if (has_few)
    document.notice(NoticeKind::note, fmt::format("few: of fewer than {} jobs, no ground to build on.", few));
  if (view.by == GroupBy::feature)
    document.notice(NoticeKind::note,
                    "A job counts with each feature that it has; endband margins worth tells them apart.");
  if (view.gave_away())
    document.notice(NoticeKind::note,
                    "Margins, what is left and what an hour earned are at the full price; what was given "
                    "away stands beside them.");
  if (view.past.called_off > 0)
    document.notice(
        NoticeKind::note,
        fmt::format("{} called off within those days, not among them: {} was kept of them over what they "
                    "had cost.",
                    view.past.called_off, money_words(view.past.left_of_called_off)));
  if (view.folder) document.paragraph("Figures are in " + *view.folder + ".");
  document.next(view.by ? "endband margins worth" : "endband margins show " + view.past.jobs.back().number);
  return document;
}

PairFigure pair_figure(MarginsList const& view) {
  PairFigure figure{.title = {},
                    .name = "margins",
                    .first = "quoted",
                    .second = "actual",
                    .unit = "% of the price",
                    .aim = {},
                    .aim_words = {},
                    .rows = {}};
  std::vector<PastJob> jobs = view.past.jobs;
  auto const gap = [](PastJob const& job) {
    return percent_of(sum_of(job).margin()) - percent_of(sum_of(job).margin_quoted());
  };
  std::ranges::stable_sort(jobs, {}, gap);
  auto const below = std::ranges::count_if(jobs, [&](PastJob const& job) { return gap(job) < 0; });
  if (jobs.size() > most_drawn) jobs.resize(most_drawn);
  figure.title = fmt::format(
      "{} of {} jobs left less than was quoted{}", below, view.past.jobs.size(),
      jobs.size() < view.past.jobs.size() ? fmt::format("; the {} that changed lowest", most_drawn) : "");
  for (PastJob const& job : jobs) {
    PastSum const sum = sum_of(job);
    figure.rows.push_back({job.number + " " + job.title, percent_of(sum.margin_quoted()),
                           percent_of(sum.margin()),
                           margin_words(sum.margin_quoted()) + " -> " + margin_words(sum.margin())});
  }
  return figure;
}

RangeFigure group_figure(MarginsList const& view) {
  RangeFigure figure{.title = finding(view).value_or("What an hour earned"),
                     .name = "hourly",
                     .unit = fmt::format("{} an hour", view.currency.code()),
                     .zero = 0,
                     .zero_words = {},
                     .bars = true,
                     .rows = {}};
  for (PastGroup const& group : view.groups) {
    auto const hourly = group.sum.hourly();
    if (!hourly) continue;
    double const value = major(*hourly);
    figure.rows.push_back(
        {group_words(view, group.name), value, value, value,
         fmt::format("{}, {} job{}", money_text(*hourly), group.sum.count, group.sum.count == 1 ? "" : "s"),
         group.sum.count < few});
  }
  std::ranges::stable_sort(figure.rows, std::ranges::greater{}, &RangeRow::value);
  return figure;
}

bool by_sort(std::string const& sort, PastJob const& a, PastJob const& b) {
  if (sort == "left") return a.left < b.left;
  if (sort == "gap") return a.left - a.left_quoted < b.left - b.left_quoted;
  auto const margin = [](PastJob const& job) { return sum_of(job).margin().value_or(Ratio(0)); };
  auto const earned = [](PastJob const& job) {
    return sum_of(job).hourly().value_or(Money{0, job.price.currency});
  };
  if (sort == "margin") return margin(a) < margin(b);
  if (sort == "hourly") return earned(a) < earned(b);
  return false;  // as they ended
}

Read<void> sort_jobs(Args const& args, std::vector<PastJob>& jobs) {
  auto const sort = args.text("--sort");
  if (!sort) return {};
  constexpr std::array<std::string_view, 5> ways{"ended", "margin", "left", "hourly", "gap"};
  if (std::ranges::find(ways, *sort) == ways.end())
    return refuse({FaultCode::bad_value, args.where("--sort"), *sort, "ended, margin, left, hourly or gap",
                   nearest(*sort, ways)});
  std::ranges::stable_sort(jobs, [&](PastJob const& a, PastJob const& b) { return by_sort(*sort, a, b); });
  return {};
}

Read<std::optional<GroupBy>> grouping(Args const& args) {
  auto const word = args.text("--by");
  if (!word) return std::nullopt;
  auto const by = group_by_named(*word);
  if (by) return by;
  constexpr std::array<std::string_view, 5> names{"binding", "feature", "outlet", "customer", "month"};
  return refuse({FaultCode::bad_value, args.where("--by"), *word,
                 "binding, feature, outlet, customer or month", nearest(*word, names)});
}

std::vector<Drawing> drawings_of(MarginsList const& view) {
  std::vector<Drawing> drawings{draw_pairs(pair_figure(view))};
  if (view.by) drawings.push_back(draw_ranges(group_figure(view)));
  return drawings;
}

Read<MarginsList> seen(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto const filter = past_filter(workshop, args, context.on);
  if (!filter) return tl::unexpected(filter.error());
  auto const by = grouping(args);
  if (!by) return tl::unexpected(by.error());
  MarginsList view{.past = db::load_past(workshop, *filter),
                   .by = *by,
                   .groups = {},
                   .folder = args.text("--svg"),
                   .currency = workshop.currency(),
                   .all = PastSum(workshop.currency())};
  for (PastJob const& job : view.past.jobs) view.all.add(job);
  view.narrowed = filter->since || filter->binding || filter->outlet || filter->customer;
  if (auto const done = sort_jobs(args, view.past.jobs); !done) return tl::unexpected(done.error());
  if (view.by == GroupBy::feature) db::add_features(workshop, view.past.jobs);
  if (view.by) view.groups = grouped(view.past.jobs, *view.by, view.currency);
  return view;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = seen(context, **workshop, args);
  if (!view) return tl::unexpected(std::move(view.error()));
  if (view->folder) {
    if (auto const done = draw(context, args, view->folder, svg_files(drawings_of(*view))); !done)
      return tl::unexpected(done.error());
  }
  return Answer(std::move(*view));
}

}  // namespace

Command margins_list() {
  std::vector<Flag> flags = past_flags();
  flags.insert(flags.end(),
               {{"--by", FlagType::group_by, "binding, feature, outlet, customer or month: sums of each"},
                {"--sort", FlagType::order, "ended, margin, left, hourly or gap: the lowest first"},
                {"--svg", FlagType::folder, "draw the figures into that folder"}});
  return {.noun = "margins",
          .verb = "list",
          .summary = "Compare past jobs: what was quoted to be left, and what was",
          .about =
              "Of finished jobs, by the day they were finished. What an hour earned counts all hours told. A "
              "gift or "
              "a discount counts at the full price, with what was given away beside it.",
          .words = {},
          .flags = std::move(flags),
          .examples = {"margins list --by binding", "margins list --sort gap --jsonl"},
          .refused_when = "",
          .writes = true,
          .writes_with = {"--svg"},
          .lists = true,
          .run = run};
}

}  // namespace endband::cli
