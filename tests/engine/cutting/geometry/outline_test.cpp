#include "engine/cutting/geometry/outline.h"

#include "engine/cutting/geometry/fit.h"

#include <doctest/doctest.h>

using namespace endband::cutting;

namespace {

bool is(OutlineFault const& fault, OutlineWrong wrong, int first = 0, int second = 0, int flaw = -1) {
  return fault.wrong == wrong && fault.first == first && fault.second == second && fault.flaw == flaw;
}
template <class T>
bool fails(tl::expected<T, OutlineFault> const& read, OutlineWrong wrong, int first = 0, int second = 0) {
  return !read && is(read.error(), wrong, first, second);
}
tl::expected<Polygon, OutlineFault> by_stations(std::vector<Station> const& stations) {
  return outline_of(stations);
}
tl::expected<Polygon, OutlineFault> by_corners(Polygon const& corners) { return outline_of(corners); }

}  // namespace

TEST_CASE("stations run up the right side and down the left, an end without width is a point") {
  auto const skin = by_stations({{0, 100, 100}, {500, 300, 250}, {900, 0, 0}});
  REQUIRE(skin);
  CHECK(*skin == Polygon{{400, 0}, {550, 500}, {300, 900}, {0, 500}, {200, 0}});
  auto const leaf = by_stations({{100, 0, 0}, {300, 50, 50}, {500, 0, 0}});
  REQUIRE(leaf);
  CHECK(*leaf == Polygon{{50, 0}, {100, 200}, {50, 400}, {0, 200}});
}

TEST_CASE("an outline on one side of the backbone is one, a waist of no width is not") {
  CHECK(by_stations({{0, 0, 10}, {5, 0, 12}, {9, 0, 10}}));
  CHECK(fails(by_stations({{0, 5, 5}, {4, 0, 0}, {9, 5, 5}}), OutlineWrong::crosses, 0, 3));
}

TEST_CASE("stations that are too few, not in order, negative or too far are named") {
  CHECK(fails(by_stations({{0, 5, 5}}), OutlineWrong::few_stations));
  CHECK(fails(by_stations({{0, 5, 5}, {8, 5, 5}, {8, 4, 4}}), OutlineWrong::station_order, 2));
  CHECK(fails(by_stations({{0, 5, 5}, {8, 5, -1}}), OutlineWrong::negative_width, 1));
  CHECK(fails(by_stations({{0, 5, 5}, {10'000'001, 5, 5}}), OutlineWrong::too_large, 1));
  CHECK(fails(by_stations({{0, 6'000'000, 6'000'000}, {8, 5, 5}}), OutlineWrong::too_large, 0));
  CHECK(fails(by_stations({{0, 0, 0}, {8, 0, 0}}), OutlineWrong::few_corners));
}

TEST_CASE("corners may end where they began, and are moved to begin at zero") {
  auto const skin = by_corners({{-5, 3}, {5, 3}, {0, 9}, {-5, 3}});
  REQUIRE(skin);
  CHECK(*skin == Polygon{{0, 0}, {10, 0}, {5, 6}});
}

TEST_CASE("corners that make no outline are refused by name") {
  CHECK(fails(by_corners({{0, 0}, {5, 5}}), OutlineWrong::few_corners));
  CHECK(fails(by_corners({}), OutlineWrong::few_corners));
  CHECK(fails(by_corners({{0, 0}, {5, 5}, {9, 9}}), OutlineWrong::no_area));
  CHECK(fails(by_corners({{1, 1}, {1, 1}, {1, 1}}), OutlineWrong::no_area));
  CHECK(fails(by_corners({{0, 0}, {10, 10}, {10, 0}, {0, 10}}), OutlineWrong::crosses, 0, 2));
  CHECK(fails(by_corners({{0, 0}, {9, 0}, {9, 0}, {0, 9}}), OutlineWrong::crosses, 0, 1));
  CHECK(fails(by_corners({{0, 0}, {10'000'001, 0}, {0, 9}}), OutlineWrong::too_large, 1));
  CHECK(fails(by_corners({{-6'000'000, 0}, {6'000'000, 0}, {0, 9}}), OutlineWrong::too_large));
  CHECK(by_corners({{0, 0}, {10'000'000, 0}, {0, 10'000'000}}));
}

TEST_CASE("every fault of outline and flaws is told") {
  Polygon const outline = rectangle(100, 100);
  std::vector<Polygon> const flaws{moved(rectangle(9, 9), {95, 95}),  // reaches over: fine
                                   moved(rectangle(9, 9), {100, 0}),  // beside
                                   {{0, 0}, {5, 5}, {5, 0}, {0, 5}},  // crosses itself
                                   {{0, 0}, {1, 1}}};
  auto const faults = validate(outline, flaws);
  REQUIRE(faults.size() == 3);
  CHECK(is(faults[0], OutlineWrong::flaw_outside, 0, 0, 1));
  CHECK(is(faults[1], OutlineWrong::crosses, 0, 2, 2));
  CHECK(is(faults[2], OutlineWrong::few_corners, 0, 0, 3));
  auto const both = validate({{0, 0}, {1, 1}}, flaws);
  REQUIRE(both.size() == 3);
  CHECK(is(both[0], OutlineWrong::few_corners));
  CHECK(validate(outline, {}).empty());
}

TEST_CASE("a round flaw holds its disc and little more") {
  for (std::int64_t const radius : {1, 7, 500, 3'000, 1'000'000}) {
    Polygon const flaw = round_flaw({40, -7}, radius);
    CHECK_FALSE(crossing(flaw));
    // Every edge is at least the radius away from the centre, every corner at most 0.9 % and 1.5 um (1 um a
    // coordinate).
    for (std::size_t i = 0; i < flaw.size(); ++i) {
      Point const a = flaw[i], b = flaw[(i + 1) % flaw.size()];
      __extension__ using Wide = __int128;
      Wide const across =
          static_cast<Wide>(b.x - a.x) * (-7 - a.y) - static_cast<Wide>(b.y - a.y) * (40 - a.x);
      Wide const length =
          static_cast<Wide>(b.x - a.x) * (b.x - a.x) + static_cast<Wide>(b.y - a.y) * (b.y - a.y);
      CHECK(across * across >= static_cast<Wide>(radius) * radius * length);
      std::int64_t const most = radius * 1009 / 1000 + 2;
      CHECK((a.x - 40) * (a.x - 40) + (a.y + 7) * (a.y + 7) <= most * most);
    }
  }
  CHECK(round_flaw({0, 0}, 1'000'000).size() == 24);
}
