#include "engine/stock/stock.h"

#include <doctest/doctest.h>

using namespace endband;

TEST_CASE("each kind of movement, formula and source of a lot has a name of its own") {
  CHECK(movement_name(MovementKind::opening) == "opening");
  CHECK(movement_name(MovementKind::received) == "received");
  CHECK(movement_name(MovementKind::found) == "found");
  CHECK(movement_name(MovementKind::used) == "used");
  CHECK(movement_name(MovementKind::cut_away) == "cut-away");
  CHECK(movement_name(MovementKind::spoiled) == "spoiled");
  CHECK(movement_name(MovementKind::kept) == "kept");
  CHECK(movement_name(MovementKind::scrapped) == "scrapped");
  CHECK(movement_name(MovementKind::missing) == "missing");
  CHECK(movement_name(MovementKind::written_down) == "written-down");
  CHECK(movement_name(MovementKind::custody) == "custody");
  CHECK(movement_name(MovementKind::given_back) == "given-back");
  CHECK(formula_name(CostFormula::first_in_first_out) == "first-in-first-out");
  CHECK(formula_name(CostFormula::moving_average) == "moving-average");
  CHECK(source_name(LotSource::received) == "received");
  CHECK(source_name(LotSource::opening) == "opening");
  CHECK(source_name(LotSource::found) == "found");
  CHECK(source_name(LotSource::kept) == "kept");
  CHECK(source_name(LotSource::custody) == "custody");
}

TEST_CASE("a mark is read in small letters too, and written in capitals") {
  CHECK(mark_text({'L', 12}) == "L12");
  CHECK(mark_text({'K', 3}) == "K3");
  CHECK(read_mark("L12").value() == LotMark{'L', 12});
  CHECK(read_mark("k3").value() == LotMark{'K', 3});
  CHECK(read_mark("K9223372036854775807").value().number == 9'223'372'036'854'775'807);
}

TEST_CASE("what is no mark is refused, and says what one looks like") {
  for (auto const* text : {"", "L", "12", "M12", "L0", "L012", "L-1", "L+1", "L 1", "L1 ", "L1.5", "KK1",
                           "K9223372036854775808", "goat-moss-08"}) {
    CAPTURE(text);
    auto const read = read_mark(text);
    REQUIRE_FALSE(read.has_value());
    REQUIRE(read.error().size() == 1);
    CHECK(read.error()[0].code == FaultCode::bad_value);
    CHECK(read.error()[0].found == text);
    CHECK(read.error()[0].expected.find("L12") != std::string::npos);
  }
}
