#include "engine/pricing/lines.h"

#include "engine/measure/measure.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <vector>

namespace endband {
namespace {

using Parts = std::array<std::int64_t, component_count>;

// As share(), without its room for large numbers; none: a product leaves 64 bits.
std::optional<Parts> small_share(std::int64_t whole, Weights const& weights) {
  std::int64_t const total = std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
  std::int64_t largest = 0;
  if (whole < 0 || total <= 0 || __builtin_mul_overflow(whole, total, &largest)) return std::nullopt;
  Parts parts{};
  Parts remainders{};
  std::int64_t left = whole;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    parts[i] = whole * weights[i] / total;
    remainders[i] = whole * weights[i] % total;
    left -= parts[i];
  }
  for (; left > 0; --left) {
    auto const next = std::max_element(remainders.begin(), remainders.end()) - remainders.begin();
    ++parts[static_cast<std::size_t>(next)];
    remainders[static_cast<std::size_t>(next)] = -1;
  }
  return parts;
}

}  // namespace

Weights own_costs(CostSheet const& sheet) {
  Weights weights{};
  for (std::size_t part = 0; part < sheet.part_shares.size(); ++part)
    if (auto const component = component_of(static_cast<Part>(part)))
      weights[index_of(*component)] += sheet.part_shares[part].minor;
  for (CostLine const& line : sheet.lines)
    if (line.kind == CostKind::outside && !line.at_cost)
      weights[index_of(Component::outside_work)] += line.amount.minor;
  return weights;
}

Weights weights_of(Weights own) {
  bool const nothing = std::all_of(own.begin(), own.end(), [](std::int64_t weight) { return weight == 0; });
  if (nothing) own[index_of(Component::binding)] = 1;
  return own;
}

std::array<std::int64_t, component_count> share_over(std::int64_t whole, std::int64_t at_cost,
                                                     Weights const& weights) {
  std::int64_t const own = std::min(at_cost, whole);
  std::int64_t const rest = checked_sub(whole, own);
  std::optional<Parts> parts = small_share(rest, weights);
  if (!parts) {
    parts.emplace();
    std::vector<Money> const shares = share({rest, {}}, weights);
    std::transform(shares.begin(), shares.end(), parts->begin(), [](Money part) { return part.minor; });
  }
  (*parts)[index_of(Component::outside_work)] += own;
  return *parts;
}

}  // namespace endband
