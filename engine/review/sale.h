// What the sale of a job's book takes of its price: as it was quoted, and as it was told once the bills were
// there.
#pragma once

#include "engine/commission/commission.h"

#include <optional>

namespace endband {

// Where it was told; what was not is as it was quoted.
struct SaleTaken {
  std::optional<Money> fees, carriage, exchange, returned, tax;
};

// `whole`: of the price without tax. What it has beside fees and exchange is quoted roundings, of cash and of
// tax, which stay as they were. `returns` is an allowance, and no part of it.
struct SaleQuoted {
  Money whole, fees, carriage, exchange, tax, returns;
};
// `kept`: of the price without tax, which may be another than was quoted; tax on the difference is by the
// mean rate.
SaleQuoted sale_quoted(FrozenQuote const& agreed, Money kept);

// What was told more than was quoted; nothing where nothing was told.
Money told_more(std::optional<Money> const& told, Money quoted);
// The whole as it really was: each kind that was told in place of what was quoted of it, and what came back.
Money sale_cost(SaleQuoted const& quoted, SaleTaken const& taken);

}  // namespace endband
