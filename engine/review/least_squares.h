// Linear regression, plain or shrunk.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace endband {

// y = X b + noise. `x` row by row; a column of ones is the caller's.
struct Observed {
  std::size_t columns = 0;
  std::vector<double> x, y;
  std::size_t rows() const { return y.size(); }
};

struct Fit {
  std::vector<double> estimate;   // of each column
  std::vector<double> deviation;  // standard deviation of each estimate
  std::vector<double> uneven;     // the same where the noise may differ from row to row (HC3: MacKinnon and
                                  // White 1985, from memory)
  double residual = 0;            // residual standard deviation
  double r_squared = 0;
  double freedom = 0;  // rows - effective number of parameters
};

// Minimises |y - X b|^2 + sum of penalty_j b_j^2, by Householder QR of X above the square roots of the
// penalties (Hoerl and Kennard 1970, from memory). No penalties: least squares. As a Bayesian would say it,
// each b_j has a normal prior of mean 0 and variance (noise variance / penalty_j); estimate and deviation are
// those of its posterior, the noise being that of the residuals. r_squared is about the mean of y where a
// column of ones is not shrunk, else about 0. Throws std::logic_error when the sizes disagree or there are no
// more rows than parameters that nothing shrinks; std::domain_error when the columns depend on each other and
// nothing shrinks them.
Fit least_squares(Observed const& observed, std::span<double const> penalties = {});

}  // namespace endband
