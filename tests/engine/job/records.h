// A job by the hand-made quote of the commission tests, and what it has taken.
#pragma once

#include "engine/job/job.h"
#include "tests/engine/commission/orders.h"

namespace endband::testing {

inline Holding taken(std::int64_t material, std::int64_t thousandths, std::int64_t cents) {
  Holding holding;
  holding.material = {material};
  holding.used = thousandths;
  holding.value = eur(cents);
  return holding;
}
inline Worked at(OperationKind operation, std::int64_t seconds) {
  return {operation, std::nullopt, Duration{seconds}};
}
inline Worked on(Part part, std::int64_t seconds) { return {std::nullopt, part, Duration{seconds}}; }

inline JobRecord nothing_yet() {
  JobRecord record;
  record.paid = record.to_pay = eur(0);
  return record;
}

// All that the hand-made quote asks for, and nothing else.
inline JobRecord as_quoted(FrozenQuote const& quote) {
  JobRecord record = nothing_yet();
  for (BillLine const& line : quote.bill.lines)
    record.taken.push_back(taken(line.material.value, line.charged.n, material_cost(line).minor));
  for (WorkLine const& line : quote.work.lines)
    record.worked.push_back(at(line.kind, round(line.mean_seconds, Rounding::half_away)));
  for (Outside const& outside : quote.outside) record.billed.push_back({outside.words, outside.price});
  return record;
}

}  // namespace endband::testing
