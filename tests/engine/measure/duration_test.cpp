#include "engine/measure/measure.h"

#include <doctest/doctest.h>

#include <limits>

using endband::Duration;
using endband::duration_text;
using endband::FaultCode;

namespace {

std::int64_t seconds(std::string_view text) { return endband::read_duration(text).value().n; }

FaultCode fault(std::string_view text) {
  auto const duration = endband::read_duration(text);
  REQUIRE_FALSE_MESSAGE(duration.has_value(), text);
  return duration.error().front().code;
}

}  // namespace

TEST_CASE("a duration is read in one part or in several, the larger first") {
  CHECK(seconds("90 min") == 5'400);
  CHECK(seconds("45 s") == 45);
  CHECK(seconds("1.5 h") == 5'400);
  CHECK(seconds("1/2 h") == 1'800);
  CHECK(seconds("2 h 30 min") == 9'000);
  CHECK(seconds("2h30min") == 9'000);
  CHECK(seconds("2 hours 30 minutes 5 seconds") == 9'005);
  CHECK(seconds("2 d") == 172'800);
  CHECK(seconds("1 d 2 h") == 93'600);
  CHECK(seconds("-2 h 30 min") == -9'000);
}

TEST_CASE("two digits right after the hours are minutes") {
  CHECK(seconds("1h30") == 5'400);
  CHECK(seconds("1 h 05") == 3'900);
  CHECK(fault("1h75") == FaultCode::missing_unit);
  CHECK(fault("1h5") == FaultCode::missing_unit);
  CHECK(fault("1min30") == FaultCode::missing_unit);
}

TEST_CASE("what is no duration is refused") {
  CHECK(fault("90") == FaultCode::missing_unit);
  CHECK(fault("90 mm") == FaultCode::wrong_unit);
  CHECK(fault("30 min 2 h") == FaultCode::bad_value);
  CHECK(fault("1 h 1 h") == FaultCode::bad_value);
  CHECK(fault("1 h -5 min") == FaultCode::bad_value);
  CHECK(fault("") == FaultCode::bad_value);
  CHECK(fault("h") == FaultCode::bad_value);
  CHECK(fault("1 h x") == FaultCode::bad_value);
  CHECK(fault("1,234 h") == FaultCode::ambiguous_number);
  CHECK(fault("9223372036854775807 d") == FaultCode::out_of_range);
}

TEST_CASE("a duration is written in hours, minutes and seconds, without those that are nought") {
  CHECK(duration_text(Duration{9'000}) == "2 h 30 min");
  CHECK(duration_text(Duration{45}) == "45 s");
  CHECK(duration_text(Duration{3'605}) == "1 h 5 s");
  CHECK(duration_text(Duration{172'800}) == "48 h");
  CHECK(duration_text(Duration{0}) == "0 s");
  CHECK(duration_text(Duration{-9'000}) == "-2 h 30 min");
  CHECK(duration_text(Duration{std::numeric_limits<std::int64_t>::min()}) ==
        "-2562047788015215 h 30 min 8 s");
}
