// A plan over many sheets, and what is still to be cut; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/fill.h"

#include <unordered_set>

namespace endband::cutting::many {

struct Planned {
  Pattern pattern;
  std::int64_t times = 1;
};
struct Plan {
  std::vector<Planned> patterns;
  std::int64_t cost = 0;  // net
  std::int64_t kept = 0;  // area of the largest kept rectangle
  bool better_than(Plan const& other) const {
    return cost != other.cost ? cost < other.cost : kept > other.kept;
  }
};

// What is still to be cut, and from how many of each kind.
struct Rest {
  std::vector<std::int64_t> pieces;  // by type
  std::vector<std::int64_t> copies;  // by kind
  std::int64_t count = 0;            // of pieces
  std::int64_t area = 0;
};
Rest whole(Job const& job);
void take(Rest& rest, Pattern const& pattern, std::int64_t times);
std::int64_t most_times(Rest const& rest, Pattern const& pattern);
// No way to cut `area` from the copies costs less; by area alone, and all there is where they hold less.
std::int64_t area_cost(Job const& job, std::vector<std::int64_t> const& copies, std::int64_t area);

// Numbers from a counter: the same ones in every run.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : seed_(seed) {}
  std::int64_t below(std::int64_t n);

 private:
  std::uint64_t seed_;
  std::uint64_t count_ = 0;
};

// Fillings that were met, to be put together anew.
class Pool {
 public:
  void add(Pattern const& pattern);
  std::vector<Pattern> const& patterns() const { return patterns_; }

 private:
  std::vector<Pattern> patterns_;
  std::unordered_set<std::uint64_t> keys_;
};

}  // namespace endband::cutting::many
