#include "engine/review/year.h"

#include "tests/engine/commission/quotes.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;
using namespace endband::testing;

namespace {

Date day(std::string_view text) { return read_date(text).value(); }

// 1,200 h, 36,500.00 of overhead.
YearFigures year() {
  return {{eur(26'400'00), eur(5'280'00), eur(36'500'00), {1'200 * seconds_an_hour}},
          365,
          eur(30'000'00),
          eur(28'000'00),
          {1'000 * seconds_an_hour}};
}

}  // namespace

TEST_CASE("a year: what was spent and not charged, and hours as charged for the next") {
  YearSeen const seen = look_back(year());
  CHECK(seen.overhead_planned == eur(36'500'00));
  CHECK(seen.hours_planned == Duration{1'200 * seconds_an_hour});
  CHECK(seen.overhead_not_covered == eur(2'000'00));
  CHECK(seen.enough);
  CHECK(seen.next.overhead == eur(30'000'00));
  CHECK(seen.next.hours_charged == Duration{1'000 * seconds_an_hour});
  CHECK(seen.next.pay_wanted == eur(26'400'00));
  CHECK(seen.next.charges_on_pay == eur(5'280'00));
  CHECK(rates_of(seen.next).overhead == Ratio(30'00, seconds_an_hour));  // 30.00 an hour, planned 30.416
}

TEST_CASE("a part of a year is planned by its days, and its sums are brought to a year") {
  YearFigures figures = year();
  figures.days = 73;  // a fifth
  YearSeen const seen = look_back(figures);
  CHECK(seen.overhead_planned == eur(7'300'00));
  CHECK(seen.hours_planned == Duration{240 * seconds_an_hour});
  CHECK(seen.next.overhead == eur(150'000'00));
  CHECK(seen.next.hours_charged == Duration{5'000 * seconds_an_hour});
  figures.days = 1;
  CHECK(look_back(figures).overhead_planned == eur(100'00));
  figures.planned.overhead = eur(500);
  CHECK(look_back(figures).overhead_planned == eur(1));  // 1.37
}

TEST_CASE("more charged than spent is less than nothing") {
  YearFigures figures = year();
  figures.overhead_absorbed = eur(31'000'00);
  CHECK(look_back(figures).overhead_not_covered == eur(-1'000'00));
}

TEST_CASE("a stretch without hours says nothing of the next year") {
  YearFigures figures = year();
  figures.hours_charged = {0};
  YearSeen const seen = look_back(figures);
  CHECK_FALSE(seen.enough);
  CHECK(seen.next.overhead == figures.planned.overhead);
  CHECK(seen.next.hours_charged == figures.planned.hours_charged);
  CHECK(seen.overhead_not_covered == eur(2'000'00));
  figures.hours_charged = {1};
  figures.days = 10'000;
  CHECK_FALSE(look_back(figures).enough);  // a thirtieth of a second a year is no rate
  figures.days = 0;
  CHECK_THROWS_AS(look_back(figures), std::logic_error);
}

TEST_CASE("sums of a year are spent by the day, each from its own day on") {
  Date const first = day("2026-01-01"), last = day("2026-12-31");
  CHECK(spent_by_the_day({{first, eur(365'00)}}, first, last, euro()) == eur(365'00));
  CHECK(spent_by_the_day({{first, eur(365'00)}}, first, first, euro()) == eur(1'00));
  CHECK(spent_by_the_day({{day("2020-05-05"), eur(365'00)}}, first, last, euro()) == eur(365'00));
  // From 1 July, 184 days, twice as much; said in any order.
  CHECK(spent_by_the_day({{day("2026-07-01"), eur(730'00)}, {first, eur(365'00)}}, first, last, euro()) ==
        eur(365'00 + 184'00));
  // Nothing before the first, nothing of what begins later.
  CHECK(spent_by_the_day({{day("2026-12-31"), eur(365'00)}, {day("2027-01-01"), eur(9'000'00)}}, first, last,
                         euro()) == eur(1'00));
  // Said twice of one day: the later word.
  CHECK(spent_by_the_day({{first, eur(9'000'00)}, {first, eur(365'00)}}, first, first, euro()) == eur(1'00));
  CHECK(spent_by_the_day({}, first, last, euro()) == eur(0));
  CHECK(spent_by_the_day({{first, eur(365'00)}}, last, first, euro()) == eur(0));
  // 1 a year: 182 days are 0.4986, 183 are 0.5014.
  CHECK(spent_by_the_day({{first, eur(1)}}, first, first + std::chrono::days(181), euro()) == eur(0));
  CHECK(spent_by_the_day({{first, eur(1)}}, first, first + std::chrono::days(182), euro()) == eur(1));
}
