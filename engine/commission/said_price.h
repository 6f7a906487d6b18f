// A price that is said, in place of a goal.
#pragma once

#include "engine/commission/commission.h"

namespace endband {

// The commission with the goal of leaving what that price leaves, so that options and changes follow from it
// as from any other; on points fine enough for it, and without a least charge. `price`: as the buyer sees it,
// before any discount, in the currency of the tickets. Faults as of price(). Where tax is included two prices
// may have one without tax: then the lower is the one that is found.
Read<Commission> at_price(Commission commission, Money price);

}  // namespace endband
