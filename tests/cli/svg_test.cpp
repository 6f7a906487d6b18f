// Drawings as the SVG writer writes them.
#include "cli/document/svg.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <set>
#include <string>

using namespace endband::cli;

namespace {

Drawing framed(std::vector<Shape> shapes, double scale = 1) {
  Drawing drawing{
      .title = "Boards", .words = "two", .name = "boards", .scale = scale, .shapes = std::move(shapes)};
  frame(drawing, 0);
  return drawing;
}

bool has(std::string const& text, std::string const& part) { return text.find(part) != std::string::npos; }

std::string line_of(std::string const& svg, std::string const& element) {
  auto const from = svg.find("<" + element + " ");
  return svg.substr(from, svg.find('\n', from) - from);
}

// The text without every stretch that begins with `from` and ends with the next `to`.
std::string without(std::string text, std::string const& from, std::string const& to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
    auto const end = text.find(to, at + from.size());
    REQUIRE(end != std::string::npos);
    text.erase(at, end + to.size() - at);
  }
  return text;
}

bool digit(char c) { return c >= '0' && c <= '9'; }

// The most digits that follow a point between digits.
std::ptrdiff_t most_decimals(std::string const& text) {
  std::ptrdiff_t most = 0;
  for (auto at = text.find('.'); at != std::string::npos; at = text.find('.', at + 1)) {
    auto const first = text.begin() + static_cast<std::ptrdiff_t>(at) + 1;
    if (at > 0 && digit(text[at - 1]))
      most = std::max(most, std::find_if_not(first, text.end(), digit) - first);
  }
  return most;
}

}  // namespace

TEST_CASE("a picture is measured in millimetres of the thing and as large on paper as its scale makes it") {
  std::string const svg = to_svg(framed({Rectangle{{10, 20}, 300, 200, Pen::outline, Fill::none}}, 2));
  CHECK(has(svg, "width=\"150mm\" height=\"100mm\" viewBox=\"10 20 300 200\""));
  CHECK(has(svg, "<rect x=\"10\" y=\"20\" width=\"300\" height=\"200\" fill=\"none\" stroke=\"black\""));
  CHECK(has(svg, "stroke-width=\"0.7\""));  // 0.35 mm of paper at 1:2
}

TEST_CASE("a picture says in words what it shows") {
  std::string const svg = to_svg(framed({Circle{{0, 0}, 5, Pen::outline, Fill::none}}));
  CHECK(has(svg, "role=\"img\""));
  CHECK(svg.find("<title>Boards</title>") < svg.find("<circle"));
  CHECK(has(svg, "<desc>two</desc>"));
}

TEST_CASE("letters that mean something in XML are written so that they do not") {
  Drawing drawing = framed({Text{{0, 0}, "O'Brien & S\xC3\xB8n <script>\"", 3, Anchor::start, false}});
  drawing.title = "a\x01 b\xEF\xBF\xBF \xFF";
  std::string const svg = to_svg(drawing);
  CHECK(has(svg, ">O&#39;Brien &amp; S\xC3\xB8n &lt;script&gt;&quot;</text>"));
  CHECK_FALSE(has(svg, "<script"));
  CHECK_FALSE(has(svg, "\x01"));
  CHECK_FALSE(has(svg, "\xEF\xBF\xBF"));
  CHECK_FALSE(has(svg, "\xFF"));
}

TEST_CASE("no pen differs from another by its colour alone") {
  std::set<std::string> looks;
  std::array const pens{Pen::outline, Pen::thin, Pen::hidden, Pen::fold, Pen::accent};
  for (Pen const pen : pens) {
    std::string line = line_of(to_svg(framed({Segment{{0, 0}, {10, 0}, pen}})), "line");
    looks.insert(without(line, " stroke=\"", "\""));
  }
  CHECK(looks.size() == pens.size());
}

TEST_CASE("a picture needs nothing outside itself") {
  std::string const svg = to_svg(framed({Rectangle{{0, 0}, 9, 9, Pen::outline, Fill::hatch}}));
  CHECK(has(svg, "fill=\"url(#hatch-boards)\""));
  CHECK(has(svg, "<pattern id=\"hatch-boards\""));
  std::string const rest = without(without(svg, "url(#hatch-boards", ")"), "xmlns=\"", "\"");
  for (char const* outside : {"http", "//", "url(", "href", "@import", "<script", "<style"})
    CHECK_FALSE(has(rest, outside));
  CHECK_FALSE(has(to_svg(framed({Rectangle{{0, 0}, 9, 9, Pen::outline, Fill::shade}})), "<pattern"));
}

TEST_CASE("an arc goes round the way it is told") {
  Path path{{0, 0}, {{{10, 0}, 5, true, false}, {{10, 8}, 0, true, false}}, true, Pen::outline, Fill::none};
  CHECK(has(to_svg(framed({path})), "d=\"M0 0A5 5 0 0 1 10 0L10 8Z\""));
  path.legs[0] = {{10, 0}, 6, false, true};
  CHECK(has(to_svg(framed({path})), "d=\"M0 0A6 6 0 1 0 10 0L10 8Z\""));
}

TEST_CASE("the same drawing gives the same bytes, and no number has more than a thousandth") {
  Drawing const drawing = framed(
      {Running{{0, 0}, false, {0, 10.0 / 3, 200.0 / 7}, 4}, DimensionLine{{0, 0}, {0, 100.0 / 3}, 6, "T"}},
      5);
  std::string const svg = to_svg(drawing);
  CHECK(svg == to_svg(drawing));
  CHECK(most_decimals(svg) <= 3);
  for (char const* bad : {"\"-0\"", ".0\"", ".00\"", ".000\"", "nan", "inf"}) CHECK_FALSE(has(svg, bad));
}
