#include "tests/engine/cutting/check/broken.h"

#include <doctest/doctest.h>

#include <limits>

using namespace endband::cutting;

namespace {

using Plan = Answer<CutSkin>;
constexpr auto huge = std::numeric_limits<std::int64_t>::max();

Polygon box(std::int64_t left, std::int64_t bottom, std::int64_t right, std::int64_t top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

// A square of 1000 with a corner cut off, a flaw within, one over the edge, and a poor zone; usable 967,500.
// And a poor square with a good zone at its lower left.
Skin first() {
  Skin skin;
  skin.outline = {{0, 0}, {1000, 0}, {1000, 800}, {800, 1000}, {0, 1000}};
  skin.flaws = {box(400, 400, 500, 500), box(950, -50, 1050, 50)};
  skin.zones = {{box(0, 600, 300, 1000), 1}};
  skin.grade = 3;
  skin.cost = 100;
  return skin;
}
Skin second() {
  Skin skin;
  skin.outline = box(0, 0, 1000, 1000);
  skin.zones = {{box(0, 0, 600, 600), 3}};
  skin.grade = 1;
  skin.cost = 50;
  skin.batch = 4;
  return skin;
}
SkinRequest request() {
  SkinRequest request;
  request.skins = {first(), second()};
  request.pieces = {{rectangle(300, 200), 1, {0, 90}, 2, 0, Together::one_skin},
                    {{{0, 0}, {200, 0}, {0, 200}}, 1, {0}, 0, 0, Together::one_skin},
                    {rectangle(250, 250), 1, {0}, 3, 1, Together::one_skin},
                    {rectangle(250, 250), 1, {0}, 3, 1, Together::one_skin}};
  request.margin = 10;
  request.least_kept = 300;
  request.worth = {1, 2};
  return request;
}
// Kept: 480 x 740 of the first, worth 100 x 355,200 / (2 x 967,500) = 18.4; 460 x 1000 of the second,
// worth 11.5.
Plan plan() {
  Plan plan;
  plan.outcome = Outcome::planned;
  plan.used = {{0, {{0, 90, {10, 10}}, {1, 0, {20, 700}}}, {520, 60, 1000, 800}, 1'775'000},
               {1, {{2, 0, {20, 20}}, {3, 0, {280, 20}}}, {540, 0, 1000, 1000}, 1'750'000}};
  plan.proof = {121, 100, 10};
  return plan;
}
template <class Change>
std::string broken(Change const& change) {
  return broken_by(request(), plan(), change);
}
template <class Change>
std::string asked(Change const& change) {
  SkinRequest other = request();
  change(other);
  return names(check(other, plan()));
}

}  // namespace

TEST_CASE("a good plan of skins has no fault") { CHECK(names(check(request(), plan())).empty()); }

TEST_CASE("a wrong skin is named") {
  CHECK(broken([](Plan& p) { p.used[0].skin = 2; }) == "cost demand no-such-stock");
  CHECK(broken([](Plan& p) { p.used[0].skin = -1; }) == "cost demand no-such-stock");
  CHECK(broken([](Plan& p) { p.used.push_back({1, {}, {}, 2'000'000}); }) == "cost too-many-stock");
  CHECK(broken([](Plan& p) { p.used.pop_back(); }) == "cost demand");
}

TEST_CASE("every field of a piece on a skin, broken, is named") {
  CHECK(broken([](Plan& p) { p.used[0].laid[0].piece = 4; }) == "demand left no-such-piece");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].piece = -1; }) == "demand left no-such-piece");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].angle = 180; }) == "angle");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].angle = std::numeric_limits<int>::max(); }).substr(0, 5) ==
        "angle");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].angle = 0; }).empty());  // it fits either way
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {-1, 10}; }) == "outside");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {huge, 10}; }) == "left outside");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {10, -huge}; }) == "left outside");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {9, 10}; }) == "margin");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {191, 101}; }) == "margin");  // 9 left of the flaw
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {190, 101}; }).empty());
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {250, 250}; }) == "in-flaw");
  CHECK(broken([](Plan& p) {
          p.used[0].laid[0].at = {310, 330};
        }) == "in-flaw");  // the flaw lies wholly under it
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {10, 310}; }) == "grade");
  CHECK(broken([](Plan& p) {
          p.used[0].laid[0].at = {10, 300};
        }).empty());  // the edge of the zone is not touched
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {20, 650}; }) == "grade overlap");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].at = {510, 60}; }) == "left");
  CHECK(broken([](Plan& p) { p.used[1].laid[1].at = {279, 20}; }) == "margin");
  CHECK(broken([](Plan& p) { p.used[1].laid[1].at = {20, 20}; }) == "overlap");
  CHECK(broken([](Plan& p) { p.used[1].laid[1].at = {280, 351}; }) == "grade");
  CHECK(broken([](Plan& p) { p.used[0].laid.pop_back(); }) == "demand left");
  CHECK(broken([](Plan& p) { p.used[0].laid.push_back({0, 0, {10, 320}}); }) == "demand left");
}

TEST_CASE("what is left of a skin, broken, is named") {
  CHECK(broken([](Plan& p) { p.used[0].twice_area_left += 3; }) == "left");
  CHECK(broken([](Plan& p) { p.used[0].twice_area_left -= 3; }) == "left");
  CHECK(broken([](Plan& p) { p.used[0].largest_left.left = 499; }) == "cost left");
  CHECK(broken([](Plan& p) { p.used[0].largest_left.bottom = 49; }) == "left");  // still worth 18
  CHECK(broken([](Plan& p) { p.used[0].largest_left.top = 801; }) == "left");
  CHECK(broken([](Plan& p) { p.used[0].largest_left.right = 1001; }) == "left");
  CHECK(broken([](Plan& p) { p.used[0].largest_left = {520, 60, 520, 800}; }) == "cost left");
  CHECK(broken([](Plan& p) { p.used[0].largest_left = {800, 800, 520, 60}; }) == "cost left");
  CHECK(broken([](Plan& p) { p.used[0].largest_left = {-huge, 60, huge, 800}; }) == "cost left");
  CHECK(broken([](Plan& p) { p.used[0].largest_left = {}; }) == "cost");
  CHECK(broken([](Plan& p) {
          p.used[0].largest_left = {520, 60, 819, 800};
        }) == "cost");  // too narrow to be kept
}

TEST_CASE("the stated cost, bound and outcome of skins are looked at") {
  CHECK(broken([](Plan& p) { p.proof.cost = 120; }) == "cost");
  CHECK(broken([](Plan& p) { p.proof.bound = 122; }) == "bound");
  CHECK(broken([](Plan& p) { p.outcome = Outcome::impossible; }) == "outcome");
}

TEST_CASE("the same skins do not answer another request") {
  CHECK(asked([](SkinRequest& r) { r.margin = 11; }) == "margin");
  CHECK(asked([](SkinRequest& r) { r.least_kept = 461; }) == "cost");
  CHECK(asked([](SkinRequest& r) { r.worth = {1, 1}; }) == "cost");
  CHECK(asked([](SkinRequest& r) { r.skins[0].copies = 0; }) == "too-many-stock");
  CHECK(asked([](SkinRequest& r) { r.skins[0].grade = 1; }) == "grade");
  CHECK(asked([](SkinRequest& r) { r.skins[1].zones.push_back({box(500, 0, 600, 100), 2}); }) == "grade");
  CHECK(asked([](SkinRequest& r) { r.pieces[1].least_grade = 2; }) == "grade");
  CHECK(asked([](SkinRequest& r) { r.pieces[0].angles = {0}; }) == "angle");
  CHECK(asked([](SkinRequest& r) { r.pieces[0].shape[1].x += 1; }) != "");
}

TEST_CASE("a group on two skins is named, and on two batches") {
  SkinRequest apart = request();
  apart.pieces[0].group = apart.pieces[1].group = 2;
  apart.pieces[2].group = 2;
  apart.pieces[3].group = 0;
  for (SkinPiece& piece : apart.pieces) piece.together = Together::one_batch;
  CHECK(names(check(apart, plan())) == "group");
  apart.skins[1].batch = 0;
  CHECK(names(check(apart, plan())).empty());
  apart.pieces[2].together = Together::one_skin;
  CHECK(names(check(apart, plan())) == "group");
}

TEST_CASE("good zones that only together cover a piece cover it") {
  SkinRequest request;
  Skin skin = second();
  skin.zones = {{box(0, 0, 100, 200), 2}, {box(100, 0, 200, 200), 3}};
  request.skins = {skin};
  request.pieces = {{rectangle(200, 200), 1, {0}, 2, 0, Together::one_skin}};
  Plan plan{Outcome::planned, {{0, {{0, 0, {0, 0}}}, {}, 1'920'000}}, {}, {50, 50, 0}};
  CHECK(names(check(request, plan)).empty());
  request.skins[0].zones[1].polygon[0].x = request.skins[0].zones[1].polygon[3].x = 101;
  CHECK(names(check(request, plan)) == "grade");
}

TEST_CASE("one skin filled: area, all and whole groups are looked at") {
  std::vector<SkinPiece> pieces = request().pieces;
  Filled const good{
      {0, {{0, 90, {10, 10}}, {1, 0, {20, 700}}}, {520, 60, 1000, 800}, 1'775'000}, 160'000, false, 0};
  auto const broken = [&](auto const& change) {
    Filled other = good;
    change(other);
    return names(check(first(), pieces, 10, other));
  };
  CHECK(broken([](Filled&) {}).empty());
  CHECK(broken([](Filled& f) { f.twice_area -= 1; }) == "cost");
  CHECK(broken([](Filled& f) { f.all = true; }) == "outcome");
  CHECK(broken([](Filled& f) { f.cut.skin = 1; }) == "no-such-stock");
  CHECK(broken([](Filled& f) { f.cut.laid.push_back({0, 0, {10, 320}}); }) == "cost demand left");
  pieces[2].group = 0;
  pieces[0].group = 1;
  CHECK(broken([](Filled&) {}) == "group");
}
