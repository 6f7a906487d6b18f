// Plans of the solvers pass the check, and moved by a micrometre they do not.
#include "tests/engine/cutting/check/broken.h"

#include <doctest/doctest.h>

using namespace endband::cutting;

namespace {

Budget const budget{3'000, {}};

class Chance {  // the same numbers every time
 public:
  explicit Chance(std::uint64_t seed) : state_(seed) {}
  std::int64_t from(std::int64_t least, std::int64_t most) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return least + static_cast<std::int64_t>((state_ >> 33) % static_cast<std::uint64_t>(most - least + 1));
  }
  bool coin() { return from(0, 1) == 1; }

 private:
  std::uint64_t state_;
};

LengthRequest lengths(Chance& chance) {
  LengthRequest request;
  request.rolls = {{2500, 255, std::nullopt}, {1685, 76, 1}, {1231, 83, 2}};
  request.kerf = chance.from(0, 6);
  for (int i = 0; i < 6; ++i) request.pieces.push_back({chance.from(90, 1200), chance.from(1, 4)});
  return request;
}

SheetRequest sheets(Chance& chance) {
  SheetRequest request;
  request.sheets = {{1000, 700, 460, std::nullopt}, {450, 443, 65, 2}};
  if (chance.coin()) request.sheets.push_back({600, 20'000, 9000, std::nullopt, true});
  for (int i = 0; i < 5; ++i)
    request.pieces.push_back({chance.from(60, 400), chance.from(60, 400), chance.from(1, 3), chance.coin()});
  request.kerf = chance.from(0, 4);
  request.trim = chance.from(0, 8);
  if (chance.coin()) request.least_kept = 150;
  request.worth = {chance.from(0, 2), 2};
  return request;
}

SkinRequest skins(Chance& chance) {
  SkinRequest request;
  Skin skin;
  skin.outline = {{150'000, 0},       {700'000, 30'000}, {900'000, 400'000},
                  {600'000, 850'000}, {90'000, 700'000}, {0, 200'000}};
  skin.flaws = {{{300'000, 300'000}, {340'000, 310'000}, {310'000, 350'000}}};
  skin.zones = {{{{0, 0}, {250'000, 0}, {250'000, 900'000}, {0, 900'000}}, 1}};
  skin.grade = 2;
  skin.cost = 100;
  request.skins = {skin, skin};
  request.skins[0].copies = 2;
  request.skins[1].copies = 1;
  request.skins[1].cost = 90;
  for (int i = 0; i < 3; ++i) {
    SkinPiece piece;
    piece.shape = rectangle(chance.from(50, 200) * 1000, chance.from(50, 200) * 1000);
    piece.copies = chance.from(1, 2);
    piece.angles = {0, 90};
    piece.least_grade = static_cast<int>(chance.from(1, 2));
    request.pieces.push_back(piece);
  }
  request.pieces.push_back(
      {{{0, 0}, {150'000, 0}, {40'000, 120'000}}, 1, {0, 37, 180}, 1, 0, Together::one_skin});
  request.margin = chance.from(0, 3) * 1000;
  if (chance.coin()) request.least_kept = 100'000;
  request.worth = {1, 2};
  return request;
}

}  // namespace

TEST_CASE("plans of lengths pass, with one count more they do not") {
  Chance chance(3);
  for (int i = 0; i < 25; ++i) {
    LengthRequest const request = lengths(chance);
    Answer<CutRoll> const answer = plan_lengths(request, budget);
    REQUIRE(names(check(request, answer)) == "");
    for (std::size_t u = 0; u < answer.used.size(); ++u) {
      CHECK(broken_by(request, answer, [&](auto& plan) { plan.used[u].times += 1; }).find("demand") !=
            std::string::npos);
      for (std::size_t c = 0; c < request.pieces.size(); ++c)
        CHECK(broken_by(request, answer, [&](auto& plan) { plan.used[u].counts[c] += 1; }).find("demand") !=
              std::string::npos);
    }
  }
}

TEST_CASE("plans of sheets pass, with a piece, a cut or an offcut moved they do not") {
  Chance chance(5);
  for (int i = 0; i < 12; ++i) {
    SheetRequest const request = sheets(chance);
    Answer<CutSheet> const answer = plan_sheets(request, budget);
    REQUIRE(names(check(request, answer)) == "");
    REQUIRE(answer.outcome == Outcome::planned);
    for (std::size_t u = 0; u < answer.used.size(); ++u) {
      CutSheet const& cut = answer.used[u];
      for (std::size_t l = 0; l < cut.laid.size(); ++l) {
        CHECK(broken_by(request, answer, [&](auto& plan) { plan.used[u].laid[l].x += 1; }) == "part-place");
        CHECK(broken_by(request, answer, [&](auto& plan) { plan.used[u].laid[l].y -= 1; }) == "part-place");
        CHECK(broken_by(request, answer, [&](auto& plan) { plan.used[u].laid[l].part = -1; }) ==
              "no-such-part");
      }
      for (std::size_t k = 0; k < cut.kept.size(); ++k) {
        CHECK(broken_by(request, answer, [&](auto& plan) { plan.used[u].kept[k].x -= 1'000'000; }) == "kept");
        CHECK(broken_by(request, answer, [&](auto& plan) {
                plan.used[u].kept[k].height += 1'000'000;
              }).find("kept") != std::string::npos);
      }
      for (std::size_t k = 0; k < cut.cuts.size(); ++k)
        CHECK(broken_by(request, answer, [&](auto& plan) {
                plan.used[u].cuts[k].at = 0;
              }).find("cut-outside") != std::string::npos);
    }
    CHECK(broken_by(request, answer, [](auto& plan) { plan.proof.cost -= 1; }).find("cost") !=
          std::string::npos);
  }
}

TEST_CASE("one sheet filled passes the check") {
  Chance chance(7);
  for (int i = 0; i < 20; ++i) {
    Sheet const sheet{1000, 700, 1, 1};
    std::vector<ValuedRect> pieces;
    for (int n = 0; n < 6; ++n) {
      ValuedRect piece{{chance.from(60, 400), chance.from(60, 400), chance.from(1, 4), chance.coin()}, 0};
      piece.value = piece.rect.width * piece.rect.height;
      pieces.push_back(piece);
    }
    std::int64_t const kerf = chance.from(0, 5);
    CHECK(names(check(sheet, pieces, kerf, 10, best_of_sheet(sheet, pieces, kerf, 10, budget))) == "");
    for (ValuedRect& piece : pieces) piece.rect.copies = 1'000'000;
    CHECK(names(check(sheet, pieces, kerf, 10, best_of_sheet_unlimited(sheet, pieces, kerf, 10))) == "");
  }
}

TEST_CASE("plans of skins pass, with a piece moved off the skin or onto another they do not") {
  Chance chance(11);
  for (int i = 0; i < 5; ++i) {
    SkinRequest const request = skins(chance);
    Answer<CutSkin> const answer = plan_skins(request, budget);
    REQUIRE(names(check(request, answer)) == "");
    for (std::size_t u = 0; u < answer.used.size(); ++u)
      for (std::size_t l = 0; l < answer.used[u].laid.size(); ++l) {
        auto const moved_to = [&](Point at) {
          return broken_by(request, answer, [&](auto& plan) { plan.used[u].laid[l].at = at; });
        };
        CHECK(moved_to({0, 0}).find("outside") != std::string::npos);
        CHECK(moved_to({-1, 400'000}).find("outside") != std::string::npos);
        if (l > 0) CHECK(moved_to(answer.used[u].laid[0].at).find("overlap") != std::string::npos);
      }
  }
}

TEST_CASE("one skin filled passes the check") {
  Chance chance(13);
  for (int i = 0; i < 5; ++i) {
    SkinRequest const request = skins(chance);
    Filled const filled = fill_skin(request.skins[0], request.pieces, request.margin, budget);
    CHECK(names(check(request.skins[0], request.pieces, request.margin, filled)) == "");
  }
}
