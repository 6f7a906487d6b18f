// Thickness and area of leather.
#include "engine/measure/measure.h"

#include <doctest/doctest.h>

using endband::Ratio;
using endband::Rounding;

namespace {

std::int64_t nm(std::string_view text) { return endband::read_thickness(text).value().n; }

}  // namespace

// fineleatherworking.com's chart: an ounce is 1/64 in; D. Lanning of Hewit's, BOOK_ARTS-L, December 2004,
// rounds it to 0.4 mm. 2.5 oz is 0.9921875 mm.
TEST_CASE("an ounce of leather is a sixty-fourth of an inch") {
  CHECK(nm("1 oz") == 396'875);
  CHECK(nm("1 oz") == nm("1/64 in"));
  CHECK(nm("64 oz") == nm("1 in"));
  CHECK(nm("2.5 oz") == 992'188);
}

// E&R, "iron" (2), dt1896: 1/48 in. Eight irons are a sixth of an inch, 10.667 oz (dt2579; Federal Test
// Method Standard 311 by sizes.com has 0.53 mm for one).
TEST_CASE("an iron of leather is a forty-eighth of an inch") {
  CHECK(nm("1 iron") == 529'167);
  CHECK(nm("48 iron") == nm("1 in"));
  CHECK(nm("8 iron") == 4'233'333);
  CHECK(nm("8 iron") == nm("10 2/3 oz"));
}

// US 16 CFR 500.19: 1 sq ft = 9.290304 dm2; 1 m2 = 10.7639 sq ft.
TEST_CASE("a square foot of leather in square decimetres and metres") {
  CHECK(endband::read_area("1 sq ft").value() == endband::read_area("9.290304 dm2").value());
  Ratio const feet(endband::read_area("1 m2")->n, endband::read_area("1 sq ft")->n);
  CHECK(round_product(feet, 10'000, Rounding::half_away) == 107'639);
}

// US 16 CFR 500.19: 1 in = 25.4 mm, 1 yd = 0.9144 m, 1 lb = 453.592 g.
TEST_CASE("inch, yard and pound") {
  CHECK(endband::read_length("1 in").value() == endband::read_length("25.4 mm").value());
  CHECK(endband::read_length("1 yd").value() == endband::read_length("0.9144 m").value());
  CHECK(endband::read_mass("1 lb").value() == endband::read_mass("453592 mg").value());
}
