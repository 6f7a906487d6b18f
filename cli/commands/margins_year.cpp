// A year looked back on: what overhead was borne and spent, which hours were charged, and the rates for the
// next.
#include "cli/commands/commands.h"
#include "cli/commands/margins_seen.h"
#include "cli/commands/money_said.h"
#include "cli/words/values.h"
#include "db/settings.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct MarginsYear {
  Date from, to;
  YearFigures figures;
  YearSeen seen;
  std::int64_t jobs = 0;
  bool spent_said = false;
  bool shortened = false;  // the workshop had no year before
};

constexpr std::int64_t seconds_an_hour = 3600;

Money an_hour(Ratio a_second, Currency currency) {
  return {round_product(a_second, Ratio(seconds_an_hour), Rounding::half_away), currency};
}

Currency currency_of(MarginsYear const& view) { return view.figures.overhead_spent.currency; }

Json rates_json(RateBasis const& basis, Currency currency) {
  Rates const rates = rates_of(basis);
  return Json::Object{{"overhead", money_json(basis.overhead)},
                      {"hours_charged_s", basis.hours_charged.n},
                      {"labour_an_hour", money_json(an_hour(rates.labour, currency))},
                      {"overhead_an_hour", money_json(an_hour(rates.overhead, currency))}};
}

Json to_json(MarginsYear const& view) {
  YearFigures const& figures = view.figures;
  return Json::Object{{"from", date_text(view.from)},
                      {"to", date_text(view.to)},
                      {"days", figures.days},
                      {"jobs", view.jobs},
                      {"overhead_planned", money_json(view.seen.overhead_planned)},
                      {"overhead_spent", money_json(figures.overhead_spent)},
                      {"spent_said", view.spent_said},
                      {"overhead_absorbed", money_json(figures.overhead_absorbed)},
                      {"overhead_not_covered", money_json(view.seen.overhead_not_covered)},
                      {"hours_planned_s", view.seen.hours_planned.n},
                      {"hours_charged_s", figures.hours_charged.n},
                      {"now", rates_json(figures.planned, currency_of(view))},
                      {"next", rates_json(view.seen.next, currency_of(view))},
                      {"enough", view.seen.enough}};
}

std::string covered_words(MarginsYear const& view) {
  Money const lacks = view.seen.overhead_not_covered;
  if (lacks.minor > 0) return fmt::format("{} of it was borne by no job.", money_words(lacks));
  if (lacks.minor < 0) return fmt::format("The jobs bore {} more than that.", money_words(-lacks));
  return "The jobs bore just that.";
}

Document to_document(MarginsYear const& view) {
  YearFigures const& figures = view.figures;
  Currency const currency = currency_of(view);
  Document document;
  document.heading(fmt::format("{} to {}: {} {} finished", date_text(view.from), date_text(view.to),
                               view.jobs, view.jobs == 1 ? "job" : "jobs"));
  Table overhead{{{"Overhead"}, {std::string(currency.code()), Align::decimal}}, {}};
  overhead.add({"Planned for these days", money_text(view.seen.overhead_planned)});
  overhead.add({view.spent_said ? "Spent, as said" : "Spent, as the settings say day by day",
                money_text(figures.overhead_spent)});
  overhead.add({"Borne by the jobs", money_text(figures.overhead_absorbed)});
  Money const lacks = view.seen.overhead_not_covered;
  overhead.add_total({lacks.minor < 0 ? "Borne beyond it" : "Borne by no job",
                      money_text(lacks.minor < 0 ? -lacks : lacks)});
  document.add(std::move(overhead)).paragraph(covered_words(view));
  Rates const now = rates_of(figures.planned), next = rates_of(view.seen.next);
  Table rates{{{"Of a year"}, {"As set", Align::right}, {"As it was", Align::right}}, {}};
  rates.add({"Hours charged", hours_words(Ratio(figures.planned.hours_charged.n)),
             hours_words(Ratio(view.seen.next.hours_charged.n))});
  rates.add({"Overhead", money_text(figures.planned.overhead), money_text(view.seen.next.overhead)});
  rates.add({"An hour is paid", money_text(an_hour(now.labour, currency)),
             money_text(an_hour(next.labour, currency))});
  rates.add({"An hour bears overhead", money_text(an_hour(now.overhead, currency)),
             money_text(an_hour(next.overhead, currency))});
  document.heading("Rates that would have covered it", 2).add(std::move(rates));
  document.paragraph(
      fmt::format("{} charged in {} day{}, {} planned for them.", hours_words(Ratio(figures.hours_charged.n)),
                  figures.days, figures.days == 1 ? "" : "s", hours_words(Ratio(view.seen.hours_planned.n))));
  if (view.shortened)
    document.notice(
        NoticeKind::note,
        fmt::format("The workshop's own year begins on {}, and so do these days.", date_text(view.from)));
  if (!view.seen.enough)
    return document.notice(NoticeKind::note,
                           "No hours were charged within those days, so they say nothing of the next year.");
  document.notice(NoticeKind::note,
                  "The pay wanted stays as it is set: of fewer hours each has to bring more.");
  document.next(fmt::format("endband workshop set year.hours=\"{} h\" --from DATE",
                            view.seen.next.hours_charged.n / seconds_an_hour));
  return document;
}

struct Days {
  Date from, to;
};
Read<Days> days_asked(Args const& args, Date on) {
  Days days;
  days.to = args.get<Date>("--until").value_or(on);
  days.from = args.get<Date>("--since").value_or(days.to - std::chrono::days{364});
  if (days.to > on)
    return refuse({FaultCode::out_of_range,
                   args.where("--until"),
                   date_text(days.to),
                   date_text(on) + " or earlier",
                   {}});
  if (days.from > days.to)
    return refuse({FaultCode::contradiction,
                   args.where("--since"),
                   date_text(days.from),
                   date_text(days.to) + " or earlier",
                   {}});
  return days;
}

Read<MarginsYear> seen(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto const days = days_asked(args, context.on);
  if (!days) return tl::unexpected(days.error());
  auto const shop = db::load_shop(workshop, days->to);
  if (!shop) return tl::unexpected(shop.error());
  Currency const currency = workshop.currency();
  MarginsYear view;
  view.from = std::max(days->from, db::first_year_set(workshop).value_or(days->from));
  view.shortened = view.from > days->from;
  view.to = days->to;
  YearFigures& figures = view.figures;
  figures.planned = shop->shop.basis;
  figures.days = (view.to - view.from).count() + 1;
  figures.overhead_spent = figures.overhead_absorbed = {0, currency};
  if (auto const said = args.text("--spent")) {
    auto const money = read_workshop_money(*said, currency, args.where("--spent"));
    if (!money) return tl::unexpected(money.error());
    figures.overhead_spent = *money;
    view.spent_said = true;
  } else {
    for (auto const& sums : db::load_overheads(workshop))
      figures.overhead_spent += spent_by_the_day(sums, view.from, view.to, currency);
  }
  db::Absorbed const absorbed = db::load_absorbed(workshop, view.from, view.to);
  figures.overhead_absorbed = absorbed.overhead;
  figures.hours_charged = absorbed.time;
  view.jobs = absorbed.jobs;
  view.seen = look_back(figures);
  return view;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = seen(context, **workshop, args);
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(*view);
}

}  // namespace

Command margins_year() {
  return {.noun = "margins",
          .verb = "year",
          .summary = "Hold overhead borne against spent, hours charged against planned",
          .about =
              "Of the jobs that ended within the days, those called off too; and what an hour should be paid "
              "and bear, were "
              "the next year like these days.",
          .words = {},
          .flags = {{"--since", FlagType::date, "the first day; else a year before the last"},
                    {"--until", FlagType::date, "the last day; else the business day"},
                    {"--spent", FlagType::money,
                     "overhead spent within them, as your books say; else as the settings say"}},
          .examples = {"margins year", "margins year --since 2026-01-01 --until 2026-11-25 --spent 7410.00"},
          .refused_when = "a setting of the year is missing",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
