// Numbers that look like chance and are the same from every compiler: a counter, mixed.
#pragma once

#include <cstdint>

namespace endband {

// One step of SplitMix64 (Steele, Lea & Flood 2014).
constexpr std::uint64_t mixing_step = 0x9E3779B97F4A7C15U;
constexpr std::uint64_t mixed(std::uint64_t x) {
  x += mixing_step;
  x = (x ^ (x >> 30U)) * 0xBF58476D1CE4E5B9U;
  x = (x ^ (x >> 27U)) * 0x94D049BB133111EBU;
  return x ^ (x >> 31U);
}

}  // namespace endband
