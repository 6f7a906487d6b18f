#include "tests/engine/cutting/check/broken.h"

#include <doctest/doctest.h>

#include <limits>

using namespace endband::cutting;

namespace {

using Plan = Answer<CutSheet>;
constexpr auto huge = std::numeric_limits<std::int64_t>::max();

// A sheet of 1000 x 700 with a trim of 10, and 300 torn off a roll 500 wide; kerf 5.
SheetRequest request() {
  SheetRequest request;
  request.sheets = {{1000, 700, 100, 1}, {500, 10000, 1000, std::nullopt, true}};
  request.pieces = {{400, 300, 2}, {200, 100, 1, true}, {480, 300, 1}};
  request.kerf = 5;
  request.trim = 10;
  request.least_kept = 100;
  request.worth = {1, 2};
  return request;
}
// Part 1 is the lowest 300, 2 what lies above; 3 and 5 the two pieces, 9 the turned one, 8 and 10 waste. What
// is kept is worth 100 x 980 x 375 / (2 x 1000 x 700) = 26.25; the length costs 1000 x 300 / 10000 = 30.
Plan plan() {
  Plan plan;
  plan.outcome = Outcome::planned;
  CutSheet sheet;
  sheet.cuts = {{0, true, 300}, {1, false, 400}, {4, false, 400}, {6, false, 100}, {7, true, 200}};
  sheet.laid = {{0, 3, 10, 10}, {0, 5, 415, 10}, {1, 9, 820, 10, true}};
  sheet.kept = {{2, 10, 315, 980, 375}};
  CutSheet torn;
  torn.sheet = 1;
  torn.length = 300;
  torn.laid = {{2, 0, 10, 0}};
  plan.used = {sheet, torn};
  plan.proof = {104, 90, 10};
  return plan;
}
template <class Change>
std::string broken(Change const& change) {
  return broken_by(request(), plan(), change);
}
template <class Change>
std::string asked(Change const& change) {
  SheetRequest other = request();
  change(other);
  return names(check(other, plan()));
}

}  // namespace

TEST_CASE("a good plan of sheets has no fault") { CHECK(names(check(request(), plan())).empty()); }

TEST_CASE("a wrong sheet or length is named") {
  CHECK(broken([](Plan& p) { p.used[0].sheet = 2; }) == "cost demand no-such-stock");
  CHECK(broken([](Plan& p) { p.used[0].sheet = -1; }) == "cost demand no-such-stock");
  CHECK(broken([](Plan& p) { p.used.push_back({0, 0, {}, {}, {}}); }) == "cost too-many-stock");
  CHECK(broken([](Plan& p) { p.used[0].length = 1; }) == "length");
  CHECK(broken([](Plan& p) { p.used[1].length = 301; }) == "cost part-size");
  CHECK(broken([](Plan& p) { p.used[1].length = 299; }) == "part-size");  // 29.9 is 30, too
  CHECK(broken([](Plan& p) { p.used[1].length = 0; }) == "cost length no-such-part");
  CHECK(broken([](Plan& p) { p.used[1].length = 10001; }) == "cost length part-size");
  CHECK(broken([](Plan& p) { p.used.pop_back(); }) == "cost demand");
}

TEST_CASE("every field of a cut, broken, is named") {
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].part = 1; }) == "no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].part = -1; }) == "no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts[2].part = 5; }) == "no-such-part");  // its own half
  CHECK(broken([](Plan& p) { p.used[0].cuts[1].part = 0; }) == "cut-twice no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].at = 0; }) == "cut-outside no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].at = -1; }) == "cut-outside no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].at = 680; }) == "cut-outside no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].at = huge; }) == "cut-outside no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].at = 301; }) == "kept part-size");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].at = 299; }) == "part-size");
  CHECK(broken([](Plan& p) { p.used[0].cuts[1].at = 401; }) == "part-place part-size");
  CHECK(broken([](Plan& p) { p.used[0].cuts[0].across = false; }) != "");
  CHECK(broken([](Plan& p) { p.used[0].cuts[4].across = false; }) == "cut-outside no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts.pop_back(); }) == "no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].cuts.push_back({2, true, 100}); }) == "cut-twice");
  CHECK(broken([](Plan& p) { p.used[0].cuts.push_back({3, true, 100}); }) == "cut-twice");
  CHECK(broken([](Plan& p) {
          p.used[0].cuts.push_back({8, true, 100});
        }).empty());  // a needless cut of waste
}

TEST_CASE("every field of a laid piece, broken, is named") {
  CHECK(broken([](Plan& p) { p.used[0].laid[0].piece = 3; }) == "demand no-such-piece");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].piece = -1; }) == "demand no-such-piece");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].piece = 2; }) == "demand part-size");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].part = 5; }) == "part-place part-used-twice");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].part = 2; }) == "part-place part-size part-used-twice");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].part = 0; }) == "cut-twice");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].part = 11; }) == "no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].part = -1; }) == "no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].x = 0; }) == "part-place");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].x = huge; }) == "part-place");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].y = 11; }) == "part-place");
  CHECK(broken([](Plan& p) { p.used[0].laid[0].turned = true; }) == "grain part-size");
  CHECK(broken([](Plan& p) { p.used[0].laid[2].turned = false; }) == "part-size");
  CHECK(broken([](Plan& p) { p.used[0].laid.pop_back(); }) == "demand");
  CHECK(broken([](Plan& p) { p.used[0].laid.push_back(p.used[0].laid[0]); }) == "demand part-used-twice");
}

TEST_CASE("every field of a kept offcut, broken, is named") {
  CHECK(broken([](Plan& p) { p.used[0].kept[0].part = 3; }) == "part-used-twice");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].part = 0; }) == "cut-twice");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].part = 99; }) == "no-such-part");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].x = 11; }) == "kept");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].y = 314; }) == "kept");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].y = huge; }) == "kept");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].width = 981; }) == "kept");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].height = 376; }) == "kept");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].height = 99; }) == "cost kept");
  CHECK(broken([](Plan& p) { p.used[0].kept[0].height = huge; }) == "cost kept");
  CHECK(broken([](Plan& p) { p.used[0].kept.clear(); }) == "cost");
  CHECK(broken([](Plan& p) {
          p.used[0].kept.push_back({8, 925, 10, 65, 300});
        }) == "cost kept");  // 65 is too narrow
  CHECK(broken([](Plan& p) {
          p.used[1].kept.push_back({0, 10, 0, 480, 300});
        }) == "cost kept part-used-twice");
}

TEST_CASE("the stated cost, bound and outcome of sheets are looked at") {
  CHECK(broken([](Plan& p) { p.proof.cost = 103; }) == "cost");
  CHECK(broken([](Plan& p) { p.proof.cost = 105; }) == "cost");
  CHECK(broken([](Plan& p) { p.proof.bound = 105; }) == "bound");
  CHECK(broken([](Plan& p) { p.outcome = Outcome::not_found; }) == "outcome");
  CHECK(broken([](Plan& p) { p = {Outcome::impossible, {}, {}, {}}; }) == "outcome");
}

TEST_CASE("the same plan does not answer another request") {
  CHECK(asked([](SheetRequest& r) { r.kerf = 6; }) == "kept part-place");
  CHECK(asked([](SheetRequest& r) { r.trim = 11; }) == "kept part-place part-size");
  CHECK(asked([](SheetRequest& r) { r.trim = 400; }).find("no-such-part") != std::string::npos);
  CHECK(asked([](SheetRequest& r) { r.least_kept = 376; }) == "kept");
  CHECK(asked([](SheetRequest& r) { r.least_kept = 0; }) == "kept");
  CHECK(asked([](SheetRequest& r) { r.worth = {1, 4}; }) == "cost");
  CHECK(asked([](SheetRequest& r) { r.pieces[1].turns = false; }) == "grain");
  CHECK(asked([](SheetRequest& r) { r.pieces[1].copies = 2; }) == "demand");
  CHECK(asked([](SheetRequest& r) { r.sheets[0].copies = 0; }) == "too-many-stock");
  CHECK(asked([](SheetRequest& r) { r.sheets[0].cost = 101; }) == "cost");
  CHECK(asked([](SheetRequest& r) { r.sheets[0].cost = huge; }) == "cost");
}

TEST_CASE("a cut that leaves less than its kerf leaves no part") {
  SheetRequest request;
  request.sheets = {{100, 50, 1}};
  request.pieces = {{96, 50, 1}};
  request.kerf = 5;
  Plan plan{Outcome::planned, {{0, 0, {{0, 1, 0, 0}}, {{0, false, 96}}, {}}}, {}, {1, 1, 0}};
  CHECK(names(check(request, plan)).empty());
  plan.used[0].cuts.push_back({2, true, 1});
  CHECK(names(check(request, plan)) == "no-such-part");
}

TEST_CASE("one sheet: the value, its bound and the most copies are looked at") {
  Sheet const sheet{100, 50, 1};
  std::vector<ValuedRect> const pieces{{{40, 50, 2}, 7}, {{20, 50, 1}, 2}};
  OneSheet good;
  good.cut.cuts = {{0, false, 40}, {2, false, 40}};
  good.cut.laid = {{0, 1, 0, 0}, {0, 3, 40, 0}, {1, 4, 80, 0}};
  good.value = 16;
  good.bound = 17;
  auto const broken = [&](auto const& change) {
    OneSheet other = good;
    change(other);
    return names(check(sheet, pieces, 0, 0, other));
  };
  CHECK(broken([](OneSheet&) {}).empty());
  CHECK(broken([](OneSheet& o) { o.value = 17; }) == "cost");
  CHECK(broken([](OneSheet& o) { o.value = 15; }) == "cost");
  CHECK(broken([](OneSheet& o) { o.bound = 15; }) == "bound");
  CHECK(broken([](OneSheet& o) { o.cut.sheet = 1; }) == "no-such-stock");
  CHECK(broken([](OneSheet& o) { o.cut.laid.pop_back(), o.value = 14; }).empty());  // not all need be cut
  CHECK(broken([](OneSheet& o) { o.cut.laid[1].x = 41; }) == "part-place");
  CHECK(names(check(sheet, {{{40, 50, 1}, 7}, {{20, 50, 1}, 2}}, 0, 0, good)) == "demand");
  CHECK(names(check(sheet, pieces, 1, 0, good)) == "part-place part-size");
}
