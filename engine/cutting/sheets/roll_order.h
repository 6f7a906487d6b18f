// Strips from an order of the wants: the first that is left opens a strip, and what lies beside and above it
// is filled recursively by what fits a side exactly, else by the first in the order (after Zhang, Kang and
// Deng 2006).
#pragma once

#include "engine/cutting/sheets/roll_strips.h"

namespace endband::cutting::one_sheet {

struct Order {
  std::vector<int> wants;
  std::vector<bool> turned;   // of each want: how it lies where it opens a strip
  bool longest_first = true;  // of the wants that fit neither side: the first in the order, else the largest
};

class Decoder {
 public:
  Decoder(Task const& task) : task_(task) {}
  std::vector<Strip> run(Order const& order);
  std::int64_t steps() const { return steps_; }

 private:
  struct Lay {
    int want = -1;
    bool turned = false;
    int rank = 0;  // the sides that fit exactly
    std::int64_t area = 0;
  };
  int put(Lay const& lay);
  int fill(std::int64_t width, std::int64_t height);
  Lay best_for(std::int64_t width, std::int64_t height);

  Task const& task_;
  Order const* order_ = nullptr;
  std::vector<std::int64_t> left_;
  Strip strip_;
  std::int64_t steps_ = 0;
};

}  // namespace endband::cutting::one_sheet
