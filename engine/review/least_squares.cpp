#include "engine/review/least_squares.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace endband {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;
using Index = Eigen::Index;

constexpr double dependent = 1e-11;  // of a column's length, when no more is left of it beside the others

void check_sizes(Observed const& observed, std::span<double const> penalties) {
  if (observed.columns == 0 || observed.x.size() != observed.columns * observed.rows())
    throw std::logic_error("least squares: x is not rows by columns");
  if (!penalties.empty() && penalties.size() != observed.columns)
    throw std::logic_error("least squares: one penalty a column");
  if (std::ranges::any_of(penalties, [](double penalty) { return !(penalty >= 0); }))
    throw std::logic_error("least squares: a penalty under nothing");
  auto const shrunk = std::ranges::count_if(penalties, [](double penalty) { return penalty > 0; });
  if (observed.rows() <= observed.columns - static_cast<std::size_t>(shrunk))
    throw std::logic_error("least squares: no more rows than parameters that nothing shrinks");
}

struct Problem {
  Matrix x;
  Vector y, penalty;
  std::optional<Index> constant;  // a column of ones that nothing shrinks
};

Problem problem_of(Observed const& observed, std::span<double const> penalties) {
  using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  auto const rows = static_cast<Index>(observed.rows());
  auto const columns = static_cast<Index>(observed.columns);
  Problem problem;
  problem.x = Eigen::Map<RowMajor const>(observed.x.data(), rows, columns);
  problem.y = Eigen::Map<Vector const>(observed.y.data(), rows);
  problem.penalty = Vector::Zero(columns);
  for (std::size_t j = 0; j < penalties.size(); ++j) problem.penalty[static_cast<Index>(j)] = penalties[j];
  for (Index j = 0; j < columns && !problem.constant; ++j)
    if (problem.penalty[j] == 0 && (problem.x.col(j).array() == 1).all()) problem.constant = j;
  return problem;
}

// X (b + shift of the constant) = (X - 1 means) b: the same fit, and far better conditioned. Returns the
// means, nought for the constant itself and where there is none.
Vector centre(Problem& problem) {
  Vector means = Vector::Zero(problem.x.cols());
  if (!problem.constant) return means;
  for (Index j = 0; j < problem.x.cols(); ++j) {
    if (j == *problem.constant) continue;
    double const length = problem.x.col(j).norm();
    means[j] = problem.x.col(j).mean();
    problem.x.col(j).array() -= means[j];
    if (problem.x.col(j).norm() <= dependent * length) problem.x.col(j).setZero();  // but for rounding
  }
  return means;
}

// X above the square roots of the penalties, each column of length 1.
struct Stacked {
  Matrix x;
  Vector lengths;
};
Stacked stacked(Problem const& problem) {
  Index const rows = problem.x.rows(), columns = problem.x.cols();
  Stacked result{Matrix::Zero(rows + columns, columns), Vector(columns)};
  result.x.topRows(rows) = problem.x;
  result.x.bottomRows(columns).diagonal() = problem.penalty.cwiseSqrt();
  for (Index j = 0; j < columns; ++j) {
    result.lengths[j] = result.x.col(j).norm();
    if (result.lengths[j] == 0) throw std::domain_error("least squares: a column of noughts");
    result.x.col(j) /= result.lengths[j];
  }
  return result;
}

double total_squares(Problem const& problem) {
  if (!problem.constant) return problem.y.squaredNorm();
  return (problem.y.array() - problem.y.mean()).matrix().squaredNorm();
}

std::vector<double> copied(Vector const& of) { return {of.data(), of.data() + of.size()}; }

}  // namespace

Fit least_squares(Observed const& observed, std::span<double const> penalties) {
  check_sizes(observed, penalties);
  Problem problem = problem_of(observed, penalties);
  Vector const means = centre(problem);
  auto const [x, lengths] = stacked(problem);
  Index const rows = problem.x.rows(), columns = problem.x.cols();

  Eigen::ColPivHouseholderQR<Matrix> qr(x);
  qr.setThreshold(dependent);
  if (qr.rank() < columns) throw std::domain_error("least squares: columns that depend on each other");
  Vector y = Vector::Zero(rows + columns);
  y.head(rows) = problem.y;
  Vector estimate = qr.solve(y).cwiseQuotient(lengths);

  // (X'X + penalties)^-1 = root root', and root' X'X root has as its trace the number of parameters in
  // effect.
  Matrix root =
      qr.matrixR().topRows(columns).triangularView<Eigen::Upper>().solve(Matrix::Identity(columns, columns));
  root = lengths.cwiseInverse().asDiagonal() * (qr.colsPermutation() * root);
  Vector const left = problem.y - problem.x * estimate;
  Matrix const hat = problem.x * root;  // hat hat' turns y into what is fitted
  double const effective = penalties.empty() ? static_cast<double>(columns) : hat.squaredNorm();
  Vector const alone = left.array() / (1 - hat.rowwise().squaredNorm().array()).max(1e-9);

  if (problem.constant) {  // back to where the columns were
    estimate[*problem.constant] -= means.dot(estimate);
    root.row(*problem.constant) -= means.transpose() * root;
  }
  Fit fit;
  fit.freedom = static_cast<double>(rows) - effective;
  double const squares = left.squaredNorm(), total = total_squares(problem);
  fit.residual = std::sqrt(squares / fit.freedom);
  fit.r_squared = total > 0 ? 1 - squares / total : 0;
  fit.estimate = copied(estimate);
  fit.deviation = copied(fit.residual * root.rowwise().norm());
  fit.uneven = copied((root * hat.transpose() * alone.asDiagonal()).rowwise().norm());
  return fit;
}

}  // namespace endband
