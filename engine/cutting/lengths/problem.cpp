#include "engine/cutting/lengths/problem.h"

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace endband::cutting::lengths {
namespace {

std::int64_t product(std::int64_t a, std::int64_t b) {
  std::int64_t result = 0;
  if (__builtin_mul_overflow(a, b, &result)) throw std::logic_error("lengths: out of range");
  return result;
}
std::int64_t sum(std::int64_t a, std::int64_t b) {
  std::int64_t result = 0;
  if (__builtin_add_overflow(a, b, &result)) throw std::logic_error("lengths: out of range");
  return result;
}
void require(bool holds, char const* what) {
  if (!holds) throw std::logic_error(what);
}

std::vector<Type> types_of(LengthRequest const& request) {
  std::map<std::int64_t, std::int64_t, std::greater<>> demand;
  for (auto const& piece : request.pieces) {
    if (piece.copies > 0) demand[piece.length + request.kerf] += piece.copies;
  }
  std::vector<Type> types;
  for (auto const& [size, copies] : demand) types.push_back({size, copies});
  return types;
}

std::vector<Stock> stocks_of(LengthRequest const& request, std::int64_t smallest, std::int64_t pieces) {
  std::map<std::pair<std::int64_t, std::int64_t>, Stock> by_kind;  // -length, cost
  for (std::size_t r = 0; r < request.rolls.size(); ++r) {
    auto const& roll = request.rolls[r];
    std::int64_t const length = roll.length + request.kerf;
    std::int64_t const copies = roll.copies ? std::min(*roll.copies, pieces) : pieces;
    if (length < smallest || copies == 0) continue;
    Stock& stock = by_kind[{-length, roll.cost}];
    stock.length = length;
    stock.cost = roll.cost;
    stock.limit = stock.limit > pieces - copies ? pieces : stock.limit + copies;
    stock.unlimited = stock.limit >= pieces;
    stock.rolls.push_back(static_cast<int>(r));
  }
  std::vector<Stock> stocks;
  for (auto& [kind, stock] : by_kind) {
    // A stock that is as long, costs no more and never ends makes this one needless.
    bool const needless = std::any_of(stocks.begin(), stocks.end(), [&stock = stock](Stock const& other) {
      return other.unlimited && other.cost <= stock.cost;
    });
    if (!needless) stocks.push_back(std::move(stock));
  }
  return stocks;
}

}  // namespace

void Rest::take(Pattern const& pattern, std::int64_t times) {
  stock[pattern.stock] -= times;
  for (auto const& part : pattern.parts) {
    // times * count may be more than is wanted by far, never more than 64 bits hold: both are at most the
    // pieces.
    Wide const wanted = std::min<Wide>(Wide{times} * part.count, demand[part.type]);
    demand[part.type] -= static_cast<std::int64_t>(wanted);
    pieces -= static_cast<std::int64_t>(wanted);
  }
}

void validate(LengthRequest const& request) {
  require(request.kerf >= 0, "lengths: negative kerf");
  std::int64_t pieces = 0;
  std::int64_t total = 0;
  for (auto const& piece : request.pieces) {
    require(piece.length > 0, "lengths: length of a piece not positive");
    require(piece.copies >= 0, "lengths: negative copies of a piece");
    pieces = sum(pieces, piece.copies);
    total = sum(total, product(sum(piece.length, request.kerf), piece.copies));
  }
  for (auto const& roll : request.rolls) {
    require(roll.length > 0, "lengths: length of a roll not positive");
    require(roll.cost >= 0, "lengths: negative cost");
    require(!roll.copies || *roll.copies >= 0, "lengths: negative copies of a roll");
    sum(roll.length, request.kerf);
    product(roll.cost, std::max<std::int64_t>(pieces, 1));  // no plan uses more rolls than there are pieces
  }
}

Problem problem_of(LengthRequest const& request) {
  Problem problem;
  problem.types = types_of(request);
  problem.unit = 0;
  for (auto const& type : problem.types) {
    problem.pieces += type.demand;
    problem.unit = std::gcd(problem.unit, type.size);
  }
  problem.unit = std::max<std::int64_t>(problem.unit, 1);
  for (auto const& piece : request.pieces) {
    auto const at = std::partition_point(problem.types.begin(), problem.types.end(), [&](Type const& type) {
      return type.size > piece.length + request.kerf;
    });
    problem.type_of_piece.push_back(static_cast<std::size_t>(at - problem.types.begin()));
  }
  std::int64_t const smallest = problem.types.empty() ? 0 : problem.types.back().size;
  problem.stocks = stocks_of(request, smallest, problem.pieces);
  for (auto& stock : problem.stocks) stock.capacity = stock.length / problem.unit;
  for (auto& type : problem.types) type.size /= problem.unit;
  return problem;
}

Rest whole(Problem const& problem) {
  Rest rest;
  for (auto const& type : problem.types) rest.demand.push_back(type.demand);
  for (auto const& stock : problem.stocks) rest.stock.push_back(stock.limit);
  rest.pieces = problem.pieces;
  return rest;
}

std::int64_t size_of(Problem const& problem, Rest const& rest) {
  std::int64_t size = 0;
  for (std::size_t t = 0; t < rest.demand.size(); ++t) size += problem.types[t].size * rest.demand[t];
  return size;
}

std::int64_t used_size(Problem const& problem, Pattern const& pattern) {
  std::int64_t used = 0;
  for (auto const& part : pattern.parts) used += problem.types[part.type].size * part.count;
  return used;
}

std::int64_t cost_of(Problem const& problem, Plan const& plan) {
  std::int64_t cost = 0;
  for (auto const& cut : plan) cost += problem.stocks[cut.pattern.stock].cost * cut.times;
  return cost;
}

std::int64_t longest_slack(Problem const& problem, Plan const& plan) {
  std::int64_t longest = 0;
  for (auto const& cut : plan) {
    std::int64_t const used = used_size(problem, cut.pattern) * problem.unit;
    longest = std::max(longest, problem.stocks[cut.pattern.stock].length - used);
  }
  return longest;
}

namespace {

// Hands the parts of patterns to the pieces and rolls of the request, in its order.
class Handing {
 public:
  Handing(LengthRequest const& request, Problem const& problem) : problem_(problem) {
    for (auto const& piece : request.pieces) wanted_.push_back(piece.copies);
    for (auto const& roll : request.rolls) rolls_.push_back(roll.copies.value_or(problem.pieces));
    of_type_.resize(problem.types.size());
    for (std::size_t p = 0; p < wanted_.size(); ++p) {
      if (wanted_[p] > 0) of_type_[problem.type_of_piece[p]].push_back(p);
    }
  }

  // As many rolls of the cut, up to `times`, as come out alike.
  CutRoll next(Pattern const& pattern, std::int64_t times) {
    CutRoll cut;
    cut.counts.assign(wanted_.size(), 0);
    std::vector<std::size_t> touched;
    for (auto const& part : pattern.parts) {
      std::int64_t open = part.count;
      for (std::size_t const p : of_type_[part.type]) {
        std::int64_t const given = std::min(open, wanted_[p]);
        if (given == 0) continue;
        cut.counts[p] = given;
        times = std::min(times, wanted_[p] / given);
        open -= given;
        touched.push_back(p);
        if (open == 0) break;
      }
    }
    for (int const roll : problem_.stocks[pattern.stock].rolls) {
      std::int64_t& left = rolls_[static_cast<std::size_t>(roll)];
      if (left == 0) continue;
      cut.roll = roll;
      cut.times = std::min(times, left);
      left -= cut.times;
      break;
    }
    for (std::size_t const p : touched) wanted_[p] -= cut.counts[p] * cut.times;
    return cut;
  }

 private:
  Problem const& problem_;
  std::vector<std::int64_t> wanted_;
  std::vector<std::int64_t> rolls_;
  std::vector<std::vector<std::size_t>> of_type_;
};

}  // namespace

std::vector<CutRoll> cut_rolls(LengthRequest const& request, Problem const& problem, Plan const& plan) {
  Handing handing(request, problem);
  std::map<std::pair<int, std::vector<std::int64_t>>, std::int64_t> alike;
  for (auto const& cut : plan) {
    for (std::int64_t left = cut.times; left > 0;) {
      CutRoll roll = handing.next(cut.pattern, left);
      left -= roll.times;
      alike[{roll.roll, std::move(roll.counts)}] += roll.times;
    }
  }
  std::vector<CutRoll> rolls;
  while (!alike.empty()) {
    auto node = alike.extract(alike.begin());
    rolls.push_back({node.key().first, node.mapped(), std::move(node.key().second)});
  }
  return rolls;
}

}  // namespace endband::cutting::lengths
