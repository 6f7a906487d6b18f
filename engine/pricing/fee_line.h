// A fee as a function of its base, in whole minor units of the whole order.
#pragma once

#include "engine/pricing/outlet.h"

#include <cstdint>
#include <vector>

namespace endband {

// From a base on, the fee grows by `share` of it. `jump`: what it leaps there at most, up or down, beside its
// rounding.
struct FeePiece {
  std::int64_t from = 0;
  Ratio share;
  std::int64_t jump = 0;
};

// All of a fee's sums x the pieces that bear it, and its shares over one denominator where that fits, so that
// it is looked up without a fraction.
class FeeLine {
 public:
  // Throws std::logic_error for a fee outside its declared ranges.
  FeeLine(Fee const& fee, std::int64_t pieces, int days_to_sell);
  std::int64_t at(std::int64_t base) const;
  std::vector<FeePiece> pieces() const;

 private:
  struct Step {
    std::int64_t from = 0;
    Ratio share;
    std::int64_t constant = 0, slope = 0;  // over den_
  };
  void add_steps(Fee const& fee, std::int64_t times);
  void bring_over_one_denominator();
  std::size_t step_at(std::int64_t base) const;
  std::int64_t share_at(std::size_t step, std::int64_t base) const;  // as if the step went on for ever
  std::int64_t wide_share_at(std::size_t step, std::int64_t base) const;
  std::int64_t first_at(std::size_t step, std::int64_t amount) const;
  void add_pieces(std::size_t step, std::vector<FeePiece>& pieces) const;

  std::vector<Step> steps_;
  std::int64_t den_ = 0;  // 0: it would leave 64 bits
  bool on_whole_ = false;
  std::int64_t fixed_ = 0;
  std::int64_t least_, most_;  // of the shares' amount
};

}  // namespace endband
