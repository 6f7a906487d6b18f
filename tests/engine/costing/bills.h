// Bills and work made by hand for the tests of costs.
#pragma once

#include "engine/costing/costing.h"

#include <utility>
#include <vector>

namespace endband::testing {

inline Currency euro() { return read_currency("EUR").value(); }
inline Money eur(std::int64_t minor) { return {minor, euro()}; }
inline Amount pieces(std::int64_t thousandths) { return {Dimension::count, thousandths}; }

// So many pieces of a material at a price a piece, charged as used.
inline BillLine bill_line(std::int64_t id, std::int64_t thousandths, std::int64_t minor_a_piece, Part part) {
  BillLine line;
  line.material = {id};
  line.net = line.opened = line.charged = pieces(thousandths);
  line.spoil = line.cutting_loss = line.kept = line.pack_remainder = pieces(0);
  line.uses = {{Item::extra, part, line.net}};
  line.unit = {minor_a_piece, pieces(1000), euro()};
  return line;
}

inline WorkLine work_line(OperationKind kind, Ratio mean_seconds, Part part) {
  WorkLine line;
  line.kind = kind;
  line.part = part;
  line.count = {1000};
  line.mean_seconds = line.low_seconds = line.high_seconds = mean_seconds;
  return line;
}

// A year of so many hours that steps charge.
inline ShopRules year_of(std::int64_t hours, std::int64_t pay, std::int64_t overhead) {
  return {.currency = euro(),
          .basis = {eur(pay), eur(0), eur(overhead), Duration{hours * 3600}},
          .contingency = 0,
          .least_charge = eur(0),
          .least_hourly = eur(0)};
}

}  // namespace endband::testing
