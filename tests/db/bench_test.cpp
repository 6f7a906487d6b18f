#include "db/bench.h"

#include "db/connection.h"
#include "db/week.h"
#include "tests/db/undo_bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

Person wren() {
  Person person;
  person.code = "wren";
  person.name = "Wren Alder";
  person.week = read_week("Mon-Fri 09:00-12:30 13:30-17:00").value();
  person.overtime = Duration{7200};
  return person;
}
Person tobin() {
  Person person = wren();
  person.code = "tobin";
  person.week = read_week("Tue 9-13, Thu 9-13").value();
  person.rate = eur(1400);
  return person;
}
Place press(int count) { return {"press", "Standing press", count}; }

Step sewing() {
  Step step{};
  step.kind = OperationKind::sew_sections;
  step.set_up = step.each = {{60}, {60}, {60}};
  return step;
}

struct Made {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));

  template <class Change>
  std::int64_t entry(Change&& change) {
    Writing writing(workshop, info());
    change(writing);
    std::int64_t const seq = writing.entry();
    writing.commit();
    return seq;
  }
  Read<std::vector<Undone>> take_back(std::int64_t entry) { return test::take_back(workshop, entry); }
  Bench on(std::string_view date) { return load_bench(workshop, day(date)); }
};

DayOff off(std::string person, std::string_view first, std::string_view last) {
  return {0, std::move(person), {day(first), day(last)}, "away"};
}

}  // namespace

TEST_CASE("people and places come back as in force on the day") {
  Made made;
  made.entry([](Writing& w) {
    set_person(w, wren(), day("2026-01-05"));
    set_person(w, tobin(), day("2026-03-01"));
    set_place(w, press(1), day("2026-01-05"));
    set_place(w, press(3), day("2026-06-01"));
    set_person(w, tobin(), day("2026-09-01"), true);
    set_place(w, press(0), day("2027-01-01"));
  });
  CHECK(made.on("2026-01-04").people.empty());
  Bench const spring = made.on("2026-03-01");
  REQUIRE(spring.people.size() == 2);
  CHECK(spring.people[0].code == "tobin");
  CHECK(spring.people[0].rate == eur(1400));
  CHECK(spring.people[1].name == "Wren Alder");
  CHECK(spring.people[1].week == wren().week);
  CHECK(spring.people[1].overtime == Duration{7200});
  CHECK_FALSE(spring.people[1].rate.has_value());
  CHECK(spring.places.front().count == 1);
  CHECK(made.on("2026-06-01").place("press")->count == 3);
  CHECK(made.on("2026-09-01").person("tobin") == nullptr);
  CHECK(person_said(made.workshop, "tobin", day("2026-09-01"))->gone);
  CHECK(made.on("2027-01-01").places.empty());
  CHECK(kind_of_code(made.workshop, "press") == BenchKind::place);
  CHECK(kind_of_code(made.workshop, "tobin") == BenchKind::person);
  CHECK_FALSE(kind_of_code(made.workshop, "nobody").has_value());
  CHECK(check(made.workshop).empty());
}

TEST_CASE("of one day the last said stands") {
  Made made;
  made.entry([](Writing& w) {
    set_place(w, press(1), day("2026-01-05"));
    set_place(w, press(2), day("2026-01-05"));
  });
  CHECK(made.on("2026-01-05").place("press")->count == 2);
}

TEST_CASE("days off are merged, the workshop's into each person's, and can be taken back") {
  Made made;
  made.entry([](Writing& w) {
    set_person(w, wren(), day("2026-01-05"));
    set_person(w, tobin(), day("2026-01-05"));
    add_day_off(w, off("", "2026-12-24", "2026-12-26"));
    add_day_off(w, off("wren", "2026-12-27", "2026-12-28"));  // right after
    add_day_off(w, off("wren", "2026-08-03", "2026-08-05"));
    add_day_off(w, off("wren", "2026-08-04", "2026-08-10"));  // over it
  });
  auto const days = [](std::string_view first, std::string_view last) {
    return DaysOff{day(first), day(last)};
  };
  CHECK(made.on("2026-11-25").person("wren")->off ==
        std::vector<DaysOff>{days("2026-08-03", "2026-08-10"), days("2026-12-24", "2026-12-28")});
  CHECK(made.on("2026-11-25").person("tobin")->off == std::vector<DaysOff>{days("2026-12-24", "2026-12-26")});
  std::int64_t const entry = made.entry([&](Writing& w) {
    for (DayOff const& each : days_off(made.workshop))
      if (each.person.empty()) take_back_day_off(w, each);
  });
  CHECK(made.on("2026-11-25").person("tobin")->off.empty());
  REQUIRE(made.take_back(entry).has_value());  // off again
  CHECK(made.on("2026-11-25").person("tobin")->off.size() == 1);
  made.entry([&](Writing& w) { take_back_day_off(w, days_off(made.workshop).back()); });
  CHECK(made.on("2026-11-25").person("wren")->off.size() == 2);
  CHECK(check(made.workshop).empty());
}

TEST_CASE("what a step asks for and the bench does not have is found, with its first day") {
  Made made;
  made.entry([](Writing& w) {
    set_person(w, wren(), day("2026-01-05"));
    set_person(w, tobin(), day("2026-01-05"));
    set_place(w, press(1), day("2026-01-05"));
    Step step = sewing();
    step.who = {"tobin", "wren"};
    step.place = "press";
    set_step(w, step, day("2026-02-01"));
  });
  CHECK(bench_gaps(made.workshop).empty());
  CHECK(load_steps(made.workshop, day("2026-02-01")).steps.front().who ==
        std::vector<std::string>{"tobin", "wren"});

  made.entry([](Writing& w) { set_person(w, tobin(), day("2026-06-01"), true); });
  CHECK(bench_gaps(made.workshop).empty());  // the other is there
  made.entry([](Writing& w) { set_person(w, wren(), day("2026-07-01"), true); });
  std::vector<BenchGap> gaps = bench_gaps(made.workshop);
  REQUIRE(gaps.size() == 1);
  CHECK(gaps[0].lack == BenchGap::Lack::everybody);
  CHECK(gaps[0].code == "tobin wren");
  CHECK(gaps[0].from == day("2026-07-01"));
  CHECK(check(made.workshop).front().where.field.starts_with("step_version "));

  made.entry([](Writing& w) { set_step(w, sewing(), day("2026-07-01")); });  // anyone, from that day on
  CHECK(bench_gaps(made.workshop).empty());

  made.entry([](Writing& w) { set_place(w, press(0), day("2026-06-15")); });
  gaps = bench_gaps(made.workshop);
  REQUIRE(gaps.size() == 1);
  CHECK(gaps[0].lack == BenchGap::Lack::place);
  CHECK(gaps[0].from == day("2026-06-15"));
}

TEST_CASE("a person nobody knows and a step before its person are gaps too") {
  Made made;
  made.entry([](Writing& w) {
    Step step = sewing();
    step.who = {"wren"};
    set_step(w, step, day("2026-01-01"));
  });
  CHECK(bench_gaps(made.workshop).front().lack == BenchGap::Lack::person);
  made.entry([](Writing& w) { set_person(w, wren(), day("2026-01-05")); });
  CHECK(bench_gaps(made.workshop).front().from == day("2026-01-01"));
}

TEST_CASE("a circle in what steps come after is found on its day") {
  Made made;
  made.entry([](Writing& w) {
    Step step = sewing();
    step.after = {OperationKind::wax_thread, OperationKind::cut_boards};
    set_step(w, step, day("2026-01-05"));
  });
  CHECK(load_steps(made.workshop, day("2026-01-05")).steps.front().after ==
        std::vector<OperationKind>{OperationKind::wax_thread, OperationKind::cut_boards});
  CHECK(circle_of_steps(made.workshop, day("2026-01-05")).empty());
  made.entry([](Writing& w) {
    Step step = sewing();
    step.kind = OperationKind::cut_boards;
    step.after = {OperationKind::sew_sections};
    set_step(w, step, day("2026-06-01"));
  });
  CHECK(circle_of_steps(made.workshop, day("2026-05-31")).empty());
  CHECK(circle_of_steps(made.workshop, day("2026-06-01")).size() == 2);
  CHECK(step_days(made.workshop, day("2026-02-01")) ==
        std::vector<Date>{day("2026-02-01"), day("2026-06-01")});
  std::vector<Fault> const faults = check(made.workshop);
  REQUIRE(faults.size() == 1);
  CHECK(faults.front().where.field == "step_version on 2026-06-01");
}

TEST_CASE("a person's first version is taken back while no step names them") {
  Made made;
  std::int64_t const first = made.entry([](Writing& w) { set_person(w, wren(), day("2026-01-05")); });
  std::int64_t const named = made.entry([](Writing& w) {
    Step step = sewing();
    set_step(w, step, day("2026-01-05"));
    step.who = {"wren"};
    set_step(w, step, day("2026-02-01"));
  });
  auto const refused = made.take_back(first);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().front().expected.starts_with("sew-sections needs wren"));
  CHECK(made.on("2026-02-01").people.size() == 1);
  CHECK(named > first);
  made.entry([](Writing& w) { set_step(w, sewing(), day("2026-02-01")); });
  auto const undone = made.take_back(first);
  REQUIRE(undone.has_value());
  CHECK(made.on("2026-02-01").people.empty());
  CHECK(check(made.workshop).empty());
}

TEST_CASE("a count stands again as it stood") {
  Made made;
  made.entry([](Writing& w) { set_place(w, press(1), day("2026-01-05")); });
  std::int64_t const more = made.entry([](Writing& w) { set_place(w, press(4), day("2026-03-01")); });
  auto const undone = made.take_back(more).value();
  REQUIRE(undone.size() == 1);
  CHECK(undone[0].what == "press, count, from 2026-03-01");
  CHECK(undone[0].now == "4");
  CHECK(undone[0].then == "1");
  CHECK(made.on("2026-03-01").place("press")->count == 1);
}

TEST_CASE("no code is a person's and everyone's") {
  CHECK(check_bench_code("everyone", {}).has_value());
  CHECK(check_bench_code("Wren", {}).has_value());
  CHECK_FALSE(check_bench_code("wren", {}).has_value());
}
