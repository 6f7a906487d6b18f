#include "engine/cutting/geometry/fit.h"
#include "engine/cutting/geometry/outline.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <optional>

using namespace endband::cutting;

namespace {

constexpr std::int64_t square_metre = 1'000'000'000'000;

bool is_sound(DefaultSkin const& skin) {
  Box const& room = skin.usable;
  bool sound = validate(skin.outline, {}).empty() && box_of(skin.outline).left == 0 &&
               box_of(skin.outline).bottom == 0;
  sound = sound &&
          within(moved(rectangle(room.right - room.left, room.top - room.bottom), {room.left, room.bottom}),
                 skin.outline);
  for (Zone const& zone : skin.zones)
    sound = sound && !crossing(zone.polygon) && within(zone.polygon, skin.outline);
  return sound;
}

bool is_symmetric(Polygon const& outline) {
  std::int64_t const width = box_of(outline).right;
  for (Point corner : outline)
    if (std::find(outline.begin(), outline.end(), Point{width - corner.x, corner.y}) == outline.end())
      return false;
  return true;
}

}  // namespace

TEST_CASE("a goatskin of half a square metre holds the rectangle said to be usable") {
  auto const skin = default_skin(square_metre / 2, 700'000, 550'000);
  REQUIRE(skin);
  CHECK(is_sound(*skin));
  CHECK(is_symmetric(skin->outline));
  CHECK(skin->holds_usable);
  CHECK(skin->usable.right - skin->usable.left == 550'000);
  CHECK(skin->usable.top - skin->usable.bottom == 700'000);
  CHECK(std::abs(twice_area(skin->outline) - square_metre) <= 2 * 2'000'000);
}

TEST_CASE("back, flank and belly are a half, three tenths and a fifth of the area") {
  auto const skin = default_skin(square_metre / 2, std::nullopt, std::nullopt);
  REQUIRE(skin);
  std::int64_t const all = twice_usable(skin->outline, {});
  auto const from = [&](int grade) {
    return twice_usable(skin->outline, {}, skin->zones, skin->grade, grade);
  };
  CHECK(from(0) == all);
  CHECK(std::abs(from(1) - all / 10 * 8) < 10'000'000);
  CHECK(std::abs(from(2) - all / 2) < 10'000'000);
  CHECK(from(3) == 0);
}

TEST_CASE("whatever is asked for, the area is met within 6 mm2 and the rectangle contained where it can be") {
  for (std::int64_t const area : {square_metre / 20, square_metre / 3, square_metre * 7 / 10, square_metre})
    for (std::int64_t const height : {0, 300'000, 450'001, 900'000})
      for (std::int64_t const width : {0, 299'999, 400'000, 800'000}) {
        auto const given = [](std::int64_t side) { return side > 0 ? std::optional(side) : std::nullopt; };
        auto const skin = default_skin(area, given(height), given(width));
        REQUIRE(skin);
        CHECK(is_sound(*skin));
        CHECK(std::abs(twice_area(skin->outline) - 2 * area) <= 12'000'000);
        CHECK(skin->holds_usable == (height * width <= area));
      }
}

TEST_CASE("a rectangle as large as the skin is the skin") {
  auto const skin = default_skin(200'000LL * 300'000LL, 300'000, 200'000);
  REQUIRE(skin);
  CHECK(is_sound(*skin));
  CHECK(skin->holds_usable);
  CHECK(twice_area(skin->outline) == 2 * 200'000LL * 300'000LL);
  CHECK(box_of(skin->outline).right == 200'000);
}

TEST_CASE("no area, no side and a skin beyond ten metres are refused") {
  auto const wrong = [](std::int64_t area, std::optional<std::int64_t> height,
                        std::optional<std::int64_t> width) {
    auto const skin = default_skin(area, height, width);
    return skin ? std::nullopt : std::optional(skin.error().wrong);
  };
  CHECK(wrong(0, std::nullopt, std::nullopt) == OutlineWrong::no_area);
  CHECK(wrong(99'999'999, std::nullopt, std::nullopt) == OutlineWrong::no_area);
  CHECK(wrong(square_metre, 0, std::nullopt) == OutlineWrong::no_area);
  CHECK(wrong(200 * square_metre, std::nullopt, std::nullopt) == OutlineWrong::too_large);
  CHECK(wrong(square_metre, 10'000'001, std::nullopt) == OutlineWrong::too_large);
  CHECK(wrong(square_metre, std::nullopt, 10) == OutlineWrong::too_large);
}
