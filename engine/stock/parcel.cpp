// What each line of a supplier's parcel costs once it lies on the shelf.
#include "engine/stock/stock.h"

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

// The price said in the workshop's currency: its minor units may be fewer or more for one unit.
Money exchanged(Money said, Ratio rate, Currency currency) {
  if (said.minor < 0) throw std::logic_error("a parcel's line has a price below nothing");
  Ratio const digits(currency.minor_per_major(), said.currency.minor_per_major());
  return {round_product(Ratio(said.minor), rate * digits, Rounding::half_away), currency};
}

}  // namespace

std::vector<Landed> landed_parcel(std::span<Money const> said, ParcelTerms const& terms, Currency currency) {
  if (terms.rate <= Ratio(0) || terms.carriage.minor < 0)
    throw std::logic_error("a parcel's rate or carriage is below nothing");
  if (said.empty()) {
    if (terms.carriage.minor > 0) throw std::logic_error("carriage is paid for a parcel of nothing");
    return {};
  }
  std::vector<PackPrice> lines;
  std::vector<std::int64_t> weights;
  for (Money const& price : said) {
    PackPrice line;
    line.said = price;
    line.rate = terms.rate;
    line.price = exchanged(price, terms.rate, currency);
    line.duty = terms.duty;
    line.purchase_tax = terms.purchase_tax;
    weights.push_back(line.price.minor);
    lines.push_back(line);
  }
  if (std::ranges::all_of(weights, [](std::int64_t weight) { return weight == 0; }))
    std::ranges::fill(weights, 1);
  // No carriage need not name a currency.
  Money const carriage = terms.carriage.minor == 0 ? Money{0, currency} : terms.carriage;
  std::vector<Money> const shares = share(carriage, weights);
  std::vector<Landed> landed;
  for (std::size_t n = 0; n < lines.size(); ++n) {
    lines[n].carriage = shares[n];
    landed.push_back(landed_cost(lines[n], {terms.tax_recovered}));
  }
  return landed;
}

}  // namespace endband
