// Working weeks as words. Worked by hand: no source.
#include "db/week.h"

#include <doctest/doctest.h>

#include <string>

using namespace endband;
using namespace endband::db;

namespace {

constexpr std::int64_t h = 3600;

std::string canonical(std::string_view text) {
  auto const week = read_week(text);
  return week ? week_text(*week) : "refused: " + week.error().front().found;
}

Fault refused(std::string_view text) {
  auto const week = read_week(text);
  REQUIRE_FALSE(week.has_value());
  return week.error().front();
}

}  // namespace

TEST_CASE("a week is read day by day") {
  WorkingWeek const week = read_week("Mon-Fri 09:00-12:30 13:30-17:00, Sat 10:00-13:00").value();
  std::vector<Stretch> const weekday{{9 * h, 12 * h + 1800}, {13 * h + 1800, 17 * h}};
  for (std::size_t day = 0; day < 5; ++day) CHECK(week[day] == weekday);
  CHECK(week[5] == std::vector<Stretch>{{10 * h, 13 * h}});
  CHECK(week[6].empty());
  CHECK(length_of(week) == Duration{38 * h});  // 5 x 7 h and 3 h
  CHECK(week_text(week) == "Mon-Fri 09:00-12:30 13:30-17:00, Sat 10:00-13:00");
  CHECK(week_lines(week) == std::vector<std::string>{"Mon-Fri 09:00-12:30, 13:30-17:00", "Sat 10:00-13:00"});
}

TEST_CASE("many ways of writing are one week") {
  CHECK(canonical("Mon-Fri 9-17") == "Mon-Fri 09:00-17:00");
  CHECK(canonical("monday - friday 9 - 17") == "Mon-Fri 09:00-17:00");
  CHECK(canonical("Mon\xE2\x80\x93"
                  "Fri 9.30\xE2\x80\x93"
                  "17:00") == "Mon-Fri 09:30-17:00");
  CHECK(canonical("Mon-Fri 09:00-12:30, 13:30-17:00; Sat 10:00-13:00") ==
        "Mon-Fri 09:00-12:30 13:30-17:00, Sat 10:00-13:00");
  CHECK(canonical("Tue, Thu 9-13") == "Tue 09:00-13:00, Thu 09:00-13:00");
  CHECK(canonical("Sat 10-13, Mon 9-17") == "Mon 09:00-17:00, Sat 10:00-13:00");
  CHECK(canonical("Mon 9-12, Mon 13-17") == "Mon 09:00-12:00 13:00-17:00");
  CHECK(canonical("Mon 12-17 9-12") == "Mon 09:00-17:00");  // they touch
  CHECK(canonical("Sun-Tue 22-24") == "Mon-Tue 22:00-24:00, Sun 22:00-24:00");
  CHECK(canonical("Tues 0:00-24:00") == "Tue 00:00-24:00");
}

TEST_CASE("what is wrong is named, with what would be right") {
  CHECK(refused("Mon-Fri 25:00-26:00").code == FaultCode::out_of_range);
  CHECK(refused("Mon 09:60-10:00").code == FaultCode::out_of_range);
  CHECK(refused("Mon 17:00-09:00").code == FaultCode::contradiction);
  CHECK(refused("Mon 09:00-09:00").found == "09:00-09:00");
  Fault const overlap = refused("Mon-Fri 09:00-13:00, Wed 12:00-15:00");
  CHECK(overlap.code == FaultCode::contradiction);
  CHECK(overlap.found == "12:00-15:00");
  CHECK(overlap.expected == "hours of Wed that do not overlap");
  Fault const day = refused("Mno 9-17");
  CHECK(day.found == "Mno");
  CHECK(day.near.front() == "Mon");
  CHECK(refused("Mon-Fir 9-17").found == "Fir");
  CHECK(refused("9-17").expected == "days with hours, such as Mon-Fri 9-17");
  CHECK(refused("Mon-Fri").expected == "days with hours, such as Mon-Fri 09:00-17:00");
  CHECK(refused("Mon 9-17, Tue").found == "Tue");
  for (std::string_view const text :
       {"", " ", "-", "Mon 9", "Mon 9-", "Mon 9:0-17", "Mo 9-17", "Mon 9-17-18"}) {
    CAPTURE(text);
    CHECK_FALSE(read_week(text).has_value());
  }
}

TEST_CASE("all that is wrong is told at once, and no more") {
  auto const week = read_week("Mno 9-17, Tue 25-26, Wed 17-9");
  REQUIRE_FALSE(week.has_value());
  CHECK(week.error().size() == 3);
}

TEST_CASE("every week of quarter hours reads back as it was") {
  std::uint64_t random = 7;
  auto const next = [&](std::uint64_t below) {
    random = random * 6364136223846793005U + 1442695040888963407U;
    return static_cast<std::int64_t>((random >> 33U) % below);
  };
  for (int i = 0; i < 300; ++i) {
    WorkingWeek week;
    for (auto& day : week)
      for (std::int64_t at = next(40) * 900; at < 20 * h && next(3) > 0;) {
        std::int64_t const end = at + (1 + next(16)) * 900;
        day.push_back({at, end});
        at = end + (1 + next(8)) * 900;
      }
    if (length_of(week).n == 0) continue;
    CAPTURE(week_text(week));
    CHECK(read_week(week_text(week)).value() == week);
  }
}
