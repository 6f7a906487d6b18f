#include "engine/cutting/sheets/sheets.h"

#include "tests/engine/cutting/sheets/plan_replay.h"

#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>

namespace endband::cutting {
namespace {

Budget const little{30'000, {}};

// Planned, and right; its cost.
std::int64_t cost_of(SheetRequest const& request, Budget const& budget = little) {
  auto const answer = plan_sheets(request, budget);
  REQUIRE(answer.outcome == Outcome::planned);
  CHECK(answer.obstacles.empty());
  CHECK(PlanReplay(request, answer).fault() == "");
  return answer.proof.cost;
}

Obstacle obstacle_of(SheetRequest const& request, Outcome outcome = Outcome::impossible) {
  auto const answer = plan_sheets(request, little);
  CHECK(answer.outcome == outcome);
  REQUIRE(answer.obstacles.size() == 1);
  return answer.obstacles.front();
}

TEST_CASE("nothing is cut from nothing") {
  auto const answer = plan_sheets({}, little);
  CHECK(answer.outcome == Outcome::planned);
  CHECK(answer.used.empty());
  CHECK(answer.proof.proved());
  CHECK(cost_of({{{10, 10, 5}}, {{3, 3, 0}}}) == 0);
}

TEST_CASE("four quarters are one sheet, and five are two") {
  SheetRequest request{{{700, 1000, 460}}, {{350, 500, 4}}};
  CHECK(cost_of(request) == 460);
  CHECK(plan_sheets(request, little).proof.proved());
  request.pieces[0].copies = 5;
  CHECK(cost_of(request) == 920);
  CHECK(plan_sheets(request, little).proof.bound == 920);
}

TEST_CASE("every cut loses the kerf, and where just a kerf is left nothing is lost") {
  SheetRequest request{{{100, 50, 1}}, {{50, 50, 2}}};
  CHECK(cost_of(request) == 1);
  request.kerf = 1;
  CHECK(cost_of(request) == 2);
  request.pieces = {{50, 50, 1}, {49, 50, 1}};  // 50 + 1 + 49
  CHECK(cost_of(request) == 1);
  request.kerf = 60;
  request.pieces = {{60, 30, 1}};  // less than a kerf is left on both sides
  CHECK(cost_of(request) == 1);
}

TEST_CASE("the trim goes off all edges of a sheet and off the long edges of a roll") {
  SheetRequest request{{{100, 100, 1}}, {{90, 90, 1}}, 0, 5};
  CHECK(cost_of(request) == 1);
  request.pieces[0].width = 91;
  Obstacle const obstacle = obstacle_of(request);
  CHECK(obstacle.why == Why::too_large);
  CHECK(obstacle.side == Side::width);
  CHECK(obstacle.over == 1);
  request = {{{100, 100, 100, std::nullopt, true}}, {{90, 100, 1}}, 0, 5};
  CHECK(cost_of(request) == 100);
}

TEST_CASE("a piece that fits no sheet is named, with the least shortage of all sheets") {
  SheetRequest request{{{100, 200, 1}, {80, 215, 1}}, {{50, 50, 1}, {70, 220, 1}}};
  Obstacle const obstacle = obstacle_of(request);
  CHECK(obstacle.piece == 1);
  CHECK(obstacle.why == Why::too_large);
  CHECK(obstacle.side == Side::height);
  CHECK(obstacle.over == 5);
}

TEST_CASE("the nearest way to lie counts, and sides are the piece's own") {
  SheetRequest request{{{200, 100, 1}}, {{90, 203, 1, true}}};
  Obstacle const obstacle = obstacle_of(request);
  CHECK(obstacle.why == Why::too_large);
  CHECK(obstacle.side == Side::height);
  CHECK(obstacle.over == 3);
}

TEST_CASE("grain is the reason where the piece would fit turned") {
  SheetRequest request{{{100, 200, 7}}, {{150, 90, 1}}};
  Obstacle const obstacle = obstacle_of(request);
  CHECK(obstacle.why == Why::grain);
  CHECK(obstacle.side == Side::width);
  CHECK(obstacle.over == 50);
  request.pieces[0].turns = true;
  CHECK(cost_of(request) == 7);
}

TEST_CASE("too little stock is proved by area and by what halves a sheet") {
  SheetRequest request{{{10, 10, 1, 2}}, {{5, 5, 9}}};
  CHECK(obstacle_of(request).why == Why::not_enough);
  request.pieces = {{6, 6, 3}};  // 108 of 200, but one a sheet
  CHECK(obstacle_of(request).why == Why::not_enough);
  request.pieces[0].copies = 2;
  CHECK(cost_of(request) == 2);
  request.sheets[0].copies = 0;
  CHECK(obstacle_of(request).why == Why::not_enough);
  request.sheets.clear();
  CHECK(obstacle_of(request).why == Why::not_enough);
}

TEST_CASE("offcuts are taken where they are cheaper, no more often than they are there") {
  SheetRequest request{{{100, 100, 100}, {30, 40, 5, 2}}, {{30, 40, 2}}};
  CHECK(cost_of(request) == 10);
  request.pieces[0].copies = 3;
  CHECK(cost_of(request) == 100);
  request.sheets[1].cost = 60;
  request.pieces[0].copies = 1;
  CHECK(cost_of(request) == 60);
}

TEST_CASE("limited stock that must be filled to the last corner") {
  SheetRequest const request{{{60, 40, 9, 1}, {50, 30, 4, 1}, {20, 20, 1, 1}},
                             {{20, 40, 1}, {40, 40, 1}, {25, 30, 2}, {20, 20, 1}}};
  CHECK(cost_of(request) == 14);
  CHECK(plan_sheets(request, little).proof.proved());
}

TEST_CASE("what is kept is worth its share, and so may choose the sheet") {
  SheetRequest request{{{100, 100, 100}, {50, 100, 60}}, {{50, 100, 1}}, 0, 0, 10, {1, 2}};
  CHECK(cost_of(request) == 60);  // 100 - 25 = 75
  request.worth = {1, 1};
  CHECK(cost_of(request) == 50);
  CHECK(plan_sheets(request, little).proof.proved());
  request.least_kept = 51;
  CHECK(cost_of(request) == 60);
}

TEST_CASE("what is left lies together") {
  SheetRequest const request{{{100, 100, 100}}, {{20, 50, 3}, {40, 25, 2}}, 0, 0, 20};
  auto const answer = plan_sheets(request, little);
  PlanReplay replay(request, answer);
  CHECK(replay.fault() == "");
  CHECK(replay.largest_kept() == 100 * 50);
}

TEST_CASE("least_kept decides which rectangle is worth leaving") {
  // 10 x 90 and 90 x 10 could be kept below and beside a piece of 90 x 90, or 10 x 100 and 90 x 10
  SheetRequest request{{{100, 100, 1000}}, {{90, 90, 1}}, 0, 0, 10, {1, 1}};
  CHECK(cost_of(request) == 810);
  request.least_kept = 11;
  CHECK(cost_of(request) == 1000);
  request.pieces = {{60, 50, 1}};  // 100 x 50 below 40 x 50, or 40 x 100 below 60 x 50: all is kept
  CHECK(cost_of(request) == 300);
  request.least_kept = 45;  // 40 is too small: 100 x 50 is kept
  CHECK(cost_of(request) == 500);
}

TEST_CASE("a roll is torn where the plan ends") {
  SheetRequest request{{{1000, 50'000, 5000, std::nullopt, true}}, {{500, 300, 4}}};
  CHECK(cost_of(request) == 60);
  CHECK(plan_sheets(request, little).used.front().length == 600);
  request.pieces.push_back({1000, 7, 1});
  CHECK(cost_of(request) == 61);  // 60.7
  request.kerf = 10;              // 300 + 10 + 300 + 10 + 7, but 490 x 300 leaves no more than the kerf
  request.pieces[0].width = 490;
  CHECK(plan_sheets(request, little).used.front().length == 627);
}

TEST_CASE("what a roll does not hold at once is torn off again") {
  SheetRequest const request{{{100, 100, 10, std::nullopt, true}}, {{100, 60, 3}}};
  CHECK(cost_of(request) == 18);
  CHECK(plan_sheets(request, little).used.size() == 3);
}

TEST_CASE("an offcut first, the rest from the roll") {
  SheetRequest request{{{1000, 10'000, 10'000, std::nullopt, true}, {300, 400, 20, 1}},
                       {{300, 400, 1}, {1000, 100, 1}}};
  CHECK(cost_of(request) == 120);
  request.sheets[1].cost = 500;
  CHECK(cost_of(request) == 500);  // 400 + 100 of the roll
}

TEST_CASE("what cannot be asked is a broken contract") {
  auto const refused = [](SheetRequest const& request) {
    CHECK_THROWS_AS(plan_sheets(request, little), std::logic_error);
  };
  refused({{{0, 10, 1}}, {{1, 1, 1}}});
  refused({{{10, 10, -1}}, {{1, 1, 1}}});
  refused({{{10, 10, 1, -1}}, {{1, 1, 1}}});
  refused({{{10, 10, 1}}, {{1, 0, 1}}});
  refused({{{10, 10, 1}}, {{1, 1, -1}}});
  refused({{{10, 10, 1}}, {{1, 1, 1}}, -1});
  refused({{{10, 10, 1}}, {{1, 1, 1}}, 0, -1});
  refused({{{10, 10, 1}}, {{1, 1, 1}}, 0, 0, -1});
  refused({{{10, 10, 1}}, {{1, 1, 1}}, 0, 0, 1, {2, 1}});
  refused({{{10, 10, 1}}, {{1, 1, 1}}, 0, 0, 1, {0, 0}});
  std::int64_t const most = std::numeric_limits<std::int64_t>::max();
  refused({{{most, most, 1}}, {{1, 1, 1}}});
  refused({{{10, 10, 1}}, {{most, most, 1}}, 1});
  refused({{{1, 1, most}}, {{1, 1, 2}}});
}

TEST_CASE("an answer without work, also for ten thousand pieces") {
  SheetRequest request{{{700, 1000, 460}, {500, 700, 240}}, {}};
  for (int i = 0; i < 50; ++i)
    request.pieces.push_back({20 + 7 * i % 83, 30 + 11 * i % 127, 200, i % 3 == 0});
  std::int64_t area = 0;
  for (Rect const& piece : request.pieces) area += piece.width * piece.height * piece.copies;
  auto const answer = plan_sheets(request, {0, {}});
  CHECK(answer.outcome == Outcome::planned);
  CHECK(PlanReplay(request, answer).fault() == "");
  CHECK(answer.proof.cost < area * 460 / 700'000 * 5 / 4);
}

}  // namespace
}  // namespace endband::cutting
