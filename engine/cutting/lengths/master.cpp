#include "engine/cutting/lengths/master.h"

#include <algorithm>

namespace endband::cutting::lengths {
namespace {

constexpr double shift = 1e-7;  // right-hand sides are moved apart by this, against stalling
constexpr double smallest_pivot = 1e-8;
constexpr std::int64_t operations_in_step = 20;

}  // namespace

Master::Master(Problem const& problem, Rest const& rest, Meter& meter) : meter_(meter) {
  row_of_type_.assign(problem.types.size(), none);
  row_of_stock_.assign(problem.stocks.size(), none);
  for (std::size_t t = 0; t < problem.types.size(); ++t) {
    if (rest.demand[t] == 0) continue;
    row_of_type_[t] = rows_++;
    type_of_row_.push_back(t);
    wanted_.push_back(static_cast<double>(rest.demand[t]));
  }
  double dearest = 1;
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    cost_of_stock_.push_back(static_cast<double>(problem.stocks[s].cost));
    dearest = std::max(dearest, cost_of_stock_.back());
    if (rest.stock[s] > 0 && !problem.stocks[s].unlimited && rest.stock[s] < rest.pieces)
      row_of_stock_[s] = rows_++;
  }
  tolerance_ = 1e-9 * dearest;
  start(problem, rest);
}

// Each type alone on the cheapest endless roll, or not at all, at a price above any.
void Master::start(Problem const& problem, Rest const& rest) {
  double penalty = 1;
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    penalty += row_of_stock_[s] == none ? 2 * cost_of_stock_[s]
                                        : cost_of_stock_[s] * static_cast<double>(rest.stock[s]);
  }
  inverse_.assign(rows_ * rows_, 0);
  level_.assign(rows_, 0);
  dual_.assign(rows_, 0);
  step_.assign(rows_, 0);
  auto const set = [&](std::size_t row, Column column, double count, double right) {
    inverse_[row * rows_ + row] = 1 / count;
    level_[row] = (right + shift * static_cast<double>(1 + row * 37 % 101)) / count;
    dual_[row] = column.cost / count;
    basis_.push_back(columns_.size());
    columns_.push_back(std::move(column));
  };
  for (std::size_t t = 0; t < problem.types.size(); ++t) {
    std::size_t const row = row_of_type_[t];
    if (row == none) continue;
    Column best{none, penalty, true, {{row, 1}}};
    double cost_of_one = penalty, count = 1;
    for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
      std::int64_t const fit = std::min(problem.stocks[s].capacity / problem.types[t].size, rest.demand[t]);
      if (rest.stock[s] == 0 || row_of_stock_[s] != none || fit == 0) continue;
      double const of_one = cost_of_stock_[s] / static_cast<double>(fit);
      if (of_one >= cost_of_one) continue;
      cost_of_one = of_one;
      count = static_cast<double>(fit);
      best = {s, cost_of_stock_[s], false, {{row, count}}};
    }
    set(row, std::move(best), count, static_cast<double>(rest.demand[t]));
  }
  for (std::size_t s = 0; s < problem.stocks.size(); ++s) {
    std::size_t const row = row_of_stock_[s];
    if (row != none) set(row, {none, 0, false, {{row, 1}}}, 1, static_cast<double>(rest.stock[s]));
  }
  for (std::size_t t = 0; t < problem.types.size(); ++t) {  // more than is wanted may be cut
    if (row_of_type_[t] != none) columns_.push_back({none, 0, false, {{row_of_type_[t], -1}}});
  }
  in_basis_.assign(columns_.size(), 0);
  for (std::size_t const column : basis_) in_basis_[column] = 1;
}

void Master::add(Pattern const& pattern) {
  Column column{pattern.stock, cost_of_stock_[pattern.stock], false, {}};
  for (auto const& part : pattern.parts) {
    std::size_t const row = row_of_type_[part.type];
    if (row != none) column.entries.push_back({row, std::min(static_cast<double>(part.count), wanted_[row])});
  }
  if (column.entries.empty()) return;
  std::size_t const row = row_of_stock_[pattern.stock];
  if (row != none) column.entries.push_back({row, 1});
  columns_.push_back(std::move(column));
  in_basis_.push_back(0);
}

double Master::reduced_cost(Column const& column) const {
  double cost = column.cost;
  for (auto const& entry : column.entries) cost -= dual_[entry.row] * entry.count;
  return cost;
}

bool Master::improves(Pattern const& pattern) const {
  double cost = cost_of_stock_[pattern.stock];
  for (auto const& part : pattern.parts) {
    std::size_t const row = row_of_type_[part.type];
    if (row != none) cost -= dual_[row] * static_cast<double>(part.count);
  }
  std::size_t const row = row_of_stock_[pattern.stock];
  return (row == none ? cost : cost - dual_[row]) < -tolerance_;
}

std::size_t Master::entering() const {
  std::size_t best = none;
  double least = -tolerance_;
  std::int64_t operations = 0;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    if (in_basis_[c] || columns_[c].artificial) continue;
    operations += 3 + static_cast<std::int64_t>(columns_[c].entries.size());
    double const cost = reduced_cost(columns_[c]);
    if (cost < least) {
      least = cost;
      best = c;
    }
  }
  meter_.spend(operations / operations_in_step);
  return best;
}

bool Master::pivot(std::size_t entering) {
  Column const& column = columns_[entering];
  for (std::size_t i = 0; i < rows_; ++i) {
    double sum = 0;
    for (auto const& entry : column.entries) sum += inverse_[i * rows_ + entry.row] * entry.count;
    step_[i] = sum;
  }
  std::size_t out = none;
  double shortest = 0;
  for (std::size_t i = 0; i < rows_; ++i) {
    if (step_[i] <= smallest_pivot) continue;
    double const ratio = std::max(level_[i], 0.0) / step_[i];
    if (out == none || ratio < shortest) {
      out = i;
      shortest = ratio;
    }
  }
  if (out == none) return false;
  double const cost = reduced_cost(column);
  double* const row = inverse_.data() + out * rows_;
  double const factor = 1 / step_[out];
  for (std::size_t j = 0; j < rows_; ++j) row[j] *= factor;
  level_[out] = shortest;
  filled_.clear();
  for (std::size_t j = 0; j < rows_; ++j) {
    if (row[j] != 0) filled_.push_back(j);
  }
  std::size_t changed = 0;
  for (std::size_t i = 0; i < rows_; ++i) {
    double const times = step_[i];
    if (i == out || times == 0) continue;
    ++changed;
    level_[i] -= times * shortest;
    double* const other = inverse_.data() + i * rows_;
    for (std::size_t const j : filled_) other[j] -= times * row[j];
  }
  for (std::size_t const j : filled_) dual_[j] += cost * row[j];
  in_basis_[basis_[out]] = 0;
  in_basis_[entering] = 1;
  basis_[out] = entering;
  meter_.spend(static_cast<std::int64_t>(rows_ * (rows_ + column.entries.size())) / (2 * operations_in_step) +
               1);
  return true;
}

void Master::solve() {
  while (!meter_.empty()) {
    std::size_t const column = entering();
    if (column == none || !pivot(column)) return;
  }
}

bool Master::feasible() const {
  for (std::size_t i = 0; i < rows_; ++i) {
    if (columns_[basis_[i]].artificial && level_[i] > 1e-4) return false;
  }
  return true;
}

double Master::value() const {
  double value = 0;
  for (std::size_t i = 0; i < rows_; ++i) value += columns_[basis_[i]].cost * level_[i];
  return value;
}

std::vector<double> Master::values_of_types() const {
  std::vector<double> values;
  for (std::size_t const row : row_of_type_) values.push_back(row != none && dual_[row] > 0 ? dual_[row] : 0);
  return values;
}

std::vector<Master::Taken> Master::taken() const {
  std::vector<Taken> taken;
  for (std::size_t i = 0; i < rows_; ++i) {
    Column const& column = columns_[basis_[i]];
    if (column.stock == none || level_[i] <= 1e-4) continue;
    Pattern pattern{column.stock, {}};
    for (auto const& entry : column.entries) {
      if (entry.row < type_of_row_.size()) {
        pattern.parts.push_back({type_of_row_[entry.row], static_cast<std::int64_t>(entry.count)});
      }
    }
    taken.push_back({std::move(pattern), level_[i]});
  }
  return taken;
}

}  // namespace endband::cutting::lengths
