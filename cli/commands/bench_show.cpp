// The bench of a day: people, their weeks and days off; presses and drying places.
#include "cli/commands/commands.h"
#include "cli/words/values.h"
#include "db/bench.h"
#include "db/settings.h"
#include "db/week.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr std::int64_t weeks_a_year = 52;

struct BenchCard {
  Date on;
  Bench bench;
  std::vector<db::DayOff> off;            // of that day or later
  std::optional<Duration> hours_charged;  // a year, as the workshop reckons
};

Duration hours_given(Bench const& bench) {
  Duration sum;
  for (Person const& person : bench.people) sum += length_of(person.week) * weeks_a_year;
  return sum;
}

Json week_json(WorkingWeek const& week) {
  auto const stretch_json = [](Stretch const& stretch) {
    return Json(Json::Object{{"begin_s", stretch.begin}, {"end_s", stretch.end}});
  };
  return json_array(week, [&](auto const& day) { return Json(json_array(day, stretch_json)); });
}

Json off_json(BenchCard const& view, std::string_view code) {
  Json::Array all;
  for (db::DayOff const& off : view.off)
    if (off.person.empty() || off.person == code)
      all.push_back(Json::Object{{"first", date_text(off.days.first)},
                                 {"last", date_text(off.days.last)},
                                 {"everyone", off.person.empty()},
                                 {"reason", off.words}});
  return all;
}

Json to_json(BenchCard const& view) {
  auto const person_json = [&](Person const& person) {
    return Json(Json::Object{{"code", person.code},
                             {"name", person.name},
                             {"hours", db::week_text(person.week)},
                             {"week", week_json(person.week)},
                             {"week_s", length_of(person.week).n},
                             {"rate", money_json(person.rate)},
                             {"overtime_s", person.overtime.n},
                             {"off", off_json(view, person.code)}});
  };
  auto const place_json = [](Place const& place) {
    return Json(Json::Object{{"code", place.code}, {"name", place.name}, {"count", place.count}});
  };
  return Json::Object{{"on", date_text(view.on)},
                      {"people", json_array(view.bench.people, person_json)},
                      {"places", json_array(view.bench.places, place_json)},
                      {"year_given_s", hours_given(view.bench).n},
                      {"year_charged_s", view.hours_charged ? Json(view.hours_charged->n) : Json()}};
}

std::string off_words(db::DayOff const& off) {
  std::string text = date_text(off.days.first);
  if (off.days.last != off.days.first) text += " to " + date_text(off.days.last);
  if (off.person.empty()) text += ", everyone";
  return off.words.empty() ? text : text + ", " + off.words;
}

void add_person(Document& document, BenchCard const& view, Person const& person) {
  document.heading(person.name.empty() ? person.code : person.code + ": " + person.name, 2);
  KeyValues rows;
  std::string_view title = "Works";
  for (std::string& line : db::week_lines(person.week)) {
    rows.rows.emplace_back(title, std::move(line));
    title = "";
  }
  rows.rows.emplace_back("A week", duration_text(length_of(person.week)));
  if (person.rate) rows.rows.emplace_back("An hour", money_words(*person.rate));
  if (person.overtime.n > 0)
    rows.rows.emplace_back("In a rush", "up to " + duration_text(person.overtime) + " more on a working day");
  title = "Off";
  for (db::DayOff const& off : view.off)
    if (off.person.empty() || off.person == person.code) {
      rows.rows.emplace_back(title, off_words(off));
      title = "";
    }
  document.add(std::move(rows));
}

Document to_document(BenchCard const& view) {
  Document document;
  document.heading("The bench on " + date_text(view.on));
  if (view.bench.people.empty()) document.paragraph("Nobody's hours are known, so that no day can be named.");
  for (Person const& person : view.bench.people) add_person(document, view, person);
  document.heading("Presses and drying places", 2);
  Table table{{{"Place"}, {"Name", Align::left, 1}, {"Books at once", Align::right}}, {}};
  for (Place const& place : view.bench.places)
    table.add({place.code, place.name, std::to_string(place.count)});
  if (table.rows.empty())
    document.paragraph("None: no step waits for one.");
  else
    document.add(std::move(table));
  if (view.hours_charged && !view.bench.people.empty())
    document.paragraph(fmt::format(
        "A year of 52 such weeks is {}, days off not counted; customers pay for {} of it (year.hours).",
        duration_text(hours_given(view.bench)), duration_text(*view.hours_charged)));
  return document.next(view.bench.people.empty()
                           ? "endband bench set CODE --hours \"Mon-Fri 09:00-12:30 13:30-17:00\""
                           : "endband bench off CODE FIRST LAST");
}

Read<Answer> run(Context& context, Args const&) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  BenchCard view{context.on, db::load_bench(**workshop, context.on), db::days_off(**workshop), {}};
  std::erase_if(view.off, [&](db::DayOff const& off) { return off.days.last < context.on; });
  for (db::Setting const& setting : db::settings(**workshop, context.on))
    if (setting.name == "year.hours") view.hours_charged = read_duration(setting.value).value();
  return Answer(std::move(view));
}

}  // namespace

Command bench_show() {
  return {.noun = "bench",
          .verb = "show",
          .summary = "Show who works when, and what presses and drying places there are",
          .about = "As of --on, with the days off from then on.",
          .words = {},
          .flags = {},
          .examples = {"bench show", "bench show --on 2026-06-01 --json"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
