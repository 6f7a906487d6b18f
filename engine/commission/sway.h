// What a change of one input does to price and margin, the others as they are.
#pragma once

#include "engine/commission/commission.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband {

enum class SwayOf : std::uint8_t {
  material,  // its price
  hours,     // all of them
  rate,      // pay of an hour
  overhead,
  outside,   // all work by others
  fee,       // its share and its fixed sum
  exchange,  // the rate
  carriage
};
std::string_view sway_name(SwayOf of);

struct Sway {
  SwayOf of;
  MaterialId material = {};  // of a material
  std::string name = {};     // of a fee
  Money price = {};          // change of the price without tax that still meets the goal
  Money left = {};           // change of what is left if the price stays
  Ratio margin = {};         // the margin if the price stays
};
// Each input raised by `change` (1/10: a tenth), largest |left| first, then in the order above; inputs that
// change nothing are left out. From the frozen rows alone: a simulated contingency and overtime stay as they
// were agreed. Rounded, half away, to whole minor units: a line's own pay of an hour, a price by others, a
// fixed fee, carriage; all else is exact. Faults as `offer`; bad_goal too where a fee would take all. Throws
// std::logic_error for a change that leaves nothing.
Read<std::vector<Sway>> sways(FrozenQuote const& quote, Ratio change);

}  // namespace endband
