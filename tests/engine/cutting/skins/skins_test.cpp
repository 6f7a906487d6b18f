#include "engine/cutting/skins/skins.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <stdexcept>

namespace {

using namespace endband::cutting;

constexpr std::int64_t mm = 1000;

SkinPiece piece(std::int64_t width, std::int64_t height, std::int64_t copies = 1,
                std::vector<int> angles = {0, 90}) {
  SkinPiece made;
  made.shape = rectangle(width * mm, height * mm);
  made.copies = copies;
  made.angles = std::move(angles);
  return made;
}
Skin sheet(std::int64_t width, std::int64_t height, std::int64_t cost = 100) {
  Skin made;
  made.outline = rectangle(width * mm, height * mm);
  made.cost = cost;
  return made;
}
Polygon box(std::int64_t left, std::int64_t bottom, std::int64_t right, std::int64_t top) {
  return moved(rectangle((right - left) * mm, (top - bottom) * mm), {left * mm, bottom * mm});
}
// A hide by hand: neck above, two flanks, one flaw.
Skin hide() {
  Skin made;
  made.outline = {{300 * mm, 0},        {520 * mm, 40 * mm},  {600 * mm, 250 * mm}, {560 * mm, 480 * mm},
                  {430 * mm, 620 * mm}, {330 * mm, 700 * mm}, {210 * mm, 690 * mm}, {110 * mm, 560 * mm},
                  {20 * mm, 400 * mm},  {0, 200 * mm},        {90 * mm, 30 * mm}};
  made.flaws = {box(250, 300, 280, 340)};
  made.cost = 500;
  return made;
}
Budget small() { return {60'000, {}}; }

// Independent of the search: every piece within, off flaws and poorer zones, off the others, and no more than
// asked.
void check_cut(Skin const& skin, std::vector<SkinPiece> const& pieces, CutSkin const& cut,
               std::int64_t margin) {
  std::vector<Polygon> lie;
  for (LaidPiece const& laid : cut.laid) {
    SkinPiece const& what = pieces.at(static_cast<std::size_t>(laid.piece));
    CHECK(std::ranges::find(what.angles, laid.angle) != what.angles.end());
    Polygon const shape = moved(turned(what.shape, laid.angle), laid.at);
    // Grown by the margin on every side: at least that far from everything.
    Box const b = box_of(shape);
    Polygon const wide = margin == 0
                             ? shape
                             : moved(rectangle(b.right - b.left + 2 * margin, b.top - b.bottom + 2 * margin),
                                     {b.left - margin, b.bottom - margin});
    CHECK(within(wide, skin.outline));
    for (Polygon const& flaw : skin.flaws) CHECK_FALSE(overlap(wide, flaw));
    for (Zone const& zone : skin.zones)
      if (zone.grade < what.least_grade) CHECK_FALSE(overlap(shape, zone.polygon));
    for (Polygon const& other : lie) CHECK_FALSE(overlap(wide, other));
    lie.push_back(shape);
  }
  if (cut.largest_left.right > cut.largest_left.left) {
    Box const& left = cut.largest_left;
    Polygon const free =
        moved(rectangle(left.right - left.left, left.top - left.bottom), {left.left, left.bottom});
    CHECK(within(free, skin.outline));
    for (Polygon const& flaw : skin.flaws) CHECK_FALSE(overlap(free, flaw));
    for (Polygon const& other : lie) CHECK_FALSE(overlap(free, other));
  }
}
void check_plan(SkinRequest const& request, Answer<CutSkin> const& answer) {
  std::vector<std::int64_t> laid(request.pieces.size(), 0), skins(request.skins.size(), 0);
  for (CutSkin const& cut : answer.used) {
    Skin const& skin = request.skins.at(static_cast<std::size_t>(cut.skin));
    ++skins.at(static_cast<std::size_t>(cut.skin));
    check_cut(skin, request.pieces, cut, request.margin);
    for (LaidPiece const& one : cut.laid) ++laid.at(static_cast<std::size_t>(one.piece));
  }
  for (std::size_t i = 0; i < request.pieces.size(); ++i)
    if (answer.outcome == Outcome::planned) CHECK(laid[i] == request.pieces[i].copies);
  for (std::size_t i = 0; i < request.skins.size(); ++i)
    if (request.skins[i].copies) CHECK(skins[i] <= *request.skins[i].copies);
  CHECK(answer.proof.bound <= answer.proof.cost);
}
bool same(CutSkin const& a, CutSkin const& b) {
  return std::ranges::equal(a.laid, b.laid, [](LaidPiece const& p, LaidPiece const& q) {
    return p.piece == q.piece && p.angle == q.angle && p.at == q.at;
  });
}

TEST_CASE("four quarters fill a square skin to the last micrometre") {
  Filled const filled = fill_skin(sheet(200, 200), {piece(100, 100, 4)}, 0, small());
  CHECK(filled.all);
  CHECK(filled.twice_area == 2 * 200 * mm * 200 * mm);
  CHECK(filled.cut.twice_area_left == 0);
  CHECK(filled.cut.largest_left.right == 0);
  check_cut(sheet(200, 200), {piece(100, 100, 4)}, filled.cut, 0);
}

TEST_CASE("an exact fit that no coarse step meets") {
  Skin skin;
  skin.outline = rectangle(123'457, 98'761);
  SkinPiece one;
  one.shape = rectangle(123'457, 50'000);
  SkinPiece other;
  other.shape = rectangle(123'457, 48'761);
  Filled const filled = fill_skin(skin, {one, other}, 0, small());
  CHECK(filled.all);
  check_cut(skin, {one, other}, filled.cut, 0);
}

TEST_CASE("with a flaw in the middle the pieces go round it") {
  Skin skin = sheet(300, 300);
  skin.flaws = {box(100, 100, 200, 200)};
  std::vector<SkinPiece> const ring{piece(200, 100, 4)};  // round the flaw like a pinwheel
  Filled const filled = fill_skin(skin, ring, 0, {400'000, {}});
  CHECK(filled.all);
  CHECK(filled.cut.twice_area_left == 0);
  check_cut(skin, ring, filled.cut, 0);
  Filled const none = fill_skin(skin, {piece(101, 101)}, 0, small());
  CHECK(none.cut.laid.empty());
}

TEST_CASE("a margin counts between pieces and to the edge") {
  std::vector<SkinPiece> const two{piece(90, 180, 2, {0})};
  Filled const both = fill_skin(sheet(195, 190), two, 5 * mm, small());
  CHECK(both.cut.laid.size() == 2);
  check_cut(sheet(195, 190), two, both.cut, 5 * mm);
  CHECK(fill_skin(sheet(194, 190), two, 5 * mm, small()).cut.laid.size() == 1);
}

TEST_CASE("a piece of grade keeps off poorer zones, and the poorest counts where zones overlap") {
  Skin skin = sheet(200, 100);
  skin.grade = 2;
  skin.zones = {{box(0, 0, 100, 100), 1}};
  SkinPiece fine = piece(100, 100);
  fine.least_grade = 2;
  Filled const filled = fill_skin(skin, {fine}, 0, small());
  REQUIRE(filled.cut.laid.size() == 1);
  CHECK(filled.cut.laid[0].at == Point{100 * mm, 0});
  skin.zones.push_back({box(150, 0, 200, 100), 0});
  CHECK(fill_skin(skin, {fine}, 0, small()).cut.laid.empty());
  skin.zones.push_back({box(150, 0, 200, 100), 5});
  CHECK(fill_skin(skin, {fine}, 0, small()).cut.laid.empty());
}

TEST_CASE("on a poor skin a fine piece lies over good zones, also across their common edge") {
  Skin skin = sheet(300, 100);
  skin.zones = {{box(50, 0, 120, 100), 2}, {box(120, 0, 200, 100), 3}};
  SkinPiece fine = piece(150, 100, 1, {0});
  fine.least_grade = 2;
  Filled const filled = fill_skin(skin, {fine}, 0, small());
  REQUIRE(filled.cut.laid.size() == 1);
  CHECK(filled.cut.laid[0].at == Point{50 * mm, 0});
  fine.least_grade = 3;
  CHECK(fill_skin(skin, {fine}, 0, small()).cut.laid.empty());
}

TEST_CASE("humble pieces use the poor part, so that fine ones have the good one") {
  Skin skin = sheet(200, 100);
  skin.grade = 2;
  skin.zones = {{box(0, 0, 100, 100), 1}};
  SkinPiece fine = piece(98, 98);
  fine.least_grade = 2;
  CHECK(fill_skin(skin, {piece(99, 99), fine}, 0, small()).all);
}

TEST_CASE("a group is laid whole or not at all") {
  SkinPiece a = piece(100, 60), b = piece(100, 60);
  a.group = b.group = 1;
  Filled const filled = fill_skin(sheet(100, 100), {a, b, piece(50, 50)}, 0, small());
  REQUIRE(filled.cut.laid.size() == 1);
  CHECK(filled.cut.laid[0].piece == 2);
}

TEST_CASE("an L and a square that only lie nested") {
  SkinPiece ell;
  ell.shape = {{0, 0},       {100 * mm, 0}, {100 * mm, 50 * mm}, {50 * mm, 50 * mm}, {50 * mm, 100 * mm},
               {0, 100 * mm}};
  ell.angles = {0, 90, 180, 270};
  std::vector<SkinPiece> const both{ell, piece(50, 50)};
  Filled const filled = fill_skin(sheet(100, 100), both, 0, {200'000, {}});
  CHECK(filled.all);
  check_cut(sheet(100, 100), both, filled.cut, 0);
}

TEST_CASE("a turned rectangle lies in a slanted strip") {
  Skin skin;
  skin.outline = {{0, 0}, {20 * mm, 0}, {120 * mm, 100 * mm}, {100 * mm, 100 * mm}};
  CHECK(fill_skin(skin, {piece(100, 10, 1, {0, 90})}, 0, small()).cut.laid.empty());
  Filled const filled = fill_skin(skin, {piece(100, 10, 1, {0, 45})}, 0, small());
  REQUIRE(filled.cut.laid.size() == 1);
  check_cut(skin, {piece(100, 10, 1, {0, 45})}, filled.cut, 0);
}

TEST_CASE("random pieces on a hide lie right, and twice the same") {
  std::uint64_t seed = 7;
  auto const below = [&](std::int64_t most) {
    seed = seed * 6364136223846793005U + 1442695040888963407U;
    return static_cast<std::int64_t>((seed >> 33U) % static_cast<std::uint64_t>(most));
  };
  for (int round = 0; round < 8; ++round) {
    Skin skin = hide();
    skin.grade = 1;
    skin.zones = {{box(150, 100, 420, 500), 2}, {box(300, 400, 500, 560), 0}};
    std::vector<SkinPiece> pieces;
    for (int i = 0; i < 12; ++i) {
      pieces.push_back(piece(30 + below(200), 30 + below(150), 1 + below(2)));
      pieces.back().least_grade = static_cast<int>(below(3));
      pieces.back().shape[2].x += below(900);
      if (round % 2 == 1) pieces.back().shape = rectangle(30'000 + below(99'999), 30'000 + below(99'999));
      if (i % 5 == 4) pieces.back().angles = {0, 30, 77};
    }
    std::int64_t const margin = round % 2 == 1 ? 2 * mm : 0;
    if (margin > 0)
      for (SkinPiece& each : pieces) each.angles = {0, 90};
    Filled const filled = fill_skin(skin, pieces, margin, {15'000, {}});
    check_cut(skin, pieces, filled.cut, margin);
    CHECK(filled.cut.laid.size() >= 3);
    CHECK(same(filled.cut, fill_skin(skin, pieces, margin, {15'000, {}}).cut));
  }
}

TEST_CASE("the order in which tasks run changes nothing") {
  std::vector<SkinPiece> const pieces{piece(210, 150, 3), piece(170, 120, 4), piece(90, 80, 6)};
  Filled const plain = fill_skin(hide(), pieces, 0, small());
  Budget backwards = small();
  backwards.run_all = [](std::span<std::function<void()> const> tasks) {
    for (auto task = tasks.rbegin(); task != tasks.rend(); ++task) (*task)();
  };
  Filled const other = fill_skin(hide(), pieces, 0, backwards);
  CHECK(same(plain.cut, other.cut));
  CHECK(plain.work == other.work);
}

TEST_CASE("the cheapest skin that holds all, with proof") {
  SkinRequest request;
  request.skins = {sheet(400, 300, 90), sheet(300, 200, 40), sheet(210, 110, 15)};
  request.pieces = {piece(200, 100, 2)};
  Answer<CutSkin> const answer = plan_skins(request, small());
  REQUIRE(answer.outcome == Outcome::planned);
  check_plan(request, answer);
  CHECK(answer.proof.cost == 40);
  CHECK(answer.proof.proved());
}

TEST_CASE("as many equal skins as wanted: no more than needed") {
  SkinRequest request;
  request.skins = {sheet(300, 200, 70)};
  request.skins[0].copies = std::nullopt;
  request.pieces = {piece(140, 190, 7)};
  Answer<CutSkin> const answer = plan_skins(request, small());
  REQUIRE(answer.outcome == Outcome::planned);
  check_plan(request, answer);
  CHECK(answer.used.size() == 4);
}

TEST_CASE("a group from one skin, another from one batch") {
  SkinRequest request;
  request.skins = {sheet(200, 100, 10), sheet(200, 100, 10), sheet(200, 100, 11), sheet(200, 200, 50)};
  request.skins[2].batch = request.skins[1].batch = 1;
  request.pieces = {piece(100, 100, 3)};
  request.pieces[0].group = 1;
  Answer<CutSkin> const one = plan_skins(request, small());
  REQUIRE(one.outcome == Outcome::planned);
  check_plan(request, one);
  REQUIRE(one.used.size() == 1);
  CHECK(one.used[0].skin == 3);
  request.pieces[0].together = Together::one_batch;
  Answer<CutSkin> const batch = plan_skins(request, {300'000, {}});
  REQUIRE(batch.outcome == Outcome::planned);
  check_plan(request, batch);
  CHECK(batch.proof.cost == 21);
}

TEST_CASE("what cannot be cut is told with its reason") {
  auto const why = [](Skin const& skin, SkinPiece const& what) {
    SkinRequest request;
    request.skins = {skin};
    request.pieces = {what};
    Answer<CutSkin> const answer = plan_skins(request, small());
    CHECK(answer.outcome == Outcome::impossible);
    REQUIRE(answer.obstacles.size() == 1);
    return answer.obstacles[0];
  };
  Obstacle const large = why(sheet(300, 200), piece(310, 100));
  CHECK(large.why == Why::too_large);
  CHECK(large.over == 10 * mm);
  CHECK(large.side == Side::width);
  CHECK(why(sheet(300, 200), piece(150, 250, 1, {0})).why == Why::grain);
  Skin flawed = sheet(300, 200);
  flawed.flaws = {box(140, 90, 160, 110)};
  CHECK(why(flawed, piece(200, 150)).why == Why::flaws);
  Skin poor = sheet(300, 200);
  SkinPiece fine = piece(50, 50);
  fine.least_grade = 1;
  CHECK(why(poor, fine).why == Why::grade);
  CHECK(why(sheet(300, 200), piece(200, 150, 3)).why == Why::not_enough);
  SkinPiece set = piece(150, 190, 3);
  set.group = 1;
  CHECK(why(sheet(300, 200), set).why == Why::group);
}

TEST_CASE("what is kept counts, and the pieces make room for it") {
  SkinRequest request;
  request.skins = {sheet(400, 300, 1000)};
  request.pieces = {piece(100, 100, 3)};
  request.least_kept = 100 * mm;
  request.worth = {1, 2};
  Answer<CutSkin> const answer = plan_skins(request, {300'000, {}});
  REQUIRE(answer.outcome == Outcome::planned);
  check_plan(request, answer);
  // In a row or column: 300 x 300 or 400 x 200 is left, of 400 x 300 at half its price.
  CHECK(answer.proof.cost <= 1000 - 333);
  CHECK(answer.proof.cost >= 1000 - 500);
}

TEST_CASE("ten thousand pieces have an answer in bounded time") {
  SkinRequest request;
  request.skins = {hide()};
  request.skins[0].copies = std::nullopt;
  request.pieces = {piece(20, 15, 9000), piece(35, 25, 900), piece(60, 40, 100)};
  Answer<CutSkin> const answer = plan_skins(request, {0, {}});
  CHECK(answer.outcome == Outcome::planned);
  CHECK(answer.proof.bound <= answer.proof.cost);
  std::size_t laid = 0;
  for (CutSkin const& cut : answer.used) laid += cut.laid.size();
  CHECK(laid == 10'000);
}

TEST_CASE("nothing asked costs nothing, what breaks the contract throws") {
  SkinRequest request;
  request.skins = {sheet(100, 100)};
  CHECK(plan_skins(request, small()).outcome == Outcome::planned);
  request.pieces = {piece(10, 10)};
  request.margin = -1;
  CHECK_THROWS_AS(plan_skins(request, small()), std::logic_error);
  request.margin = 0;
  request.pieces[0].shape = {{0, 0}, {10, 10}, {10, 0}, {0, 10}};
  CHECK_THROWS_AS(plan_skins(request, small()), std::logic_error);
  request.pieces = {piece(10, 10, -1)};
  CHECK_THROWS_AS(plan_skins(request, small()), std::logic_error);
  request.pieces = {piece(10, 10)};
  request.skins[0].cost = -5;
  CHECK_THROWS_AS(plan_skins(request, small()), std::logic_error);
}

}  // namespace

TEST_CASE("a piece of two parts never lies across a wall that their seam touches") {
  // An L of skin, and an L to cut whose seam may come to lie just on the inner wall.
  Skin ell;
  ell.outline = {
      {0, 0}, {200 * mm, 0}, {200 * mm, 100 * mm}, {100 * mm, 100 * mm}, {100 * mm, 200 * mm}, {0, 200 * mm}};
  SkinPiece bent;
  bent.shape = {{0, 0},       {100 * mm, 0}, {100 * mm, 50 * mm}, {50 * mm, 50 * mm}, {50 * mm, 100 * mm},
                {0, 100 * mm}};
  bent.copies = 6;
  bent.angles = {0, 90, 180, 270};
  for (std::int64_t const work : {0, 20'000, 200'000}) {
    Filled const filled = fill_skin(ell, {bent}, 0, {work, {}});
    CHECK_FALSE(filled.cut.laid.empty());
    for (LaidPiece const& laid : filled.cut.laid)
      CHECK(within(moved(turned(bent.shape, laid.angle), laid.at), ell.outline));
  }
}
