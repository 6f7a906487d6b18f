#include "tests/engine/cutting/check/broken.h"

#include <doctest/doctest.h>

#include <limits>

using namespace endband::cutting;

namespace {

using Plan = Answer<CutRoll>;
constexpr auto huge = std::numeric_limits<std::int64_t>::max();

// Two patterns of 300 + 5 + 300 + 5 + 200 from a roll, and 400 from the remnant of 405: no kerf at its end.
LengthRequest request() {
  return {{{1000, 100, std::nullopt}, {405, 30, 1}}, {{300, 4}, {400, 1}, {200, 2}}, 5};
}
Plan plan() {
  Plan plan;
  plan.outcome = Outcome::planned;
  plan.used = {{0, 2, {2, 0, 1}}, {1, 1, {0, 1, 0}}};
  plan.proof = {230, 200, 10};
  return plan;
}
template <class Change>
std::string broken(Change const& change) {
  return broken_by(request(), plan(), change);
}

}  // namespace

TEST_CASE("a good plan of lengths has no fault") {
  CHECK(names(check(request(), plan())).empty());
  CHECK(names(check(LengthRequest{}, Plan{Outcome::planned, {}, {}, {}})).empty());
}

TEST_CASE("every field of a plan of lengths, broken, is named") {
  CHECK(broken([](Plan& p) { p.used[0].roll = 2; }) == "cost no-such-stock");
  CHECK(broken([](Plan& p) { p.used[0].roll = -1; }) == "cost no-such-stock");
  CHECK(broken([](Plan& p) { p.used[0].roll = 1; }) == "cost too-long too-many-stock");
  CHECK(broken([](Plan& p) { p.used[0].times = 1; }) == "cost demand");
  CHECK(broken([](Plan& p) { p.used[0].times = 0; }) == "cost demand times");
  CHECK(broken([](Plan& p) { p.used[0].times = -2; }) == "cost demand times");
  CHECK(broken([](Plan& p) { p.used[1].times = 2; }) == "cost demand too-many-stock");
  CHECK(broken([](Plan& p) { p.used[0].counts[0] = 1; }) == "demand");
  CHECK(broken([](Plan& p) { p.used[0].counts[0] = -2; }) == "counts demand");
  CHECK(broken([](Plan& p) { p.used[0].counts[2] = 2; }) == "demand too-long");
  CHECK(broken([](Plan& p) { p.used[0].counts[2] = huge; }) == "demand too-long");
  CHECK(broken([](Plan& p) { p.used[0].counts.pop_back(); }) == "counts demand");
  CHECK(broken([](Plan& p) { p.used[1].counts = {0, 0, 0}; }) == "counts demand");
  CHECK(broken([](Plan& p) { p.used.pop_back(); }) == "cost demand");
  CHECK(broken([](Plan& p) { p.used.push_back(p.used[1]); }) == "cost demand too-many-stock");
}

TEST_CASE("the stated cost, bound and outcome of lengths are looked at") {
  CHECK(broken([](Plan& p) { p.proof.cost = 229; }) == "cost");
  CHECK(broken([](Plan& p) { p.proof.cost = 231; }) == "cost");
  CHECK(broken([](Plan& p) { p.proof.bound = 231; }) == "bound");
  CHECK(broken([](Plan& p) { p.outcome = Outcome::not_found; }) == "outcome");
  CHECK(broken([](Plan& p) { p.outcome = Outcome::impossible; }) == "outcome");
  CHECK(broken([](Plan& p) { p.obstacles.push_back({0, Why::too_large, Side::none, 1}); }) == "outcome");
  CHECK(broken([](Plan& p) {
          p = {Outcome::impossible, {}, {{7, Why::too_large, Side::none, 1}}, {}};
        }) == "no-such-piece");
  CHECK(broken([](Plan& p) {
          p = {Outcome::impossible, {}, {{0, Why::too_large, Side::none, 1}}, {}};
        }).empty());
  CHECK(broken([](Plan& p) { p = {Outcome::impossible, {}, {}, {}}; }) == "outcome");
  CHECK(broken([](Plan& p) { p = {Outcome::not_found, {}, {}, {}}; }).empty());
}

TEST_CASE("a kerf between two lengths is counted to the micrometre") {
  LengthRequest request{{{605, 1, std::nullopt}}, {{300, 2}}, 5};
  Plan plan{Outcome::planned, {{0, 1, {2}}}, {}, {1, 1, 0}};
  CHECK(names(check(request, plan)).empty());
  request.kerf = 6;
  CHECK(names(check(request, plan)) == "too-long");
}

TEST_CASE("a fault of lengths says where it is") {
  Plan wrong = plan();
  wrong.used[1].times = 2;
  CHECK(check(request(), wrong) ==
        std::vector<PlanFault>{{Broken::too_many_stock, -1, 1}, {Broken::demand, -1, 1}, {Broken::cost}});
  wrong = plan();
  wrong.used[0].counts[0] = -2;
  CHECK(check(request(), wrong).front() == PlanFault{Broken::counts, 0, 0});
}
