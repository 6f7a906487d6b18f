// For the .cpp files of this module only: a counter, mixed; the same numbers from every compiler.
// G. L. Steele, D. Lea and C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA (2014)
// 453-472.
#pragma once

#include <cstdint>

namespace endband::schedule {

class Random {
 public:
  explicit Random(std::uint64_t seed) : counter_{mixed(seed)} {}
  // 0 <= result < below; below > 0. The bias of the remainder is below one in 2^32 for what is asked here.
  std::int64_t below(std::int64_t below) {
    return static_cast<std::int64_t>((next() >> 1U) % static_cast<std::uint64_t>(below));
  }
  // True once in so many.
  bool once_in(int many) { return below(many) == 0; }

 private:
  static std::uint64_t mixed(std::uint64_t z) {
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  std::uint64_t next() { return mixed(counter_ += 0x9E3779B97F4A7C15U); }

  std::uint64_t counter_;
};

}  // namespace endband::schedule
