#include "engine/review/learned.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numeric>
#include <stdexcept>

using doctest::Approx;
using endband::far_from_the_others;
using endband::learned_chance;
using endband::learned_ratio;
using endband::PriorOfRatio;
using endband::Ranged;
using endband::Seen;

namespace {

std::vector<Seen> const eight{{3600, 4100}, {1800, 2500}, {5400, 5200}, {7200, 9900},
                              {2400, 3100}, {900, 1000},  {4000, 5600}, {3000, 3300}};

// The posterior of r by brute force: prior x likelihood on a grid of r and of log v, added up. Nothing here
// knows that the answer is a Student's t.
struct Grid {
  double mean = 0, low = 0, high = 0;
};
Grid by_brute_force(std::vector<Seen> const& seen, PriorOfRatio const& prior) {
  double believed = 0;
  for (Seen const& job : seen) believed += job.believed;
  double const average = believed / static_cast<double>(seen.size());
  double const scale = std::pow(prior.spread * prior.prior, 2) * average;  // of v: 4 freedoms
  constexpr int steps = 2400, shapes = 200;
  std::vector<double> r(steps), weight(steps);
  for (int i = 0; i < steps; ++i) r[static_cast<std::size_t>(i)] = prior.prior * (-2 + 6 * (i + 0.5) / steps);
  for (int k = 0; k < shapes; ++k) {
    double const v = scale * std::exp(-4 + 8 * (k + 0.5) / shapes);
    double const of_v = -2 * std::log(v) - 2 * scale / v;  // inverse gamma (2, 2 scale), times dv = v d log v
    for (int i = 0; i < steps; ++i) {
      auto const at = static_cast<std::size_t>(i);
      double log =
          of_v - 0.5 * std::log(v) - prior.jobs_worth * average * std::pow(r[at] - prior.prior, 2) / (2 * v);
      for (Seen const& job : seen)
        log += -0.5 * std::log(v) - job.believed * std::pow(job.was / job.believed - r[at], 2) / (2 * v);
      weight[at] +=
          std::exp(log + 0.5 * static_cast<double>(seen.size() + 1) * std::log(scale) + 2 * std::log(scale));
    }
  }
  double const total = std::accumulate(weight.begin(), weight.end(), 0.0);
  Grid grid;
  double below = 0;
  for (std::size_t i = 0; i < r.size(); ++i) {
    grid.mean += r[i] * weight[i] / total;
    if (below < 0.025 * total && below + weight[i] >= 0.025 * total) grid.low = r[i];
    if (below < 0.975 * total && below + weight[i] >= 0.975 * total) grid.high = r[i];
    below += weight[i];
  }
  return grid;
}

std::vector<Seen> the_first(std::size_t n) {
  return {eight.begin(), eight.begin() + static_cast<std::ptrdiff_t>(n)};
}

}  // namespace

TEST_CASE("What is learned is the posterior's mean and range, added up by brute force") {
  for (PriorOfRatio const prior : {PriorOfRatio{}, PriorOfRatio{1.2, 2, 0.5}})
    for (std::size_t const n : {std::size_t{1}, std::size_t{3}, std::size_t{8}}) {
      CAPTURE(n);
      std::vector<Seen> const seen = the_first(n);
      Ranged const learned = learned_ratio(seen, prior);
      Grid const grid = by_brute_force(seen, prior);
      CHECK(learned.value == Approx(grid.mean).epsilon(0.001));
      CHECK(learned.low == Approx(grid.low).epsilon(0.006));
      CHECK(learned.high == Approx(grid.high).epsilon(0.006));
      CHECK(learned.n == static_cast<std::int64_t>(n));
    }
}

TEST_CASE("The value is the shrunk ratio of sums") {
  // prior 1 worth 4 jobs of 3537.5 s; 28,300 s believed and 34,700 s worked
  CHECK(learned_ratio(eight, {}).value ==
        Approx((4 * 3537.5 + 34'700) / (4 * 3537.5 + 28'300)).epsilon(1e-13));
}

TEST_CASE("Nothing seen: the prior and its own range") {
  Ranged const none = learned_ratio({}, {1.1, 4, 0.2});
  CHECK(none.value == Approx(1.1));
  CHECK(none.n == 0);
  // t of 4 degrees at 97.5 %, 2.776445 (printed in any table), times 0.2 x 1.1 / sqrt 4
  CHECK(none.high == Approx(1.1 + 2.776445 * 0.11).epsilon(1e-6));
  CHECK(none.low == Approx(1.1 - 2.776445 * 0.11).epsilon(1e-6));
}

TEST_CASE("Few jobs move it little, many move it all the way, and the range shrinks") {
  double last = 1, width = 10;
  for (std::size_t const n : {1U, 2U, 5U, 20U, 200U}) {
    Ranged const learned = learned_ratio(std::vector<Seen>(n, Seen{3600, 5400}), {});
    CHECK(learned.value > last);
    CHECK(learned.high - learned.low < width);
    CHECK(learned.low <= learned.value);
    last = learned.value;
    width = learned.high - learned.low;
  }
  CHECK(learned_ratio(std::vector<Seen>(1, Seen{3600, 5400}), {}).value == Approx(1.1));
  CHECK(last == Approx(1.5).epsilon(0.01));
}

TEST_CASE("Longer jobs raise it, whichever they are") {
  double const before = learned_ratio(eight, {}).value;
  for (std::size_t i = 0; i < eight.size(); ++i) {
    std::vector<Seen> longer = eight;
    longer[i].was += 600;
    CHECK(learned_ratio(longer, {}).value > before);
  }
}

TEST_CASE("A share of spoil is never under nothing") {
  std::vector<Seen> const none(6, Seen{40, 0});
  Ranged const learned = learned_ratio(none, {0.03, 4, 1});
  CHECK(learned.low >= 0);
  CHECK(learned.value == Approx(0.012));
}

TEST_CASE("What cannot be is a broken contract") {
  CHECK_THROWS_AS(learned_ratio(std::vector<Seen>{{0, 1}}, {}), std::logic_error);
  CHECK_THROWS_AS(learned_ratio(std::vector<Seen>{{1, -1}}, {}), std::logic_error);
  CHECK_THROWS_AS(learned_ratio({}, {0, 4, 0.3}), std::logic_error);
  CHECK_THROWS_AS(learned_chance(3, 2, 0.5, 4), std::logic_error);
  CHECK_THROWS_AS(learned_chance(1, 2, 0, 4), std::logic_error);
}

TEST_CASE("A chance: the mean of the posterior, and its quantiles where they have a closed form") {
  Ranged const learned = learned_chance(3, 20, 0.1, 10);
  CHECK(learned.value == Approx(4.0 / 30));
  CHECK(learned.n == 20);
  CHECK(learned.low > 0);
  CHECK(learned.high < 1);
  // beta (n, 1) has the quantile p^(1/n): a prior of one half worth two, seen 4 of 4
  Ranged const all = learned_chance(4, 4, 0.5, 2);
  CHECK(all.value == Approx(5.0 / 6));
  CHECK(all.low == Approx(std::pow(0.025, 1.0 / 5)).epsilon(1e-9));
  CHECK(all.high == Approx(std::pow(0.975, 1.0 / 5)).epsilon(1e-9));
  // and never of 4: beta (1, 5)
  CHECK(learned_chance(0, 4, 0.5, 2).high == Approx(1 - std::pow(0.025, 1.0 / 5)).epsilon(1e-9));
}

TEST_CASE("Few times move a chance little") {
  CHECK(learned_chance(0, 0, 0.03, 50).value == Approx(0.03));
  CHECK(learned_chance(1, 1, 0.03, 50).value < 0.05);
  CHECK(learned_chance(300, 1000, 0.03, 50).value == Approx(0.287).epsilon(0.001));
}

TEST_CASE("Jobs far from the others are named") {
  std::vector<Seen> seen = eight;
  CHECK(far_from_the_others(seen).empty());
  seen[5].was = 4500;  // five times
  seen[2].was = 0;
  CHECK(far_from_the_others(seen) == std::vector<std::size_t>{2, 5});
  CHECK(far_from_the_others(the_first(4)).empty());
}

TEST_CASE("Among jobs that all took what was believed, a small difference is not far") {
  std::vector<Seen> seen(9, Seen{3600, 3600});
  seen[3].was = 3700;
  CHECK(far_from_the_others(seen).empty());
  seen[3].was = 4000;
  CHECK(far_from_the_others(seen) == std::vector<std::size_t>{3});
  CHECK(far_from_the_others(std::vector<Seen>(9, Seen{3600, 0})).empty());
}
