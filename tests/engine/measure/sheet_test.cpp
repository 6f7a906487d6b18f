#include "engine/measure/measure.h"

#include <doctest/doctest.h>

#include <string>

using endband::FaultCode;
using endband::Length;
using endband::SheetSize;

namespace {

SheetSize mm(std::int64_t first, std::int64_t second) {
  return {Length{first * 1000}, Length{second * 1000}};
}

endband::Fault fault(std::string_view text) {
  auto const size = endband::read_sheet_size(text);
  REQUIRE_FALSE_MESSAGE(size.has_value(), text);
  return size.error().front();
}

}  // namespace

TEST_CASE("a sheet size is read by name, the short side first, in any case") {
  CHECK(endband::read_sheet_size("A4").value() == mm(210, 297));
  CHECK(endband::read_sheet_size(" sra3 ").value() == mm(320, 450));
}

TEST_CASE("a sheet size in numbers keeps its sides as said: the second is along the grain") {
  CHECK(endband::read_sheet_size("450 x 640 mm").value() == mm(450, 640));
  CHECK(endband::read_sheet_size("640 x 450 mm").value() == mm(640, 450));
  CHECK(endband::read_sheet_size("64x45cm").value() == mm(640, 450));
  CHECK(endband::read_sheet_size("25 x 20 in").value() == SheetSize{Length{635'000}, Length{508'000}});
  CHECK(endband::read_sheet_size("17 1/2 in \u00d7 22 in").value() ==
        SheetSize{Length{444'500}, Length{558'800}});
}

TEST_CASE("what is no sheet size is refused") {
  CHECK(fault("A11").code == FaultCode::bad_value);
  CHECK(fault("SRA33").near.front() == "SRA3");
  CHECK(fault("450 x 640").code == FaultCode::missing_unit);
  CHECK(fault("450 x 640 g").code == FaultCode::wrong_unit);
  CHECK(fault("450 mm").code == FaultCode::bad_value);
  CHECK(fault("0 x 640 mm").code == FaultCode::out_of_range);
  CHECK(fault("450 x 0.0001 mm").code == FaultCode::out_of_range);
  CHECK(fault("").code == FaultCode::bad_value);
  CHECK(fault(std::string(100'000, 'A')).code == FaultCode::bad_value);
}
