// Says who works when, and how many presses and drying places there are.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/commands/money_said.h"
#include "cli/words/values.h"
#include "db/bench.h"
#include "db/week.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

constexpr std::array<std::string_view, 4> person_flags{"--hours", "--pay", "--overtime", "--gone"};
constexpr std::int64_t most_places = 1000;
constexpr Duration most_overtime{12 * 3600};
constexpr std::int64_t most_an_hour = 10'000;  // of the currency's main unit

Fields fields_of(Person const& person, bool gone) {
  return {{"name", person.name},
          {"hours", db::week_text(person.week)},
          {"pay", person.rate ? money_words(*person.rate) + " an hour" : ""},
          {"overtime", person.overtime.n == 0 ? "" : duration_text(person.overtime) + " a working day"},
          {"gone", gone ? "yes" : ""}};
}

Fields fields_of(Place const& place) {
  return {{"name", place.name}, {"count", std::to_string(place.count)}};
}

// What it is, from what the code is already and what is said of it.
Read<db::BenchKind> kind_said(db::Workshop& workshop, Args const& args) {
  std::string const& code = args.word(0);
  std::string_view said_of_person;
  for (std::string_view const flag : person_flags)
    if (said_of_person.empty() && args.has(flag)) said_of_person = flag;
  bool const said_of_place = args.has("--count");
  auto const not_for = [&](std::string_view flag, std::string const& whom) {
    return refuse({FaultCode::bad_command, args.where(flag), std::string(flag), "for " + whom, {}});
  };
  if (!said_of_person.empty() && said_of_place)
    return not_for("--count",
                   fmt::format("a person, and {} is not for a press or a drying place: say one of them",
                               said_of_person));
  if (auto const kind = db::kind_of_code(workshop, code)) {
    if (kind == db::BenchKind::person && said_of_place) return not_for("--count", code + ", who is a person");
    if (kind == db::BenchKind::place && !said_of_person.empty())
      return not_for(said_of_person, code + ", which is a press or a drying place");
    return *kind;
  }
  if (auto fault = db::check_bench_code(code, args.where("CODE"))) return refuse(*std::move(fault));
  if (said_of_place) return db::BenchKind::place;
  if (args.has("--hours")) return db::BenchKind::person;
  return refuse({FaultCode::bad_command,
                 args.where("--hours"),
                 "",
                 "the hours of a new person, or --count of a new press or drying place",
                 {}});
}

Read<std::optional<Money>> pay_said(Args const& args, Currency currency) {
  std::string const text = args.text("--pay").value_or("");
  if (text.empty()) return std::nullopt;
  auto const rate = read_workshop_money(text, currency, args.where("--pay"));
  if (!rate) return tl::unexpected(rate.error());
  if (rate->minor > most_an_hour * currency.minor_per_major())
    return refuse({FaultCode::out_of_range,
                   args.where("--pay"),
                   text,
                   "0 to " + std::to_string(most_an_hour) + " an hour",
                   {}});
  return *rate;
}

std::vector<Fault> faults_of_person(Args const& args, bool is_new) {
  std::vector<Fault> faults;
  if (args.has("--gone") && (args.has("--hours") || is_new))
    faults.push_back({FaultCode::contradiction,
                      args.where("--gone"),
                      "--gone",
                      is_new ? "hours, for somebody new" : "hours, or that they are gone",
                      {}});
  if (auto const overtime = args.get<Duration>("--overtime"); overtime && *overtime > most_overtime)
    faults.push_back({FaultCode::out_of_range,
                      args.where("--overtime"),
                      duration_text(*overtime),
                      "at most " + duration_text(most_overtime) + " a working day",
                      {}});
  return faults;
}

// What the change itself leaves undone; what lacked before, in a damaged workshop, may be mended one by one.
std::vector<db::BenchGap> new_gaps(db::Workshop& workshop, std::vector<db::BenchGap> const& before) {
  std::vector<db::BenchGap> gaps = db::bench_gaps(workshop);
  std::erase_if(gaps, [&](db::BenchGap const& gap) {
    return std::any_of(before.begin(), before.end(), [&](db::BenchGap const& was) {
      return was.step_version == gap.step_version && was.code == gap.code && was.lack == gap.lack;
    });
  });
  return gaps;
}

std::string gap_names(std::vector<db::BenchGap> const& gaps) {
  std::vector<std::string> names;
  for (db::BenchGap const& gap : gaps) names.emplace_back(operation_row(gap.kind).name);
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return listed(names);
}

Read<Person> person_after(Args const& args, std::optional<db::PersonSaid> const& before, Currency currency) {
  std::vector<Fault> faults = faults_of_person(args, !before);
  Person person = before ? before->person : Person{};
  person.code = args.word(0);
  if (auto const name = args.text("--name")) person.name = *name;
  if (auto const week = args.get<WorkingWeek>("--hours")) person.week = *week;
  if (auto const overtime = args.get<Duration>("--overtime")) person.overtime = *overtime;
  if (args.has("--pay")) {
    auto const rate = pay_said(args, currency);
    if (rate)
      person.rate = *rate;
    else
      faults.insert(faults.end(), rate.error().begin(), rate.error().end());
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return person;
}

Changed changed(Context const& context, Args const& args, Date from, std::string noun, Fields const& before,
                Fields const& after) {
  return {.deed = Deed::set,
          .noun = std::move(noun),
          .code = args.word(0),
          .changes = changes_between(before, after),
          .from = from,
          .dry_run = context.dry_run,
          .next = "endband bench show"};
}

Read<Answer> set_person(Context& context, db::Workshop& workshop, Args const& args, Date from) {
  auto const before = db::person_said(workshop, args.word(0), from);
  auto const person = person_after(args, before, workshop.currency());
  if (!person) return tl::unexpected(person.error());
  bool const gone = args.has("--gone") || (before && before->gone && !args.has("--hours"));
  Changed view =
      changed(context, args, from, "person", before ? fields_of(before->person, before->gone) : Fields{},
              fields_of(*person, gone));
  if (view.changes.empty()) return Answer(std::move(view));
  std::vector<db::BenchGap> const gaps = db::bench_gaps(workshop);
  auto const done = in_one_writing(context, workshop, [&](db::Writing& writing) -> Read<bool> {
    db::set_person(writing, *person, from, gone);
    std::vector<db::BenchGap> const left = new_gaps(workshop, gaps);
    if (left.empty()) return true;
    return refuse({FaultCode::rule_refused,
                   args.where("--gone"),
                   person->code,
                   fmt::format("nobody could then do {}; endband steps set {} --who names others",
                               gap_names(left), operation_row(left.front().kind).name),
                   {}});
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

Read<Answer> set_place(Context& context, db::Workshop& workshop, Args const& args, Date from) {
  auto const before = db::place_said(workshop, args.word(0), from);
  auto const count = args.get<std::int64_t>("--count");
  if (count && *count > most_places)
    return refuse({FaultCode::out_of_range,
                   args.where("--count"),
                   std::to_string(*count),
                   "a whole number from 0 to " + std::to_string(most_places),
                   {}});
  if (!before && !count)
    return refuse({FaultCode::bad_command, args.where("--count"), "", "how many books it takes at once", {}});
  Place place = before.value_or(Place{});
  place.code = args.word(0);
  if (auto const name = args.text("--name")) place.name = *name;
  if (count) place.count = static_cast<int>(*count);
  Changed view =
      changed(context, args, from, "place", before ? fields_of(*before) : Fields{}, fields_of(place));
  if (view.changes.empty()) return Answer(std::move(view));
  std::vector<db::BenchGap> const gaps = db::bench_gaps(workshop);
  auto const done = in_one_writing(context, workshop, [&](db::Writing& writing) -> Read<bool> {
    db::set_place(writing, place, from);
    std::vector<db::BenchGap> const left = new_gaps(workshop, gaps);
    if (left.empty()) return true;
    return refuse({FaultCode::rule_refused,
                   args.where("--count"),
                   place.code,
                   fmt::format("it is held by {}; endband steps set {} --holds names another, or \"\"",
                               gap_names(left), operation_row(left.front().kind).name),
                   {}});
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const kind = kind_said(**workshop, args);
  if (!kind) return tl::unexpected(kind.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  return *kind == db::BenchKind::person ? set_person(context, **workshop, args, from)
                                        : set_place(context, **workshop, args, from);
}

}  // namespace

Command bench_set() {
  return {.noun = "bench",
          .verb = "set",
          .summary = "Say who works when, and what presses and drying places there are",
          .about =
              "A person has hours, a press or a drying place a count: how many books it takes at once. Which "
              "one a new "
              "code is follows from that. What is not named stays as it is.",
          .words = {{"CODE", FlagType::on_bench, "of the person, press or drying place"}},
          .flags = {{"--hours", FlagType::week,
                     "of a person: \"Mon-Fri 09:00-12:30 13:30-17:00, Sat 10:00-13:00\""},
                    {"--pay", FlagType::own_money, "an hour of theirs; \"\": the workshop's rate"},
                    {"--overtime", FlagType::duration, "at most so much more on a working day, in a rush"},
                    {"--gone", FlagType::on, "the person works here no more"},
                    {"--count", FlagType::work,
                     "books that a press or drying place takes at once; 0: there is none"},
                    {"--name", FlagType::words, "as it stands on plans"},
                    {"--from", FlagType::date, "in force from this day; else from today"}},
          .examples = {"bench set tobin --hours \"Tue Thu 09:00-13:00\" --name \"Tobin Marsh\" --pay 14.00",
                       "bench set standing-press --count 2 --from 2027-01-01 --dry-run"},
          .refused_when = "a step would be left without anybody who may do it, or without its place",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
