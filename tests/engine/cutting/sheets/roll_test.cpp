// The least length of a roll, against a search that tries every cut.
#include "engine/cutting/sheets/roll.h"

#include "tests/cases.h"
#include "tests/engine/cutting/sheets/every_cut.h"
#include "tests/engine/cutting/sheets/replay.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband::cutting;

namespace {

SheetRequest asked(std::vector<Rect> pieces, std::int64_t kerf = 0, std::int64_t trim = 0) {
  SheetRequest request;
  request.pieces = std::move(pieces);
  request.kerf = kerf;
  request.trim = trim;
  return request;
}

Sheet roll_of(std::int64_t width, std::int64_t height) { return {width, height, height, {}, true}; }

Answer<CutSheet> planned(Sheet const& roll, SheetRequest const& request, std::int64_t work = 200'000) {
  return plan_roll(roll, request, {work, {}});
}

// Why the answer is no plan of all pieces; empty where it is.
std::string fault(Sheet const& roll, SheetRequest const& request, Answer<CutSheet> const& answer) {
  if (answer.outcome != Outcome::planned || answer.used.size() != 1) return "no plan";
  CutSheet const& cut = answer.used[0];
  if (cut.length <= 0 || cut.length > roll.height) return "a length beyond the roll";
  Replayed const done = replay(cut, request.pieces, roll.width, cut.length, request.kerf, request.trim, 0);
  if (!done.fault.empty()) return done.fault;
  for (std::size_t i = 0; i < request.pieces.size(); ++i)
    if (done.counts[i] != request.pieces[i].copies) return "not what was asked";
  return answer.proof.bound > answer.proof.cost ? "a bound above the cost" : "";
}

std::vector<Rect> any_pieces(int kinds, std::int64_t copies, std::int64_t least, std::int64_t most) {
  std::vector<Rect> pieces(static_cast<std::size_t>(kinds));
  for (Rect& piece : pieces) {
    piece.width = *rc::gen::inRange<std::int64_t>(least, most + 1);
    piece.height = *rc::gen::inRange<std::int64_t>(least, most + 1);
    piece.copies = *rc::gen::inRange<std::int64_t>(1, copies + 1);
    piece.turns = *rc::gen::arbitrary<bool>();
  }
  return pieces;
}

}  // namespace

TEST_CASE("few small pieces: no shorter length holds them, and that is proved") {
  CHECK(endband::testing::check_one_in(100, [] {
    std::int64_t const width = *rc::gen::inRange<std::int64_t>(4, 8),
                       kerf = *rc::gen::inRange<std::int64_t>(0, 2);
    SheetRequest const request = asked(any_pieces(*rc::gen::inRange(1, 4), 2, 1, 4), kerf);
    Sheet const roll = roll_of(width, 60);
    auto const answer = planned(roll, request);
    RC_ASSERT(fault(roll, request, answer).empty());
    RC_ASSERT(answer.proof.proved());
    RC_ASSERT(answer.proof.cost == answer.used[0].length);
    std::vector<ValuedRect> pieces;
    for (Rect const& piece : request.pieces) pieces.push_back({piece, 1});
    EveryCut every(pieces, kerf);
    RC_ASSERT(every.all(width, answer.used[0].length));
    RC_ASSERT(!every.all(width, answer.used[0].length - 1));
  }));
}

TEST_CASE("rolls in micrometres: plans hold at any work, and come out the same again") {
  CHECK(endband::testing::check_one_in(10, [] {
    SheetRequest const request =
        asked(any_pieces(*rc::gen::inRange(1, 15), 5, 10'000, 500'000),
              *rc::gen::inRange<std::int64_t>(0, 3'000), *rc::gen::inRange<std::int64_t>(0, 9'000));
    Sheet const roll = roll_of(*rc::gen::inRange<std::int64_t>(520'000, 1'500'000), 40'000'000);
    std::int64_t const work = *rc::gen::element<std::int64_t>(0, 3'000, 20'000);
    auto const answer = planned(roll, request, work);
    RC_ASSERT(fault(roll, request, answer).empty());
    auto const again = planned(roll, request, work);
    RC_ASSERT(again.used[0].length == answer.used[0].length);
    RC_ASSERT(again.used[0].cuts.size() == answer.used[0].cuts.size());
    RC_ASSERT(again.proof.work == answer.proof.work);
  }));
}

TEST_CASE("two abreast and two behind, with and without kerf and trim") {
  std::vector<Rect> const four{{50, 30, 4, false}};
  CHECK(planned(roll_of(100, 1000), asked(four)).used[0].length == 60);
  CHECK(planned(roll_of(105, 1000), asked(four, 5)).used[0].length == 65);
  CHECK(planned(roll_of(104, 1000), asked(four, 5)).used[0].length == 135);
  CHECK(planned(roll_of(125, 1000), asked(four, 5, 10)).used[0].length == 65);
  CHECK(planned(roll_of(124, 1000), asked(four, 5, 10)).used[0].length == 135);
}

TEST_CASE("more wide pieces than lie abreast: their heights are the bound") {
  Sheet const roll = roll_of(100, 1000);
  auto const answer = planned(roll, asked({{51, 10, 7, false}, {49, 10, 7, false}}));
  CHECK(answer.used[0].length == 70);
  CHECK(answer.proof.proved());
  // 60 and 45 do not lie abreast, two of 45 do: 7 + 4 rows. The bound by area alone would be 74.
  auto const odd = planned(roll, asked({{60, 10, 7, false}, {45, 10, 7, false}}));
  CHECK(odd.used[0].length == 110);
  CHECK(odd.proof.proved());
}

TEST_CASE("the length is paid by its share, rounded up, less what a kept offcut is worth") {
  SheetRequest request = asked({{60, 30, 1, false}});
  Sheet const roll{100, 900, 1000, {}, true};
  CHECK(planned(roll, request).proof.cost == 34);  // 30 / 900 of 1000 is 33.3
  request.least_kept = 30;
  request.worth = {1, 2};
  auto const answer = planned(roll, request);
  REQUIRE(answer.used[0].kept.size() == 1);
  CHECK(answer.used[0].kept[0].x == 60);
  CHECK(answer.used[0].kept[0].width == 40);
  CHECK(answer.proof.cost == 28);  // half of 40 x 30 of 90000 of 1000 is 6.7
  CHECK(answer.proof.bound <= 28);
}

TEST_CASE("what cannot be: too wide, against the grain, longer than the one roll") {
  Sheet const roll = roll_of(100, 200);
  auto const wide = planned(roll, asked({{10, 10, 1, false}, {107, 120, 1, true}}));
  CHECK(wide.outcome == Outcome::impossible);
  REQUIRE(wide.obstacles.size() == 1);
  CHECK(wide.obstacles[0].piece == 1);
  CHECK(wide.obstacles[0].why == Why::too_large);
  CHECK(wide.obstacles[0].over == 7);
  auto const grain = planned(roll, asked({{120, 60, 1, false}}));
  REQUIRE(grain.obstacles.size() == 1);
  CHECK(grain.obstacles[0].why == Why::grain);
  CHECK(grain.obstacles[0].side == Side::width);
  CHECK(grain.obstacles[0].over == 20);
  Sheet one = roll;
  one.copies = 1;
  CHECK(planned(one, asked({{100, 101, 2, false}})).outcome == Outcome::impossible);
  CHECK(planned(roll, asked({{100, 101, 2, false}})).outcome == Outcome::not_found);
}

TEST_CASE("nothing asked, nothing torn off") {
  auto const none = planned(roll_of(100, 200), asked({{10, 10, 0, false}}));
  CHECK(none.outcome == Outcome::planned);
  CHECK(none.used.empty());
  CHECK(none.proof.proved());
}
