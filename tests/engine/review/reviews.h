// A finished job by the hand-made quote of the commission tests, with what it took day by day.
#pragma once

#include "engine/review/difference.h"
#include "tests/engine/job/records.h"

#include <utility>

namespace endband::testing {

inline TakenOn taken_on(std::int64_t material, std::int64_t thousandths, std::int64_t spoiled,
                        std::int64_t cents, std::optional<std::int64_t> price_of_one) {
  TakenOn row;
  row.material = {material};
  row.on = read_date("2026-12-01").value();
  row.quantity = thousandths;
  row.spoiled = spoiled;
  row.value = eur(cents);
  if (price_of_one) row.price = UnitCost{*price_of_one, pieces(1000), euro()};
  return row;
}

// Owns what JobToReview refers to.
struct Finished {
  FrozenQuote agreed;
  JobRecord record = nothing_yet();
  std::vector<TakenOn> taken;
  SaleTaken sale;
  AgreedFirst first;
  Money price, kept;

  // As agreed on, nothing changed: nothing was taken, worked or billed yet.
  explicit Finished(FrozenQuote quote) : agreed(std::move(quote)) {
    bool const outlet = agreed.selling.outlet.has_value();
    price = kept = outlet ? agreed.offer.walk.price : agreed.offer.goods;
    Money left = price - agreed.sheet.total - sale_costs(agreed);
    if (outlet) left = left - agreed.offer.walk.returns;
    first = {price, left};
  }

  void take(TakenOn const& row) {
    taken.push_back(row);
    auto const same = [&](Holding const& each) { return each.material == row.material; };
    auto holding = std::ranges::find_if(record.taken, same);
    if (holding == record.taken.end())
      holding = record.taken.insert(holding, Holding{.material = row.material, .value = eur(0)});
    holding->spoiled += row.spoiled;
    (row.quantity < 0 ? holding->kept : holding->used) +=
        row.quantity < 0 ? -row.quantity : row.quantity - row.spoiled;
    holding->value += row.value;
  }

  // Everything as it was quoted, to the second and the cent.
  void as_quoted() {
    for (BillLine const& line : agreed.bill.lines)
      take(taken_on(line.material.value, line.charged.n, line.spoil.n, material_cost(line).minor,
                    line.unit.minor * 1000 / line.unit.pack.n));
    for (WorkLine const& line : agreed.work.lines)
      record.worked.push_back(at(line.kind, round(line.mean_seconds, Rounding::half_away)));
    for (Outside const& outside : agreed.outside) record.billed.push_back({outside.words, outside.price});
  }

  Difference difference() const { return difference_of({agreed, record, taken, sale, first, price, kept}); }
};

inline Money of(Difference const& difference, Because because) {
  return difference.lines.at(static_cast<std::size_t>(because)).amount;
}
inline Money whole(Difference const& difference) { return difference.left - difference.left_quoted; }

// All parts but those named are nothing, and those are as named.
inline bool only(Difference const& difference, std::vector<std::pair<Because, std::int64_t>> const& parts) {
  Money sum = eur(0);
  for (DifferenceLine const& line : difference.lines) {
    auto const named = std::ranges::find(parts, line.because, &std::pair<Because, std::int64_t>::first);
    if (line.amount.minor != (named == parts.end() ? 0 : named->second)) return false;
    sum += line.amount;
  }
  return sum == whole(difference);
}

}  // namespace endband::testing
