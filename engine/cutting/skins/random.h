// A small counter-based generator (the mixing function of SplitMix64: Steele, Lea & Flood 2014): the same
// numbers from every compiler.
#pragma once

#include <cstdint>

namespace endband::cutting::skins {

class Random {
 public:
  explicit Random(std::uint64_t seed) : counter_{seed * 0x9E3779B97F4A7C15U} {}
  std::uint64_t next() {
    std::uint64_t z = (counter_ += 0x9E3779B97F4A7C15U);
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  // 0 <= result < below; below > 0.
  std::int64_t below(std::int64_t below) {
    return static_cast<std::int64_t>((next() >> 11U) % static_cast<std::uint64_t>(below));
  }
  std::int64_t between(std::int64_t least, std::int64_t most) { return least + below(most - least + 1); }

 private:
  std::uint64_t counter_;
};

}  // namespace endband::cutting::skins
