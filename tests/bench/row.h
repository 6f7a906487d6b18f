// A line that tests/bench/all.py reads: what was measured at what size, and beside what. Seconds.
#pragma once

#include <cstdio>

namespace endband::bench {

inline void row(char const* what, double size, double ours, char const* beside, double theirs) {
  std::printf("ROW\t%s\t%.0f\t%.9f\t%s\t%.9f\n", what, size, ours, beside, theirs);
}

}  // namespace endband::bench
