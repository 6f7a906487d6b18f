// Figures: where their marks stand and what they say.
#include "cli/document/svg.h"
#include "figures.h"

#include <cmath>

using namespace endband::cli;
using namespace endband::cli::testing;

TEST_CASE("pairs: what was first is hollow, what was second full, and a line joins them") {
  Drawing const drawing = draw_pairs(three_jobs());
  auto const hollow = dots(drawing, Fill::white), full = dots(drawing, Fill::solid);
  REQUIRE(hollow.size() == 3);
  REQUIRE(full.size() == 3);
  // One scale: 10 % are as long anywhere, and what is less lies to the left.
  double const ten = (hollow[1].centre.x - hollow[0].centre.x);
  CHECK(ten > 5);
  CHECK(hollow[0].centre.x - hollow[2].centre.x == doctest::Approx(ten));
  CHECK(full[2].centre.x - full[1].centre.x == doctest::Approx(ten));
  CHECK(hollow[0].centre.x - full[0].centre.x == doctest::Approx(2.5 * ten));
  // Equal values: the hollow dot is seen round the full one, and nothing joins them.
  CHECK(hollow[1].centre.x == full[1].centre.x);
  CHECK(hollow[1].radius > full[1].radius);
  auto joins = all_of<Segment>(drawing);
  std::erase_if(joins, [](Segment const& line) { return line.pen != Pen::accent; });
  REQUIRE(joins.size() == 2);
  CHECK(joins[0].from.x == hollow[0].centre.x);
  CHECK(joins[0].to.x == full[0].centre.x);
}

TEST_CASE("pairs: a line at nothing, another, dashed, at what is aimed at") {
  Drawing const drawing = draw_pairs(three_jobs());
  auto const hollow = dots(drawing, Fill::white);
  double const one = (hollow[1].centre.x - hollow[0].centre.x) / 10;
  std::vector<Segment> zero, aim;
  for (Segment const& line : all_of<Segment>(drawing)) {
    if (line.pen == Pen::outline) zero.push_back(line);
    if (line.pen == Pen::hidden) aim.push_back(line);
  }
  REQUIRE(zero.size() == 1);
  REQUIRE(aim.size() == 1);
  CHECK(zero[0].from.x == doctest::Approx(hollow[0].centre.x - 20 * one));
  CHECK(aim[0].from.x == doctest::Approx(hollow[0].centre.x + 15 * one));
  CHECK(text_of(drawing, "aimed at: 35 %").at.x == doctest::Approx(aim[0].from.x));
}

TEST_CASE("rows stand in the order that they are given, name, marks and number at one height") {
  Drawing const drawing = draw_pairs(three_jobs());
  double before = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    PairRow const row = three_jobs().rows[i];
    double const y = dots(drawing, Fill::solid)[i].centre.y;
    CHECK(y > before);
    before = y;
    CHECK(std::abs(text_of(drawing, row.name).at.y - y) < 1.5);
  }
  Text const number = text_of(drawing,
                              "20 % \xE2\x86\x92 \xE2\x88\x92"
                              "5 %");  // an arrow and a minus
  CHECK(number.anchor == Anchor::end);
  CHECK(number.at.x == 164);
  CHECK(says(drawing, "quoted"));
  CHECK(says(drawing, "actual"));
  CHECK(says(drawing, "% of the price"));
}

TEST_CASE("a figure says in words all that it shows") {
  CHECK(draw_pairs(three_jobs()).words ==
        "quoted and actual, % of the price; line: aimed at: 35 %; J3 Album: 20 % -> -5 %; "
        "J1 Bible: 30 % -> 30 %; J2 Thesis: 10 % -> 40 %.");
  CHECK(draw_stairs({"", "", "EUR", {{"Price", 5, true, "5.00"}, {"VAT", -1, false, "-1.00"}}}).words ==
        "EUR; Price: 5.00; VAT: -1.00.");
  RangeFigure ranges{.unit = "%", .zero_words = "as planned"};
  ranges.rows = {{"Sew", 4, 1, 9, "+4 %", false}, {"Pare", 9, 0, 90, "+9 %", true}};
  CHECK(draw_ranges(ranges).words == "%; line: as planned; Sew: +4 %; Pare: +9 %, too few to say anything.");
  CHECK(draw_stairs({"", "", "EUR", {}}).words == "EUR; nothing to show.");
}

TEST_CASE("round numbers along the scale are few and begin at what is there") {
  Drawing const drawing = draw_pairs(three_jobs());
  for (char const* tick : {"0", "10", "20", "30", "40"}) CHECK(says(drawing, tick));
  CHECK_FALSE(says(drawing, "50"));
  CHECK_FALSE(says(drawing, "5"));
}

TEST_CASE("no more than forty pairs are drawn, and more rows make a figure higher") {
  PairFigure figure = three_jobs();
  double const low = draw_pairs(figure).height;
  figure.rows.resize(41, {"J", 1, 2, "1 -> 2"});
  Drawing const drawing = draw_pairs(figure);
  CHECK(dots(drawing, Fill::solid).size() == 40);
  CHECK(drawing.height > low + 150);
  CHECK(drawing.height <= 257);  // what A4 leaves within margins of 20 mm
}

TEST_CASE("stairs: what is taken hangs from where the step before ended, and a sum stands on the ground") {
  Drawing const drawing = draw_stairs({"Left: 50",
                                       "walk",
                                       "EUR",
                                       {{"Price", 100, true, "100.00"},
                                        {"Fees", -70, false, "-70.00"},
                                        {"Refund", 20, false, "+20.00"},
                                        {"Left", 50, true, "50.00"}}});
  auto const steps = bars(drawing);
  REQUIRE(steps.size() == 4);
  double const ground = steps[0].corner.x, one = steps[0].width / 100;
  CHECK(steps[1].corner.x == doctest::Approx(ground + 30 * one));
  CHECK(steps[1].width == doctest::Approx(70 * one));
  CHECK(steps[2].corner.x == doctest::Approx(ground + 30 * one));
  CHECK(steps[2].width == doctest::Approx(20 * one));
  CHECK(steps[3].corner.x == doctest::Approx(ground));
  CHECK(steps[3].width == doctest::Approx(50 * one));
  CHECK(steps[0].fill == Fill::solid);
  CHECK(steps[1].fill == Fill::white);
  CHECK(steps[2].fill == Fill::hatch);
  for (char const* words : {"what is there so far", "taken off", "added"}) CHECK(says(drawing, words));
}

TEST_CASE("stairs: a loss lies to the left of the ground, and what is nothing is still seen") {
  Drawing const drawing = draw_stairs(
      {"", "walk", "EUR", {{"Price", 100, true, ""}, {"Cost", -160, false, ""}, {"Left", -60, true, ""}}});
  auto const steps = bars(drawing);
  REQUIRE(steps.size() == 3);
  CHECK(steps[2].corner.x + steps[2].width == doctest::Approx(steps[0].corner.x));
  CHECK(steps[2].width == doctest::Approx(0.6 * steps[0].width));
  CHECK_FALSE(says(drawing, "added"));

  auto lines = all_of<Segment>(
      draw_stairs({"", "walk", "EUR", {{"Price", 100, true, ""}, {"Fee", -0.01, false, ""}}}));
  std::erase_if(lines, [](Segment const& line) { return line.pen != Pen::accent; });
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].to.y - lines[0].from.y > 2);
}

TEST_CASE("ranges: a dot with its range, and too few are hollow, and said to be too few") {
  RangeFigure figure{.title = "t", .name = "steps", .unit = "%", .zero_words = "as planned"};
  figure.rows = {{"Sew", 10, -10, 40, "+10 %", false}};
  CHECK_FALSE(says(draw_ranges(figure), "too few to say anything"));
  figure.rows.push_back({"Pare", 20, 0, 30, "+20 %", true});
  Drawing const drawing = draw_ranges(figure);
  auto const full = dots(drawing, Fill::solid), hollow = dots(drawing, Fill::white);
  REQUIRE(full.size() == 1);
  REQUIRE(hollow.size() == 1);
  CHECK(says(drawing, "too few to say anything"));
  CHECK(says(drawing, "as planned"));
  double const ten = hollow[0].centre.x - full[0].centre.x;
  bool seen = false;
  for (Segment const& line : all_of<Segment>(drawing))
    seen = seen || (line.pen == Pen::accent && line.from.y == full[0].centre.y &&
                    std::abs(full[0].centre.x - line.from.x - 2 * ten) < hair &&
                    std::abs(line.to.x - full[0].centre.x - 3 * ten) < hair);
  CHECK(seen);
}

TEST_CASE("bars go from the line of no difference either way") {
  RangeFigure figure{.title = "t", .name = "earn", .unit = "EUR an hour", .zero = 10, .bars = true};
  figure.rows = {{"Album", 5, 0, 0, "5.00", true}, {"Bible", 30, 0, 0, "30.00", false}};
  auto const drawn = bars(draw_ranges(figure));
  REQUIRE(drawn.size() == 2);
  CHECK(drawn[0].corner.x + drawn[0].width == doctest::Approx(drawn[1].corner.x));
  CHECK(drawn[1].width == doctest::Approx(4 * drawn[0].width));
  CHECK(drawn[0].fill == Fill::white);
  CHECK(drawn[1].fill == Fill::solid);
}
