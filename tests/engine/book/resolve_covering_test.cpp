// What a description of spine, boards and covering may not say, and what it need not.
#include "tests/engine/book/every_covering.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::tests;
using enum FigureId;

namespace {

struct Refused : Described {
  std::string faults(std::string_view binding, std::string_view said,
                     std::string_view covering = "goat") const {
    std::string const text = "endband = 1\nbinding = \"" + std::string(binding) +
                             "\"\nheight = \"240 mm\"\nwidth = \"160 mm\"\npages = 320\n" + std::string(said);
    return layers::faults_of(read(text, covering));
  }
};

}  // namespace

TEST_CASE_FIXTURE(Refused, "what its ways leave no use for is told where it is said") {
  CHECK(faults("case", "[spine]\nshape = \"flat\"\nround = \"90 deg\"\n") ==
        "8:9 contradiction spine.round\n");
  CHECK(faults("case", "[spine]\nshape = \"rounded\"\nshoulder = \"2 mm\"\n") ==
        "8:12 contradiction spine.shoulder\n");
  CHECK(faults("case", "[cover]\nextent = \"full\"\nsides = \"marbled\"\n") ==
        "8:9 contradiction cover.sides\n");
  CHECK(faults("case", "[cover]\nextent = \"quarter\"\ncorner = \"40 mm\"\n") ==
        "8:10 contradiction cover.corner\n");
  CHECK(faults("case", "[cover]\nflap = \"60 mm\"\n") == "7:8 contradiction cover.flap\n");
  CHECK(faults("case", "[boards]\nholes_a_slip = 2\n") == "7:16 contradiction boards.holes_a_slip\n");
  CHECK(faults("long-stitch", "[boards]\nthickness = \"2 mm\"\n") == "7:13 contradiction boards.thickness\n");
  CHECK(faults("raised-cords", "[spine]\nmull = \"mull\"\n") == "7:8 contradiction spine.mull\n");
}

TEST_CASE_FIXTURE(Refused, "the habits of a workshop do not stand against a book that has no use for them") {
  BookSpec const limp = spec("long-stitch", "");
  CHECK_FALSE(limp.given.has(square));
  CHECK_FALSE(limp.given.has(turn_in));
  BookSpec const tight = spec("case", "[boards]\njoint = \"tight\"\n");
  CHECK_FALSE(tight.given.has(setback));
  CHECK(spec("case", "").given.value(setback) == 6);
  CHECK_FALSE(spec("case", "[spine]\nshape = \"flat\"\n").given.has(round_angle));
  CHECK_FALSE(spec("case", "").given.has(cover_flap));
}

TEST_CASE_FIXTURE(Refused, "a wrapper may stand beyond its leaves and be turned in when that is said") {
  BookSpec const limp = spec("long-stitch", "[boards]\nsquare = \"5 mm\"\n[cover]\nturn_in = \"12 mm\"\n");
  CHECK(limp.given.value(square) == 5);
  CHECK(limp.given.value(turn_in) == 12);
}

TEST_CASE_FIXTURE(Refused, "only leather is pared") {
  CHECK(faults("case", "[cover]\npared = \"0.3 mm\"\n", "buckram") == "7:9 contradiction cover.pared\n");
  CHECK(faults("case", "[cover]\npared = \"0.7 mm\"\n").empty());
}

TEST_CASE_FIXTURE(Refused, "paring makes a leather thinner, never thicker") {
  CHECK(faults("case", "[cover]\npared = \"1 mm\"\n").empty());
  CHECK(faults("case", "[cover]\npared = \"1.1 mm\"\n") == "7:9 contradiction cover.pared\n");
}

TEST_CASE("a habit of thicker leather leaves a thinner one as it is") {
  std::string const habits = std::string(layers::habits);
  auto const habit = [&](std::string_view pared) {
    std::string text = habits;
    text.insert(text.find("[cover]\n") + 8, "pared = \"" + std::string(pared) + "\"\n");
    auto const book = layers::Four("endband = 1\n", "raised-cords", text).resolve();
    REQUIRE(book);
    return book->given;
  };
  CHECK(habit("0.7 mm").value(leather_pared) == doctest::Approx(0.7));
  CHECK_FALSE(habit("5 mm").has(leather_pared));
}

TEST_CASE_FIXTURE(Refused, "boards have turn-ins that hold") {
  CHECK(faults("case", "[cover]\nturn_in = \"3 mm\"\n") == "7:11 contradiction cover.turn_in\n");
  CHECK(faults("long-stitch", "[cover]\nturn_in = \"0 mm\"\n").empty());
}

TEST_CASE_FIXTURE(Refused, "corners do not meet, nor reach the spine's leather") {
  CHECK(faults("case", "[cover]\nextent = \"half\"\ncorner = \"130 mm\"\n") ==
        "8:10 contradiction cover.corner\n");
  CHECK(faults("case", "[cover]\nextent = \"half\"\nspine_reach = \"55 %\"\n") ==
        "8:15 contradiction cover.spine_reach\n");
}

TEST_CASE_FIXTURE(Refused, "mull lies within the boards, and false bands leave panels") {
  CHECK(faults("case", "[spine]\nmull_setback = \"100 mm\"\n").empty());
  CHECK(faults("tapes", "[false_bands]\ncount = 12\nwidth = \"20 mm\"\n") ==
        "7:9 contradiction false_bands.count\n");
}

TEST_CASE_FIXTURE(Refused, "a thong is cut in one piece") {
  CHECK(faults("case", "[tie]\nturns = 6\n") == "7:9 contradiction tie.turns\n");
  CHECK(faults("case", "[tie]\nturns = 6\nmaterial = \"ribbon\"\n").empty());
}
