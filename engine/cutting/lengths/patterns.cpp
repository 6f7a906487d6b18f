#include "engine/cutting/lengths/patterns.h"

#include <algorithm>

namespace endband::cutting::lengths {
namespace {

class Listing {
 public:
  Listing(Problem const& problem, Rest const& rest, Dual const& dual, std::size_t limit, Meter& meter,
          Choices& out)
      : problem_(problem), rest_(rest), dual_(dual), limit_(limit), meter_(meter), out_(out) {
    for (std::size_t t = 0; t < rest.demand.size(); ++t) {
      if (rest.demand[t] > 0) types_.push_back(t);
    }
    rate_.assign(types_.size() + 1, 0);
    sums_.assign(types_.size() + 1, 0);
    for (std::size_t i = types_.size(); i-- > 0;) {
      Wide const worth = Wide{dual.values[types_[i]]} << fraction;
      rate_[i] = std::max(rate_[i + 1], worth / size(i) + 1);
      sums_[i] = sums_[i + 1] + size(i) * rest.demand[types_[i]];
    }
    counts_.assign(types_.size(), 0);
  }

  void list(std::size_t stock, Wide room) {
    stock_ = stock;
    std::int64_t const capacity = problem_.stocks[stock].capacity;
    if (rest_.stock[stock] == 0 || size(0) > capacity) return;
    // worth * num >= cost * den - surplus - room
    Wide const least = dual_.reduced_cost(problem_, stock, 0) - room;
    need_ = least <= 0 ? 0 : dual_.num == 0 ? Wide{INT64_MAX} : (least + dual_.num - 1) / dual_.num;
    for (std::int64_t count = most(0, capacity); count > 0 && out_.complete; --count) {
      counts_[0] = count;
      descend(1, capacity - count * size(0), count * value(0),
              count < rest_.demand[types_[0]] ? size(0) : INT64_MAX);
    }
    counts_[0] = 0;
  }

 private:
  static constexpr int fraction = 20;

  std::int64_t size(std::size_t i) const { return problem_.types[types_[i]].size; }
  std::int64_t value(std::size_t i) const { return dual_.values[types_[i]]; }
  std::int64_t most(std::size_t i, std::int64_t left) const {
    return std::min(rest_.demand[types_[i]], left / size(i));
  }

  // `spare`: size of the smallest type so far of which a piece is left over.
  void descend(std::size_t i, std::int64_t left, std::int64_t worth, std::int64_t spare) {
    meter_.spend(1);
    if (meter_.empty()) out_.complete = false;
    if (!out_.complete || worth + ((rate_[i] * left) >> fraction) + 1 < need_) return;
    for (; i < types_.size() && size(i) > left; ++i) spare = size(i);
    if (left - sums_[i] >= spare) return;  // room for that piece will stay
    if (i == types_.size()) return keep(left, worth);
    for (std::int64_t count = most(i, left); count >= 0 && out_.complete; --count) {
      counts_[i] = count;
      descend(i + 1, left - count * size(i), worth + count * value(i),
              count < rest_.demand[types_[i]] ? size(i) : spare);
    }
    counts_[i] = 0;
  }

  void keep(std::int64_t left, std::int64_t worth) {
    if (worth < need_) return;
    std::int64_t const used = problem_.stocks[stock_].capacity - left;
    for (std::size_t s = 0; s < problem_.stocks.size(); ++s) {
      Stock const& other = problem_.stocks[s];
      if (s != stock_ && rest_.stock[s] > 0 && other.capacity >= used &&
          other.cost <= problem_.stocks[stock_].cost && other.capacity <= problem_.stocks[stock_].capacity) {
        return;
      }
    }
    if (out_.all.size() == limit_) {
      out_.complete = false;
      return;
    }
    Choice choice{{stock_, {}}, dual_.reduced_cost(problem_, stock_, worth)};
    for (std::size_t i = 0; i < types_.size(); ++i) {
      if (counts_[i] > 0) choice.pattern.parts.push_back({types_[i], counts_[i]});
    }
    out_.all.push_back(std::move(choice));
  }

  Problem const& problem_;
  Rest const& rest_;
  Dual const& dual_;
  std::size_t limit_;
  Meter& meter_;
  Choices& out_;
  std::size_t stock_ = 0;
  Wide need_ = 0;
  std::vector<std::size_t> types_;
  std::vector<Wide> rate_;          // most worth of a unit of size from here on
  std::vector<std::int64_t> sums_;  // of all pieces from here on
  std::vector<std::int64_t> counts_;
};

}  // namespace

Choices choices(Problem const& problem, Rest const& rest, Dual const& dual, Wide room, std::size_t limit,
                Meter& meter) {
  Choices out;
  Listing listing(problem, rest, dual, limit, meter, out);
  for (std::size_t s = 0; s < problem.stocks.size() && out.complete; ++s) listing.list(s, room);
  return out;
}

}  // namespace endband::cutting::lengths
