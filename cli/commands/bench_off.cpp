// Days on which nobody works, or one person does not.
#include "cli/commands/commands.h"
#include "db/bench.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr std::chrono::days most_days{366};

struct Off {
  std::string who;  // a code, or everyone
  DaysOff days;
  std::string reason;
  bool working = false;  // taken back
  bool changed = true;   // else it was so already
  bool dry_run = false;
};

Json to_json(Off const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"who", view.who},
                      {"first", date_text(view.days.first)},
                      {"last", date_text(view.days.last)},
                      {"working", view.working},
                      {"reason", view.reason},
                      {"changed", view.changed}};
}

std::string days_words(DaysOff const& days) {
  return days.first == days.last ? "on " + date_text(days.first)
                                 : fmt::format("from {} to {}", date_text(days.first), date_text(days.last));
}

Document to_document(Off const& view) {
  Document document;
  if (!view.changed)
    return document.paragraph(
        fmt::format("Nothing to change: {} is off {} already.", view.who, days_words(view.days)));
  document.paragraph(fmt::format("{}{} {} {}{}.{}", view.dry_run ? "Would say: " : "", view.who,
                                 view.working ? "works" : "is off", days_words(view.days),
                                 view.reason.empty() ? "" : ", " + view.reason,
                                 view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband bench show");
  return document;
}

Read<Off> said(Context const& context, Args const& args) {
  Date const first = args.word<Date>(1);
  Off view{.who = args.word(0),
           .days = {first, args.word_count() > 2 ? args.word<Date>(2) : first},
           .reason = args.text("--reason").value_or(""),
           .working = args.has("--working"),
           .dry_run = context.dry_run};
  std::vector<Fault> faults;
  if (first < context.on)
    faults.push_back({FaultCode::out_of_range,
                      args.where("FIRST"),
                      date_text(first),
                      date_text(context.on) + " or later: what was worked is past",
                      {}});
  if (view.days.last < first)
    faults.push_back({FaultCode::contradiction,
                      args.where("LAST"),
                      date_text(view.days.last),
                      "a last day that is not before " + date_text(first),
                      {}});
  else if (view.days.last - first >= most_days)
    faults.push_back({FaultCode::out_of_range,
                      args.where("LAST"),
                      date_text(view.days.last),
                      fmt::format("{} days at most at once", most_days.count()),
                      {}});
  if (view.working && args.has("--reason"))
    faults.push_back(
        {FaultCode::bad_command, args.where("--reason"), "--reason", "for days that are worked", {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return view;
}

Read<bool> known(db::Workshop& workshop, Args const& args) {
  std::string const& who = args.word(0);
  if (who == db::everyone || db::kind_of_code(workshop, who) == db::BenchKind::person) return true;
  Fault fault{FaultCode::unknown_code, args.where("CODE"), who, "a person of the bench, or everyone", {}};
  std::vector<std::string_view> codes{db::everyone};
  Bench const bench = db::load_bench(workshop, Date::max());
  for (Person const& person : bench.people) codes.push_back(person.code);
  fault.near = nearest(who, codes);
  return refuse(std::move(fault));
}

// Of the days off of the same person, or of the whole workshop.
std::vector<db::DayOff> same_days_off(db::Workshop& workshop, std::string const& person,
                                      DaysOff const& days) {
  std::vector<db::DayOff> off = db::days_off(workshop);
  std::erase_if(off, [&](db::DayOff const& each) {
    return each.person != person || each.days.last < days.first || days.last < each.days.first;
  });
  return off;
}

bool covered(std::vector<db::DayOff> const& off, DaysOff const& days) {
  Date day = days.first;
  for (db::DayOff const& each : off)
    if (each.days.first <= day) day = std::max(day, each.days.last + std::chrono::days(1));
  return day > days.last;
}

// The rest of a longer absence stays.
void work_again(db::Writing& writing, db::DayOff const& off, DaysOff const& days) {
  constexpr std::chrono::days one{1};
  db::take_back_day_off(writing, off);
  if (off.days.first < days.first)
    db::add_day_off(writing, {0, off.person, {off.days.first, days.first - one}, off.words});
  if (days.last < off.days.last)
    db::add_day_off(writing, {0, off.person, {days.last + one, off.days.last}, off.words});
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = said(context, args);
  if (!view) return tl::unexpected(view.error());
  if (auto const is_known = known(**workshop, args); !is_known) return tl::unexpected(is_known.error());
  std::string const person = view->who == db::everyone ? "" : view->who;
  std::vector<db::DayOff> const off = same_days_off(**workshop, person, view->days);
  if (view->working && off.empty())
    return refuse({FaultCode::rule_refused,
                   args.where("--working"),
                   view->who,
                   "no day off is kept " + days_words(view->days) + "; endband bench show lists them",
                   {}});
  if (!view->working && covered(off, view->days)) {
    view->changed = false;
    return Answer(*std::move(view));
  }
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    if (view->working)
      for (db::DayOff const& each : off) work_again(writing, each, view->days);
    else
      db::add_day_off(writing, {0, person, view->days, view->reason});
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(*std::move(view));
}

}  // namespace

Command bench_off() {
  return {
      .noun = "bench",
      .verb = "off",
      .summary = "Say on which days a person, or everyone, does not work",
      .about = "Both days included. What sets or dries goes on meanwhile. --working takes such days back.",
      .words =
          {{"CODE", FlagType::person, "of the person, or everyone"},
           {"FIRST", FlagType::date, "the first day off"},
           {.name = "LAST", .type = FlagType::date, .help = "the last one; else the first", .needed = false}},
      .flags = {{"--reason", FlagType::words, "why, for the bench only"},
                {"--working", FlagType::on, "these days are worked after all"}},
      .examples = {"bench off wren 2027-02-15 2027-02-19 --reason \"a course in gilding\"",
                   "bench off everyone 2026-12-31 --working --dry-run"},
      .refused_when = "no such day off is there to be taken back",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
