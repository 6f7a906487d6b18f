// Figures whatever the names and numbers: nothing leaves the frame.
#include "cli/document/svg.h"
#include "figures.h"
#include "tests/cases.h"

#include <rapidcheck.h>

#include <cmath>
#include <limits>

using namespace endband::cli;
using namespace endband::cli::testing;
using endband::testing::check_one_in;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

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

}  // namespace

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
  CHECK(check_one_in(100, [&] {  // pairs
    PairFigure figure{.title = any_words(150), .name = "p", .first = any_words(20), .second = any_words(90)};
    figure.unit = any_words(90);
    if (*rc::gen::arbitrary<bool>()) figure.aim = any_number();
    figure.aim_words = any_words(60);
    for (int i = count(); i > 0; --i)
      figure.rows.push_back({any_words(60), any_number(), any_number(), any_words(50)});
    sound(draw_pairs(figure));
  }));
  CHECK(check_one_in(100, [&] {  // stairs
    StairFigure figure{.title = any_words(150), .name = "s", .unit = any_words(20), .rows = {}};
    for (int i = count(); i > 0; --i)
      figure.rows.push_back({any_words(60), any_number(), *rc::gen::arbitrary<bool>(), any_words(50)});
    sound(draw_stairs(figure));
  }));
  CHECK(check_one_in(100, [&] {  // ranges
    RangeFigure figure{.title = any_words(150), .name = "r", .unit = any_words(20), .zero = any_number()};
    figure.zero_words = any_words(60);
    figure.bars = *rc::gen::arbitrary<bool>();
    for (int i = count(); i > 0; --i)
      figure.rows.push_back({any_words(60), any_number(), any_number(), any_number(), any_words(50),
                             *rc::gen::arbitrary<bool>()});
    sound(draw_ranges(figure));
  }));
}
