#include "engine/job/heads.h"
#include "engine/review/difference_parts.h"

#include <algorithm>
#include <array>
#include <set>
#include <span>
#include <stdexcept>

namespace endband {
namespace {

Ratio price_of_one(UnitCost const& unit) { return {unit.minor, unit.pack.n}; }

// What was quoted of a material; of what was not, and of what the customer supplies, nothing at no price.
struct Standard {
  std::int64_t charged = 0, spoil = 0;
  std::optional<Ratio> price;
};

Standard standard_of(BillLine const* line) {
  if (line == nullptr || line->customer_supplied) return {};
  return {line->charged.n, line->spoil.n, price_of_one(line->unit)};
}

// Without a price of the day it is taken to have stayed as quoted; of what was not quoted, as posted.
Product at_days_price(TakenOn const& row, Standard const& standard) {
  if (row.price) return {price_of_one(*row.price), row.quantity};
  if (standard.price) return {*standard.price, row.quantity};
  return {row.value.minor};
}

struct Sums {
  std::int64_t quantity = 0, spoiled = 0, value = 0;
  std::vector<Product> at_days_prices;
};

Sums sums_of(JobToReview const& job, MaterialId material, BillLine const* line, Standard const& standard) {
  bool const of_customer = line != nullptr && line->customer_supplied;
  Sums sums;
  for (TakenOn const& row : job.taken) {
    if (row.material != material) continue;
    sums.quantity = checked_add(sums.quantity, row.quantity);
    sums.spoiled = checked_add(sums.spoiled, row.spoiled);
    sums.value = checked_add(sums.value, row.value.minor);
    // The customer's own goods cost nothing, whatever they would cost to buy.
    if (!of_customer || row.value.minor != 0) sums.at_days_prices.push_back(at_days_price(row, standard));
  }
  return sums;
}

std::int64_t rounded(std::span<Product const> terms) { return round_sum(terms, Rounding::half_away); }

Product minus(Product const& term) { return {Ratio(0) - term.a, term.b}; }

// By price, holding, quantity and spoil, as costs. Their exact sum is what was posted less charged x unit
// cost.
std::array<std::int64_t, 4> variances(Sums const& taken, Standard const& standard) {
  std::vector<Product> holding{{taken.value}};
  for (Product const& each : taken.at_days_prices) holding.push_back(minus(each));
  if (!standard.price) return {0, rounded(holding), rounded(taken.at_days_prices), 0};
  std::vector<Product> price = taken.at_days_prices;
  price.push_back({Ratio(0) - *standard.price, taken.quantity});
  std::int64_t const sound = checked_sub(taken.quantity, taken.spoiled);
  std::int64_t const sound_quoted = checked_sub(standard.charged, standard.spoil);
  auto const more = [&](std::int64_t quantity) {
    return round_product(quantity, *standard.price, Rounding::half_away);
  };
  return {rounded(price), rounded(holding), more(checked_sub(sound, sound_quoted)),
          more(checked_sub(taken.spoiled, standard.spoil))};
}

void add_material(JobToReview const& job, MaterialId material, Dimension dimension,
                  std::vector<DifferenceDetail>& details) {
  BillLine const* const line = line_of(job.agreed.bill, material);
  Standard const standard = standard_of(line);
  Sums const taken = sums_of(job, material, line, standard);
  Holding const* const holding = holding_of(job.record, material);
  if (taken.quantity != (holding == nullptr ? 0 : holding->quantity()) ||
      taken.value != (holding == nullptr ? 0 : holding->value.minor))
    throw std::logic_error("what was taken day by day is not what the job holds");
  std::array<std::int64_t, 4> const costs = variances(taken, standard);
  std::int64_t const quoted = line == nullptr ? 0 : line->charged.n;
  std::int64_t const spoil_quoted = line == nullptr ? 0 : line->spoil.n;
  for (std::size_t i = 0; i < costs.size(); ++i) {
    DifferenceDetail detail;
    detail.because = static_cast<Because>(i);
    detail.material = material;
    detail.quoted = {dimension, detail.because == Because::spoil ? spoil_quoted : quoted};
    detail.taken = {dimension, detail.because == Because::spoil ? taken.spoiled : taken.quantity};
    detail.amount = {checked_sub(0, costs[i]), job.agreed.shop.currency};
    details.push_back(std::move(detail));
  }
}

}  // namespace

void add_materials(JobToReview const& job, std::vector<DifferenceDetail>& details) {
  std::set<MaterialId> done;
  for (BillLine const& line : job.agreed.bill.lines)
    if (done.insert(line.material).second) add_material(job, line.material, line.charged.dimension, details);
  for (Holding const& holding : job.record.taken)
    if (done.insert(holding.material).second) add_material(job, holding.material, holding.dimension, details);
  for (TakenOn const& row : job.taken)
    if (!done.contains(row.material)) throw std::logic_error("taken of a material that the job never held");
}

}  // namespace endband
