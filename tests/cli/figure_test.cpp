// Figures: where their marks stand, what they say, and that nothing leaves the frame whatever the numbers.
#include "cli/drawings/figure.h"

#include "cli/document/svg.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace endband::cli;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double hair = 1e-6;

template <class T>
std::vector<T> all_of(Drawing const& drawing) {
  std::vector<T> found;
  for (Shape const& shape : drawing.shapes)
    if (auto const* const one = std::get_if<T>(&shape)) found.push_back(*one);
  return found;
}

std::vector<std::string> letters_in(Drawing const& drawing) {
  std::vector<std::string> words;
  for (Text const& text : all_of<Text>(drawing)) words.push_back(text.words);
  return words;
}

bool says(Drawing const& drawing, std::string const& words) {
  auto const all = letters_in(drawing);
  return std::find(all.begin(), all.end(), words) != all.end();
}

bool has(std::string const& text, std::string const& part) { return text.find(part) != std::string::npos; }

Text text_of(Drawing const& drawing, std::string const& words) {
  for (Text const& text : all_of<Text>(drawing))
    if (text.words == words) return text;
  FAIL("no such words: " << words);
  return {};
}

std::vector<Circle> dots(Drawing const& drawing, Fill fill) {
  auto found = all_of<Circle>(drawing);
  std::erase_if(found, [fill](Circle const& dot) { return dot.fill != fill || dot.centre.y < 0; });
  return found;
}

// Those of the rows; grid lines have no pen, and the legend stands over the rows.
std::vector<Rectangle> bars(Drawing const& drawing) {
  auto found = all_of<Rectangle>(drawing);
  std::erase_if(found, [](Rectangle const& bar) { return bar.pen == Pen::none || bar.corner.y < 0; });
  return found;
}

struct Inside {
  Drawing const& drawing;
  bool operator()(Point point) const {
    return point.x >= drawing.corner.x - hair && point.x <= drawing.corner.x + drawing.width + hair &&
           point.y >= drawing.corner.y - hair && point.y <= drawing.corner.y + drawing.height + hair;
  }
  bool operator()(Segment const& line) const { return (*this)(line.from) && (*this)(line.to); }
  bool operator()(Path const&) const { return false; }
  bool operator()(Rectangle const& shape) const {
    return shape.width >= 0 && shape.height >= 0 && (*this)(shape.corner) &&
           (*this)(Point{shape.corner.x + shape.width, shape.corner.y + shape.height});
  }
  bool operator()(Circle const& dot) const {
    return (*this)(Point{dot.centre.x - dot.radius, dot.centre.y - dot.radius}) &&
           (*this)(Point{dot.centre.x + dot.radius, dot.centre.y + dot.radius});
  }
  bool operator()(Text const& text) const {
    double const length = letters_width(text.words, text.size);
    double const before = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::end ? length : length / 2;
    return text.size >= 2.8 && (*this)(Point{text.at.x - before, text.at.y - text.size}) &&
           (*this)(Point{text.at.x - before + length, text.at.y});
  }
};

bool all_inside(Drawing const& drawing) {
  auto const marks = marks_of(drawing);
  return drawing.width == 170 && std::all_of(marks.begin(), marks.end(), [&](Mark const& mark) {
           return std::visit(Inside{drawing}, mark);
         });
}

// Names end, and numbers begin, before any mark of a row.
bool apart(Drawing const& drawing) {
  double left = 0, right = 164;
  for (Text const& text : all_of<Text>(drawing)) {
    if (text.at.y < 0) continue;
    if (text.anchor == Anchor::start) left = std::max(left, letters_width(text.words, text.size));
    if (text.anchor == Anchor::end) right = std::min(right, 164 - letters_width(text.words, text.size));
  }
  auto const dots_ = all_of<Circle>(drawing);
  auto const bars_ = bars(drawing);
  return std::all_of(dots_.begin(), dots_.end(),
                     [&](Circle const& dot) {
                       return dot.centre.y < 0 ||
                              (dot.centre.x - dot.radius > left && dot.centre.x + dot.radius < right);
                     }) &&
         std::all_of(bars_.begin(), bars_.end(), [&](Rectangle const& bar) {
           return bar.corner.x > left && bar.corner.x + bar.width < right;
         });
}

double any_number() {
  int const kind = *rc::gen::inRange(0, 12);
  if (kind == 0) return 0;
  if (kind == 1) return *rc::gen::element(infinite, -infinite, std::nan(""), 1e300, -1e300, 1e-300, 1e13);
  double const scale = *rc::gen::element(1.0, 0.001, 100.0, 1e7);
  return scale * *rc::gen::inRange(-2000, 2000) / 100;
}

std::string any_words(int longest) {
  return *rc::gen::container<std::string>(static_cast<std::size_t>(*rc::gen::inRange(0, longest)),
                                          rc::gen::inRange(' ', '~'));
}

PairFigure three_jobs() {
  return {.title = "Two of three jobs lost",
          .name = "jobs",
          .first = "quoted",
          .second = "actual",
          .unit = "% of the price",
          .aim = 35,
          .aim_words = "aimed at: 35 %",
          .rows = {{"J3 Album", 20, -5, "20 % -> -5 %"},
                   {"J1 Bible", 30, 30, "30 % -> 30 %"},
                   {"J2 Thesis", 10, 40, "10 % -> 40 %"}}};
}

}  // namespace

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

TEST_CASE("stairs: what is taken hangs from where the step before ended; a sum stands on the ground") {
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

TEST_CASE("ranges: a dot with its range; too few are hollow, and said to be too few") {
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

TEST_CASE("long names are cut before they reach a mark, a long title goes on in the next line") {
  PairFigure figure = three_jobs();
  figure.rows[0].name = std::string(200, 'M');
  figure.rows[1].name = "Kollegieblock med l\xC3\xA5nga ord och m\xC3\xA5nga fler \xC3\xA4n s\xC3\xA5";
  figure.title =
      "Albums lose money: 12 % of the price are left instead of the 35 % that were aimed at, all told";
  Drawing const drawing = draw_pairs(figure);
  CHECK(apart(drawing));
  CHECK(all_inside(drawing));
  int cut = 0, title = 0;
  for (Text const& text : all_of<Text>(drawing)) {
    if (text.words.ends_with("\xE2\x80\xA6")) ++cut;
    if (text.size > 3.5) ++title;
  }
  CHECK(cut == 2);
  CHECK(title == 2);
  CHECK(drawing.title == figure.title);
  CHECK(has(drawing.words, figure.rows[0].name));  // whole, for whoever cannot see it
}

TEST_CASE("whatever is long, the scale keeps room and the legend goes on in the next line") {
  PairFigure figure = three_jobs();
  figure.rows[0].name = figure.rows[0].words = figure.first = figure.second = std::string(200, 'W');
  Drawing const drawing = draw_pairs(figure);
  auto const full = dots(drawing, Fill::solid);
  CHECK(full[2].centre.x - full[0].centre.x > 30);
  CHECK(apart(drawing));
  std::vector<double> lines;
  for (Circle const& dot : all_of<Circle>(drawing))
    if (dot.centre.y < 0) lines.push_back(dot.centre.y);
  REQUIRE(lines.size() == 2);
  CHECK(lines[1] - lines[0] > 4);
}

TEST_CASE("no rows, one row, rows that are all nothing") {
  PairFigure figure = three_jobs();
  figure.aim.reset();
  figure.rows = {{"One", 0, 0, "0 -> 0"}};
  CHECK(dots(draw_pairs(figure), Fill::solid).size() == 1);
  CHECK(all_inside(draw_pairs(figure)));
  figure.rows.clear();
  for (Drawing const& drawing : {draw_pairs(figure), draw_stairs({}), draw_ranges({})}) {
    CHECK(says(drawing, "Nothing to show."));
    CHECK(all_of<Segment>(drawing).empty());
    CHECK(all_inside(drawing));
    CHECK(has(to_svg(drawing), "</svg>"));
  }
}

TEST_CASE("what is infinite or no number is not drawn, its words are") {
  PairFigure figure = three_jobs();
  figure.rows[1].second = std::nan("");
  figure.rows[2].first = -infinite;
  Drawing const drawing = draw_pairs(figure);
  CHECK(dots(drawing, Fill::solid).size() == 1);
  CHECK(says(drawing, "J2 Thesis"));
  for (char const* bad : {"nan", "inf"}) CHECK_FALSE(has(to_svg(drawing), bad));
}

TEST_CASE("letters that mean something in XML are letters in a figure, and its bytes are always the same") {
  PairFigure figure = three_jobs();
  figure.title = "O'Brien & <script>";
  figure.first = "\"quoted\"";
  figure.rows[0].name = "a<b";
  figure.rows[0].words = "1 & 2 -> 3";
  figure.aim_words = "<35";
  std::string const svg = to_svg(draw_pairs(figure));
  CHECK(svg == to_svg(draw_pairs(figure)));
  for (char const* good : {">O&#39;Brien &amp; &lt;script&gt;</text>", ">&quot;quoted&quot;</text>",
                           ">a&lt;b</text>", ">1 &amp; 2 \xE2\x86\x92 3</text>", ">&lt;35</text>"})
    CHECK(has(svg, good));
  CHECK_FALSE(has(svg, "<script"));
}

TEST_CASE("nothing leaves the frame or touches names and numbers, whatever the numbers") {
  auto const count = [] { return *rc::gen::inRange(0, 8); };
  auto const sound = [](Drawing const& drawing) {
    std::string const svg = to_svg(drawing);
    RC_ASSERT(all_inside(drawing));
    RC_ASSERT(apart(drawing));
    // A number of the picture; words are letters and digits of any kind.
    for (char const* bad : {"=\"nan", "=\"inf", "=\"-inf", "=\"-nan"}) RC_ASSERT_FALSE(has(svg, bad));
  };
  CHECK(rc::check("pairs", [&] {
    PairFigure figure{.title = any_words(150), .name = "p", .first = any_words(20), .second = any_words(90)};
    figure.unit = any_words(90);
    if (*rc::gen::arbitrary<bool>()) figure.aim = any_number();
    figure.aim_words = any_words(60);
    for (int i = count(); i > 0; --i)
      figure.rows.push_back({any_words(60), any_number(), any_number(), any_words(50)});
    sound(draw_pairs(figure));
  }));
  CHECK(rc::check("stairs", [&] {
    StairFigure figure{.title = any_words(150), .name = "s", .unit = any_words(20), .rows = {}};
    for (int i = count(); i > 0; --i)
      figure.rows.push_back({any_words(60), any_number(), *rc::gen::arbitrary<bool>(), any_words(50)});
    sound(draw_stairs(figure));
  }));
  CHECK(rc::check("ranges", [&] {
    RangeFigure figure{.title = any_words(150), .name = "r", .unit = any_words(20), .zero = any_number()};
    figure.zero_words = any_words(60);
    figure.bars = *rc::gen::arbitrary<bool>();
    for (int i = count(); i > 0; --i)
      figure.rows.push_back({any_words(60), any_number(), any_number(), any_number(), any_words(50),
                             *rc::gen::arbitrary<bool>()});
    sound(draw_ranges(figure));
  }));
}

TEST_CASE("a bar of characters goes from zero to the value, to its scale") {
  CHECK(bar_text(10, 0, 10, 11) == "|##########");
  CHECK(bar_text(5, 0, 10, 11) == "|#####     ");
  CHECK(bar_text(0, 0, 10, 11) == "|          ");
  CHECK(bar_text(0.4, 0, 10, 11) == "|#         ");  // less than half a column
  CHECK(bar_text(-0.01, -5, 5, 11) == "    -|     ");
  CHECK(bar_text(4, -5, 5, 11) == "     |#### ");
  CHECK(bar_text(-4, -5, 5, 11) == " ----|     ");
  CHECK(bar_text(-10, -10, 0, 11) == "----------|");
  CHECK(bar_text(-3, -10, 0, 11) == "       ---|");
}

TEST_CASE("a bar keeps within its width and always shows where zero is") {
  CHECK(bar_text(99, 0, 10, 11) == "|##########");
  CHECK(bar_text(-99, -5, 5, 11) == "-----|     ");
  CHECK(bar_text(-1, 0, 10, 5) == "|    ");
  CHECK(bar_text(8, 5, 10, 11) == "|########  ");  // zero is taken in
  CHECK(bar_text(-8, -10, -5, 11) == "  --------|");
  CHECK(bar_text(-1, -1, 100, 11) == "-|         ");  // either side keeps a column
  CHECK(bar_text(100, -1, 100, 11) == " |#########");
  CHECK(bar_text(1, -100, 1, 11) ==
        "         |#"
        "");
  CHECK(bar_text(5, 10, 0, 11) == "|#####     ");  // ends in any order
}

TEST_CASE("a bar of nothing") {
  CHECK(bar_text(0, 0, 0, 5) == "|    ");
  CHECK(bar_text(3, 0, 0, 5) == "|    ");
  CHECK(bar_text(3, 0, 5, 1) == "|");
  CHECK(bar_text(5, 0, 5, 2) == "|#");
  CHECK(bar_text(3, 0, 5, 0).empty());
  CHECK(bar_text(std::nan(""), 0, 5, 4) == "|   ");
  CHECK(bar_text(1, -infinite, infinite, 4) == "|   ");
  CHECK(bar_text(infinite, 0, 5, 4) == "|###");
  CHECK(bar_text(1e308, -1e308, 1e308, 5) == "  |##");
}
