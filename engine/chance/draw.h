// Chance that can be repeated: every draw is a pure function of what it is for, so it does not matter in
// which order or on which thread draws are made. What is drawn is a whole number, the same from every
// compiler.
#pragma once

#include "engine/chance/three_points.h"

#include <array>
#include <cstdint>
#include <vector>

namespace endband {

// Philox 4x32, ten rounds: a counter-based generator. (Salmon, Moraes, Dror and Shaw, Parallel random
// numbers: as easy as 1, 2, 3, SC 2011.)
using PhiloxBlock = std::array<std::uint32_t, 4>;
inline PhiloxBlock philox(PhiloxBlock counter, std::uint64_t key) {
  auto left = static_cast<std::uint32_t>(key);
  auto right = static_cast<std::uint32_t>(key >> 32);
  for (int round = 0; round < 10; ++round) {
    std::uint64_t const first = std::uint64_t{0xD2511F53} * counter[0];
    std::uint64_t const second = std::uint64_t{0xCD9E8D57} * counter[2];
    counter = {
        static_cast<std::uint32_t>(second >> 32) ^ counter[1] ^ left, static_cast<std::uint32_t>(second),
        static_cast<std::uint32_t>(first >> 32) ^ counter[3] ^ right, static_cast<std::uint32_t>(first)};
    left += 0x9E3779B9;
    right += 0xBB67AE85;
  }
  return counter;
}

// The draws of two neighbouring steps, 2 x pair and 2 x pair + 1: one block serves both.
struct TwoDraws {
  std::uint64_t even, odd;
};
inline TwoDraws two_draws(std::uint64_t seed, std::uint32_t run, std::uint32_t pair, std::uint64_t which) {
  PhiloxBlock const block =
      philox({run, pair, static_cast<std::uint32_t>(which), static_cast<std::uint32_t>(which >> 32)}, seed);
  return {block[0] | std::uint64_t{block[1]} << 32, block[2] | std::uint64_t{block[3]} << 32};
}
// 64 bits; `which` tells the draws of one step of one run apart.
inline std::uint64_t draw(std::uint64_t seed, std::uint32_t run, std::uint32_t step, std::uint64_t which) {
  TwoDraws const both = two_draws(seed, run, step / 2, which);
  return step % 2 == 0 ? both.even : both.odd;
}

// The upper 53 bits as a number from 0 to less than 1.
inline double uniform(std::uint64_t bits) { return static_cast<double>(bits >> 11) * 0x1p-53; }
// A whole number from low to high, both included; high - low < 2^32.
inline std::int64_t whole_between(std::uint64_t bits, std::int64_t low, std::int64_t high) {
  return low + static_cast<std::int64_t>(((bits >> 32) * static_cast<std::uint64_t>(high - low + 1)) >> 32);
}
// By the closed inverse, to the nearer whole number.
std::int64_t draw_triangular(ThreePoints const& of, std::uint64_t bits);
// How often in a row a thing of this chance happens before it does not: k or more with p^k; mean p / (1 - p).
// 0 <= p < 1. At most 36 / -ln(p).
std::int64_t draw_geometric(double p, std::uint64_t bits);

// Draws whole numbers by the inverse of a beta-PERT distribution, kept at 1,024 chances and, in its first and
// its last part, at 1,024 more, with straight lines between: the mean is met to a hundred-thousandth of
// high - low.
class BetaPertDraw {
 public:
  // 0 <= low <= likely <= high, high <= 2^42; Overflow where it is higher.
  explicit BetaPertDraw(ThreePoints const& of);

  std::int64_t at(std::uint64_t bits) const {
    auto const part = static_cast<std::size_t>(bits >> 54);
    if (part == 0) return between(first_, bits << 10);
    if (part == parts - 1) return between(last_, bits << 10);
    return between(all_, bits);
  }

 private:
  static constexpr std::size_t parts = 1024;
  using Inverse = std::vector<std::int64_t>;

  static std::int64_t between(Inverse const& inverse, std::uint64_t bits) {
    auto const part = static_cast<std::size_t>(bits >> 54);
    auto const along = static_cast<std::int64_t>((bits >> 34) & 0xFFFFF);
    std::int64_t const low = inverse[part];
    return low + (((inverse[part + 1] - low) * along + 0x80000) >> 20);
  }

  Inverse all_, first_, last_;
};

// How many happen where `mean` do on average. 0 <= mean <= 1,000,000; else std::logic_error.
class PoissonDraw {
 public:
  explicit PoissonDraw(double mean);
  std::int64_t at(std::uint64_t bits) const;
  std::int64_t most() const { return static_cast<std::int64_t>(below_.size()) - 1; }

 private:
  std::vector<std::uint64_t>
      below_;  // k is drawn by the 53 bits less than below_[k] and no less than the last
};

}  // namespace endband
