// A plan as it is followed at the bench, from answers written by hand.
#include "cli/drawings/cut_layout.h"

#include "cli/commands/cut_words.h"
#include "cli/drawings/cut_drawing.h"
#include "cli/process/together.h"

#include <doctest/doctest.h>

#include <atomic>

using namespace endband;
using namespace endband::cli;

namespace {

constexpr std::int64_t mm = 1000;

// Two boards of 300 x 200 mm out of a sheet 700 x 1000 mm (across and along its grain) and a strip whose
// grain runs along its width; the kerf is 2 mm.
//
//   0 ┌──────┬──────┬────┐   cut 1: across at 300
//     │ b 0  │ b 0  │    │   cut 2: of the upper part down at 200; cut 3: of what is beside it down at 200
// 300 ├──────┴──────┴────┤   cut 4: of the lower part across at 40
//     │ strip 700 x 40   │
//     └──────────────────┘
CutRequest request() {
  CutRequest request;
  cutting::SheetRequest sheets;
  sheets.kerf = 2 * mm;
  sheets.least_kept = 80 * mm;
  sheets.sheets.push_back({700 * mm, 1000 * mm, 500, std::nullopt, false});
  sheets.pieces.push_back({200 * mm, 300 * mm, 2, false});
  sheets.pieces.push_back({700 * mm, 40 * mm, 1, false});
  request.asked = sheets;
  request.least_kept = sheets.least_kept;
  request.stock.push_back({0, false});
  CutFor board;
  board.item = Item::boards;
  board.height = {300 * mm};
  board.width = {200 * mm};
  CutFor strip = board;
  strip.item = Item::stiffener;
  strip.height = {700 * mm};
  strip.width = {40 * mm};
  request.pieces = {board, strip};
  return request;
}

cutting::CutSheet used() {
  cutting::CutSheet sheet;
  sheet.cuts = {{0, true, 300 * mm}, {1, false, 200 * mm}, {4, false, 200 * mm}, {2, true, 40 * mm}};
  sheet.laid = {{0, 3, 0, 0, false}, {0, 5, 202 * mm, 0, false}, {1, 7, 0, 302 * mm, false}};
  sheet.kept = {{8, 0, 344 * mm, 700 * mm, 656 * mm}, {6, 404 * mm, 0, 296 * mm, 300 * mm}};
  return sheet;
}

CutAnswer answer(std::vector<cutting::CutSheet> sheets) {
  cutting::Answer<cutting::CutSheet> answer;
  answer.outcome = cutting::Outcome::planned;
  answer.used = std::move(sheets);
  return answer;
}

CutMaterial material(CutRequest request, CutAnswer answer) {
  CutMaterial cut;
  cut.material.code = "board-grey";
  cut.material.sold_by = SoldBy::sheet;
  cut.minor = Ratio(1, 1000);
  cut.stock.emplace_back();
  cut.uses = cut_uses(request, answer, cut.material, 1);
  cut.request = std::move(request);
  cut.answer = std::move(answer);
  return cut;
}

}  // namespace

TEST_CASE("cuts are told of what lies before them, with what they make of it") {
  CutMaterial const cut = material(request(), answer({used()}));
  REQUIRE(cut.uses.size() == 1);
  CutUse const& use = cut.uses.front();
  REQUIRE(use.steps.size() == 4);
  CHECK(cut_how_words(use.steps[0]) == "across at 300");
  CHECK(cut_part_words(cut, use.steps[0].of) == "1000 x 700");
  CHECK(cut_part_words(cut, use.steps[0].first) == "300 x 700");
  CHECK(cut_part_words(cut, use.steps[0].second) == "698 x 700");  // less the kerf
  CHECK(cut_how_words(use.steps[2]) == "down at 200");
  CHECK(cut_part_words(cut, use.steps[2].of) == "300 x 498");
  CHECK(cut_part_words(cut, use.steps[2].first) == "1. boards");
  CHECK(cut_part_words(cut, use.steps[2].second) == "300 x 296 left over");
  CHECK(use.steps[2].x == 402 * mm);
  CHECK(use.steps[2].y == 0);
  CHECK(use.steps[2].length == 300 * mm);
  CHECK(cut_left_words(use) == "left over: 656 x 700 mm and 300 x 296 mm");
}

TEST_CASE("a piece whose grain runs along its width lies turned") {
  auto const uses = cut_uses(request(), answer({used()}), {}, 1);
  CHECK_FALSE(uses.front().laid[0].turned);
  CHECK(uses.front().laid[2].turned);
  CHECK(cut_lie_words(uses.front().laid[2]) == "turned");
  CHECK(uses.front().taken == (2 * 300 * 200 + 700 * 40) * mm * mm);
  CHECK(uses.front().whole == 700 * 1000 * mm * mm);
}

TEST_CASE("equal sheets are one, with how many, and another is another") {
  cutting::CutSheet other = used();
  other.kept.pop_back();
  auto const uses = cut_uses(request(), answer({used(), other, used(), used()}), {}, 4);
  REQUIRE(uses.size() == 2);
  CHECK(uses[0].times == 3);
  CHECK(uses[0].number == 4);
  CHECK(uses[1].times == 1);
  CHECK(uses[1].number == 5);
}

TEST_CASE("a skin is seen with its neck up, measured from the upper left corner of its box") {
  CutRequest request;
  cutting::SkinRequest skins;
  cutting::Skin skin;
  skin.outline = {{-300 * mm, 0}, {300 * mm, 0}, {300 * mm, 800 * mm}, {-300 * mm, 800 * mm}};
  skins.skins.push_back(skin);
  cutting::SkinPiece piece;
  piece.shape = cutting::rectangle(100 * mm, 200 * mm);
  piece.angles = {90};
  skins.pieces.push_back(piece);
  request.asked = skins;
  request.least_kept = 80 * mm;
  request.stock.push_back({7, false});
  CutFor named;
  named.height = {200 * mm};
  named.width = {100 * mm};
  request.pieces.push_back(named);
  cutting::Answer<cutting::CutSkin> answer;
  answer.outcome = cutting::Outcome::planned;
  answer.used.push_back({0,
                         {{0, 90, {-300 * mm, 0}}},
                         {-300 * mm, 100 * mm, 300 * mm, 800 * mm},
                         2 * (480 - 20) * 1000 * mm * mm});
  auto const uses = cut_uses(request, answer, {}, 1);
  REQUIRE(uses.size() == 1);
  CHECK(uses[0].backbone == 300 * mm);
  REQUIRE(uses[0].laid.size() == 1);
  CutLaid const& laid = uses[0].laid.front();
  CHECK(laid.turned);
  CHECK(laid.x == 0);
  CHECK(laid.y == 700 * mm);  // it lies at the tail
  CHECK(laid.width == 200 * mm);
  CHECK(laid.height == 100 * mm);
  REQUIRE(uses[0].left.size() == 1);
  CHECK(uses[0].left.front().y == 0);
  CHECK(uses[0].left.front().height == 700 * mm);
}

TEST_CASE("how near a plan is to the least possible") {
  auto const words = [](std::int64_t cost, std::int64_t bound) {
    return cut_proof_words({.cost = cost, .bound = bound, .work = 0});
  };
  CHECK(words(500, 500) == "least cost, proven");
  CHECK(words(0, 0) == "least cost, proven");
  CHECK(words(1020, 1000) == "within 2 % of the least possible");
  CHECK(words(10'201, 10'000) == "within 2.1 % of the least possible");
  CHECK(words(1'101, 1'000) == "within 11 % of the least possible");
  CHECK(words(5, 0) == "how near it is to the least possible is not known");
}

TEST_CASE("what cannot be cut is told with the side that is too large as the piece is named") {
  cutting::Answer<cutting::CutSheet> impossible;
  impossible.outcome = cutting::Outcome::impossible;
  impossible.obstacles = {{1, cutting::Why::too_large, cutting::Side::width, 12 * mm},
                          {0, cutting::Why::grain, cutting::Side::height, 5 * mm + 50}};
  CutMaterial const cut = material(request(), impossible);
  auto const words = cut_obstacle_words(cut);
  REQUIRE(words.size() == 2);
  CHECK(words[0].find("700 x 40 mm: 12 mm too high for every sheet there is, however it may lie.") !=
        std::string::npos);
  CHECK(words[1] ==
        "Boards, 300 x 200 mm: it would fit turned, but its grain forbids that; as it must lie it is 5.1 mm "
        "too "
        "high.");
}

TEST_CASE("a drawing says its cuts in words too") {
  CutMaterial const cut = material(request(), answer({used()}));
  auto const drawing =
      draw_cut(cut.uses.front(),
               {"Grey board", "Tides", {"boards", "stiffener"}, {"300 x 200 mm", "700 x 40 mm"}, false});
  REQUIRE(drawing);
  CHECK(drawing->name == "cut-1");
  CHECK(drawing->words.find("1. across at 300 mm of what is 1000 x 700 mm") != std::string::npos);
}

TEST_CASE("tasks together: all of them run, and what the first in order threw is thrown") {
  std::atomic<int> ran{0};
  std::vector<std::function<void()>> tasks;
  for (int i = 0; i < 20; ++i)
    tasks.emplace_back([&ran, i] {
      ++ran;
      if (i == 3 || i == 11) throw std::runtime_error(std::to_string(i));
    });
  CHECK_THROWS_WITH(run_together(tasks), "3");
  CHECK(ran == 20);
  run_together({});
}
