// Three-point times and costs as others print them; "recomputed" values were worked out apart from this
// program.
#include "engine/chance/draw.h"
#include "engine/chance/three_points.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

using doctest::Approx;
using endband::ThreePoints;
using endband::triangular_variance;

namespace {

// US GAO, Cost Estimating and Assessment Guide (GAO-20-195G), table 12: cost of a vehicle in thousand
// dollars. Means and variances of the closed forms recomputed.
struct Element {
  ThreePoints points;
  double triangular_mean, triangular_variance, deviation, pert_mean, classic, beta_pert;
};
constexpr Element vehicle[] = {
    {{17'955, 19'645, 21'785}, 19'795, 614'016.6667, 783.5922, 19'720, 407'469.4444, 520'675},
    {{8'500, 10'553, 13'000}, 10'684.3333, 845'906.0556, 919.7315, 10'618.6667, 562'500, 720'750.2222},
    {{4'000, 4'306, 5'100}, 4'468.6667, 53'724.2222, 231.7849, 4'387.3333, 33'611.1111, 39'434.2222},
    {{4'100, 4'305, 4'650}, 4'351.6667, 12'876.3889, 113.4742, 4'328.3333, 8'402.7778, 10'492.4603},
    {{550, 600, 650}, 600, 416.6667, 20.4124, 600, 277.7778, 357.1429},
    {{32'300, 35'547, 52'500},
     40'115.6667,
     19'610'756.0556,
     4'428.4033,
     37'831.3333,
     11'334'444.4444,
     11'591'040.6984},
    {{1'950, 2'136, 2'600}, 2'228.6667, 18'677.5556, 136.6659, 2'182.3333, 11'736.1111, 13'862.5556},
};

bool prints(double value, double printed) { return std::abs(value - printed) <= 0.50001e-4; }

// Sums of one draw of each in `parts`, sorted.
template <class Drawn>
std::vector<double> sorted_sums(std::uint32_t runs, std::uint32_t parts, Drawn const& drawn) {
  std::vector<double> sums(runs);
  for (std::uint32_t run = 0; run < runs; ++run)
    for (std::uint32_t part = 0; part < parts; ++part)
      sums[run] += drawn(part, endband::draw(1, run, part, 0));
  std::sort(sums.begin(), sums.end());
  return sums;
}

double chance_up_to(std::vector<double> const& sorted, double most) {
  return static_cast<double>(std::upper_bound(sorted.begin(), sorted.end(), most) - sorted.begin()) /
         static_cast<double>(sorted.size());
}

double mean_of(std::vector<double> const& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double error_of_chance(double p, std::size_t runs) {
  return std::sqrt(p * (1 - p) / static_cast<double>(runs));
}

}  // namespace

TEST_CASE("the closed forms of published ranges") {
  double mean = 0;
  double variance = 0;
  double pert = 0;
  double classic = 0;
  double beta_pert = 0;
  for (Element const& of : vehicle) {
    CAPTURE(of.points.likely);
    CHECK(prints(triangular_mean(of.points), of.triangular_mean));
    CHECK(prints(triangular_variance(of.points), of.triangular_variance));
    CHECK(prints(std::sqrt(triangular_variance(of.points)), of.deviation));
    CHECK(prints(pert_mean(of.points), of.pert_mean));
    CHECK(prints(classic_variance(of.points), of.classic));
    CHECK(prints(pert_variance(of.points), of.beta_pert));
    mean += triangular_mean(of.points);
    variance += triangular_variance(of.points);
    pert += pert_mean(of.points);
    classic += classic_variance(of.points);
    beta_pert += pert_variance(of.points);
  }
  CHECK(prints(mean, 82'244));
  CHECK(prints(variance, 21'156'373.6111));
  CHECK(prints(pert, 79'668));
  CHECK(prints(classic, 12'358'441.6667));
  CHECK(prints(beta_pert, 12'896'612.3016));
}

TEST_CASE("the deviation of a sum whose parts are correlated, published") {
  std::vector<double> deviations;
  for (Element const& of : vehicle) deviations.push_back(std::sqrt(triangular_variance(of.points)));
  CHECK(prints(std::sqrt(endband::variance_of_sum(deviations, 0)), 4'599.6058));
  CHECK(prints(std::sqrt(endband::variance_of_sum(deviations, 0.25)), 5'183.6264));
  CHECK(prints(std::sqrt(endband::variance_of_sum(deviations, 1)), 6'634.0643));
}

// P(total <= 77,092) = 0.12580 exactly, P(total <= mean) = 0.54762 and the quantiles by inversion of the
// characteristic function, recomputed; the normal approximation gives 0.13134 and 86,115.1.
TEST_CASE("a simulated sum of triangles against its exact distribution") {
  constexpr std::uint32_t runs = 40'000;
  auto const sums = sorted_sums(runs, std::size(vehicle), [](std::uint32_t part, std::uint64_t bits) {
    return static_cast<double>(endband::draw_triangular(vehicle[part].points, bits));
  });
  double const deviation = 4'599.6058;
  CHECK(std::abs(mean_of(sums) - 82'244) < 4.5 * deviation / std::sqrt(runs));
  CHECK(std::abs(chance_up_to(sums, 77'092) - 0.12580) < 4.5 * error_of_chance(0.1258, runs));
  CHECK(std::abs(chance_up_to(sums, 82'244) - 0.54762) < 4.5 * error_of_chance(0.54762, runs));
  struct Quantile {
    double p, at;
  };
  for (Quantile const of : {Quantile{0.1, 76'714.6}, {0.5, 81'602.2}, {0.8, 86'446.4}, {0.9, 88'910.0}}) {
    CAPTURE(of.p);
    CHECK(std::abs(chance_up_to(sums, of.at) - of.p) < 4.5 * error_of_chance(of.p, runs));
  }
  CHECK(prints(endband::normal_cdf((77'092 - 82'244) / deviation), 0.13134));
  CHECK(82'244 + endband::normal_quantile(0.8) * deviation == Approx(86'115.1).epsilon(1e-6));
  CHECK(82'244 + endband::normal_quantile(0.9) * deviation == Approx(88'138.6).epsilon(1e-6));
}

TEST_CASE("a simulated sum of beta-PERT costs has the mean and the variance of the closed forms") {
  constexpr std::uint32_t runs = 20'000;
  std::vector<endband::BetaPertDraw> draws;
  for (Element const& of : vehicle) draws.emplace_back(of.points);
  auto const sums = sorted_sums(runs, std::size(vehicle), [&](std::uint32_t part, std::uint64_t bits) {
    return static_cast<double>(draws[part].at(bits));
  });
  double const mean = mean_of(sums);
  double squares = 0;
  for (double const sum : sums) squares += (sum - mean) * (sum - mean);
  CHECK(std::abs(mean - 79'668) < 4.5 * 3'591.1854 / std::sqrt(runs));
  // The excess of the fourth moment is small: the relative error of a variance is about sqrt(2 / runs).
  CHECK(squares / runs == Approx(12'896'612.3016).epsilon(4.5 * std::sqrt(2.5 / runs)));
}

// stdlib.io, @stdlib/stats/base/dists/triangular/variance; its arguments are (min, max, mode). The last: its
// fixtures of Julia, data.json at 84994151, the first.
TEST_CASE("the variance of triangles as a library prints it") {
  CHECK(triangular_variance({0, 0.8, 1}) == Approx(0.0466667).epsilon(1e-6));
  CHECK(triangular_variance({4, 5, 12}) == Approx(3.1666667).epsilon(1e-7));
  CHECK(triangular_variance({2, 5, 8}) == Approx(1.5).epsilon(1e-12));
  CHECK(triangular_variance({0.5417421019018609, 0.8255996727476127, 3.971608802982991}) ==
        Approx(0.6039426154232215).epsilon(1e-12));
}

// Sums of n uniforms (Irwin 1927, Hall 1927): from memory, and recomputed.
TEST_CASE("sums of uniform draws are as Irwin and Hall say") {
  constexpr std::uint32_t runs = 20'000;
  auto const sums_of = [](std::uint32_t n) {
    return sorted_sums(runs, n, [](std::uint32_t, std::uint64_t bits) { return endband::uniform(bits); });
  };
  auto const near = [](double found, double p) {
    return std::abs(found - p) < 4.5 * error_of_chance(p, runs);
  };
  auto const three = sums_of(3);
  CHECK(near(chance_up_to(three, 1), 1.0 / 6));
  CHECK(near(chance_up_to(three, 1.5), 0.5));
  CHECK(near(chance_up_to(three, 2), 5.0 / 6));
  auto const twelve = sums_of(12);  // of variance 1
  CHECK(near(chance_up_to(twelve, 6), 0.5));
  CHECK(near(chance_up_to(twelve, 7.5), 0.932553));
  CHECK(std::abs(mean_of(twelve) - 6) < 4.5 / std::sqrt(runs));
  auto const two = sums_of(2);  // triangular (0, 1, 2), of variance 1/6
  for (double const p : {0.1, 0.5, 0.9})
    CHECK(near(chance_up_to(two, endband::triangular_quantile({0, 1, 2}, p)), p));
  CHECK(triangular_variance({0, 1, 2}) == Approx(1.0 / 6).epsilon(1e-12));
}

// Taylor, Introduction to Management Science (flylib.com/books/en/3.287.1.117/1): seven activities, 1-3-5-7
// critical; .9633 is printed from a table at z = 1.79, 0.963181 recomputed.
TEST_CASE("a published network by PERT: the mean, the variance and the chance of a day") {
  ThreePoints const activities[] = {{5, 8, 17}, {7, 10, 13}, {3, 5, 7}, {1, 3, 5},
                                    {4, 6, 8},  {3, 3, 3},   {3, 4, 5}};
  double const means[] = {9, 10, 5, 3, 6, 3, 4};
  double const variances[] = {4, 1, 4.0 / 9, 4.0 / 9, 4.0 / 9, 0, 1.0 / 9};
  double mean = 0;
  double variance = 0;
  for (std::size_t i = 0; i < std::size(activities); ++i) {
    CHECK(pert_mean(activities[i]) == Approx(means[i]));
    CHECK(classic_variance(activities[i]) == Approx(variances[i]));
    if (i % 2 != 0) continue;
    mean += means[i];
    variance += classic_variance(activities[i]);
  }
  CHECK(mean == 24);
  CHECK(variance == Approx(5));
  CHECK(endband::normal_cdf((28 - mean) / std::sqrt(variance)) == Approx(0.963181).epsilon(1e-6));
  CHECK(endband::normal_cdf(1.79) == Approx(0.9633).epsilon(5e-5));
}

// studyxapp q413234033: mean 26, variance 4.11. scribd 514632894: mean 22, variance 2.44. As printed, and
// recomputed to six digits.
TEST_CASE("the chances of two more published networks") {
  auto const chance = [](double mean, double variance, double by) {
    return endband::normal_cdf((by - mean) / std::sqrt(variance));
  };
  CHECK(chance(26, 4.11, 25) == Approx(0.310913).epsilon(1e-5));
  CHECK(chance(26, 4.11, 30) == Approx(0.975755).epsilon(1e-6));
  CHECK(std::abs(chance(26, 4.11, 25) - 0.311) < 5e-4);
  CHECK(chance(22, 2.44, 22) == 0.5);
  CHECK(chance(22, 2.44, 21) == Approx(0.261026).epsilon(1e-5));
  CHECK(chance(22, 2.44, 25) == Approx(0.972606).epsilon(1e-6));
  CHECK(std::abs(chance(22, 2.44, 21) - 0.2611) < 1e-4);
}
