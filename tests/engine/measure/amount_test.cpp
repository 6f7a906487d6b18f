#include "engine/measure/measure.h"

#include <doctest/doctest.h>

using endband::Amount;
using endband::Dimension;
using endband::FaultCode;

namespace {

Amount read(std::string_view text) { return endband::read_amount(text).value(); }

FaultCode fault(std::string_view text) {
  auto const amount = endband::read_amount(text);
  REQUIRE_FALSE_MESSAGE(amount.has_value(), text);
  return amount.error().front().code;
}

}  // namespace

TEST_CASE("an amount takes its dimension from its unit") {
  CHECK(read("50 g") == Amount{Dimension::mass, 50'000});
  CHECK(read("2 oz") == Amount{Dimension::mass, 56'699});
  CHECK(read("20 sheets") == Amount{Dimension::count, 20'000});
  CHECK(read("1 leaf") == Amount{Dimension::count, 1'000});
  CHECK(read("25 leaves") == Amount{Dimension::count, 25'000});
  CHECK(read("1/2 skin") == Amount{Dimension::count, 500});
  CHECK(read("1 piece") == Amount{Dimension::count, 1'000});
  CHECK(read("6 sq ft") == Amount{Dimension::area, 557'418'240'000});
  CHECK(read("300 x 200 mm") == Amount{Dimension::area, 60'000'000'000});
  CHECK(read("10 m") == Amount{Dimension::length, 10'000'000});
  CHECK(read("12 ml") == Amount{Dimension::volume, 12'000});
  CHECK(read("90 min") == Amount{Dimension::duration, 5'400});
  CHECK(read("2 h 30 min") == Amount{Dimension::duration, 9'000});
  CHECK(read("1h30") == Amount{Dimension::duration, 5'400});
}

TEST_CASE("an amount without a unit or with an unknown one is refused") {
  CHECK(fault("50") == FaultCode::missing_unit);
  CHECK(fault("3 boxes") == FaultCode::wrong_unit);
  CHECK(fault("5 x") == FaultCode::wrong_unit);
  CHECK(fault("g") == FaultCode::bad_value);
  CHECK(fault("") == FaultCode::bad_value);
  CHECK(fault("1,234 g") == FaultCode::ambiguous_number);
  CHECK(fault("9223372036854775807 kg") == FaultCode::out_of_range);
}
