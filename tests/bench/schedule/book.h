// How long it takes to place one book beside the jobs that stand.
#pragma once

namespace endband::schedule::bench {

struct BookTime {
  double book_ms = 0;  // 60 steps on a copy of a bench with 10 jobs of 60
  double all_ms = 0;   // the ten jobs and the book, from the start
  bool right = false;  // by the check
};
BookTime time_book();

}  // namespace endband::schedule::bench
