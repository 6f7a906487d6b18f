// What past jobs teach, and a step or material with what it was taught.
#include "engine/review/lessons.h"

#include <doctest/doctest.h>

using doctest::Approx;
using namespace endband;

namespace {

constexpr OperationKind sew = OperationKind::sew_sections;
constexpr OperationKind folding = OperationKind::fold_sheets;

// So many jobs sold through an outlet; what each took as a multiple of the hour that it was timed at.
struct Jobs {
  std::vector<PastJob> jobs;
  StepSeen seen{sew, {}, {}};
  void add(std::size_t count, std::string const& outlet, double times) {
    for (std::size_t i = 0; i < count; ++i) {
      seen.jobs.push_back(jobs.size());
      seen.times.push_back({3600, 3600 * times * (i % 2 == 0 ? 0.97 : 1.03)});
      PastJob& job = jobs.emplace_back();
      job.number = "26-" + std::to_string(100 + jobs.size());
      job.outlet = outlet;
    }
  }
  LearnedStep learned() const { return learned_steps(std::vector{seen}, jobs).at(0); }
};

Material calf() {
  Material material;
  material.code = "calf";
  material.spoil = {10, 100};
  material.least_spoil = {Dimension::area, 1000};
  return material;
}
SpoilSeen spoiled(std::size_t jobs, double times) {
  SpoilSeen seen{MaterialId{3}, {}, 0, 0};
  for (std::size_t i = 0; i < jobs; ++i) seen.times.push_back({100, 100 * times * (i % 2 == 0 ? 0.9 : 1.1)});
  seen.taken = static_cast<std::int64_t>(jobs);
  return seen;
}

}  // namespace

TEST_CASE(
    "a step that took half as long again in many jobs is surely out, one in its range or of few is not") {
  Jobs slow, even, three;
  slow.add(20, "", 1.5);
  even.add(20, "", 1.0);
  three.add(3, "", 1.5);
  CHECK(slow.learned().timed_s == 3600);
  CHECK(slow.learned().took_s == 5400);
  CHECK(slow.learned().factor.value == Approx((4 + 20 * 1.5) / 24));  // four jobs' worth of what was believed
  CHECK(surely_out(slow.learned()) > 0);
  CHECK(surely_out(even.learned()) == 0);
  CHECK(surely_out(three.learned()) == 0);
}

TEST_CASE("what is slow through one outlet only is the outlet's doing") {
  Jobs jobs;
  jobs.add(10, "gallery", 3);
  jobs.add(10, "", 1);
  LearnedStep const step = jobs.learned();
  REQUIRE(step.only);
  CHECK(step.only->outlet == "gallery");
  CHECK(step.only->through.n == 10);
  CHECK(surely_out(step) == 0);
  Jobs everywhere;
  everywhere.add(10, "gallery", 3);
  everywhere.add(10, "", 2.8);
  CHECK_FALSE(everywhere.learned().only);
  Jobs own;  // the workshop itself is no outlet
  own.add(10, "", 3);
  own.add(10, "gallery", 1);
  CHECK_FALSE(own.learned().only);
  Jobs few_through;
  few_through.add(2, "gallery", 3);
  few_through.add(10, "", 1);
  CHECK_FALSE(few_through.learned().only);
}

TEST_CASE("steps come by the hours they were out, most first, a job far from the others is named") {
  Jobs jobs;
  jobs.add(9, "", 1.1);
  jobs.seen.times.back().was = 36'000;
  StepSeen small = jobs.seen;
  small.operation = folding;
  for (Seen& time : small.times) time = {time.believed / 60, time.was / 60};
  auto const learned = learned_steps(std::vector{small, jobs.seen}, jobs.jobs);
  CHECK(learned.at(0).operation == sew);
  CHECK(learned.at(1).operation == folding);
  REQUIRE(learned.at(0).far.size() == 1);
  CHECK(learned.at(0).far.front().number == "26-109");
  CHECK(learned.at(0).far.front().ratio == Approx(10));
}

TEST_CASE("a step as learned: each of its times by the factor, to a second") {
  Step step;
  step.set_up = {{60}, {120}, {240}};
  step.each = {{30}, {47}, {95}};
  Step const learned = as_learned(step, {1.25049, 1.1, 1.4, 12});  // to a thousandth: 1.25
  CHECK(learned.set_up.low.n == 75);
  CHECK(learned.set_up.likely.n == 150);
  CHECK(learned.set_up.high.n == 300);
  CHECK(learned.each.low.n == 38);  // 37.5
  CHECK(learned.each.likely.n == 59);
  CHECK(learned.each.high.n == 119);
}

TEST_CASE("spoil, least spoil and ruin of a material as learned, spoil stays below the whole") {
  Material material = calf();
  LearnedSpoil const twice = learned_spoil(spoiled(12, 2), material).value();
  CHECK(twice.factor.value == Approx((4 + 24.0) / 16));
  CHECK(twice.worth_telling());
  CHECK_FALSE(twice.ruin);
  Material const learned = as_learned(material, twice);
  CHECK(learned.spoil == Ratio(175, 1000));
  CHECK(learned.least_spoil.n == 1750);
  CHECK(learned.ruin_chance == material.ruin_chance);
  CHECK_FALSE(learned_spoil(spoiled(12, 1), material).value().worth_telling());
  material.spoil = {80, 100};
  CHECK(as_learned(material, twice).spoil == Ratio(95, 100));
  CHECK(learned_spoil(spoiled(12, 2), material).value().share(2) == Approx(0.95));
}

TEST_CASE(
    "what neither spoils nor can be ruined teaches nothing, a chance of ruin is learned of what was taken") {
  Material material = calf();
  CHECK_FALSE(learned_spoil(spoiled(0, 1), material));
  material.ruin_chance = {5, 100};
  SpoilSeen seen = spoiled(0, 1);
  seen.taken = 20;
  seen.ruined = 3;
  LearnedSpoil const spoil = learned_spoil(seen, material).value();
  CHECK_FALSE(spoil.worth_telling());
  REQUIRE(spoil.ruin);
  CHECK(spoil.ruin->value == Approx((20 * 0.05 + 3) / 40));  // twenty jobs' worth of what was believed
  CHECK(as_learned(material, spoil).ruin_chance == Ratio(100, 1000));
  CHECK(as_learned(material, spoil).spoil == material.spoil);
}

TEST_CASE("enquiries for each order: the chance drawn towards what it was, turned over with its range") {
  LearnedEnquiries const learned = learned_enquiries({.quoted = 40, .taken = 10}, Ratio(2));
  CHECK(learned.an_order.value == Approx((10 + 40) / (10 * 0.5 + 10)));
  CHECK(learned.an_order.low < learned.an_order.value);
  CHECK(learned.an_order.high > learned.an_order.value);
  CHECK(learned.an_order.n == 40);
  LearnedEnquiries const all_taken = learned_enquiries({.quoted = 30, .taken = 30}, Ratio(1));
  CHECK(all_taken.an_order.low >= 1);
  LearnedEnquiries const none = learned_enquiries({}, Ratio(3));
  CHECK(none.an_order.value == Approx(3));
}
