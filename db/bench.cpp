#include "db/bench.h"

#include "db/bench_words.h"
#include "db/codes.h"
#include "db/statement.h"
#include "db/week.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace endband::db {
namespace {

// Who, or what, is there from when on.
template <class T>
struct Version {
  T row;
  Date from;
  bool there = true;
};
// By code, in the order in which they hold; of one day only the last said.
template <class T>
using Versions = std::map<std::string, std::vector<Version<T>>, std::less<>>;

template <class T>
void add_version(Versions<T>& versions, Version<T> version) {
  auto& of_code = versions[version.row.code];
  if (!of_code.empty() && of_code.back().from == version.from) of_code.pop_back();
  of_code.push_back(std::move(version));
}

template <class T>
Version<T> const* in_force(Versions<T> const& versions, std::string_view code, Date on) {
  auto const found = versions.find(code);
  Version<T> const* last = nullptr;
  if (found != versions.end())
    for (Version<T> const& version : found->second)
      if (version.from <= on) last = &version;
  return last;
}

Versions<Person> person_versions(Connection& connection) {
  Statement select(connection,
                   "SELECT valid_from, gone, code, name, week, rate, overtime_s FROM person_version "
                   "ORDER BY code, valid_from, id");
  Versions<Person> versions;
  while (select.step()) {
    Version<Person> version;
    bool gone = false;
    std::string week;
    select.read(version.from, gone, version.row.code, version.row.name, week, version.row.rate,
                version.row.overtime);
    Read<WorkingWeek> read = week.empty() ? WorkingWeek{} : read_week(week);
    if (!read) throw StoreError(FaultCode::not_a_workshop, "person_version: " + week);
    version.row.week = *std::move(read);
    version.there = !gone;
    add_version(versions, std::move(version));
  }
  return versions;
}

Versions<Place> place_versions(Connection& connection) {
  Statement select(connection,
                   "SELECT valid_from, code, name, count FROM place_version ORDER BY code, valid_from, id");
  Versions<Place> versions;
  while (select.step()) {
    Version<Place> version;
    select.read(version.from, version.row.code, version.row.name, version.row.count);
    version.there = version.row.count > 0;
    add_version(versions, std::move(version));
  }
  return versions;
}

std::vector<DaysOff> merged(std::vector<DaysOff> all) {
  std::sort(all.begin(), all.end(), [](DaysOff const& a, DaysOff const& b) { return a.first < b.first; });
  std::vector<DaysOff> merged;
  for (DaysOff const& days : all) {
    if (!merged.empty() && days.first <= merged.back().last + std::chrono::days(1))
      merged.back().last = std::max(merged.back().last, days.last);
    else
      merged.push_back(days);
  }
  return merged;
}

struct StepVersion {
  std::int64_t id = 0;
  OperationKind kind{};
  Date from;
  std::vector<std::string> who;
  std::string place;
};

// Those that were or will be in force, by step and day.
std::vector<StepVersion> step_versions(Connection& connection) {
  Statement select(connection,
                   "SELECT id, operation, valid_from, who, place FROM step_version "
                   "ORDER BY operation, valid_from, id");
  std::vector<StepVersion> versions;
  while (select.step()) {
    StepVersion version;
    std::string who;
    select.read(version.id, version.kind, version.from, who, version.place);
    version.who = codes_in(who);
    bool const again = !versions.empty() && versions.back().kind == version.kind;
    if (again && versions.back().from == version.from) versions.pop_back();
    versions.push_back(std::move(version));
  }
  return versions;
}

class GapFinder {
 public:
  explicit GapFinder(Connection& connection)
      : people_(person_versions(connection)),
        places_(place_versions(connection)),
        steps_(step_versions(connection)) {
    for (auto const& [code, versions] : people_)
      for (auto const& version : versions) days_.insert(version.from);
    for (auto const& [code, versions] : places_)
      for (auto const& version : versions) days_.insert(version.from);
  }

  std::vector<BenchGap> find() const {
    std::vector<BenchGap> gaps;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      bool const replaced = i + 1 < steps_.size() && steps_[i + 1].kind == steps_[i].kind;
      for (Date const day : days_of(steps_[i].from, replaced ? &steps_[i + 1].from : nullptr))
        if (auto gap = on(steps_[i], day)) {
          gaps.push_back(*std::move(gap));
          break;
        }
    }
    return gaps;
  }

 private:
  // The days on which the bench is another while a version is in force.
  std::vector<Date> days_of(Date from, Date const* until) const {
    std::vector<Date> all{from};
    for (Date const day : days_)
      if (day > from && (until == nullptr || day < *until)) all.push_back(day);
    return all;
  }

  std::optional<BenchGap> on(StepVersion const& step, Date day) const {
    BenchGap gap{step.id, step.kind, day, step.place, BenchGap::Lack::place};
    if (!step.place.empty()) {
      auto const* const place = in_force(places_, step.place, day);
      if (place == nullptr || !place->there) return gap;
    }
    bool somebody = step.who.empty();
    for (std::string const& code : step.who) {
      gap.code = code;
      gap.lack = BenchGap::Lack::person;
      auto const* const person = in_force(people_, code, day);
      if (person == nullptr) return gap;
      somebody |= person->there;
    }
    if (somebody) return std::nullopt;
    gap.code = codes_text(step.who);
    gap.lack = BenchGap::Lack::everybody;
    return gap;
  }

  Versions<Person> people_;
  Versions<Place> places_;
  std::vector<StepVersion> steps_;
  std::set<Date> days_;
};

}  // namespace

void set_person(Writing& writing, Person const& person, Date valid_from, bool gone) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO person_version (code, valid_from, name, week, rate, overtime_s, gone, entry) "
                   "VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
  insert
      .bind(person.code, valid_from, person.name, week_text(person.week), person.rate, person.overtime, gone,
            writing.entry())
      .run();
}

void set_place(Writing& writing, Place const& place, Date valid_from) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO place_version (code, valid_from, name, count, entry) VALUES (?, ?, ?, ?, ?)");
  insert.bind(place.code, valid_from, place.name, place.count, writing.entry()).run();
}

void add_day_off(Writing& writing, DayOff const& day_off) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO day_off (person, first, last, words, entry) VALUES (?, ?, ?, ?, ?)");
  insert.bind(day_off.person, day_off.days.first, day_off.days.last, day_off.words, writing.entry()).run();
}

void take_back_day_off(Writing& writing, DayOff const& day_off) {
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO day_off (person, first, last, words, undoes, entry) VALUES (?, ?, ?, ?, ?, ?)");
  insert
      .bind(day_off.person, day_off.days.first, day_off.days.last, day_off.words, day_off.id, writing.entry())
      .run();
}

std::vector<DayOff> days_off(Workshop& workshop) {
  // What took days back may have been taken back itself, and no further: an undoing is not undone.
  Statement select(
      workshop.connection(),
      "SELECT id, person, first, last, words FROM day_off d WHERE undoes IS NULL AND NOT EXISTS ("
      "SELECT 1 FROM day_off u WHERE u.undoes = d.id AND NOT EXISTS ("
      "SELECT 1 FROM day_off r WHERE r.undoes = u.id)) ORDER BY first, last, id");
  std::vector<DayOff> all;
  while (select.step()) {
    DayOff& each = all.emplace_back();
    select.read(each.id, each.person, each.days.first, each.days.last, each.words);
  }
  return all;
}

Bench load_bench(Workshop& workshop, Date on) {
  Bench bench;
  auto const take = [&](auto const& versions, auto& rows) {
    for (auto const& [code, of_code] : versions)
      if (auto const* const version = in_force(versions, code, on); version != nullptr && version->there)
        rows.push_back(version->row);
  };
  take(person_versions(workshop.connection()), bench.people);
  take(place_versions(workshop.connection()), bench.places);
  std::vector<DayOff> const off = days_off(workshop);
  for (Person& person : bench.people) {
    for (DayOff const& each : off)
      if (each.person.empty() || each.person == person.code) person.off.push_back(each.days);
    person.off = merged(std::move(person.off));
  }
  return bench;
}

std::optional<PersonSaid> person_said(Workshop& workshop, std::string_view code, Date on) {
  Versions<Person> const versions = person_versions(workshop.connection());
  auto const* const version = in_force(versions, code, on);
  if (version == nullptr) return std::nullopt;
  return PersonSaid{version->row, !version->there};
}

std::optional<Place> place_said(Workshop& workshop, std::string_view code, Date on) {
  Versions<Place> const versions = place_versions(workshop.connection());
  auto const* const version = in_force(versions, code, on);
  return version == nullptr ? std::nullopt : std::optional(version->row);
}

std::optional<Fault> check_bench_code(std::string_view code, Where const& where) {
  if (code == everyone)
    return Fault{
        FaultCode::bad_value, where, std::string(code), "a code for one of them: it stands for all", {}};
  return check_code(code, where);
}

std::optional<BenchKind> kind_of_code(Workshop& workshop, std::string_view code) {
  Statement select(workshop.connection(),
                   "SELECT EXISTS (SELECT 1 FROM person_version WHERE code = ?1), "
                   "EXISTS (SELECT 1 FROM place_version WHERE code = ?1)");
  bool person = false;
  bool place = false;
  select.bind(code).step();
  select.read(person, place);
  if (person) return BenchKind::person;
  return place ? std::optional(BenchKind::place) : std::nullopt;
}

std::vector<BenchGap> bench_gaps(Workshop& workshop) { return GapFinder(workshop.connection()).find(); }

}  // namespace endband::db
