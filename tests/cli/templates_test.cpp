// Templates at true size, of books whose figures were worked by hand; titles letter by letter; letters for
// the bench.
#include "cli/drawings/templates.h"

#include "cli/commands/job_sheet_parts.h"
#include "cli/drawings/spelled.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <map>
#include <string>
#include <vector>

using namespace endband;
using namespace endband::cli;
using enum FigureId;

namespace {

struct Book {
  BookSpec spec;
  Structure structure;
  Book(Ways ways, std::initializer_list<Part> parts, std::map<FigureId, double> const& figures) {
    spec.ways = ways;
    for (Part const part : parts) spec.present[static_cast<std::size_t>(part)] = true;
    for (auto const& [id, value] : figures) structure.figures.set(id, value, Origin::said);
  }
};

// A leaf of 210 mm, 4 mm trimmed off head and tail, on five raised cords: bands of 6 mm leave six panels of
// (210 - 30) / 6 = 30 mm, so cords at 33, 69, 105, 141 and 177 mm, kettle stitches at 12 and 198.
Book on_cords() {
  return {{Way::raised_cords, Way::all_along},
          {Part::sewing, Part::spine},
          {{leaf_height, 210},
           {kettle_setback, 12},
           {supports, 5},
           {support_thickness, 5},
           {bands, 5},
           {band_width, 6},
           {panel_height, 30},
           {holes_a_support, 1},
           {arc, 55},
           {head_tail_trim, 4}}};
}

constexpr Paper whole{170, 300};
constexpr Paper short_page{170, 116};  // 90 mm of a strip go on it

template <class T>
std::vector<T> all_of(Drawing const& drawing) {
  std::vector<T> found;
  for (cli::Shape const& shape : drawing.shapes)
    if (auto const* const one = std::get_if<T>(&shape)) found.push_back(*one);
  return found;
}

std::vector<double> holes_in(Drawing const& drawing) {
  std::vector<double> places;
  for (Circle const& circle : all_of<Circle>(drawing)) places.push_back(circle.centre.y);
  return places;
}

// Where a piece is joined to the next: the heavy lines across it.
std::vector<double> joins_in(Drawing const& drawing) {
  std::vector<double> places;
  for (Segment const& line : all_of<Segment>(drawing))
    if (line.pen == Pen::accent && line.from.y == line.to.y) places.push_back(line.from.y);
  return places;
}

// Plumb lines of no more and no less than 100 mm.
int bars_in(Drawing const& drawing) {
  int count = 0;
  for (Segment const& line : all_of<Segment>(drawing))
    if (line.from.x == line.to.x && std::abs(line.to.y - line.from.y - 100) < 1e-9) ++count;
  return count;
}

bool says(Drawing const& drawing, std::string const& words) {
  auto const all = all_of<Text>(drawing);
  return std::any_of(all.begin(), all.end(), [&](Text const& text) { return text.words == words; });
}

void check_same(std::vector<double> const& is, std::vector<double> const& wanted) {
  REQUIRE(is.size() == wanted.size());
  for (std::size_t i = 0; i < is.size(); ++i) CHECK(is[i] == doctest::Approx(wanted[i]));
}

}  // namespace

TEST_CASE("the sewing template has its holes where the structure has them, from the untrimmed head") {
  Book const book = on_cords();
  auto const drawings = sewing_templates(book.spec, book.structure, whole);
  REQUIRE(drawings.size() == 1);
  Drawing const& drawing = drawings.front();
  CHECK(drawing.true_size);
  CHECK(drawing.scale == doctest::Approx(1));
  check_same(holes_in(drawing), {16, 37, 73, 109, 145, 181, 202});
  for (auto const* words : {"0", "16", "109", "218", "K", "5", "head", "tail"}) CHECK(says(drawing, words));
  CHECK(bars_in(drawing) == 1);
  CHECK(says(drawing, "Print at 100 %, actual size;"));
}

TEST_CASE("two holes of a tape stand at its edges") {
  Book const book{
      {Way::tapes, Way::all_along},
      {Part::sewing},
      {{leaf_height, 200}, {kettle_setback, 10}, {supports, 2}, {support_width, 12}, {holes_a_support, 2}}};
  // 180 mm between the kettle stitches, parted in three: tapes at 70 and 130.
  check_same(holes_in(sewing_templates(book.spec, book.structure, whole).front()),
             {10, 64, 76, 124, 136, 190});
}

TEST_CASE("a template that is longer than the paper comes in pieces that join") {
  Book const book = on_cords();
  auto const pieces = sewing_templates(book.spec, book.structure, short_page);
  REQUIRE(pieces.size() == 3);  // 218 mm, 90 on a page
  std::vector<double> holes;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    CHECK(pieces[i].width <= short_page.width);
    CHECK(pieces[i].height <= short_page.height + 10);  // the bar is 100 mm whatever the piece
    CHECK(bars_in(pieces[i]) == 1);
    auto const own = holes_in(pieces[i]);
    holes.insert(holes.end(), own.begin(), own.end());
    std::size_t const wanted = i == 0 || i + 1 == pieces.size() ? 1 : 2;
    REQUIRE(joins_in(pieces[i]).size() == wanted);
    if (i == 0) continue;
    CHECK(joins_in(pieces[i]).front() == joins_in(pieces[i - 1]).back());
  }
  check_same(holes, {16, 37, 73, 109, 145, 181, 202});
  CHECK(says(pieces[0], "join A"));
  CHECK(says(pieces[1], "join A"));
  CHECK(says(pieces[1], "join B"));
  CHECK(says(pieces[2], "join B"));
  CHECK(says(pieces[1], "tab"));
}

TEST_CASE("a strip is parted half way between two places, and where it must be") {
  check_same(parted(100, 100, {0, 50, 100}), {0, 100});
  check_same(parted(120, 100, {0, 40, 70, 120}), {0, 55, 120});
  check_same(parted(120, 61, {0, 60, 120}), {0, 60, 120});  // half way goes on no page: 30 leaves 90
  for (double const most : {35.0, 50.0, 77.0}) {
    auto const ends = parted(218, most, {0, 16, 37, 73, 109, 145, 181, 202, 218});
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
      CHECK(ends[i + 1] > ends[i]);
      CHECK(ends[i + 1] - ends[i] <= most + 1e-9);
    }
  }
}

TEST_CASE("bands stand on the spine template where they do on the back") {
  Book const book = on_cords();
  auto const drawings = spine_templates(book.spec, book.structure, whole);
  REQUIRE(drawings.size() == 1);
  std::vector<double> bands_at;
  for (Rectangle const& each : all_of<Rectangle>(drawings.front()))
    if (each.fill == Fill::shade) {
      bands_at.push_back(each.corner.y);
      CHECK(each.height == doctest::Approx(6));
      CHECK(each.width == doctest::Approx(55));
    }
  check_same(bands_at, {30, 66, 102, 138, 174});
  CHECK(says(drawings.front(), "panel 6"));
  CHECK(bars_in(drawings.front()) == 1);
}

TEST_CASE("there is no template of what is not there") {
  Book book = on_cords();
  book.spec.present = {};
  CHECK(sewing_templates(book.spec, book.structure, whole).empty());
  CHECK(spine_templates(book.spec, book.structure, whole).empty());
  Book const smooth{{Way::tapes}, {Part::sewing, Part::spine}, {{leaf_height, 200}, {bands, 0}, {arc, 30}}};
  CHECK(spine_templates(smooth.spec, smooth.structure, whole).empty());
}

TEST_CASE("letters are enlarged, and with them the scale, but no place moves") {
  Drawing drawing{.scale = 7, .shapes = {Segment{{0, 0}, {70, 0}}, Text{{5, 5}, "board", 2.8}}};
  frame(drawing, 1);
  Drawing const large = enlarged(drawing, 1.4);
  CHECK(large.scale == doctest::Approx(5));
  CHECK(all_of<Segment>(large).front().to.x == 70);
  CHECK(all_of<Text>(large).front().size == doctest::Approx(3.92));
  CHECK(large.width == drawing.width);
}

TEST_CASE("a title is spelled with a box for each letter, accents on their letters, gaps for blanks") {
  CHECK(letters_apart("e\u0301t\u00e9") == std::vector<std::string>{"e\u0301", "t", "\u00e9"});
  Drawing const drawing = draw_spelled("Hollow Tides / 26", {170, 200});
  CHECK(all_of<Rectangle>(drawing).size() == 13);
  CHECK(drawing.words == "H o l l o w   T i d e s / 2 6.");
  CHECK(drawing.width <= 170);
  Drawing const wide = draw_spelled(std::string(40, 'm'), {170, 200});
  CHECK(wide.width <= 170);
  CHECK(all_of<Rectangle>(wide).size() == 40);
}

TEST_CASE("of the customer only the initials are told") {
  CHECK(initials("Ida Quill") == "I. Q.");
  CHECK(initials("  \u00c9lodie Anne-Marie ") == "\u00c9. A. M.");
  CHECK(initials("Friends of the Wend Library") == "F. W. L.");
  CHECK(initials("ida") == "i.");
  CHECK(initials("").empty());
}
