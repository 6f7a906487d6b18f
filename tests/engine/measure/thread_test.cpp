#include "engine/measure/measure.h"

#include <doctest/doctest.h>

#include <stdexcept>

using endband::FaultCode;
using endband::Ratio;
using endband::ThreadNumber;

namespace {

FaultCode fault(std::string_view text) {
  auto const thread = endband::read_thread_number(text);
  REQUIRE_FALSE_MESSAGE(thread.has_value(), text);
  return thread.error().front().code;
}

}  // namespace

TEST_CASE("a thread number is that of the single yarn and its plies") {
  CHECK(endband::read_thread_number("18/3").value() == ThreadNumber{18, 3});
  CHECK(endband::read_thread_number(" 25 / 2 ").value() == ThreadNumber{25, 2});
  CHECK(endband::read_thread_number("25").value() == ThreadNumber{25, 1});
}

TEST_CASE("what is no thread number is refused") {
  for (auto text : {"", "/", "18/", "/3", "18/3/2", "18.5/3", "Nm 18/3", "18 3", "99999999999/3"})
    CHECK_MESSAGE(fault(text) == FaultCode::bad_value, text);
  for (auto text : {"0/3", "18/0", "-18/3", "18/-3", "1001", "18/101"})
    CHECK_MESSAGE(fault(text) == FaultCode::out_of_range, text);
}

TEST_CASE("more plies weigh more, a higher number less") {
  CHECK(endband::tex({18, 3}) == endband::tex({18, 1}) * Ratio(3));
  CHECK(endband::tex({36, 1}) * Ratio(2) == endband::tex({18, 1}));
  CHECK_THROWS_AS(endband::tex({0, 1}), std::logic_error);
}
