// The bench: weeks that read, days off in order, and steps that ask for what is there.
#include "db/bench.h"
#include "db/check.h"
#include "db/statement.h"
#include "db/steps.h"
#include "db/week.h"

namespace endband::db {
namespace {

void check_weeks(Findings& findings) {
  Statement select(findings.connection(), "SELECT id, week, gone FROM person_version");
  while (select.step()) {
    std::int64_t id = 0;
    std::string week;
    bool gone = false;
    select.read(id, week, gone);
    if (gone && week.empty()) continue;  // taken back, and nothing had been said before
    Read<WorkingWeek> const read = read_week(week);
    if (!read)
      findings.add("person_version", id, week, read.error().front().expected);
    else if (week_text(*read) != week)
      findings.add("person_version", id, week, week_text(*read));
  }
}

void check_one_kind(Findings& findings) {
  Statement select(
      findings.connection(),
      "SELECT DISTINCT code FROM person_version WHERE code IN (SELECT code FROM place_version) ORDER BY 1");
  while (select.step())
    findings.add("person_version", select.value<std::string>(), "is a place too", "one or the other");
}

void check_days_off(Findings& findings) {
  Statement select(findings.connection(),
                   "SELECT id, person FROM day_off WHERE person <> '' AND person NOT IN (SELECT code FROM "
                   "person_version)");
  while (select.step()) {
    std::int64_t id = 0;
    std::string person;
    select.read(id, person);
    findings.add("day_off", id, person, "a person of the bench");
  }
  Statement others(findings.connection(),
                   "SELECT u.id FROM day_off u JOIN day_off d ON d.id = u.undoes "
                   "WHERE (u.person, u.first, u.last) <> (d.person, d.first, d.last)");
  while (others.step())
    findings.add("day_off", others.value<std::int64_t>(), "takes back other days than the row it names",
                 "the same person and days");
}

void check_gaps(Findings& findings) {
  for (BenchGap const& gap : bench_gaps(findings.workshop)) {
    std::string const from = ", from " + date_text(gap.from);
    bool const place = gap.lack == BenchGap::Lack::place;
    findings.add("step_version", gap.step_version, gap.code + from,
                 gap.lack == BenchGap::Lack::everybody ? "somebody who is still of the bench"
                 : place                               ? "a place of the bench"
                                                       : "a person of the bench");
  }
}

void check_circles(Findings& findings) {
  for (Date const day : step_days(findings.workshop, Date{})) {
    std::vector<OperationKind> const circle = circle_of_steps(findings.workshop, day);
    if (circle.empty()) continue;
    std::string text;
    for (auto step = circle.rbegin(); step != circle.rend(); ++step)
      text += std::string(word(*step)) + " after ";
    findings.add("step_version", "on " + date_text(day), text + std::string(word(circle.back())),
                 "an order without a circle");
    return;
  }
}

}  // namespace

void check_bench(Findings& findings) {
  check_weeks(findings);
  check_one_kind(findings);
  check_days_off(findings);
  check_gaps(findings);
  check_circles(findings);
}

}  // namespace endband::db
