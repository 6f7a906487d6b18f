// A request for lengths brought down to what a search needs: equal pieces are one type, equal rolls one
// stock, a kerf is part of every size and every capacity, and all are divided by what they have in common.
#pragma once

#include "engine/cutting/lengths/lengths.h"

#include <cstddef>

namespace endband::cutting::lengths {

__extension__ using Wide = __int128;

struct Type {
  std::int64_t size = 0;
  std::int64_t demand = 0;
};
struct Stock {
  std::int64_t capacity = 0;
  std::int64_t cost = 0;
  std::int64_t limit = 0;   // at most as many as there are pieces
  bool unlimited = false;   // limit binds nothing
  std::int64_t length = 0;  // as the request says it, with a kerf
  std::vector<int> rolls;   // of the request
};
struct Problem {
  std::vector<Type> types;    // largest first
  std::vector<Stock> stocks;  // longest first
  std::vector<std::size_t> type_of_piece;
  std::int64_t unit = 1;  // a size of 1, in the request's lengths
  std::int64_t pieces = 0;
};

struct Part {
  std::size_t type = 0;
  std::int64_t count = 0;
};
struct Pattern {
  std::size_t stock = 0;
  std::vector<Part> parts;  // types ascending, counts positive
};
struct Cut {
  Pattern pattern;
  std::int64_t times = 1;
};
using Plan = std::vector<Cut>;

// What is still wanted and what stock there still is.
struct Rest {
  std::vector<std::int64_t> demand;
  std::vector<std::int64_t> stock;
  std::int64_t pieces = 0;

  void take(Pattern const& pattern, std::int64_t times);  // of each type no more than is wanted
};

// Steps that are left.
class Meter {
 public:
  explicit Meter(std::int64_t work) : work_(work), left_(work) {}
  void spend(std::int64_t steps) { left_ -= steps; }
  bool empty() const { return left_ <= 0; }
  std::int64_t left() const { return left_ > 0 ? left_ : 0; }
  std::int64_t spent() const { return work_ - left_; }

 private:
  std::int64_t work_;
  std::int64_t left_;
};

// Throws std::logic_error where plan_lengths says so.
void validate(LengthRequest const& request);
// Every piece fits one roll or more.
Problem problem_of(LengthRequest const& request);
Rest whole(Problem const& problem);

std::int64_t size_of(Problem const& problem, Rest const& rest);
std::int64_t used_size(Problem const& problem, Pattern const& pattern);
std::int64_t cost_of(Problem const& problem, Plan const& plan);
std::int64_t longest_slack(Problem const& problem, Plan const& plan);  // in the request's lengths

std::vector<CutRoll> cut_rolls(LengthRequest const& request, Problem const& problem, Plan const& plan);

}  // namespace endband::cutting::lengths
