#include "engine/measure/measure.h"

#include <doctest/doctest.h>

#include <string>

using endband::FaultCode;

namespace {

// The only fault of a read that must fail.
template <class T>
endband::Fault fault(endband::Read<T> const& read) {
  REQUIRE_FALSE(read.has_value());
  REQUIRE(read.error().size() == 1);
  return read.error().front();
}

std::int64_t um(std::string_view text) { return endband::read_length(text).value().n; }
std::int64_t um2(std::string_view text) { return endband::read_area(text).value().n; }
FaultCode length_fault(std::string_view text) { return fault(endband::read_length(text)).code; }

}  // namespace

TEST_CASE("a length is read in millimetres, centimetres, metres, micrometres, inches, feet and yards") {
  CHECK(um("250 mm") == 250'000);
  CHECK(um("25cm") == 250'000);
  CHECK(um("0,62 mm") == 620);
  CHECK(um("1.5 m") == 1'500'000);
  CHECK(um("350 um") == 350);
  CHECK(um("350 \u00b5m") == 350);
  CHECK(um("350 \u03bcm") == 350);
  CHECK(um("1 in") == 25'400);
  CHECK(um("2 ft") == 609'600);
  CHECK(um("3 yd") == 2'743'200);
  CHECK(um("250 MM") == 250'000);
  CHECK(um("  250\tmm ") == 250'000);
}

TEST_CASE("a length in inches may have a fraction") {
  CHECK(um("11 3/4 in") == 298'450);
  CHECK(um("11 3/4\"") == 298'450);
  CHECK(um("11\u00be\u2033") == 298'450);
  CHECK(um("3/4 in") == 19'050);
  CHECK(um("\u00bd inch") == 12'700);
  CHECK(um("-1 1/2 in") == -38'100);
  CHECK(um("\u22121/2 in") == -12'700);
  CHECK(um("5.8 in") == 147'320);
}

TEST_CASE("a length between two micrometres is rounded half away") {
  CHECK(um("0.0005 mm") == 1);
  CHECK(um("-0.0005 mm") == -1);
  CHECK(um("0.0004 mm") == 0);
  CHECK(um("1/3 mm") == 333);
}

TEST_CASE("a length of a thousand or of decimals is refused with both readings") {
  for (auto text : {"1,234 mm", "1.234 mm"}) {
    endband::Fault const refused = fault(endband::read_length(text));
    CHECK(refused.code == FaultCode::ambiguous_number);
    CHECK(refused.found == text);
    CHECK(refused.expected == "1234 mm or 1.234 mm");
  }
  CHECK(um("0.234 mm") == 234);
  CHECK(um("0,234 mm") == 234);
  CHECK(um("1,234.5 mm") == 1'234'500);
  CHECK(um("1.234,5 mm") == 1'234'500);
  CHECK(um("1.2340 mm") == 1'234);
}

TEST_CASE("a length without a unit, or with another's, is refused as such") {
  CHECK(length_fault("250") == FaultCode::missing_unit);
  CHECK(length_fault("1,234") == FaultCode::missing_unit);
  CHECK(length_fault("250 g") == FaultCode::wrong_unit);
  CHECK(length_fault("6 sq ft") == FaultCode::wrong_unit);
}

TEST_CASE("a unit that is not known is met with those that may have been meant") {
  endband::Fault const refused = fault(endband::read_length("3 inhces"));
  CHECK(refused.code == FaultCode::wrong_unit);
  CHECK(refused.near == std::vector<std::string>{"inches"});
  CHECK(refused.expected == "a length such as 250 mm");
}

TEST_CASE("what is no length is refused, whatever its bytes") {
  for (auto text : {"", " ", "mm", "-", "abc", "1.2.3 mm", "12 34 mm", "1/0 mm", "1 2/0 in", "--5 mm",
                    "+5 mm", "0.1234567890 mm", "1e3 mm", "\xff\xfe", "."})
    CHECK_MESSAGE(length_fault(text) != FaultCode::out_of_range, text);
  CHECK(length_fault("") == FaultCode::bad_value);
  CHECK(length_fault("12 34 mm") == FaultCode::bad_value);
  CHECK(length_fault("0.1234567890 mm") == FaultCode::bad_value);
  CHECK(length_fault("5 \xff\xfe") == FaultCode::wrong_unit);
  CHECK(length_fault("5 " + std::string(10'000, 'm')) == FaultCode::wrong_unit);
  CHECK(length_fault(std::string("5\0mm", 4)) == FaultCode::wrong_unit);
}

TEST_CASE("a length beyond 64 bits is out of range") {
  CHECK(length_fault("9223372036854775807 m") == FaultCode::out_of_range);
  CHECK(length_fault("99999999999999999999 m") == FaultCode::out_of_range);
  CHECK(length_fault("9223372036854775807 1/999999999 um") == FaultCode::out_of_range);
  CHECK(um("9223372036854775807 um") == 9'223'372'036'854'775'807);
}

TEST_CASE("an area is read in square units or as two lengths") {
  CHECK(um2("0.31 m2") == 310'000'000'000);
  CHECK(um2("0.31 m\u00b2") == 310'000'000'000);
  CHECK(um2("6 sq ft") == 557'418'240'000);
  CHECK(um2("6 Sq. Ft.") == 557'418'240'000);
  CHECK(um2("1 ft2") == 92'903'040'000);
  CHECK(um2("1 sq in") == 645'160'000);
  CHECK(um2("1 dm2") == 10'000'000'000);
  CHECK(um2("1 cm2") == 100'000'000);
  CHECK(um2("1 mm2") == 1'000'000);
  CHECK(um2("300 x 200 mm") == 60'000'000'000);
  CHECK(um2("30cm\u00d7200mm") == 60'000'000'000);
  CHECK(um2("30 X .5 mm") == 15'000'000);
  CHECK(um2("2 x \u00bd in") == 645'160'000);
}

TEST_CASE("an area that is none is refused") {
  CHECK(fault(endband::read_area("300 x 200")).code == FaultCode::missing_unit);
  CHECK(fault(endband::read_area("300 mm x 200")).code == FaultCode::missing_unit);
  CHECK(fault(endband::read_area("300 mm")).code == FaultCode::wrong_unit);
  CHECK(fault(endband::read_area("300 x 200 g")).code == FaultCode::wrong_unit);
  CHECK(fault(endband::read_area("1,300 x 200 mm")).code == FaultCode::ambiguous_number);
  CHECK(fault(endband::read_area("300 x 200 x 10 mm")).code != FaultCode::out_of_range);
  CHECK(fault(endband::read_area("9000000 m x 9000000 m")).code == FaultCode::out_of_range);
}

TEST_CASE("a mass is read in metric units, ounces and pounds") {
  CHECK(endband::read_mass("50 g")->n == 50'000);
  CHECK(endband::read_mass("1.5 kg")->n == 1'500'000);
  CHECK(endband::read_mass("250 mg")->n == 250);
  CHECK(endband::read_mass("1 lb")->n == 453'592);
  CHECK(endband::read_mass("16 oz")->n == 453'592);
  CHECK(endband::read_mass("1600 oz")->n == 45'359'237);
  CHECK(endband::read_mass("100 lb")->n == 45'359'237);
  CHECK(fault(endband::read_mass("50 ml")).code == FaultCode::wrong_unit);
}

TEST_CASE("a volume is read in litres and their parts") {
  CHECK(endband::read_volume("20 ml")->n == 20'000);
  CHECK(endband::read_volume("1 l")->n == 1'000'000);
  CHECK(endband::read_volume("1 L")->n == 1'000'000);
  CHECK(endband::read_volume("2.5 cl")->n == 25'000);
  CHECK(endband::read_volume("3 dl")->n == 300'000);
  CHECK(endband::read_volume("7 ul")->n == 7);
  CHECK(fault(endband::read_volume("20 g")).code == FaultCode::wrong_unit);
}

TEST_CASE("a thickness is read as a length, in nanometres, ounces and irons of leather") {
  CHECK(endband::read_thickness("0.9 mm")->n == 900'000);
  CHECK(endband::read_thickness("120 um")->n == 120'000);
  CHECK(endband::read_thickness("113 nm")->n == 113);
  CHECK(endband::read_thickness("1/64 in")->n == 396'875);
  CHECK(endband::read_thickness("2.5 oz")->n == 992'188);
  CHECK(endband::read_thickness("2 1/2 oz")->n == 992'188);
  CHECK(endband::read_thickness("3 iron")->n == 1'587'500);
  CHECK(fault(endband::read_thickness("2 lb")).code == FaultCode::wrong_unit);
}

TEST_CASE("a count has no unit and at most three decimals") {
  CHECK(endband::read_count("12")->n == 12'000);
  CHECK(endband::read_count("2.5")->n == 2'500);
  CHECK(endband::read_count("1/2")->n == 500);
  CHECK(endband::read_count("1/3")->n == 333);
  CHECK(endband::read_count("-2")->n == -2'000);
  CHECK(endband::read_count("0.125")->n == 125);
  CHECK(fault(endband::read_count("0.1255")).code == FaultCode::bad_value);
  CHECK(fault(endband::read_count("1,234")).expected == "1234 or 1.234");
  CHECK(fault(endband::read_count("2 skins")).code == FaultCode::wrong_unit);
  CHECK(fault(endband::read_count("1 2")).code == FaultCode::bad_value);
  CHECK(fault(endband::read_count("9223372036854775807")).code == FaultCode::out_of_range);
}
