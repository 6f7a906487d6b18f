// The linear program over patterns, by the revised simplex method in floating point. It only guesses: what is
// made of its values is proved in whole numbers (bound.h) or checked by adding up.
#pragma once

#include "engine/cutting/lengths/problem.h"

namespace endband::cutting::lengths {

// Least sum of costs x times, sum of counts x times >= demand of each type, times <= limit of each stock that
// may run out.
class Master {
 public:
  Master(Problem const& problem, Rest const& rest, Meter& meter);

  // Counts above the demand are cut down to it. Nothing of it wanted: not taken.
  void add(Pattern const& pattern);
  void solve();

  bool feasible() const;  // all that is wanted is cut
  double value() const;
  std::vector<double> values_of_types() const;  // duals
  bool improves(Pattern const& pattern) const;  // its reduced cost is negative
  struct Taken {
    Pattern pattern;
    double times;
  };
  std::vector<Taken> taken() const;  // more than 0 times

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  struct Entry {
    std::size_t row;
    double count;
  };
  struct Column {
    std::size_t stock = none;  // none: no pattern
    double cost = 0;
    bool artificial = false;
    std::vector<Entry> entries;
  };
  double reduced_cost(Column const& column) const;
  std::size_t entering() const;
  bool pivot(std::size_t entering);
  void start(Problem const& problem, Rest const& rest);

  Meter& meter_;
  std::size_t rows_ = 0;
  double tolerance_ = 0;
  std::vector<std::size_t> row_of_type_, row_of_stock_, type_of_row_;
  std::vector<double> cost_of_stock_, wanted_;
  std::vector<Column> columns_;
  std::vector<std::size_t> basis_;
  std::vector<char> in_basis_;
  std::vector<double> inverse_;  // row by row
  std::vector<double> level_;    // of the basic columns
  std::vector<double> dual_;
  std::vector<double> step_;
  std::vector<std::size_t> filled_;
};

}  // namespace endband::cutting::lengths
