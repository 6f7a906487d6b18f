// Linear regression against the certified values of the NIST Statistical Reference Datasets (StRD), Linear
// Least Squares: Norris.dat (lower difficulty) and Longley.dat (higher),
// www.itl.nist.gov/div898/strd/lls/data/. The data and values were read from copies of these files, and the
// values recomputed in exact fractions apart from this program: all digits agree.
#include "engine/review/least_squares.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

namespace {

using endband::Fit;
using endband::Observed;

// How many leading digits agree, as StRD counts them: -log10 |relative error|.
double digits(double found, double certified) {
  double const error = std::abs(found - certified) / std::abs(certified);
  return error == 0 ? 16 : -std::log10(error);
}

struct Certified {
  double estimate, deviation;
};

void check(Fit const& fit, std::vector<Certified> const& certified, double least) {
  REQUIRE(fit.estimate.size() == certified.size());
  for (std::size_t j = 0; j < certified.size(); ++j) {
    CAPTURE(j);
    CHECK(digits(fit.estimate[j], certified[j].estimate) > least);
    CHECK(digits(fit.deviation[j], certified[j].deviation) > least);
  }
}

// y, x
constexpr std::array<std::array<double, 2>, 36> norris{{
    {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},    {228.1, 226.5},
    {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
    {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
    {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
    {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
    {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5},
}};

// y: employed; prices (1954 = 100), national product, unemployed, armed forces, population, year
constexpr std::array<std::array<double, 7>, 16> longley{{
    {60323, 83.0, 234289, 2356, 1590, 107608, 1947},
    {61122, 88.5, 259426, 2325, 1456, 108632, 1948},
    {60171, 88.2, 258054, 3682, 1616, 109773, 1949},
    {61187, 89.5, 284599, 3351, 1650, 110929, 1950},
    {63221, 96.2, 328975, 2099, 3099, 112075, 1951},
    {63639, 98.1, 346999, 1932, 3594, 113270, 1952},
    {64989, 99.0, 365385, 1870, 3547, 115094, 1953},
    {63761, 100.0, 363112, 3578, 3350, 116219, 1954},
    {66019, 101.2, 397469, 2904, 3048, 117388, 1955},
    {67857, 104.6, 419180, 2822, 2857, 118734, 1956},
    {68169, 108.4, 442769, 2936, 2798, 120445, 1957},
    {66513, 110.8, 444546, 4681, 2637, 121950, 1958},
    {68655, 112.6, 482704, 3813, 2552, 123366, 1959},
    {69564, 114.2, 502601, 3931, 2514, 125368, 1960},
    {69331, 115.7, 518173, 4806, 2572, 127852, 1961},
    {70551, 116.9, 554894, 4007, 2827, 130081, 1962},
}};

template <typename Rows>
Observed with_a_constant(Rows const& rows) {
  Observed observed;
  observed.columns = rows.front().size();
  for (auto const& row : rows) {
    observed.y.push_back(row[0]);
    observed.x.push_back(1);
    observed.x.insert(observed.x.end(), row.begin() + 1, row.end());
  }
  return observed;
}

}  // namespace

TEST_CASE("NIST StRD, Norris: ten digits") {
  Fit const fit = least_squares(with_a_constant(norris));
  check(fit, {{-0.262323073774029, 0.232818234301152}, {1.00211681802045, 0.429796848199937e-3}}, 10);
  CHECK(digits(fit.residual, 0.884796396144373) > 10);
  CHECK(digits(fit.r_squared, 0.999993745883712) > 10);
  CHECK(fit.freedom == 34);
}

TEST_CASE("NIST StRD, Longley: eight digits") {
  Fit const fit = least_squares(with_a_constant(longley));
  check(fit,
        {{-3482258.63459582, 890420.383607373},
         {15.0618722713733, 84.9149257747669},
         {-0.358191792925910e-1, 0.334910077722432e-1},
         {-2.02022980381683, 0.488399681651699},
         {-1.03322686717359, 0.214274163161675},
         {-0.511041056535807e-1, 0.226073200069370},
         {1829.15146461355, 455.478499142212}},
        8);
  CHECK(digits(fit.residual, 304.854073561965) > 8);
  CHECK(digits(fit.r_squared, 0.995479004577296) > 8);
  CHECK(fit.freedom == 9);
}
