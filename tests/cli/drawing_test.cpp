// Shapes, measures and scales; and the drawings of books whose figures were worked by hand.
#include "cli/drawings/drawings.h"
#include "cli/drawings/laid_flat.h"
#include "cli/drawings/sketch.h"
#include "cli/drawings/stations.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

using namespace endband;
using namespace endband::cli;
using enum FigureId;

namespace {

template <class T>
std::vector<T> all_of(Drawing const& drawing) {
  std::vector<T> found;
  for (Shape const& shape : drawing.shapes)
    if (auto const* const one = std::get_if<T>(&shape)) found.push_back(*one);
  return found;
}

std::vector<std::string> letters_in(Drawing const& drawing) {
  std::vector<std::string> words;
  for (Mark const& mark : marks_of(drawing))
    if (auto const* const text = std::get_if<Text>(&mark)) words.push_back(text->words);
  return words;
}

bool says(Drawing const& drawing, std::string const& words) {
  auto const all = letters_in(drawing);
  return std::find(all.begin(), all.end(), words) != all.end();
}

// "T 40": what the dimension called T measures.
double measure(Drawing const& drawing, std::string const& words) {
  for (DimensionLine const& each : all_of<DimensionLine>(drawing))
    if (each.words == words) return std::hypot(each.to.x - each.from.x, each.to.y - each.from.y);
  return -1;
}

Rectangle heavy(Drawing const& drawing) {
  for (Rectangle const& each : all_of<Rectangle>(drawing))
    if (each.pen == Pen::accent) return each;
  return {};
}

struct Book {
  BookSpec spec;
  Structure structure;
  Book(Ways ways, std::initializer_list<Part> parts, std::map<FigureId, double> const& figures) {
    spec.ways = ways;
    for (Part const part : parts) spec.present[static_cast<std::size_t>(part)] = true;
    for (auto const& [id, value] : figures) structure.figures.set(id, value, Origin::said);
  }
  Book without(FigureId id) const {
    Book book = *this;
    book.structure.figures.set(id, 0, Origin::none);
    return book;
  }
};

// A leaf of 210 mm sewn on five raised cords: bands of 6 mm leave six panels of (210 - 30) / 6 = 30 mm.
Book on_cords() {
  return {{Way::raised_cords, Way::all_along},
          {Part::sewing},
          {{leaf_height, 210},
           {kettle_setback, 12},
           {supports, 5},
           {support_thickness, 5},
           {bands, 5},
           {band_width, 6},
           {panel_height, 30},
           {holes_a_support, 1},
           {head_tail_trim, 4}}};
}

// A block of 40 mm backed by a third of a circle, shoulders and boards of 3 mm: C 46, R 26.56, arc 55.62,
// rise 13.28.
Book backed() {
  return {{Way::backed, Way::tight},
          {Part::spine, Part::boards, Part::cover},
          {{block_thickness, 40},
           {chord, 46},
           {spine_radius, 26.558},
           {arc, 55.623},
           {rise, 13.279},
           {round_angle, 120},
           {shoulder, 3},
           {board_thickness, 3},
           {boards, 2},
           {setback, 0},
           {spine_width, 50}}};
}

// Boards of 216 x 150 x 3 mm, joints of 9, a back of 30, turn-ins of 15: across 2 x 150 + 2 x 9 + 30 + 36 =
// 384.
Book cased(Way covering) {
  return {{covering, Way::loose, Way::cased},
          {Part::spine, Part::boards, Part::cover},
          {{board_width, 150},
           {board_height, 216},
           {joint, 9},
           {turn_in, 15},
           {board_thickness, 3},
           {spine_piece_width, 30},
           {cover_height, 252},
           {cover_width, 384},
           {spine_cover_width, 108},
           {side_height, 252},
           {side_width, 142},
           {side_lap, 4},
           {spine_reach, 30},
           {corner_leather, 30},
           {corner_cut, 66}}};
}

}  // namespace

TEST_CASE("a measure says what it measures, in tenths, after its name") {
  Drawing const drawing{
      .scale = 2,
      .shapes = {DimensionLine{{10, 5}, {48.24, 5}, 6, "T"}, DimensionLine{{0, 0}, {0, 2}, 6, ""}}};
  CHECK(says(drawing, "T 38.2"));
  CHECK(says(drawing, "2"));
}

TEST_CASE("running measures stand apart, in order, however close what they measure") {
  Drawing const drawing{.scale = 2, .shapes = {Running{{0, 0}, false, {0, 15, 16, 16.5, 17, 200}, 4}}};
  std::vector<double> places;
  for (Mark const& mark : marks_of(drawing))
    if (auto const* const text = std::get_if<Text>(&mark)) places.push_back(text->at.x);
  REQUIRE(places.size() == 6);
  for (std::size_t i = 1; i < places.size(); ++i) CHECK(places[i] - places[i - 1] >= 2 * 3.2 - 1e-9);
  CHECK(letters_in(drawing) == std::vector<std::string>{"0", "15", "16", "16.5", "17", "200"});
  CHECK(places[5] - places[0] == doctest::Approx(200));  // who has room stays where it is
}

TEST_CASE("what would read as the measure before it is not told twice") {
  Drawing const drawing{.shapes = {Running{{0, 0}, false, {0, 174, 174.02, 202}, 4}}};
  CHECK(letters_in(drawing) == std::vector<std::string>{"0", "174", "202"});
}

TEST_CASE("the frame of a drawing takes in the top of an arc and the letters") {
  Drawing drawing{.shapes = {Path{{0, 0}, {{{10, 0}, 5, true, false}}, false, Pen::outline, Fill::none}}};
  frame(drawing, 1);
  CHECK(drawing.corner.y == doctest::Approx(-6));
  CHECK(drawing.height == doctest::Approx(7));
  drawing.shapes = {Path{{0, 0}, {{{8, 0}, 5, true, true}}, false, Pen::outline, Fill::none}};
  frame(drawing, 0);
  CHECK(drawing.height == doctest::Approx(8));  // 5 + root(25 - 16)
}

TEST_CASE(
    "a drawing is to life size where it goes on a page, upright or on its side, else to the next scale") {
  CHECK(scale_for(150, 200, {20, 40}) == 1);
  CHECK(scale_for(200, 150, {20, 40}) == 1);
  CHECK(scale_for(171, 200, {20, 40}) == 2);
  CHECK(scale_for(480, 380, {20, 40}) == 5);
  CHECK(scale_for(470, 170, {20, 40}) == 2);
}

TEST_CASE("cords stand where the bands do, tapes and stations part what lies between the kettle stitches") {
  auto const middles = [](Book const& book) {
    std::vector<double> at;
    for (Station const& station : stations_of(book.spec, book.structure.figures)) at.push_back(station.at);
    return at;
  };
  CHECK(middles(on_cords()) == std::vector<double>{12, 33, 69, 105, 141, 177, 198});
  Book const tapes{
      {Way::tapes, Way::all_along},
      {Part::sewing},
      {{leaf_height, 210}, {kettle_setback, 12}, {supports, 3}, {support_width, 10}, {holes_a_support, 2}}};
  auto const stations_on_tapes = stations_of(tapes.spec, tapes.structure.figures);
  CHECK(middles(tapes) == std::vector<double>{12, 58.5, 105, 151.5, 198});
  CHECK(holes_of(stations_on_tapes, tapes.structure.figures) ==
        std::vector<double>{12, 53.5, 63.5, 100, 110, 146.5, 156.5, 198});
  Book const pamphlet{{Way::unsupported, Way::pamphlet},
                      {Part::sewing},
                      {{leaf_height, 210}, {kettle_setback, 12}, {stations, 3}}};
  CHECK(middles(pamphlet) == std::vector<double>{12, 105, 198});
}

TEST_CASE("the section shows its holes from the head and says what to add before it is trimmed") {
  auto const drawing = draw_section(on_cords().spec, on_cords().structure);
  REQUIRE(drawing);
  std::vector<double> holes;
  for (Circle const& circle : all_of<Circle>(*drawing)) holes.push_back(circle.centre.x);
  CHECK(holes == std::vector<double>{12, 33, 69, 105, 141, 177, 198});
  CHECK(all_of<Running>(*drawing).at(0).stations ==
        std::vector<double>{0, 12, 33, 69, 105, 141, 177, 198, 210});
  CHECK(drawing->words.find("5 raised cords with the middle at 33, 69, 105, 141 and 177") !=
        std::string::npos);
  auto const words = letters_in(*drawing);
  CHECK(std::any_of(words.begin(), words.end(),
                    [](auto const& text) { return text.find("add 4 mm at the head") != std::string::npos; }));
}

TEST_CASE("the spine shows a backed block with its chord, rise, radius and round") {
  auto const drawing = draw_spine(backed().spec, backed().structure);
  REQUIRE(drawing);
  CHECK(measure(*drawing, "T") == doctest::Approx(40));
  CHECK(measure(*drawing, "C") == doctest::Approx(46));
  CHECK(measure(*drawing, "r") == doctest::Approx(13.279));
  CHECK(measure(*drawing, "B") == doctest::Approx(50));
  CHECK(measure(*drawing, "t") == doctest::Approx(3));
  CHECK(says(*drawing, "R 26.6, A 55.6, h 3."));
  // The block's outline: down, in to the shoulder, over the round as an arc of R, and back.
  Path const block = all_of<Path>(*drawing).at(0);
  REQUIRE(block.legs.size() == 5);
  CHECK(block.legs[1].to.x == doctest::Approx(-23));
  CHECK(block.legs[2].radius == doctest::Approx(26.558));
}

TEST_CASE("a flat back is a level line and has neither radius nor chord") {
  Book book = backed().without(spine_radius).without(round_angle);
  book.spec.ways = {Way::flat, Way::loose};
  for (auto const& [id, value] :
       std::map<FigureId, double>{{chord, 44}, {arc, 44}, {rise, 0}, {shoulder, 0}, {spine_width, 44}})
    book.structure.figures.set(id, value, Origin::said);
  auto const drawing = draw_spine(book.spec, book.structure);
  REQUIRE(drawing);
  CHECK(measure(*drawing, "C") == -1);
  CHECK(measure(*drawing, "B") == doctest::Approx(44));
  CHECK(says(*drawing, "A 44."));
  for (Path const& path : all_of<Path>(*drawing))
    for (Leg const& leg : path.legs) CHECK((leg.radius == 0 || path.pen == Pen::thin));
}

TEST_CASE("a full covering shows boards and back where they lie, measured from one corner") {
  Book const book = cased(Way::full);
  auto const drawing = draw_cover(book.spec, book.structure);
  REQUIRE(drawing);
  CHECK(heavy(*drawing).width == doctest::Approx(384));
  CHECK(heavy(*drawing).height == doctest::Approx(252));
  CHECK(all_of<Running>(*drawing).at(0).stations == std::vector<double>{0, 18, 168, 177, 207, 216, 366, 384});
  CHECK(all_of<Running>(*drawing).at(1).stations == std::vector<double>{0, 18, 234, 252});
  CHECK(drawing->scale == 2);
}

TEST_CASE("a half covering shows the spine's piece, two sides and four corners as large as they are cut") {
  Book const book = cased(Way::half);
  auto const drawing = draw_cover(book.spec, book.structure);
  REQUIRE(drawing);
  CHECK(heavy(*drawing).width == doctest::Approx(108));
  CHECK(heavy(*drawing).corner.x == doctest::Approx(138));
  int corners_drawn = 0;
  for (Path const& path : all_of<Path>(*drawing)) {
    if (path.pen != Pen::accent) continue;
    ++corners_drawn;
    CHECK(std::abs(path.legs[0].to.x - path.start.x) == doctest::Approx(66));
    CHECK(std::abs(path.legs[1].to.y - path.start.y) == doctest::Approx(66));
  }
  CHECK(corners_drawn == 4);
  // 138 is where the spine's piece begins, 142 where the front's side ends.
  auto const across = all_of<Running>(*drawing).at(0).stations;
  CHECK(across == std::vector<double>{0, 18, 138, 142, 168, 177, 207, 216, 242, 246, 366, 384});

  Book const quarter = cased(Way::quarter).without(corner_leather).without(corner_cut);
  auto const without = draw_cover(quarter.spec, quarter.structure);
  REQUIRE(without);
  for (Path const& path : all_of<Path>(*without)) CHECK(path.pen != Pen::accent);
}

TEST_CASE("a wrapper shows its folds, its flap and a hole for every station of every section") {
  Book const book{{Way::wrapper, Way::long_stitch, Way::unsupported, Way::no_boards},
                  {Part::sewing, Part::cover},
                  {{cover_height, 216},
                   {cover_width, 396},
                   {leaf_width, 147},
                   {leaf_height, 210},
                   {square, 3},
                   {turn_in, 0},
                   {arc, 18},
                   {block_thickness, 16},
                   {cover_flap, 62},
                   {kettle_setback, 12},
                   {stations, 4},
                   {wrapper_holes, 24}}};
  auto const drawing = draw_cover(book.spec, book.structure);
  REQUIRE(drawing);
  CHECK(all_of<Running>(*drawing).at(0).stations == std::vector<double>{0, 150, 168, 318, 334, 396});
  CHECK(all_of<Circle>(*drawing).size() == 24);
  CHECK(all_of<Circle>(*drawing).at(0).centre.x == doctest::Approx(151.5));  // 18 / 6 sections / 2
  CHECK(all_of<Circle>(*drawing).at(0).centre.y == doctest::Approx(15));
}

TEST_CASE("a wrapper is seen round a block that has no boards") {
  Book const book{{Way::wrapper, Way::long_stitch, Way::open_back, Way::no_boards},
                  {Part::sewing, Part::spine, Part::cover},
                  {{block_thickness, 16}, {spine_width, 18}, {chord, 18}, {arc, 18}, {rise, 0}}};
  auto const drawing = draw_spine(book.spec, book.structure);
  REQUIRE(drawing);
  auto const paths = all_of<Path>(*drawing);
  auto const wrapper =
      std::find_if(paths.begin(), paths.end(), [](Path const& path) { return path.pen == Pen::accent; });
  REQUIRE(wrapper != paths.end());
  CHECK(wrapper->start.x < -8);
  CHECK(wrapper->legs.size() == 3);
  CHECK(wrapper->legs.back().to.x > 8);
  CHECK(wrapper->legs.back().to.y == doctest::Approx(wrapper->start.y));
  CHECK(says(*drawing, "wrapper"));
}

TEST_CASE("each board's own covering is drawn twice, with its board in the middle") {
  Book const book{{Way::each_board, Way::sewn_on},
                  {Part::cover, Part::boards},
                  {{cover_height, 252},
                   {cover_width, 186},
                   {board_height, 216},
                   {board_width, 150},
                   {board_thickness, 3}}};
  auto const drawing = draw_cover(book.spec, book.structure);
  REQUIRE(drawing);
  auto const rectangles = all_of<Rectangle>(*drawing);
  REQUIRE(rectangles.size() == 4);
  CHECK(rectangles[1].corner.x == doctest::Approx(18));
  CHECK(rectangles[2].corner.x > 186);
}

TEST_CASE("a figure that nobody knows leaves a drawing out") {
  CHECK_FALSE(
      draw_section(on_cords().without(kettle_setback).spec, on_cords().without(kettle_setback).structure));
  CHECK_FALSE(draw_spine(backed().spec, backed().without(arc).structure));
  CHECK_FALSE(draw_cover(cased(Way::full).spec, cased(Way::full).without(cover_width).structure));
  CHECK_FALSE(draw_cover(cased(Way::half).spec, cased(Way::half).without(side_width).structure));
  CHECK_FALSE(draw_pieces({}, {}, {}));
}

TEST_CASE("pieces are drawn to one scale, none upon another, under their numbers in the list") {
  Structure structure;
  auto const add = [&](Item item, Part part, double height, double width, Grain grain) {
    structure.pieces.push_back({.item = item,
                                .part = part,
                                .material = MaterialId{1},
                                .count = 2,
                                .height = Length{std::llround(height * 1000)},
                                .width = Length{std::llround(width * 1000)},
                                .grain = grain});
  };
  add(Item::boards, Part::boards, 216, 150, Grain::along_height);
  add(Item::slipcase_sides, Part::box, 100, 80, Grain::along_height);
  add(Item::mull, Part::spine, 190, 90, Grain::any);
  add(Item::cover_corners, Part::cover, 66, 66, Grain::any);
  structure.pieces.back().outline = Outline::two_corners;
  auto const drawing = draw_pieces({}, structure, {});
  REQUIRE(drawing);
  auto const rectangles = all_of<Rectangle>(*drawing);
  REQUIRE(rectangles.size() == 3);
  for (std::size_t i = 0; i < rectangles.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      bool const beside = rectangles[i].corner.x >= rectangles[j].corner.x + rectangles[j].width ||
                          rectangles[j].corner.x >= rectangles[i].corner.x + rectangles[i].width;
      bool const below = rectangles[i].corner.y >= rectangles[j].corner.y + rectangles[j].height ||
                         rectangles[j].corner.y >= rectangles[i].corner.y + rectangles[i].height;
      CHECK((beside || below));
    }
  CHECK(drawing->words.find("3. mull of the spine, 2 of 190 x 90 mm") != std::string::npos);
  CHECK(drawing->words.find("two corners from each") != std::string::npos);
  CHECK(all_of<GrainArrow>(*drawing).size() == 1);
  CHECK(drawing->width / drawing->scale <= page.width + 6);
}

TEST_CASE("a number that stands beside its piece keeps clear of the next, and tells the volume in the list") {
  Structure structure;
  for (int i = 0; i < 12; ++i)
    structure.pieces.push_back({.item = Item::slipcase_back,
                                .part = Part::spine,
                                .material = MaterialId{1},
                                .height = Length{200'000 - i},
                                .width = Length{3'000},
                                .grain = Grain::along_height,
                                .volume = 1 + i / 6});
  auto const drawing = draw_pieces({}, structure, {});
  REQUIRE(drawing);
  auto const rectangles = all_of<Rectangle>(*drawing);
  for (Text const& number : all_of<Text>(*drawing)) {
    if (number.words.size() > 2) continue;
    double const end = number.at.x + drawing->scale * letters_width(number.words, number.size);
    for (Rectangle const& each : rectangles)
      if (each.corner.x >= number.at.x) CHECK(end + drawing->scale < each.corner.x);
  }
  CHECK(drawing->words.find("12. ") != std::string::npos);
  CHECK(drawing->words.find(", volume 2") != std::string::npos);
}
