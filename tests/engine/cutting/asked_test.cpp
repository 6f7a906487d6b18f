// What a key asks is what it was made of, for each kind of request; nothing else is read as a key.
#include "engine/cutting/asked.h"

#include <doctest/doctest.h>

using namespace endband;

namespace {

std::vector<CutRequest> one_of_each() {
  CutRequest sheets, skins, lengths;
  sheets.asked =
      cutting::SheetRequest{{{640'000, 900'000, 1'000'000, std::nullopt, false}, {500, 600, 7, 3, true}},
                            {{210'000, 300'000, 4, true}, {1, 2, 3, false}},
                            3'000,
                            1'000,
                            80'000,
                            {1, 2}};
  cutting::Skin skin;
  skin.outline = {{0, 0}, {640'000, 0}, {600'000, 900'000}};
  skin.flaws = {{{100, 100}, {120, 100}, {110, 130}}};
  skin.zones = {{{{-5, 0}, {640, 0}, {640, 100}}, 1}};
  skin.grade = 2;
  skin.cost = 1'000'000;
  skin.batch = 4;
  cutting::SkinPiece piece;
  piece.shape = {{0, 0}, {100'000, 0}, {100'000, 200'000}};
  piece.angles = {0, 90};
  piece.copies = 2;
  piece.least_grade = 1;
  piece.group = 65'537;
  piece.together = cutting::Together::one_batch;
  skins.asked = cutting::SkinRequest{{skin}, {piece}, 2'000, 80'000, {2, 3}};
  skins.sold = {600'000'000'000, Ratio(17, 25), false};
  lengths.asked = cutting::LengthRequest{{{10'000'000, 10'000'000, std::nullopt}}, {{350'000, 6}}, 0};
  lengths.least_kept = 80'000;
  lengths.sold.by_the_metre = true;
  return {sheets, skins, lengths};
}

}  // namespace

TEST_CASE("a key says all that was asked") {
  for (CutRequest const& request : one_of_each()) {
    PlanKey const key = plan_key(request, 12'345);
    std::optional<Asked> const asked = asked_by(key);
    REQUIRE(asked.has_value());
    CHECK(asked->work == 12'345);
    CHECK(plan_key(asked->request, asked->work) == key);
    bool const skin = std::holds_alternative<cutting::SkinRequest>(request.asked);
    REQUIRE_FALSE(asked->request.stock.empty());
    CHECK(asked->request.stock.front().guess == skin);
  }
}

TEST_CASE("what is no key of these solvers, or asks too much, asks nothing") {
  for (CutRequest const& request : one_of_each()) {
    PlanKey const key = plan_key(request, 12'345);
    PlanKey more = key, other = key;
    more.push_back(0);
    ++other.front();
    CHECK_FALSE(asked_by(more).has_value());
    CHECK_FALSE(asked_by(other).has_value());
    for (std::size_t n = 0; n < key.size(); ++n) {
      CHECK_FALSE(asked_by({key.begin(), key.begin() + static_cast<std::ptrdiff_t>(n)}).has_value());
      PlanKey huge = key;
      huge[n] = std::int64_t{1} << 62;
      CHECK_FALSE(asked_by(huge).has_value());
    }
  }
}
