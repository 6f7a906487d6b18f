// What is to be done when: the open jobs on the bench, day by day, and when each can be sent.
#include "cli/commands/bench_planned.h"
#include "cli/commands/bench_stints.h"
#include "cli/commands/commands.h"
#include "cli/commands/drawn.h"
#include "cli/document/svg.h"
#include "cli/words/values.h"
#include "db/jobs.h"
#include "engine/promise/hours.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

namespace endband::cli {
namespace {

using schedule::Time;

constexpr int longest_days = 366;

struct Week {
  BenchPlanned planned;
  int days = 7;
  std::vector<Stint> stints;  // by time
  BenchChart chart;
  std::optional<std::string> folder;
  bool dry_run = false;

  Date first() const { return planned.plan.now.on; }
  Person const& person(Stint const& stint) const {
    return planned.seen.bench.people[static_cast<std::size_t>(stint.person)];
  }
  BenchOrder const& order(Stint const& stint) const {
    return planned.seen
        .orders[static_cast<std::size_t>(planned.plan.tasks[static_cast<std::size_t>(stint.task)].order)];
  }
};

Json stint_json(Week const& week, Stint const& stint) {
  BenchTask const& task = week.planned.plan.tasks[static_cast<std::size_t>(stint.task)];
  BenchOrder const& order = week.order(stint);
  auto const kind = order.work.lines[static_cast<std::size_t>(task.source)].kind;
  return Json::Object{{"on", date_text(week.first() + std::chrono::days(stint.begin / day_seconds))},
                      {"from", clock_words(stint.begin)},
                      {"to", clock_words(stint.end)},
                      {"person", week.person(stint).code},
                      {"order", order.name},
                      {"step", operation_row(kind).name},
                      {"words", task_words(week.planned, stint.task)}};
}

Json to_json(Week const& week) {
  std::vector<Json> orders;
  for (std::size_t i = 0; i < week.planned.seen.orders.size(); ++i) {
    BenchOrder const& order = week.planned.seen.orders[i];
    orders.push_back(Json::Object{{"order", order.name},
                                  {"title", week.planned.seen.titles[i]},
                                  {"accepted", !order.asked},
                                  {"due", order.due ? Json(date_text(*order.due)) : Json()},
                                  {"waits_for_customer", order.waits_for_customer},
                                  {"ready", ready_json(week.planned, static_cast<int>(i))}});
  }
  return Json::Object{
      {"from", date_text(week.first())},
      {"days", week.days},
      {"orders", json_array(orders, [](Json const& each) { return each; })},
      {"work", json_array(week.stints, [&](Stint const& stint) { return stint_json(week, stint); })},
      {"unknown_lead_days", json_words(week.planned.seen.unknown_leads)},
      {"folder", week.folder ? Json(*week.folder) : Json()}};
}

std::string ready_words(Week const& week, std::size_t order) {
  if (week.planned.seen.orders[order].waits_for_customer) return "waits for the customer";
  auto const& ready = week.planned.ready[order];
  return ready ? date_text(ready->sure) : "nothing to do";
}

void add_orders(Document& document, Week const& week) {
  Table table{
      {{"Order"}, {"Title", Align::left, 1}, {"Hands left", Align::right}, {"Ready 50 %"}, {"95 %"}, {"Due"}},
      {}};
  for (std::size_t i = 0; i < week.planned.seen.orders.size(); ++i) {
    BenchOrder const& order = week.planned.seen.orders[i];
    auto const& ready = week.planned.ready[i];
    table.add({order.name, week.planned.seen.titles[i], ready ? hours_words(Ratio(ready->hands.n)) : "",
               ready ? date_text(ready->half) : "", ready_words(week, i),
               order.due ? date_text(*order.due) : ""});
  }
  document.add(std::move(table));
  for (std::size_t i = 0; i < week.planned.seen.orders.size(); ++i) {
    BenchOrder const& order = week.planned.seen.orders[i];
    auto const& ready = week.planned.ready[i];
    if (ready && order.due && ready->sure > *order.due)
      document.notice(NoticeKind::warning,
                      fmt::format("{} is due on {}: {}", order.name, date_text(*order.due),
                                  chain_words(week.planned, static_cast<int>(i))));
  }
}

void add_days(Document& document, Week const& week) {
  std::optional<Time> day;
  Table table;
  auto const close = [&] {
    if (day) document.add(std::move(table));
  };
  bool const several = week.planned.seen.bench.people.size() > 1;
  for (Stint const& stint : week.stints) {
    if (!day || stint.begin / day_seconds != *day) {
      close();
      day = stint.begin / day_seconds;
      document.heading(day_words(week.first() + std::chrono::days(*day)), 2);
      table = Table{{{"From"}, {"To"}, {"Order"}, {"What"}}, {}};
      if (several) table.columns.insert(table.columns.begin() + 2, {"Who"});
    }
    std::vector<std::string> cells{clock_words(stint.begin), clock_words(stint.end), week.order(stint).name,
                                   task_words(week.planned, stint.task)};
    if (several) cells.insert(cells.begin() + 2, week.person(stint).code);
    table.add(std::move(cells));
  }
  close();
}

Document to_document(Week const& week) {
  Document document;
  document.heading(fmt::format("The bench from {}, {} days", day_words(week.first()), week.days));
  if (week.planned.seen.orders.empty()) return document.paragraph("Nothing is on the bench: no job is open.");
  constexpr std::size_t chart_columns = 78;
  document.add(Verbatim{bench_chart_text(week.chart, chart_columns)});
  add_orders(document, week);
  add_days(document, week);
  add_unknown_leads(document, week.planned.seen);
  if (week.folder)
    document.paragraph(
        fmt::format("{} {}/bench.svg", week.dry_run ? "Would be drawn:" : "Drawn:", *week.folder));
  return document;
}

Read<void> draw(Context const& context, Args const& args, Week const& week) {
  if (!week.folder) return {};
  std::vector<NewFile> const files{{"bench.svg", to_svg(draw_bench_chart(week.chart))}};
  return draw(context, args, week.folder, files);
}

// A quote that is not accepted, as if it were asked today.
Read<std::optional<db::QuoteHeader>> with_quote(db::Workshop& workshop, Args const& args) {
  auto const number = args.text("--with");
  if (!number) return std::nullopt;
  auto const quote = located(db::find_quote(workshop, *number), args.where("--with"));
  if (!quote) return tl::unexpected(quote.error());
  for (db::JobHeader const& job : db::list_jobs(workshop, false))
    if (job.quote.id == quote->id)
      return refuse({FaultCode::contradiction,
                     args.where("--with"),
                     *number,
                     "a quote that is not accepted: job " + job.number + " is on the bench anyhow",
                     {}});
  return *quote;
}

Read<BenchSeen> read(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto const quote = with_quote(workshop, args);
  if (!quote) return tl::unexpected(quote.error());
  if (!*quote) return see_bench(workshop, std::nullopt, context.on);
  FrozenQuote const frozen = db::load_quote(workshop, (*quote)->id);
  return see_bench(workshop, BookAsked{frozen, db::number_text((*quote)->number), std::nullopt}, context.on);
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto seen = read(context, **workshop, args);
  if (!seen) return tl::unexpected(std::move(seen.error()));
  auto planned = plan_seen(std::move(*seen), context.on);
  if (!planned) return tl::unexpected(std::move(planned.error()));
  Week week;
  week.planned = std::move(*planned);
  week.folder = args.text("--svg");
  week.dry_run = context.dry_run;
  week.days = static_cast<int>(args.get<std::int64_t>("--days").value_or(7));
  if (week.days < 1 || week.days > longest_days)
    return refuse({FaultCode::out_of_range,
                   args.where("--days"),
                   std::to_string(week.days),
                   fmt::format("1 to {} days", longest_days),
                   {}});
  week.stints = stints_of(week.planned.plan, week.days * day_seconds);
  week.chart = chart_of(week.planned, context.on, week.days);
  if (auto const drawn = draw(context, args, week); !drawn) return tl::unexpected(drawn.error());
  return Answer(std::move(week));
}

}  // namespace

Command bench_week() {
  return {
      .noun = "bench",
      .verb = "week",
      .summary = "Plan what is done when: the open jobs on the bench, day by day",
      .about =
          "From the morning of the day. Jobs that are due first go first; a book that is asked about fills "
          "the gaps. Hands "
          "work in their hours, what presses or dries goes on overnight and over weekends. Hours that were "
          "told shorten what "
          "is left. A job that waits for its customer's word is not in it.",
      .words = {},
      .flags = {{"--days", FlagType::whole, "how many days are shown; else 7"},
                {"--with", FlagType::quote, "a quote not yet accepted, as if it were: 26-014b"},
                {"--svg", FlagType::folder, "the folder to write the chart to; made when it is not there"}},
      .examples = {"bench week", "bench week --days 21 --svg chart"},
      .refused_when =
          "nobody's hours are known, a step can be done by nobody, or a drawing is there and --yes is not "
          "said",
      .writes = true,
      .writes_with = {"--svg"},
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
