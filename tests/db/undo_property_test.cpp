// Random commands, taken back: what stands is what stood.
#include "db/bench.h"
#include "db/week.h"
#include "tests/db/undo_bench.h"

#include <doctest/doctest.h>

#include <array>
#include <utility>
#include <vector>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

// One random command; false: it was refused, and nothing is kept.
class AnyCommand {
 public:
  AnyCommand(Shelf& shelf, Draw& draw) : workshop_(shelf.workshop), draw_(draw) {}

  bool run() {
    using Make = bool (AnyCommand::*)(Writing&);
    static constexpr std::array<Make, 22> all{
        &AnyCommand::set_setting, &AnyCommand::price,    &AnyCommand::step,     &AnyCommand::supply,
        &AnyCommand::buy,         &AnyCommand::buy,      &AnyCommand::use,      &AnyCommand::use,
        &AnyCommand::give,        &AnyCommand::offcut,   &AnyCommand::counting, &AnyCommand::scraps,
        &AnyCommand::worth,       &AnyCommand::place,    &AnyCommand::quote,    &AnyCommand::accept,
        &AnyCommand::told,        &AnyCommand::call_off, &AnyCommand::person,   &AnyCommand::press,
        &AnyCommand::off,         &AnyCommand::hands};
    Writing writing(workshop_, info("command " + std::to_string(++commands_)));
    bool const done = (this->*all[pick(all.size())])(writing);
    if (done) writing.commit();
    return done;
  }

 private:
  std::size_t pick(std::size_t count) {
    return static_cast<std::size_t>(draw_.to(static_cast<std::int64_t>(count) - 1));
  }
  template <class T>
  T const& one(std::vector<T> const& all) {
    return all.at(pick(all.size()));
  }
  std::string from() {
    return one(std::vector<std::string>{"2026-01-01", "2026-11-25", "2026-11-26", "2027-01-01"});
  }
  std::string code() {
    return one(std::vector<std::string>{"board", "goat", "laid-120", "laid-150", "end-grey"});
  }
  Amount some(std::string const& of, std::int64_t most) {
    return of == "goat" ? cm2(1 + draw_.to(most * 20)) : sheets(1 + draw_.to(most));
  }
  std::optional<JobHeader> job() {
    std::vector<JobHeader> const jobs = list_jobs(workshop_, true);
    return jobs.empty() ? std::nullopt : std::optional(one(jobs));
  }
  std::string lot() {
    std::vector<LotRow> const open = lots(workshop_, std::nullopt, false);
    return open.empty() ? "L1" : mark_text(one(open).mark);
  }

  bool set_setting(Writing& writing) {
    for (std::int64_t n = draw_.to(1); n >= 0; --n) {
      std::string const name = one(std::vector<std::string>{"goal.margin", "contingency", "deposit.share"});
      std::string const value = draw_.to(4) == 0 ? "" : std::to_string(1 + draw_.to(90)) + " %";
      Setting setting = check_setting(workshop_, name, value).value();
      setting.valid_from = day(from());
      set(writing, setting);
    }
    return true;
  }
  bool price(Writing& writing) {
    return add_price(writing, one(std::vector<std::string>{"laid-120", "laid-150"}),
                     pack_of_sheets(50, 100 + draw_.to(9000), from()))
        .has_value();
  }
  bool step(Writing& writing) {
    Duration const time{60 * (1 + draw_.to(9))};
    set_step(
        writing,
        {0, OperationKind::sew_sections, {time, time, time}, {time, time, time}, {0}, {0}, "", {}, {}, {}},
        day(from()));
    return true;
  }
  bool supply(Writing& writing) {
    Supply supply;
    supply.lead_days = static_cast<int>(draw_.to(20));
    return set_supply(writing, "laid-120", supply, day(from())).has_value();
  }
  bool buy(Writing& writing) {
    Parcel parcel = Shelf::parcel("2026-11-25");
    parcel.place = draw_.coin() ? "rack" : "";
    parcel.terms.carriage = eur(draw_.to(900));
    for (std::int64_t n = draw_.to(2); n >= 0; --n) {
      std::string const what = code();
      parcel.lines.push_back(Shelf::line(what, some(what, 200), 100 + draw_.to(9000)));
    }
    return receive(writing, parcel).has_value();
  }
  bool use(Writing& writing) {
    auto const of = job();
    std::string const what = code();
    return of &&
           take_for_job(writing, of->id, what, "", some(what, 60),
                        one(std::vector{MovementKind::used, MovementKind::spoiled}), day("2026-11-25"), "")
               .has_value();
  }
  bool give(Writing& writing) {
    auto const of = job();
    std::string const what = code();
    return of && give_back_from_job(writing, of->id, what, "", some(what, 30), day("2026-11-25")).has_value();
  }
  bool offcut(Writing& writing) {
    auto const of = job();
    return of && keep_offcut(writing, of->id, code(), "", Length{100'000 + draw_.to(100'000)},
                             Length{100'000}, day("2026-11-25"), "drawer")
                     .has_value();
  }
  bool counting(Writing& writing) {
    std::string const what = code();
    auto const done = count(writing, what, some(what, 200), day("2026-11-25"), "", std::nullopt, "rack");
    return done && !done->postings.empty();
  }
  bool scraps(Writing& writing) {
    std::string const what = draw_.coin() ? code() : lot();
    return scrap(writing, what, some(what, 20), day("2026-11-25"), "torn").has_value();
  }
  bool worth(Writing& writing) {
    return write_down(writing, lot(), eur(draw_.to(500)), day("2026-11-25"), "faded").has_value();
  }
  bool place(Writing& writing) {
    return set_fact(writing, lot(), one(std::vector<std::string>{"place", "note"}),
                    draw_.coin() ? "attic" : "")
        .has_value();
  }
  bool quote(Writing& writing) {
    return save_quote(writing, "otter-stage", day("2027-01-31"),
                      quote_of_today(workshop_, 11 + 2 * static_cast<std::uint64_t>(draw_.to(40))))
        .has_value();
  }
  bool accept(Writing& writing) {
    std::vector<QuoteHeader> const quotes = list_quotes(workshop_, std::nullopt, 100);
    if (quotes.empty()) return false;
    QuoteHeader const& any = one(quotes);
    switch (draw_.to(4)) {
      case 0: return quote_send(writing, any, day("2026-11-25"), "").has_value();
      case 1: return quote_decline(writing, any, day("2026-11-25"), "").has_value();
      case 2: return save_issue(writing, any, any.valid_until, quote_of_today(workshop_, 15)).has_value();
      default: return quote_accept(writing, any, day("2026-11-25"), std::nullopt).has_value();
    }
  }
  bool told(Writing& writing) {
    auto const of = job();
    if (!of) return false;
    Date const on = day("2026-11-25");
    switch (draw_.to(4)) {
      case 0:
        return hold(writing, *of, one(std::vector<std::string>{"leather", "proof"}), on, "").has_value();
      case 1:
        return approve(writing, *of, one(std::vector<std::string>{"leather", "proof"}), on, "").has_value();
      case 2: return add_payment(writing, *of, eur(1 + draw_.to(9000)), on, "").has_value();
      case 3: return add_billed(writing, *of, "edge gilding", eur(1 + draw_.to(9000)), on).has_value();
      default:
        return add_time(writing, *of, OperationKind::sew_sections, std::nullopt,
                        Duration{60 + draw_.to(9000)}, std::nullopt, on, "")
            .has_value();
    }
  }
  bool call_off(Writing& writing) {
    auto const of = job();
    return of && draw_.to(2) == 0 &&
           cancel(writing, *of, load_quote(workshop_, of->quote.id), std::nullopt, day("2026-11-25"), "")
               .has_value();
  }

  bool person(Writing& writing) {
    Person person;
    person.code = one(std::vector<std::string>{"wren", "tobin"});
    person.week = read_week(draw_.coin() ? "Mon-Fri 9-17" : "Sat 10-13").value();
    if (draw_.coin()) person.rate = eur(draw_.to(3000));
    set_person(writing, person, day(from()), draw_.to(3) == 0);
    return bench_gaps(workshop_).empty();
  }
  bool press(Writing& writing) {
    set_place(writing, {"press", "", static_cast<int>(draw_.to(2))}, day(from()));
    return bench_gaps(workshop_).empty();
  }
  bool off(Writing& writing) {
    std::vector<DayOff> const all = days_off(workshop_);
    if (!all.empty() && draw_.coin()) {
      take_back_day_off(writing, one(all));
      return true;
    }
    Date const first = day("2026-12-01") + std::chrono::days(draw_.to(20));
    std::vector<std::string> whom{""};
    for (Person const& each : load_bench(workshop_, day("2028-01-01")).people) whom.push_back(each.code);
    add_day_off(writing, {0, one(whom), {first, first + std::chrono::days(draw_.to(9))}, "away"});
    return true;
  }
  bool hands(Writing& writing) {
    Date const on = day(from());
    StepLibrary const library = load_steps(workshop_, on);
    if (library.steps.empty()) return false;
    Step step = one(library.steps);
    step.who = one(std::vector<std::vector<std::string>>{{}, {"wren"}, {"tobin", "wren"}});
    step.place = draw_.coin() ? "press" : "";
    step.after = draw_.coin() ? std::vector{OperationKind::cut_boards} : std::vector<OperationKind>{};
    set_step(writing, step, on);
    return bench_gaps(workshop_).empty() && circle_of_steps(workshop_, on).empty();
  }

  Workshop& workshop_;
  Draw& draw_;
  int commands_ = 0;
};

}  // namespace

TEST_CASE("any commands, taken back from the newest to the first, leave all as it stood before each") {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    CAPTURE(seed);
    Draw draw(seed);
    PricedShelf shelf(seed % 2 == 0 ? "moving-average" : "first-in-first-out");
    AnyCommand any(shelf, draw);
    std::vector<std::pair<std::int64_t, std::string>> done;  // entry, and what stood before it
    std::string stands = standing_state(shelf.workshop);
    for (int i = 0; i < 80; ++i) {
      if (!any.run()) continue;
      done.emplace_back(newest(shelf.workshop), std::move(stands));
      stands = standing_state(shelf.workshop);
    }
    REQUIRE(done.size() > 20);
    CHECK(check(shelf.workshop).empty());
    std::size_t logged = log_entries(shelf.workshop, 10'000).size();
    for (auto at = done.rbegin(); at != done.rend(); ++at) {
      CAPTURE(log_entries(shelf.workshop, 10'000).size());
      auto const undone = take_back(shelf.workshop, at->first);
      REQUIRE(reasons(undone) == "");
      CHECK(difference(at->second, standing_state(shelf.workshop)) == "");
      CHECK(log_entries(shelf.workshop, 10'000).size() == ++logged);
    }
    for (Fault const& fault : check(shelf.workshop)) FAIL_CHECK(fault.where.field << ": " << fault.found);
  }
}

TEST_CASE("whatever entry is taken back, or refused, the workshop stays sound") {
  for (std::uint64_t seed = 101; seed <= 112; ++seed) {
    CAPTURE(seed);
    Draw draw(seed);
    PricedShelf shelf(seed % 2 == 0 ? "moving-average" : "first-in-first-out");
    AnyCommand any(shelf, draw);
    int taken = 0, refused = 0;
    for (int i = 0; i < 120; ++i) {
      any.run();
      if (draw.to(2) != 0) continue;
      std::string const before = standing_state(shelf.workshop);
      bool const undone = take_back(shelf.workshop, 1 + draw.to(newest(shelf.workshop))).has_value();
      undone ? ++taken : ++refused;
      if (!undone) CHECK(difference(before, standing_state(shelf.workshop)) == "");
    }
    CHECK(taken > 2);
    CHECK(refused > 2);
    for (Fault const& fault : check(shelf.workshop)) FAIL_CHECK(fault.where.field << ": " << fault.found);
  }
}
