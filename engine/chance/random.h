// A counter-based generator for searches: the same numbers from every compiler.
#pragma once

#include "engine/chance/mixed.h"

#include <cassert>
#include <cstdint>

namespace endband {

class Random {
 public:
  explicit Random(std::uint64_t seed) : counter_{seed * mixing_step} {}
  std::uint64_t next() {
    std::uint64_t const next = mixed(counter_);
    counter_ += mixing_step;
    return next;
  }
  // 0 <= result < below; below > 0. The bias of the remainder is below one in 2^32 for what searches ask.
  std::int64_t below(std::int64_t below) {
    assert(below > 0);
    return static_cast<std::int64_t>((next() >> 11U) % static_cast<std::uint64_t>(below));
  }
  std::int64_t between(std::int64_t least, std::int64_t most) { return least + below(most - least + 1); }
  // True once in so many.
  bool once_in(int many) { return below(many) == 0; }

 private:
  std::uint64_t counter_;
};

}  // namespace endband
