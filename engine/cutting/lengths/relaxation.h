// The bound of the linear program over all patterns, which are found as they are needed (Gilmore & Gomory
// 1961), and what it would cut.
#pragma once

#include "engine/cutting/lengths/bound.h"
#include "engine/cutting/lengths/master.h"

namespace endband::cutting::lengths {

struct Relaxed {
  Dual dual;
  std::int64_t bound = 0;  // no plan of the rest costs less
  bool impossible = false;
  bool met = false;                  // the linear program itself can be cut
  std::vector<Master::Taken> taken;  // most first
};

class Relaxation {
 public:
  Relaxation(Problem const& problem, Meter& meter) : problem_(problem), meter_(meter) {}

  // Stops early where the bound reaches `enough`; and, where `guide` is all that is asked for, as soon as it
  // is clear that it will not.
  Relaxed solve(Rest const& rest, Costs const& costs, std::int64_t enough, bool guide);
  void remember(Pattern const& pattern) { pool_.push_back(pattern); }

 private:
  struct Prices {
    std::vector<double> best;  // those of the best bound so far
    double kept = 0;           // their share in the next
  };
  bool price(Rest const& rest, Master& master, Prices& prices, Relaxed& relaxed);
  bool take(Master& master, std::size_t stock, std::vector<Part> parts);

  Problem const& problem_;
  Costs const* costs_ = nullptr;
  std::int64_t need_ = 0;  // size of the rest
  Meter& meter_;
  std::vector<Pattern> pool_;
};

}  // namespace endband::cutting::lengths
