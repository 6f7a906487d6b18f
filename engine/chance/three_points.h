// A quantity known by three points, and the distributions that are read into them. Triangular: straight
// sides. Beta-PERT: the beta distribution between low and high with the shapes 1 + 4 (m - a) / (b - a) and 1
// + 4 (b - m) / (b - a), whose mean is PERT's (a + 4 m + b) / 6. (Malcolm, Roseboom, Clark and Fazar 1959;
// the shapes as Vose and the R package mc2d state them; variances also GAO-20-195G.) Pure formulas.
#pragma once

#include <span>

namespace endband {

struct ThreePoints {  // low <= likely <= high
  double low = 0, likely = 0, high = 0;
};

double triangular_mean(ThreePoints const& of);      // (a + m + b) / 3
double triangular_variance(ThreePoints const& of);  // (a2 + m2 + b2 - am - ab - mb) / 18
double triangular_quantile(ThreePoints const& of, double p);

double pert_mean(ThreePoints const& of);  // mu = (a + 4 m + b) / 6
double pert_variance(
    ThreePoints const& of);  // (mu - a) (b - mu) / 7, of beta-PERT; what work is reckoned with
double pert_cdf(ThreePoints const& of, double x);
double pert_quantile(ThreePoints const& of, double p);
// ((b - a) / 6)^2, as networks were first reckoned with; only for comparison with what is published so.
double classic_variance(ThreePoints const& of);

// The standard normal distribution. 0 < p < 1, else std::logic_error.
double normal_cdf(double z);
double normal_quantile(double p);

// Of a sum whose parts have these standard deviations, every two of them correlated alike; 0: independent.
double variance_of_sum(std::span<double const> deviations, double correlation);

}  // namespace endband
