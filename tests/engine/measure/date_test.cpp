#include "engine/measure/measure.h"

#include <doctest/doctest.h>

using endband::FaultCode;
using namespace std::chrono_literals;

namespace {

FaultCode fault(std::string_view text) {
  auto const date = endband::read_date(text);
  REQUIRE_FALSE_MESSAGE(date.has_value(), text);
  return date.error().front().code;
}

}  // namespace

TEST_CASE("a date is read as ISO 8601 writes it") {
  CHECK(endband::read_date("2026-11-25").value() == endband::Date{2026y / 11 / 25});
  CHECK(endband::read_date(" 2024-02-29 ").value() == endband::Date{2024y / 2 / 29});
}

TEST_CASE("a day that the calendar does not have is out of range") {
  for (auto text : {"2023-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-04-00"})
    CHECK_MESSAGE(fault(text) == FaultCode::out_of_range, text);
}

TEST_CASE("another form of a date is refused") {
  for (auto text : {"", "2026-1-5", "25.11.2026", "20261125", "2026-11-25T10:00", "26-11-25", "-026-11-25",
                    "2026/11/25", "2026-11-2\xff"})
    CHECK_MESSAGE(fault(text) == FaultCode::bad_value, text);
}

TEST_CASE("every day of four centuries is read as it is written") {
  for (auto day = endband::Date{1901y / 1 / 1}; day < endband::Date{2301y / 1 / 1};
       day += std::chrono::days(1))
    if (endband::read_date(endband::date_text(day)).value() != day) FAIL(endband::date_text(day));
  CHECK(endband::date_text(endband::Date{7y / 3 / 9}) == "0007-03-09");
}
