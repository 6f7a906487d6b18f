// Outlines of skins as a bench says them: stations, corners, a drawing; and what is refused of them.
#include "cli/commands/shape_said.h"
#include "cli/commands/shape_text.h"
#include "cli/commands/stock_shape.h"
#include "cli/commands/svg_drawing.h"
#include "cli/words/fault_words.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband;
using namespace endband::cli;

namespace {

using cutting::Point;
using cutting::Polygon;

// A polygon by its corners, wherever it begins and whichever way round.
std::vector<Point> sorted(Polygon polygon) {
  std::sort(polygon.begin(), polygon.end());
  return polygon;
}
std::vector<Point> mm(std::vector<Point> corners) {
  for (Point& corner : corners) corner = {corner.x * 1000, corner.y * 1000};
  std::sort(corners.begin(), corners.end());
  return corners;
}

ShapeTexts corners(std::string text) { return {{}, std::move(text), {}, {}, {}, {}}; }
ShapeTexts stations(std::string text) { return {std::move(text), {}, {}, {}, {}, {}}; }
ShapeTexts drawing(std::string svg, std::string unit = "1 mm") {
  return {{}, {}, std::move(svg), std::move(unit), {}, "skin.svg"};
}
ShapeTexts with_flaw(ShapeTexts said, std::string flaw) {
  said.flaw = std::move(flaw);
  return said;
}

endband::Shape good(ShapeTexts const& said) {
  auto const shape = read_shape(said);
  if (!shape) MESSAGE(faults_text(shape.error(), [](auto) { return nullptr; }, {}));
  REQUIRE(shape.has_value());
  return *shape;
}
std::vector<Fault> bad(ShapeTexts const& said) {
  auto const shape = read_shape(said);
  REQUIRE_FALSE(shape.has_value());
  return shape.error();
}
// The only fault: where, of which kind, and what was found.
void refused(ShapeTexts const& said, std::string_view flag, FaultCode code, std::string_view found) {
  std::vector<Fault> const faults = bad(said);
  CAPTURE(std::string(found));
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].where.field == flag);
  CHECK(fault_row(faults[0].code).name == fault_row(code).name);
  CHECK(faults[0].found == found);
  CHECK_FALSE(faults[0].expected.empty());
}

std::string svg(std::string const& inside) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\">" + inside + "</svg>";
}

}  // namespace

TEST_CASE("corners in any of four units are one outline, which begins at nothing") {
  auto const wanted = mm({{0, 0}, {640, 0}, {600, 480}, {20, 500}});
  for (std::string_view const text :
       {"0 0, 640 0, 600 480, 20 500 mm", "0 0,64 0,60 48,2 50cm", " 0 0 , .64 0 , .6 .48 , 0.02 0.5  m ",
        "-100 50, 540 50, 500 530, -80 550, -100 50 mm", "0 0, 640 0, 600 480, 20 500, 0 0 mm"}) {
    CAPTURE(text);
    CHECK(sorted(good(corners(std::string(text))).outline) == wanted);
  }
  // An inch is 25.4 mm (1959).
  CHECK(sorted(good(corners("0 0, 10 0, 10 20, 0 20 in")).outline) ==
        mm({{0, 0}, {254, 0}, {254, 508}, {0, 508}}));
}

TEST_CASE("stations reach to the left and to the right of the backbone, or evenly to both") {
  auto const said = good(stations("0 120 130, 250 230 240, 700 90 95 mm"));
  CHECK(sorted(said.outline) == mm({{110, 0}, {360, 0}, {0, 250}, {470, 250}, {140, 700}, {325, 700}}));
  CHECK(good(stations("0 240, 250 480, 700 180 mm")).outline ==
        good(stations("0 120 120, 250 240 240, 700 90 90 mm")).outline);
  // The tail may be a point, and the tape need not begin at nothing.
  CHECK(sorted(good(stations("50 0, 300 400, 900 200 mm")).outline) ==
        mm({{200, 0}, {0, 250}, {400, 250}, {100, 850}, {300, 850}}));
}

TEST_CASE("flaws are counted as the outline is, round or by their corners") {
  auto const skin =
      good(with_flaw(corners("-100 50, 540 50, 540 550, -100 550 mm"), "100 300 30 mm; 5 10, 8 10, 8 14 cm"));
  REQUIRE(skin.flaws.size() == 2);
  cutting::Box const round = cutting::box_of(skin.flaws[0]);
  // Its middle is 200 mm from the left and 250 mm from the foot; it holds a disc of 30 mm.
  CHECK(round.left + round.right == 400'000);
  CHECK(round.bottom + round.top == 500'000);
  CHECK(round.right - round.left >= 30'000);
  CHECK(round.right - round.left < 30'400);
  CHECK(sorted(skin.flaws[1]) == mm({{150, 50}, {180, 50}, {180, 90}}));
  // One unit does for all.
  CHECK(good(with_flaw(corners("0 0, 640 0, 600 480, 20 500 mm"), "100 300 30; 50 100, 80 100, 80 140 mm"))
            .flaws.size() == 2);
  // With stations across is counted from the backbone: 50 mm to its left is 190 mm from the left edge.
  auto const sided = good(with_flaw(stations("0 120 130, 250 240 240, 700 90 95 mm"), "-50 100 20 mm"));
  cutting::Box const at = cutting::box_of(sided.flaws.at(0));
  CHECK(at.left + at.right == 2 * 190'000);
}

TEST_CASE("where a skin is flank or belly is counted as its flaws are, and is no flaw") {
  ShapeTexts said = stations("0 200 200, 600 200 200 mm");
  said.flank = "-200 0, -100 0, -100 600, -200 600 mm";
  said.belly = "150 300 40 mm";
  endband::Shape const shape = good(said);
  CHECK(shape.flaws.empty());
  REQUIRE(shape.zones.size() == 2);
  CHECK(shape.zones[0].grade == static_cast<int>(Grade::flank));
  CHECK(sorted(shape.zones[0].polygon) == mm({{0, 0}, {100, 0}, {100, 600}, {0, 600}}));
  CHECK(shape.zones[1].grade == static_cast<int>(Grade::belly));
  said.belly = "900 300 40 mm";
  refused(said, "--belly", FaultCode::contradiction, "900 300 40");
}

TEST_CASE("the first path of a drawing is the outline, and its other closed parts are flaws") {
  std::string const path = "<path style='fill:none' d='M10 10h100v200H10zM30 30h10v10h-10z'/>";
  auto const plain = good(drawing(svg(path)));
  CHECK(sorted(plain.outline) == mm({{0, 0}, {100, 0}, {100, 200}, {0, 200}}));
  REQUIRE(plain.flaws.size() == 1);
  // Counted downwards in the drawing, upwards here.
  CHECK(sorted(plain.flaws[0]) == mm({{20, 170}, {30, 170}, {30, 180}, {20, 180}}));
  std::string const more =
      "<?xml version=\"1.0\"?>\n<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"x\" [<!ENTITY a \"<path "
      "d=''>\">]>\n"
      "<!-- <path d='M0 0'/> --><svg:svg><svg:defs><svg:path d='M0 0z'/></svg:defs><svg:style><![CDATA[<path "
      "d='M0'/>]]>"
      "</svg:style><svg:g><svg:path id='no d'/>\n<svg:path d='M10 10h100v200H10zM30 "
      "30h10v10h-10z'/></svg:g></svg:svg>";
  CHECK(good(drawing(more)) == plain);
  // A pixel of CSS is a 96th of an inch: 100 of them are 26.458333 mm.
  CHECK(sorted(good(drawing(svg(path), "1/96 in")).outline).back().x == 26'458);
  CHECK(good(with_flaw(drawing(svg(path)), "50 100 10 mm")).flaws.size() == 2);
}

TEST_CASE("a number, a unit or a group that cannot be read is told as it was typed") {
  refused(corners("0 0, 640 0, 600 480"), "--corners", FaultCode::missing_unit, "600 480");
  refused(corners("0 0, 640 0, 600 480 kg"), "--corners", FaultCode::wrong_unit, "600 480 kg");
  refused(corners("0 0, 64O 0, 600 480 mm"), "--corners", FaultCode::bad_syntax, "64O");
  refused(corners("0 0, 640mm 0, 600 480 mm"), "--corners", FaultCode::bad_syntax, "640mm");
  refused(corners("0 0, 640 0, 600 1e3 mm"), "--corners", FaultCode::bad_syntax, "1e3");
  refused(corners("0 0, 640 0, 600 480, mm"), "--corners", FaultCode::bad_syntax, "0 0, 640 0, 600 480,");
  refused(corners("0 0, 640 0 5, 600 480 mm"), "--corners", FaultCode::bad_value, "640 0 5");
  refused(corners("0 0, 12000 0, 600 480 mm"), "--corners", FaultCode::out_of_range, "12000 mm");
  refused(corners(""), "--corners", FaultCode::bad_syntax, "");
  refused(stations("0 120 130 1, 250 230 240 mm"), "--stations", FaultCode::bad_value, "0 120 130 1");
  // A comma is no decimal mark: what stands beside it is a group too many.
  CHECK(bad(corners("0 0, 640,5 0, 600 480 mm")).size() == 1);
}

TEST_CASE("an outline that is none is told by its corners") {
  std::vector<Fault> const crossed = bad(corners("0 0, 640 0, 0 480, 640 500 mm"));
  REQUIRE(crossed.size() == 1);
  std::string const told = crossed[0].found + crossed[0].expected;
  CHECK(told.find("640 0 to 0 480") != std::string::npos);
  CHECK(told.find("640 500 to 0 0") != std::string::npos);
  refused(corners("0 0, 640 0 mm"), "--corners", FaultCode::bad_value, "0 0, 640 0 mm");
  refused(corners("0 0, 640 0, 640 0, 20 500 mm"), "--corners", FaultCode::contradiction, "640 0 to 640 0");
  refused(corners("0 0, 300 0, 640 0 mm"), "--corners", FaultCode::contradiction, "0 0, 300 0, 640 0 mm");
  refused(corners("-6 0, 6 0, 6 1 m"), "--corners", FaultCode::out_of_range, "-6 0, 6 0, 6 1 m");
  refused(stations("0 120 130, 250 230 240, 250 90 95 mm"), "--stations", FaultCode::contradiction,
          "250 90 95");
  refused(stations("0 120 130, 250 0 0, 700 90 95 mm"), "--stations", FaultCode::contradiction, "250 0 0");
  refused(stations("0 120 130, 250 -10 240, 700 90 95 mm"), "--stations", FaultCode::out_of_range,
          "250 -10 240");
  refused(stations("0 120 130 mm"), "--stations", FaultCode::bad_value, "0 120 130 mm");
}

TEST_CASE("flaws that are none, or none of this skin, are told") {
  ShapeTexts const skin = corners("0 0, 640 0, 600 480, 20 500 mm");
  refused(with_flaw(skin, "900 900 15 mm"), "--flaw", FaultCode::contradiction, "900 900 15");
  refused(with_flaw(skin, "220 310 0 mm"), "--flaw", FaultCode::out_of_range, "220 310 0");
  refused(with_flaw(skin, "220 310 mm"), "--flaw", FaultCode::bad_value, "220 310");
  refused(with_flaw(skin, "1 1, 9 1 mm"), "--flaw", FaultCode::bad_value, "1 1, 9 1");
  refused(with_flaw(skin, "10 10, 90 90, 90 10, 10 90 mm"), "--flaw", FaultCode::contradiction,
          "10 10 to 90 90");
  refused(with_flaw(skin, "220 310 15"), "--flaw", FaultCode::missing_unit, "220 310 15");
  // All at once, of the outline and of the flaws.
  CHECK(bad(with_flaw(corners("0 0, 64O 0, 600 480, 2x 500 mm"), "220 310 0 mm; 1 mm")).size() == 4);
}

TEST_CASE("a drawing that is not read is told with its line and column") {
  auto const at = [](std::string const& text, int line, int column) {
    std::vector<Fault> const faults = bad(drawing(text));
    CAPTURE(text);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].where.field == "--outline");
    CHECK(faults[0].where.source == "skin.svg");
    CHECK(faults[0].where.line == line);
    CHECK(faults[0].where.column == column);
  };
  at("<svg>\n<path d=\"M0 0 L10 0\n 10 x z\"/></svg>", 3, 5);
  at("<svg>\n<path d=\"L0 0 z\"/></svg>", 2, 10);
  at("<svg>\n<path d=\"M0 0 h10 v10\"/></svg>", 2, 10);
  at("<svg><g transform=\"scale(2)\"><path d=\"M0 0h9v9z\"/></g></svg>", 1, 20);
  at("<svg><path style=\"fill:none;transform:scale(2)\" d=\"M0 0h9v9z\"/></svg>", 1, 19);
  at("<svg><path d=\"M0 0h9&#10;v9z\"/></svg>", 1, 21);
  at("<svg><path d=\"M0 0h9v9z/></svg>", 1, 12);
  at("<svg><!-- ", 1, 6);
  refused(drawing("<svg><rect/></svg>"), "--outline", FaultCode::bad_value, "skin.svg");
  refused(drawing("\x1f\x8b"), "--outline", FaultCode::bad_value, "skin.svg");
  refused(drawing(svg("<path d=' '/>")), "--outline", FaultCode::bad_value, "skin.svg");
  refused(drawing(svg("<path d='M0 0h9v9z'/>"), "1"), "--svg-unit", FaultCode::missing_unit, "1");
  refused(drawing(svg("<path d='M0 0h9v9z'/>"), "0 mm"), "--svg-unit", FaultCode::out_of_range, "0 mm");
  refused(drawing(svg("<path d='M0 0h9v9z'/>"), "2 m"), "--svg-unit", FaultCode::out_of_range, "2 m");
  refused(drawing(svg("<path d='M0 0h9v9H2V-2z'/>")), "--outline", FaultCode::contradiction, "0 9 to 9 9");
  ShapeTexts without_unit = drawing(svg("<path d='M0 0h9v9z'/>"));
  without_unit.svg_unit.reset();
  refused(without_unit, "--outline", FaultCode::contradiction, "skin.svg");
}

TEST_CASE("no drawing, however broken, ends the program") {
  std::string const whole =
      "<?xml?><!DOCTYPE a [<!E>]><svg><!-- c --><g style='a'><path id=\"b\" d='M0 "
      "0h9v9z'/></g><![CDATA[x]]></svg>";
  for (std::size_t size = 0; size <= whole.size(); ++size) {
    (void)first_path(whole.substr(0, size));
    (void)first_path(whole.substr(size));
    std::string broken = whole;
    if (size < whole.size()) broken[size] = "<>\"'=/ &"[size % 8];
    (void)first_path(broken);
  }
  CHECK(first_path(whole)->data == "M0 0h9v9z");
}

TEST_CASE("an area is far from what was said from a tenth on") {
  db::LotRow lot;
  lot.mark = {'K', 1};
  lot.sold_by = SoldBy::skin;
  lot.quantity = amount(Area{300'000'000'000});
  auto const square = [](std::int64_t width) {
    return outlined(endband::Shape{cutting::rectangle(width, 1'000'000), {}, {}});
  };
  CHECK_FALSE(area_apart(lot, square(300'000)).has_value());
  CHECK_FALSE(area_apart(lot, square(330'000)).has_value());
  CHECK_FALSE(area_apart(lot, square(270'000)).has_value());
  CHECK(area_apart(lot, square(330'001)).has_value());
  CHECK(area_apart(lot, square(269'999)).value().measured.n == 269'999'000'000);
  CHECK_FALSE(area_apart(lot, Outlined{}).has_value());
}
