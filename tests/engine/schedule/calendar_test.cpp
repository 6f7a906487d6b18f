#include "engine/schedule/calendar.h"

#include <doctest/doctest.h>

using namespace endband::schedule;

TEST_CASE("work goes on where the hours go on, and never ends where they end before") {
  Calendar const calendar{{9, 12}, {13, 17}, {33, 36}};
  CHECK(work_ends(calendar, 0, 3) == 12);
  CHECK(work_ends(calendar, 10, 3) == 14);
  CHECK(work_ends(calendar, 12, 4) == 17);
  CHECK(work_ends(calendar, 16, 2) == 34);
  CHECK(work_ends(calendar, 20, 0) == 20);
  CHECK(work_ends(calendar, 16, 5) == never);
  CHECK(open_between(calendar, 0, 100) == 10);
  CHECK(open_between(calendar, 11, 14) == 2);
  CHECK(open_between(calendar, 12, 13) == 0);
}
