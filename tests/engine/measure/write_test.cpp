#include "engine/measure/measure.h"

#include <doctest/doctest.h>

using endband::Amount;
using endband::Area;
using endband::Count;
using endband::Duration;
using endband::Length;
using endband::Mass;
using endband::Volume;

TEST_CASE("a length is written in millimetres, exactly and as short as it goes") {
  CHECK(length_mm(Length{250'000}) == "250");
  CHECK(length_mm(Length{620}) == "0.62");
  CHECK(length_mm(Length{-1}) == "-0.001");
  CHECK(length_mm(Length{0}) == "0");
  CHECK(length_mm(Length{1'234'500}) == "1234.5");
}

TEST_CASE("three decimals that would read as a thousand get a nought") {
  CHECK(length_mm(Length{1'234}) == "1.2340");
  CHECK(length_mm(Length{123'456}) == "123.4560");
  CHECK(length_mm(Length{1'234'567}) == "1234.567");
}

TEST_CASE("an area is written in square centimetres") {
  CHECK(area_cm2(Area{252'050'000'000}) == "2520.5");
  CHECK(area_cm2(Area{1}) == "0.00000001");
}

TEST_CASE("an amount is written for people, to three figures or whole") {
  CHECK(amount_text(amount(Length{9'144'000})) == "9.14 m");
  CHECK(amount_text(amount(Length{25'400})) == "25.4 mm");
  CHECK(amount_text(amount(Length{999'999})) == "1000 mm");
  CHECK(amount_text(amount(Length{12'345'678'000})) == "12346 m");
  CHECK(amount_text(amount(Area{62'000'000'000})) == "620 cm2");
  CHECK(amount_text(amount(Area{-1'038'100'000'000})) == "-1.04 m2");
  CHECK(amount_text(amount(Mass{48'000})) == "48 g");
  CHECK(amount_text(amount(Mass{2'494'800})) == "2.49 kg");
  CHECK(amount_text(amount(Volume{12'000})) == "12 ml");
  CHECK(amount_text(amount(Volume{1'500'000})) == "1.5 l");
  CHECK(amount_text(amount(Count{3'000})) == "3");
  CHECK(amount_text(amount(Count{2'500})) == "2.5");
  CHECK(amount_text(amount(Count{1'234'000})) == "1234");
  CHECK(amount_text(amount(Duration{9'000})) == "2 h 30 min");
  CHECK(amount_text(Amount{}) == "0");
}

TEST_CASE("an amount is rounded half away and may carry") {
  CHECK(amount_text(amount(Count{9'995})) == "10");
  CHECK(amount_text(amount(Count{-9'995})) == "-10");
  CHECK(amount_text(amount(Mass{1'235})) == "1.24 g");
  CHECK(amount_text(amount(Mass{INT64_MIN})) == "-9223372036855 kg");
}
