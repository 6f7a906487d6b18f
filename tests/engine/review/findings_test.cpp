#include "engine/review/findings.h"

#include "engine/chance/three_points.h"
#include "tests/engine/review/invented_year.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using doctest::Approx;
using endband::FeatureEffect;
using endband::Finding;
using endband::FindingKind;
using endband::findings;
using endband::Money;
using endband::OperationKind;
using endband::PastJob;
using endband::StepSeen;

namespace {

Money euros(std::int64_t cents) { return {cents, *endband::read_currency("EUR")}; }

PastJob job(std::string outlet, std::int64_t left, endband::Features const& features = {}) {
  PastJob result;
  result.outlet = std::move(outlet);
  result.full_price = result.price = euros(500'00);
  result.left_given = euros(0);
  result.left_quoted = euros(90'00);
  result.left = euros(left);
  result.labour_quoted = result.labour = euros(300'00);
  result.seconds_quoted = result.seconds = 36'000;
  result.features = features;
  return result;
}

// Shares of what is timed, an hour each.
StepSeen step(std::vector<double> const& shares) {
  StepSeen seen{OperationKind::sew_sections, {}, {}};
  for (double const share : shares) {
    seen.jobs.push_back(seen.jobs.size());
    seen.times.push_back({3600, 3600 * share});
  }
  return seen;
}

std::vector<double> around(double centre, std::size_t n) {
  std::vector<double> shares;
  for (std::size_t i = 0; i < n; ++i) shares.push_back(centre * (i % 2 == 0 ? 0.85 : 1.15));
  return shares;
}

std::vector<Finding> of_step(std::vector<double> const& shares) {
  return findings({}, std::vector<StepSeen>{step(shares)});
}

endband::Features stone() { return endband::features_made_by(OperationKind::set_stone); }
endband::Features leaf() { return endband::features_made_by(OperationKind::lay_leaf); }

}  // namespace

TEST_CASE("A step that takes a third more is named, with its size and how many jobs told it") {
  std::vector<Finding> const found = of_step(around(1.33, 24));
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == FindingKind::step_takes_longer);
  CHECK(found[0].name == "sew-sections");
  CHECK(found[0].size.n == 24);
  CHECK(found[0].size.value == Approx((4 + 24 * 1.33) / 28));  // drawn towards 1 as by four jobs
  CHECK(found[0].size.low > 1);
  CHECK(found[0].chance < 0.001);
}

TEST_CASE("A step that takes less is named too, when one bad job more would not change it") {
  std::vector<Finding> const found = of_step(around(0.6, 40));
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == FindingKind::step_takes_less);
  CHECK(of_step({0.80, 0.82, 0.79, 0.81, 0.83, 0.80, 0.78, 0.81}).empty());
  CHECK(of_step({1.20, 1.22, 1.19, 1.21, 1.23, 1.20, 1.18, 1.21}).size() == 1);
}

TEST_CASE("What scatters about 1 is not named, nor what few jobs tell, nor a step that nobody did") {
  CHECK(of_step(around(1, 40)).empty());
  CHECK(of_step(around(3, 4)).empty());
  CHECK(of_step(around(0, 40)).empty());
  std::vector<double> shares = around(3, 4);
  shares.resize(12, 0.0);  // eight jobs without it say nothing
  CHECK(of_step(shares).empty());
}

TEST_CASE("Skewed times whose mean is 1 are not taken for a step that takes less") {
  // the median is 0.8 and the mean 1: log-normal quantiles, deviation of the logarithm 0.668
  std::vector<double> shares(100);
  for (std::size_t i = 0; i < shares.size(); ++i)
    shares[i] = 0.8 * std::exp(0.668 * endband::normal_quantile((static_cast<double>(i) + 0.5) / 100));
  CHECK(of_step(shares).empty());
  for (double& share : shares) share /= 0.8;  // the median is 1, the mean 1.25
  REQUIRE(of_step(shares).size() == 1);
  CHECK(of_step(shares)[0].what == FindingKind::step_takes_longer);
}

TEST_CASE("What is little sure stands alone or beside what is surer, not beside what is chance") {
  StepSeen const doubtful = step(around(1.1, 16));
  std::vector<Finding> const alone = findings({}, std::vector<StepSeen>{doubtful}, 3);
  REQUIRE(alone.size() == 1);
  double const error = 3 * alone[0].chance * 1.5;  // a third for steps, half of that beside another
  StepSeen sure = step(around(2, 16)), chance = step(around(1, 16));
  sure.operation = chance.operation = OperationKind::lace_boards;
  CHECK(findings({}, std::vector<StepSeen>{doubtful}, error).size() == 1);
  CHECK(findings({}, std::vector<StepSeen>{doubtful, sure}, error).size() == 2);
  CHECK(findings({}, std::vector<StepSeen>{doubtful, chance}, error).empty());
}

TEST_CASE("Hours told alike to the second are no proof beyond measure") {
  std::vector<Finding> const found = of_step(std::vector<double>(6, 1.04));
  for (Finding const& finding : found) CHECK(finding.chance > 1e-6);
}

TEST_CASE("An outlet whose jobs leave less than nothing is named, one that leaves little is not") {
  std::vector<PastJob> jobs;
  for (std::int64_t i = 0; i < 9; ++i) {
    jobs.push_back(job("fair", -40'00 - i * 5'00));
    jobs.push_back(job("gallery", 4'00 + i * 5'00));
    jobs.push_back(job("", 90'00 + i * 5'00));
  }
  std::vector<Finding> const found = findings(jobs, {});
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == FindingKind::outlet_loses);
  CHECK(found[0].name == "fair");
  CHECK(found[0].size.value == Approx(-60'00));
  CHECK(found[0].size.n == 9);
  // deviation of 0, 5 ... 40 is 13.693; t of 8 degrees at 97.5 % is 2.306004 (any table)
  CHECK(found[0].size.high == Approx(-60'00 + 2.306004 * 1369.306 / 3).epsilon(1e-5));
}

TEST_CASE("A gift is no loss of the place it went through, and four jobs are too few") {
  std::vector<PastJob> jobs;
  for (std::int64_t i = 0; i < 8; ++i) {
    PastJob gift = job("gallery", -400'00 - i * 5'00);
    gift.price = euros(0);
    gift.left_given = gift.full_price;
    jobs.push_back(gift);
    jobs.push_back(job("", 90'00 + i));
    if (i < 4) jobs.push_back(job("fair", -60'00 - i));
  }
  CHECK(findings(jobs, {}).empty());
}

TEST_CASE("A feature's effect has its size, range and numbers, and is drawn towards none") {
  std::vector<PastJob> jobs;
  for (std::int64_t i = 0; i < 40; ++i) {
    PastJob made =
        job("", (i % 2 == 0 ? 160'00 : 60'00) + (i * 7 % 11 - 5) * 4'00, i % 2 == 0 ? leaf() : stone());
    made.seconds += (i % 2 == 0 ? -3600 : 3600) + (i * 5 % 9 - 4) * 300;
    jobs.push_back(made);
  }
  std::vector<FeatureEffect> const effects = endband::feature_effects(jobs);
  REQUIRE(effects.size() == 2);
  FeatureEffect const& by_leaf = effects[0];
  CHECK(endband::feature_table()[by_leaf.feature].name == "leaf");
  CHECK(by_leaf.with == 20);
  CHECK(by_leaf.without == 20);
  CHECK(by_leaf.margin.n == 20);
  // Leaf and stone exclude each other here, so that the difference of 0.2 is half the one's and half the
  // other's.
  CHECK(by_leaf.margin.value == Approx(0.1).epsilon(0.1));
  CHECK(by_leaf.margin.value == Approx(-effects[1].margin.value));
  CHECK(by_leaf.hours.value == Approx(-1).epsilon(0.1));
  CHECK(by_leaf.margin.low < by_leaf.margin.value);
}

TEST_CASE("Features that always come together have one effect, as if they were one") {
  std::vector<PastJob> alone, together;
  for (std::int64_t i = 0; i < 24; ++i) {
    std::int64_t const left = (i % 2 == 0 ? 150'00 : 90'00) + (i * 7 % 11 - 5) * 4'00;
    alone.push_back(job("", left, i % 2 == 0 ? leaf() : endband::Features{}));
    together.push_back(job("", left, i % 2 == 0 ? leaf() | stone() : endband::Features{}));
  }
  std::vector<FeatureEffect> const one = endband::feature_effects(alone),
                                   both = endband::feature_effects(together);
  REQUIRE(one.size() == 1);
  REQUIRE(both.size() == 1);
  CHECK(both[0].margin.value == Approx(one[0].margin.value));
  CHECK(both[0].margin.low == Approx(one[0].margin.low));
  REQUIRE(both[0].always_with.size() == 1);
  CHECK(endband::feature_table()[both[0].always_with[0]].name == "stone");
  CHECK(one[0].always_with.empty());
}

TEST_CASE("Where nothing speaks for an effect, its prior is a fifth of the noise") {
  // 12 jobs with and 12 without differ by 0.002 in noise of 0.05: shrunk by 6 / (6 + 25)
  std::vector<PastJob> jobs;
  for (std::int64_t i = 0; i < 24; ++i)
    jobs.push_back(job("", 90'00 + (i % 2 == 0 ? 1'00 : 0) + (i / 2 % 4 < 2 ? 25'00 : -25'00),
                       i % 2 == 0 ? leaf() : endband::Features{}));
  std::vector<FeatureEffect> const effects = endband::feature_effects(jobs);
  REQUIRE(effects.size() == 1);
  CHECK(effects[0].margin.value == Approx(0.002 * 6 / 31).epsilon(1e-9));
  CHECK(effects[0].margin.low < -0.01);
  CHECK(effects[0].margin_chance > 0.8);
}

TEST_CASE("A feature that pays is named, with others present, and the outlet of a lossy year is held apart") {
  std::vector<PastJob> jobs;
  for (std::int64_t i = 0; i < 60; ++i) {
    bool const pays = i % 3 == 0, fair = i % 5 == 1;
    endband::Features features = pays ? leaf() : endband::Features{};
    if (i % 4 < 2) features |= stone();
    jobs.push_back(job(fair ? "fair" : "",
                       (pays ? 190'00 : 90'00) - (fair ? 60'00 : 0) + (i * 17 % 23 - 11) * 3'00, features));
  }
  std::vector<Finding> const found = findings(jobs, {});
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == FindingKind::feature_pays);
  CHECK(found[0].name == "leaf");
  CHECK(found[0].size.value > 0.15);
  CHECK(found[0].size.value < 0.2);  // and never more than there is
}

TEST_CASE("Years without price, hours or differences have no effects to speak of") {
  std::vector<PastJob> jobs(12, job("", 0));
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (i % 2 == 0) jobs[i].features = leaf();
    jobs[i].full_price = jobs[i].price = euros(0);
  }
  for (FeatureEffect const& effect : endband::feature_effects(jobs)) {
    CHECK(effect.margin.n == 0);
    CHECK(effect.margin_chance == 1);
    CHECK(effect.hours.value == 0);
  }
  CHECK(endband::feature_effects({}).empty());
  CHECK(findings({}, {}).empty());
  for (PastJob& past : jobs) past.full_price = past.price = euros(100'00);
  CHECK(findings(jobs, {}).empty());
}

TEST_CASE("A feature that only one outlet has is not told apart from it") {
  std::vector<PastJob> jobs;
  for (std::int64_t i = 0; i < 30; ++i)
    jobs.push_back(i % 3 == 0 ? job("fair", 200'00 + i * 100, leaf()) : job("", 90'00 + i * 130));
  for (FeatureEffect const& effect : endband::feature_effects(jobs)) {
    CHECK(std::abs(effect.margin.value) < 1e-6);
    CHECK(effect.margin_chance > 0.5);
  }
}

TEST_CASE("The order of jobs and steps changes nothing but the last digits") {
  auto year = endband::invented::year(7, {OperationKind::sew_sections, true, true});
  std::vector<Finding> const found = findings(year.jobs, year.steps);
  std::ranges::reverse(year.jobs);
  std::ranges::reverse(year.steps);
  std::vector<Finding> const again = findings(year.jobs, year.steps);
  REQUIRE(found.size() == again.size());
  for (std::size_t i = 0; i < found.size(); ++i) CHECK(found[i].name == again[i].name);
}
