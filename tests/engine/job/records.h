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

// A published ledger: OpenStax, Principles of Accounting, volume 2, "Dinosaur Vinyl" (sections 4.4 to 4.6):
// overhead 250,000 over labour of 100,000, so 2.50 for each of labour. 5,000 hours: 20.00 an hour.
inline FrozenQuote quote_of_vinyl() {
  FrozenQuote quote;
  quote.shop.currency = euro();
  quote.shop.basis = {eur(100'000'00), eur(0), eur(250'000'00), {5'000 * seconds_an_hour}};
  return quote;
}
// What takes `labour` cents at 20.00 an hour.
inline Worked labour_of(std::int64_t cents) { return at(OperationKind::sew_sections, cents * 3600 / 2000); }

}  // namespace endband::testing
